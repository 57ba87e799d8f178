"""Play of loose shelves, panels and strips, and the room of runners."""

from collections import defaultdict
from collections.abc import Collection, Iterator

from casewright.api.engine.fits.judged import WAYS, Question, Unanswered, turned
from casewright.api.engine.fits.laid import Laid
from casewright.sdk.geometry import Box
from casewright.sdk.model import FitKind, Joint, Part, WhyUnproved

RUNNER_SLACK = 800_000
"""How much more or less room than planned both runners of a drawer take, in nm (common practice, no source)."""
CLOSE = 10_000_000
"""A strip farther than this from what stands beside it, in nm, is not fitted to it."""


def inside_fits(laid: Laid) -> Iterator[Question | Unanswered]:
    """Yield the fits of what goes into a cabinet."""
    for shelf in laid.loose_shelves:
        yield from _between(laid, shelf, FitKind.SHELF_PLAY)
    yield from _beads(laid)
    joined = {joint.guest for joint in laid.joints if abs(joint.press) == 1}
    strips = {part.id: part.group for part in laid.parts if part.role in ("cleat", "strip")}
    for strip in laid.parts:
        walls = laid.walls(_centre(laid.boxes[strip.id]), 1, (strip.id,)) if strip.id in strips else None
        # one between two others of its own assembly, as stops round a pane are, goes in with them: nothing to measure
        among = walls is not None and all(strips.get(wall[0]) == strip.group for wall in walls)
        if strip.id in strips and strip.id not in joined and not among:
            yield from _between(laid, strip, FitKind.STRIP_PLAY)
    yield from _panels(laid)
    yield from _drawers(laid)


def _beads(laid: Laid) -> Iterator[Question | Unanswered]:
    """Yield how each bead goes in along the opening of the frame that it lines, to which its mitres are cut."""
    beads = [part for part in laid.parts if part.role == "strip" and part.group == "face-frame"]
    for bead in beads:
        yield from _between(laid, bead, FitKind.STRIP_PLAY, abs(bead.place.x), [one.id for one in beads])


def _between(
    laid: Laid, part: Part, kind: FitKind, axis: int = 1, but: Collection[str] = ()
) -> Iterator[Question | Unanswered]:
    """Yield how a part goes in between the walls beside it: it must go in; how loose it may be is left open.

    Parts `but` are no walls.
    """
    box, name = laid.boxes[part.id], f"{part.id} {WAYS[axis]}"
    walls = laid.walls(_centre(box), axis, {part.id, *but})
    opening = laid.chain(axis, *walls, without={part.id, *but}) if walls else None
    size = laid.across(axis, (part.id,))
    if walls is None:
        if kind is FitKind.SHELF_PLAY:
            yield Unanswered(kind, name, axis, WhyUnproved.NO_BOUNDS)
        return
    if opening is None or size is None:
        yield Unanswered(kind, name, axis, WhyUnproved.NO_CHAIN)
        return
    nominal = walls[1][1] - walls[0][1] - (box.high(axis) - box.low(axis))
    if not 0 <= nominal <= CLOSE:
        return
    yield Question(
        kind,
        name,
        axis,
        nominal,
        0,
        None,
        (*opening, *turned(size)),
        ((part.id,),),
        (walls[0][0], walls[1][0]),
        walls[1][1] - walls[0][1],
        opening,
        turned(size),
    )


def _panels(laid: Laid) -> Iterator[Question | Unanswered]:
    """Yield the play of panels in their grooves: no less than nothing, and never so much that one may fall out."""
    seated: defaultdict[str, dict[int, Joint]] = defaultdict(dict)
    for joint in laid.joints:
        if joint.clearance > 0:
            seated[joint.guest][joint.press] = joint
    for part in [part for part in laid.parts if part.id in seated]:
        seats = seated[part.id]
        for axis in WAYS:
            low, high = seats.get(-axis), seats.get(axis)
            if low is None or high is None:
                continue
            box = laid.boxes[part.id]
            faces = laid.faces[axis]
            first = faces.face(low.host, box.low(axis) - low.clearance, box)
            second = faces.face(high.host, box.high(axis) + high.clearance, box)
            opening, size = laid.chain(axis, first, second, (part.id,)), laid.across(axis, (part.id,))
            if opening is None or size is None:
                yield Unanswered(FitKind.PANEL_PLAY, f"{part.id} {WAYS[axis]}", axis, WhyUnproved.NO_CHAIN)
                continue
            yield Question(
                kind=FitKind.PANEL_PLAY,
                id=f"{part.id} {WAYS[axis]}",
                axis=axis,
                nominal=low.clearance + high.clearance,
                least=0,
                most=min(low.seat + low.clearance, high.seat + high.clearance),
                links=(*opening, *turned(size)),
                cut=((part.id,),),
                between=(low.host, high.host),
                room=second[1] - first[1],
                opening=opening,
                own=turned(size),
            )


def _drawers(laid: Laid) -> Iterator[Question | Unanswered]:
    """Yield the room of each drawer's runners beside its box."""
    boxes: dict[str, list[str]] = {}
    bottoms: defaultdict[str, list[str]] = defaultdict(list)
    for part in laid.parts:
        if part.role in ("box-side", "box-front", "box-back"):
            boxes.setdefault(part.id.rpartition("/")[0], []).append(part.id)
        elif part.role == "box-bottom":
            bottoms[part.id.rpartition("/")[0]].append(part.id)
    for drawer, parts in boxes.items():
        round_it = Box.union(laid.boxes[part] for part in parts)
        walls = laid.walls(_centre(round_it), 1)
        opening, width = laid.chain(1, *walls, without=parts) if walls else None, laid.across(1, parts)
        if walls is None or opening is None or width is None:
            why = WhyUnproved.NO_BOUNDS if walls is None else WhyUnproved.NO_CHAIN
            yield Unanswered(FitKind.RUNNER_ROOM, f"{drawer} across", 1, why)
            continue
        nominal = walls[1][1] - walls[0][1] - (round_it.high(1) - round_it.low(1))
        yield Question(
            kind=FitKind.RUNNER_ROOM,
            id=f"{drawer} across",
            axis=1,
            nominal=nominal,
            least=nominal - RUNNER_SLACK,
            most=nominal + RUNNER_SLACK,
            links=(*opening, *turned(width)),
            cut=((*parts, *bottoms[drawer]),),
            between=(walls[0][0], walls[1][0]),
            room=walls[1][1] - walls[0][1],
            opening=opening,
            own=turned(width),
        )


def _centre(box: Box) -> tuple[int, int, int]:
    x, y, z = ((box.low(axis) + box.high(axis)) // 2 for axis in (1, 2, 3))
    return x, y, z
