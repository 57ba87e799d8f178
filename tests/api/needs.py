"""What steps wait for, straight or by others: for tests of the order of work."""


def before(steps):
    """Return for each step, by its number, the numbers of all steps that it waits for."""
    seen = {}
    for step in steps:
        seen[step.number] = set(step.needs).union(*(seen[n] for n in step.needs))
    return seen
