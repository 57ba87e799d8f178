"""Reading job documents and writing plan documents. Nothing here knows of HTTP."""
