"""Drawers: boxes from openings, runners from the catalogue, and fronts on the same gap rules as doors."""

from dataclasses import dataclass

from casewright.api.engine.construction.case import Shell
from casewright.api.engine.construction.draft import Draft, Work, require_room
from casewright.api.engine.construction.drawer_box import Slot, add_box
from casewright.api.engine.construction.face_frame import Opening
from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.geometry import Box, Cylinder
from casewright.sdk.joinery.picks import screw_within
from casewright.sdk.materials import Slide
from casewright.sdk.model import LENGTH, Drawers, Finding, HardwareUse, Term, hole

RUNNER_HOLE = 5_000_000
RUNNER_DEPTH = 10_000_000
RUNNER_PITCH = 32_000_000
"""Runner holes are 5 mm wide on the 32 mm convention (common practice)."""


@dataclass(frozen=True, slots=True)
class Drawer:
    """One drawer as placed: the keys of the parts that move, and how far it opens, in nm."""

    key: str
    travel: int


def add_drawers(work: Work, shell: Shell, openings: list[Opening]) -> list[Drawer]:
    """Add every drawer of the cabinet, from the top of each stack down."""
    made: list[Drawer] = []
    for opening in openings:
        if opening.leaf.space.front != "drawer":
            continue
        drawers = work.cabinet.drawers
        if drawers is None:
            raise NoGeometryError(
                Problem(
                    f"{opening.leaf.space.pointer}/front",
                    "a front with drawers needs `drawers` in its cabinet",
                    "drawer",
                    "Add `drawers` to the cabinet, or make this front open.",
                )
            )
        made += _stack(work, shell, drawers, opening, len(made))
    return made


def _stack(work: Work, shell: Shell, drawers: Drawers, opening: Opening, before: int) -> list[Drawer]:
    sign = 1 if drawers.hang == "overlay" else -1
    past = drawers.overlay if sign > 0 else drawers.gap
    word = "overlay" if sign > 0 else "gap round the inset front"
    width = opening.width + 2 * sign * past
    whole = opening.height + 2 * sign * past
    require_room(width, drawers.pointer, "the drawer front's width", "Make the opening larger, or the gap smaller.")
    heights, odd = _heights(opening, drawers, whole)
    why_width = (Term("opening width", opening.width), Term(f"{word} left and right", 2 * sign * past))
    slide = _slide(work, shell, drawers, opening)
    thick = work.material(drawers.front).thickness
    y = -shell.frame - thick if sign > 0 else -shell.frame
    top = opening.z1 + sign * past
    made: list[Drawer] = []
    for number, height in enumerate(heights, start=before + 1):
        key = f"drawer-{number}"
        front = Box(opening.x0 - sign * past, y, top - height, opening.x0 - sign * past + width, y + thick, top)
        why_height = _why_height(opening, sign * past, word, heights, height, drawers.between, odd)
        _add_front(work, drawers, key, front, why_width, why_height)
        low, high = max(front.z0, opening.z0) + drawers.below, min(front.z1, opening.z1) - drawers.above
        require_room(high - low, drawers.pointer, "the drawer box's height", "Ask for fewer or higher drawers.")
        slot = Slot(opening.x0, opening.width, y + thick, low, high)
        add_box(work, drawers, slide, key, slot)
        _runners(work, shell, slide, opening, key, slot)
        _screws(work, drawers, key, front)
        made.append(Drawer(key, slide.length))
        top -= height + drawers.between
    return made


def _heights(opening: Opening, drawers: Drawers, whole: int) -> tuple[list[int], int]:
    """Return the fronts' heights from the top and what an equal or graduated division leaves over."""
    space = opening.leaf.space
    given = space.drawer_heights
    count = len(given) if given is not None else space.drawer_count
    free = whole - (count - 1) * drawers.between
    pointer = f"{space.pointer}/drawers"
    require_room(free, pointer, "the height of the drawer fronts", "Ask for fewer drawers.")
    if given is None:
        weights = [1] * count if space.drawer_rule == "equal" else list(range(2, count + 2))
        heights = [free * weight // sum(weights) for weight in weights]
        return heights, free - sum(heights)
    left = free - sum(h or 0 for h in given)
    open_rows = [i for i, h in enumerate(given) if h is None]
    if (open_rows and left <= 0) or (not open_rows and left != 0) or len(open_rows) > 1:
        raise NoGeometryError(
            Problem(
                pointer,
                f"fronts and gaps fill {whole / 1e6:g} mm; one entry may be null and takes what is left",
                f"{left / 1e6:g} mm left for {len(open_rows)} open entries",
                "Change a height, or write null for one of them.",
            )
        )
    return [left if h is None else h for h in given], 0


def _why_height(
    opening: Opening, past: int, word: str, heights: list[int], height: int, between: int, odd: int
) -> list[Term]:
    terms = [Term("opening height", opening.height), Term(f"{word} below and above", 2 * past)]
    if len(heights) > 1:
        terms.append(Term("gaps between fronts", -between * (len(heights) - 1)))
        if odd:
            terms.append(Term("left over from division, kept below the lowest front", -odd))
        terms.append(Term("the other fronts", -(sum(heights) - height)))
    return terms


def _add_front(
    work: Work, drawers: Drawers, key: str, box: Box, why_width: tuple[Term, ...], why_height: list[Term]
) -> None:
    why = {1: list(why_width), 3: why_height}
    name = f"{key.replace('-', ' ')} front"
    draft = Draft(f"{key}/front", "drawer-front", name, work.material(drawers.front), box, 1, 3, why, key)
    work.add(draft)
    if drawers.pull is None:
        return
    pull = work.registry.catalogue.pull(drawers.pull)
    middle = (box.x0 + box.x1) // 2
    first = middle - pull.spacing * (pull.holes - 1) // 2
    z = (box.z0 + box.z1) // 2
    thick = box.y1 - box.y0
    holes = tuple(
        [Cylinder((first + i * pull.spacing, box.y0, z), 2, pull.hole_diameter, thick) for i in range(pull.holes)]
    )
    if all(box.holds(h.envelope) for h in holes):
        draft.features.append(hole("pull", *holes))
        work.use((HardwareUse(pull.id, pull.title, (holes[0].mouth,), 2),), f"{work.id}/{key}")
    else:
        work.find(
            f"{work.id}/{key}/front",
            Finding("pull-off-wood", "stop", "the pull does not fit on the drawer front; choose a smaller one", None,
                    None, "", "common-practice"),
        )  # fmt: skip


def _rear(work: Work, shell: Shell, opening: Opening) -> int:
    """Return how far back a drawer may reach: to the back panel, or to a strip that stands before it."""
    inside = [
        draft.box.y0
        for draft in work.drafts.values()
        if draft.group == "mounting"
        and draft.box.y0 < shell.inner_back
        and draft.box.x0 < opening.x1
        and draft.box.x1 > opening.x0
        and draft.box.z0 < opening.z1
        and draft.box.z1 > opening.z0
    ]
    return min([shell.inner_back, *inside])


def _slide(work: Work, shell: Shell, drawers: Drawers, opening: Opening) -> Slide:
    """Return the named slide, or the longest of the catalogue that the depth takes."""
    thick = work.material(drawers.front).thickness
    front = -shell.frame + (0 if drawers.hang == "overlay" else thick)
    room = _rear(work, shell, opening) - front
    if drawers.slide is not None:
        slide = work.registry.catalogue.slide(drawers.slide)
        if slide.length > room:
            raise NoGeometryError(
                Problem(
                    f"{drawers.pointer}/slide",
                    f"the slide fits in {room / 1e6:g} mm behind the front",
                    f"{slide.length / 1e6:g} mm",
                    "Choose a shorter slide or a deeper cabinet.",
                )
            )
        return slide
    fitting = [slide for slide in work.registry.catalogue.slides if slide.length <= room]
    if not fitting:
        raise NoGeometryError(
            Problem(
                f"{drawers.pointer}/slide",
                "some slide of the catalogue fits behind the front",
                f"{room / 1e6:g} mm",
                "Make the cabinet deeper.",
            )
        )
    return max(fitting, key=lambda slide: (slide.length, slide.id))


def _runners(work: Work, shell: Shell, slide: Slide, opening: Opening, key: str, slot: Slot) -> None:
    """Place the pair of runners; on bare case sides drill their row of holes, in a frame state the packing."""
    z = (slot.low + slot.high) // 2
    x0, x1 = slot.x0 + slide.side_room, slot.x0 + slot.width - slide.side_room
    points = ((x0, slot.front, z), (x1, slot.front, z))
    work.use((HardwareUse(slide.id, f"{slide.title}, pair", points, 2, quantity=1),), f"{work.id}/{key}")
    region = opening.leaf.region
    packing = (opening.x0 - region.x0, region.x1 - opening.x1)
    if any(packing):
        work.find(
            f"{work.id}/{key}",
            Finding(
                "pack-runner",
                "note",
                "the frame stands inside the case: pack each runner out from the case side by this much",
                max(packing),
                None,
                LENGTH,
                "common-practice",
            ),
        )
        return
    first = slot.front + slide.first_hole
    last = min(slot.front + slide.length, shell.inner_back) - RUNNER_PITCH
    ys = list(range(first, last + 1, RUNNER_PITCH * 6))
    for host, x, into in ((region.left, region.x0, -1), (region.right, region.x1, 1)):
        draft = work.drafts[host]
        depth = min(RUNNER_DEPTH, (draft.box.x1 - draft.box.x0) // 3)
        holes = tuple([Cylinder((x, y, z), -1 if into < 0 else 1, RUNNER_HOLE, depth) for y in ys])
        if holes and all(draft.box.holds(h.envelope) for h in holes):
            draft.features.append(hole(f"runner of {key.replace('-', ' ')}", *holes))


def _screws(work: Work, drawers: Drawers, key: str, front: Box) -> None:
    """Fix the false front with four screws from inside the box."""
    box_front = work.drafts[f"{key}/box-front"].box
    whole = (front.y1 - front.y0) + (box_front.y1 - box_front.y0)
    screw = screw_within(work.registry.catalogue, 8, whole - 3_000_000)
    if screw is None:
        return
    dx, dz = (box_front.x1 - box_front.x0) // 6, (box_front.z1 - box_front.z0) // 4
    xs, zs = (box_front.x0 + dx, box_front.x1 - dx), (box_front.z0 + dz, box_front.z1 - dz)
    points = tuple([(x, box_front.y1, z) for x in xs for z in zs])
    work.use((HardwareUse(screw.id, f"{screw.title}, drawer front from inside", points, -2),), f"{work.id}/{key}")
