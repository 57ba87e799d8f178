"""Built-in corner joints of drawer boxes, one module each."""
