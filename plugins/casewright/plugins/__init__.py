"""The built-in methods and catalogue, each a plugin on the public SDK alone."""
