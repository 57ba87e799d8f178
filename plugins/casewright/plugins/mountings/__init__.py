"""Built-in ways to hang a cabinet, one module each."""
