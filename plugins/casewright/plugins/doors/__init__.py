"""Built-in door styles, one module each."""
