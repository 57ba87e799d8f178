"""Built-in joint methods, one module each."""
