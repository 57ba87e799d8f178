"""A plan as it leaves, in JSON and CSV, and the schemas that describe it. Nothing here knows of HTTP."""
