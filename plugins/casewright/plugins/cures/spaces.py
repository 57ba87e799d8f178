"""Where the spaces of a cabinet stand in its job document, and their doors hinged on the other side."""

from collections.abc import Iterator

from casewright.sdk.errors import steps_of
from casewright.sdk.methods import Change, Stop
from casewright.sdk.model import Cabinet, Space
from casewright.sdk.patching import Steps, at_path, patch_setting


def leaves(space: Space) -> Iterator[Space]:
    """Yield the undivided spaces of a space."""
    return (one for one in every_space(space) if not one.parts)


def every_space(space: Space) -> Iterator[Space]:
    """Yield a space and all that it is divided into."""
    yield space
    for part in space.parts:
        yield from every_space(part)


def space_at(stop: Stop, space: Space) -> Steps:
    """Return the place of a space in the document: in its cabinet, or in the house that lends its space."""
    steps = steps_of(space.pointer)
    return steps if at_path(stop.document, stop.at("space")) is not None else ("house", *steps[2:])


def other_hinge_sides(stop: Stop, cabinet: Cabinet) -> Iterator[Change]:
    """Yield each single door of a cabinet hinged on its other side."""
    for leaf in leaves(cabinet.space):
        if leaf.front == "door":
            side = "left" if leaf.hinge_side == "right" else "right"
            setting = ((*space_at(stop, leaf), "hinge_side"), side)
            yield Change(f"a door hinged on its {side}", patch_setting(stop.document, setting))
