"""Judging what was built: dry fit, hanging, standing, sag, swing, movement, weight."""
