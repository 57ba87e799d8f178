"""Where the spaces of a cabinet stand in its job document."""

from collections.abc import Iterator

from casewright.sdk.methods import Stop
from casewright.sdk.model import Space
from casewright.sdk.patching import Steps, at_path


def leaves(space: Space) -> Iterator[Space]:
    """Yield the undivided spaces of a space."""
    if not space.parts:
        yield space
    for part in space.parts:
        yield from leaves(part)


def space_at(stop: Stop, space: Space) -> Steps:
    """Return the place of a space in the document: in its cabinet, or in the house that lends its space."""
    steps = tuple(int(step) if step.isdigit() else step for step in space.pointer.split("/")[1:])
    return steps if at_path(stop.document, stop.at("space")) is not None else ("house", *steps[2:])
