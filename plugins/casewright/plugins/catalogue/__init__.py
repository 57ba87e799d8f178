"""The built-in catalogue: one module a kind of thing, one that registers them all."""
