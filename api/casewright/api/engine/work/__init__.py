"""The work: the order of steps, what is cut together, and what it costs."""
