"""What a cabinet gives and its plan has no use for, as another of its settings rules it out.

What a house gives is for all of its cabinets, some of which may have no use for it: of that nothing is said.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from casewright.api.job.references import leaves
from casewright.sdk.model import LENGTH, Cabinet, Check, Doors, Drawers, Finding, Job, Part, Space

__all__ = ["unused_checks"]

DOOR_FRONTS = ("door", "door-pair")

_Unused = tuple[str, int | None, str]
"""The JSON Pointer of what is given, its size in nm if it is one, and words: why nothing comes of it, what to do."""


def unused_checks(job: Job, parts: Sequence[Part]) -> tuple[Check, ...]:
    """Return a caution for each value that a cabinet itself gives and that changes nothing of its plan."""
    checks: dict[str, Check] = {}
    for cabinet in job.cabinets:
        for pointer, value, words in _unused(cabinet, parts):
            if _is_given(pointer, job.origins):
                message = f"this is given and changes nothing: {words}"
                finding = Finding("given-unused", "caution", message, value, None, LENGTH, "common-practice")
                checks.setdefault(pointer, Check(pointer, finding))
    return tuple(checks.values())


def _is_given(pointer: str, origins: Mapping[str, str]) -> bool:
    """Return whether a value stands in its cabinet: it is neither a default nor of a house, nor is what it is in."""
    steps = pointer.split("/")
    return steps[1] != "house" and not any("/".join(steps[:end]) in origins for end in range(len(steps), 3, -1))


def _unused(cabinet: Cabinet, parts: Iterable[Part]) -> Iterator[_Unused]:
    spaces, doors = tuple(leaves(cabinet.space)), cabinet.doors
    for space in spaces:
        yield from _in_space(space)
    if doors is not None:
        yield from _hung(doors, f"{cabinet.pointer}/doors", "doors")
        own = [part for part in parts if part.cabinet == cabinet.id]
        if doors.panel is not None and any(one.front in DOOR_FRONTS for one in spaces) and not _has_panel(own):
            words = f'{doors.style} doors have no panel; leave it out, or write another "style"'
            yield f"{cabinet.pointer}/doors/panel", None, words
        if doors.hang == "inset":
            words = 'inset doors stand in their opening and off nothing; leave it out, or write "hang": "overlay"'
            yield f"{cabinet.pointer}/doors/stand_off", doors.stand_off, words
    if cabinet.drawers is not None:
        yield from _hung(cabinet.drawers, f"{cabinet.pointer}/drawers", "drawer fronts")
    if cabinet.case.top_kind == "full":
        words = 'a full top has no stretchers; leave it out, or write "top_kind": "stretchers"'
        yield f"{cabinet.pointer}/case/stretcher", cabinet.case.stretcher, words

    yield from _of_ends(cabinet)
    yield from _of_contents(cabinet)


def _of_ends(cabinet: Cabinet) -> Iterator[_Unused]:
    """Yield what is said of end panels where no end is finished with one."""
    if "finished" not in (cabinet.ends.left, cabinet.ends.right):
        for key, value in (("material", None), ("scribe", cabinet.ends.scribe)):
            words = f'no end has a panel; write "left" or "right": "finished" for one, or leave "{key}" out'
            yield f"{cabinet.pointer}/ends/{key}", value, words


def _of_contents(cabinet: Cabinet) -> Iterator[_Unused]:
    """Yield where contents stand in a cabinet that stands: what tips it is its drawers' contents, where they lie."""
    mounting = cabinet.mounting
    if mounting is not None and cabinet.stands:
        for key, at in (("left", mounting.contents_from_left), ("front", mounting.contents_from_front)):
            words = "of a standing cabinet only what lies in its drawers is counted, where they are; leave it out"
            yield f"{cabinet.pointer}/mounting/contents_from_{key}", at, words


def _has_panel(parts: Iterable[Part]) -> bool:
    return any(part.role == "door-panel" for part in parts)


def _hung(fronts: Doors | Drawers, at: str, name: str) -> Iterator[_Unused]:
    """Yield the overlay of inset fronts, and the gap round those that are not inset."""
    match fronts.hang:
        case "inset":
            words = f'inset {name} lap nothing; leave it out, or write "hang": "overlay" ("gap" is the room round them)'
            yield f"{at}/overlay", fronts.overlay, words
        case "overlay":
            words = f'only inset {name} have a gap round them; leave it out, or write "hang": "inset"'
            yield f"{at}/gap", fronts.gap, words


def _in_space(space: Space) -> Iterator[_Unused]:
    """Yield what a space says of a front that it does not have, where that is not what is taken by itself."""
    if space.front != "drawer":
        for key, differs in (
            ("drawers", space.drawer_heights is None and space.drawer_count != 1),
            ("drawer_heights", space.drawer_heights is not None),
            ("drawer_rule", space.drawer_rule != "equal"),
        ):
            if differs:
                words = f'this space has no drawers; write "front": "drawer" for them, or leave "{key}" out'
                yield f"{space.pointer}/{key}", None, words
    if space.front != "door" and space.hinge_side != "left":
        words = 'only a single door has a hinge side; write "front": "door" for one, or leave "hinge_side" out'
        yield f"{space.pointer}/hinge_side", None, words
