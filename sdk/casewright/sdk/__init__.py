"""What a plugin may rely on: lengths, geometry, the model, hooks and checks."""
