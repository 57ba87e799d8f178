"""Words for what is fixed on a bare case: its face frame, cleats and strips, and packing behind hinge plates."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace

from casewright.api.engine.construction.face_frame import BRADS_EVERY
from casewright.api.engine.construction.packing import GROUP as PACKING
from casewright.api.engine.work.naming import joined, title
from casewright.api.engine.work.on_bench import side_towards
from casewright.api.engine.work.pilots import pilot_words
from casewright.api.engine.work.setting_in import short_name
from casewright.api.engine.work.steps import Steps
from casewright.sdk.geometry import Box, Point
from casewright.sdk.model import Cabinet, HardwareLine, Part

__all__ = [
    "counted",
    "frame_words",
    "heights_on_case",
    "packing_words",
    "places_on_case",
    "screwed_into",
    "strip_words",
]


def frame_words(steps: Steps, cabinet: Cabinet, frame: Sequence[Part], case: Sequence[Part]) -> str:
    """Return how a face frame is glued on its case: where the glue goes, and what holds it there while it sets."""
    front = max(part.place.box(part.blank).high(2) for part in frame)
    edges = [part for part in case if part.place.box(part.blank).low(2) == front]
    names = joined([short_name(part) for part in edges]) if edges else "the case"
    each = f", each of the {cabinet.count} in turn" if cabinet.count > 1 else ""
    laid = f"Lay the case of {cabinet.id} on its back{each}"
    do = f"{laid}; spread glue on the front edges of {names}, set the face frame on"
    lines = steps.made.used(f"{cabinet.id}/face frame on case")
    if not lines:
        return f"{do} and clamp it to the case at both ends of every stile and rail, with cauls"
    every = steps.text(BRADS_EVERY)
    nails = joined([counted(line, cabinet) for line in lines])
    return f"{do} as it was fitted, clamp it at the corners, and hold it with {nails}, no more than {every} apart"


def strip_words(steps: Steps, cabinet: Cabinet, own: Sequence[Part]) -> str:
    """Return how cleats and strips of a cabinet are fixed in it: where they lie, and where their screws go."""
    boxes = [part.place.box(part.blank) for part in own]
    lines = screwed_into(steps, cabinet, boxes)
    screwed = [part for part in own if any(_is_into(line, part, boxes) for line in lines)]
    glued = [part for part in own if part not in screwed]
    where = [
        f"{counted(line, cabinet)}, "
        + (places_on_case if _from_front(line, boxes) else _places_on_end)(steps, cabinet, line)
        for line in lines
    ]
    holes = pilot_words(steps, lines, [part.material for part in screwed])
    words = []
    if screwed:
        on = "; ".join([_strips(steps, cabinet, screwed), *where])
        words.append(f"Bore pilot holes in {cabinet.id}; glue and screw on {on}{holes}")
    if glued:
        words.append(f"{'glue' if screwed else 'Glue'} on {_strips(steps, cabinet, glued)}, clamped till it has set")
    return "; ".join(words)


def _strips(steps: Steps, cabinet: Cabinet, own: Sequence[Part]) -> str:
    """Return strips of a cabinet with how high they lie."""
    alike = Counter((title(part), _lies(steps, cabinet, part)) for part in own)
    return joined(
        [
            f"the {name}, its {lies}" if count == 1 else f"{count} × {name}, each one's {lies}"
            for (name, lies), count in alike.items()
        ]
    )


def _lies(steps: Steps, cabinet: Cabinet, part: Part) -> str:
    """Return how high a strip lies over the bottom of its case and, where it lies flat, how far from its back."""
    box, sides, down = part.place.box(part.blank), steps.words.sides[part.id], side_towards(part, -3)
    up = f"{sides[down]} {steps.text(box.z0 - steps.made.bottom(cabinet.id))} over the case's bottom"
    if down.axis != 3:
        return up
    case = Box.union([one.place.box(one.blank) for one in steps.made.by_cabinet[cabinet.id] if one.group == "case"])
    before = case.y1 - box.y1
    where = f"{steps.text(before)} before" if before > 0 else "flush with"
    return f"{up} and its {sides[side_towards(part, 2)]} {where} the case's back edges"


def _is_into(line: HardwareLine, part: Part, boxes: Sequence[Box]) -> bool:
    """Return whether a screw of a line that goes into these boxes goes into that part, which is one of them.

    Of boxes over one another, a screw from above or below goes into the nearest.
    """
    own, axis = part.place.box(part.blank), 3 if _from_front(line, boxes) else 2
    for point in line.at:
        met = [box for box in boxes if all(box.low(i) <= point[i - 1] <= box.high(i) for i in (1, axis))]
        if own in met and (axis == 3 or own == min(met, key=lambda box: abs(box.z0 + box.z1 - 2 * point[2]))):
            return True
    return False


def packing_words(steps: Steps, cabinet: Cabinet, own: Sequence[Part]) -> str:
    """Return where the packing of hinge plates is glued: on the case's sides, how high, how far from its front."""
    bottom = steps.made.bottom(cabinet.id)
    boxes = [part.place.box(part.blank) for part in own]
    ups = joined([steps.text(up) for up in dict.fromkeys((box.z0 + box.z1) // 2 - bottom for box in boxes)])
    backs = joined([steps.text(y) for y in dict.fromkeys(box.y0 for box in boxes)])
    count = sum(part.quantity for part in own) // cabinet.count
    lines = steps.made.used(f"{cabinet.id}/{PACKING}")
    screws = f", with {joined([counted(line, cabinet) for line in lines])}" if lines else ""
    return (
        f"Glue and screw {count} × packing behind the hinge plates on the sides of {cabinet.id}, flush with the inner "
        f"edges of the face frame: their middles {ups} up from the case's bottom, their front edges {backs} behind its "
        f"front edge{screws}"
    ) + pilot_words(steps, lines, [cabinet.case.material])


def screwed_into(steps: Steps, cabinet: Cabinet, boxes: Sequence[Box]) -> list[HardwareLine]:
    """Return the screws of a cabinet's mounting whose places, seen from the front or from above, lie on these parts.

    Like screws are one line.
    """
    later = steps.made.wall_fasteners(cabinet.id)
    alike: dict[tuple[str, str], HardwareLine] = {}
    for line in steps.made.used(f"{cabinet.id}/mounting"):
        if line.at and line.item not in later and (_from_front(line, boxes) or _from_above(line, boxes)):
            key = (line.item, line.words)
            if (first := alike.get(key)) is not None:
                line = replace(line, quantity=first.quantity + line.quantity, at=(*first.at, *line.at))
            alike[key] = line
    return list(alike.values())


def _from_above(line: HardwareLine, boxes: Sequence[Box]) -> bool:
    """Return whether hardware lies on parts as one sees them from above."""
    return all(any(box.x0 <= x <= box.x1 and box.y0 <= y <= box.y1 for box in boxes) for x, y, _ in line.at)


def _from_front(line: HardwareLine, boxes: Sequence[Box]) -> bool:
    """Return whether hardware lies on parts as one sees them from the front."""
    return all(any(box.x0 <= x <= box.x1 and box.z0 <= z <= box.z1 for box in boxes) for x, _, z in line.at)


def _places_on_end(steps: Steps, cabinet: Cabinet, line: HardwareLine) -> str:
    """Return where hardware stands on the top or the bottom of its case: from its left side and its front edge."""
    along = joined([steps.text(x) for x in dict.fromkeys(point[0] for point in line.at)])
    back = joined([steps.text(y) for y in dict.fromkeys(point[1] for point in line.at)])
    return f"{along} from the case's left side, {back} behind its front edge"


def places_on_case(steps: Steps, cabinet: Cabinet, line: HardwareLine) -> str:
    """Return where hardware stands, from the left side and the bottom of its case."""
    along = joined([steps.text(x) for x in dict.fromkeys(point[0] for point in line.at)])
    return f"{along} from the case's left side, {heights_on_case(steps, cabinet, line.at)} up from its bottom"


def counted(line: HardwareLine, cabinet: Cabinet) -> str:
    """Return how many of a line of hardware one cabinet takes."""
    return f"{line.quantity // cabinet.count} × {line.words}"


def heights_on_case(steps: Steps, cabinet: Cabinet, at: Iterable[Point]) -> str:
    """Return heights over the bottom of the case, each once."""
    bottom = steps.made.bottom(cabinet.id)
    return joined([steps.text(z - bottom) for z in dict.fromkeys(point[2] for point in at)])
