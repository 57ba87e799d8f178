"""Drawers: boxes from openings, runners from the catalogue, and fronts on the same gap rules as doors."""

from dataclasses import dataclass

from casewright.api.engine.construction.case import Shell
from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.context import Context
from casewright.api.engine.construction.draft import Draft
from casewright.api.engine.construction.drawer_box import Slot, add_box
from casewright.api.engine.construction.equal import Measure
from casewright.api.engine.construction.frame_layout import Opening
from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.geometry import Axis, Box, Cylinder, Point
from casewright.sdk.joinery.picks import screw_within
from casewright.sdk.materials import Slide
from casewright.sdk.model import LENGTH, Drawers, Finding, HardwareUse, Purpose, Term, hole
from casewright.sdk.units import MM

RUNNER_HOLE = 5 * MM
RUNNER_DEPTH = 12 * MM
RUNNER_PITCH = 32 * MM
"""Runner holes are 5 mm wide on the 32 mm convention (common practice)."""
SYSTEM_SCREW_WIDTH = 6_300_000
SYSTEM_SCREW = ("system-screw-6-13", "system screw for runners and hinge plates")
"""What holds runners and hinge plates in holes of the 32 mm convention (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Drawer:
    """One drawer as placed: the group of the parts that move, the slide on each side, and the space it closes."""

    key: str
    slide: Slide
    space: str

    @property
    def travel(self) -> int:
        """How far it opens, in nm."""
        return self.slide.length


@dataclass(frozen=True, slots=True)
class _Front:
    """One drawer front of a stack: its drawer's key, its box, and the reasons for its size."""

    key: str
    box: Box
    why_width: tuple[Term, ...]
    why_height: tuple[Term, ...]


def add_drawers(
    built: Construction, shell: Shell, openings: tuple[Opening, ...]
) -> tuple[Construction, tuple[Drawer, ...]]:
    """Add every drawer of the cabinet, from the top of each stack down."""
    made: list[Drawer] = []
    for opening in openings:
        if opening.leaf.space.front != "drawer":
            continue
        drawers = built.cabinet.drawers
        if drawers is None:
            rule = "`drawers` in the cabinet of a front with drawers"
            fix = "Add `drawers` to the cabinet, or make this front open."
            raise NoGeometryError(Problem(f"{opening.leaf.space.pointer}/front", rule, "drawer", fix))
        fronts = _fronts(built.context, shell, drawers, opening, len(made))
        slide = _slide(built, shell, drawers, opening)
        for front in fronts:
            built = _with_drawer(built, shell, opening, front, slide)
            made.append(Drawer(front.key, slide, opening.leaf.space.pointer))
    return built, tuple(made)


def _fronts(context: Context, shell: Shell, drawers: Drawers, opening: Opening, before: int) -> list[_Front]:
    """Return the fronts that close one opening, from the top; `before` drawers were made for others."""
    overlay = drawers.hang == "overlay"
    past, word = (drawers.overlay, "overlay") if overlay else (-drawers.gap, "gap round the inset front")
    width, whole = opening.width + 2 * past, opening.height + 2 * past
    pointer = drawers.pointer
    context.require_room(width, pointer, "the drawer front's width", "Make the opening larger, or the gap smaller.")
    heights, odd = _heights(context, opening, drawers, whole)
    why_width = (*opening.why_width, Term(f"{word} left and right", 2 * past))
    why_whole = (*opening.why_height, Term(f"{word} below and above", 2 * past))
    y = _face(context, shell, drawers)
    x, top = opening.x0 - past, opening.z1 + past
    fronts = []
    for number, height in enumerate(heights, start=before + 1):
        thick = context.material(drawers.front).thickness
        box = Box(x, y, top - height, x + width, y + thick, top)
        why_height = (*why_whole, *_share_terms(heights, height, drawers.between, odd))
        fronts.append(_Front(f"drawer-{number}", box, why_width, why_height))
        top -= height + drawers.between
    return fronts


def _face(context: Context, shell: Shell, drawers: Drawers) -> int:
    """Return the y of the fronts' faces."""
    thick = context.material(drawers.front).thickness
    return -shell.frame - thick if drawers.hang == "overlay" else -shell.frame


def _heights(context: Context, opening: Opening, drawers: Drawers, whole: int) -> tuple[list[int], int]:
    """Return the fronts' heights from the top and what an equal or graduated division leaves over."""
    space, write = opening.leaf.space, context.write
    given = space.drawer_heights
    count = len(given) if given is not None else space.drawer_count
    free = whole - (count - 1) * drawers.between
    pointer = f"{space.pointer}/drawers"
    context.require_room(free, pointer, "the height of the drawer fronts", "Ask for fewer drawers.")
    if given is None:
        weights = [1] * count if space.drawer_rule == "equal" else list(range(2, count + 2))
        heights = [free * weight // sum(weights) for weight in weights]
        return heights, free - sum(heights)
    left = free - sum(h or 0 for h in given)
    open_rows = [i for i, h in enumerate(given) if h is None]
    if (open_rows and left <= 0) or (not open_rows and left != 0) or len(open_rows) > 1:
        rule = f"fronts and gaps that fill {write.length(whole)}; one entry may be null and takes what is left"
        got = f"{write.length(left)} left for {len(open_rows)} open entries"
        raise NoGeometryError(Problem(pointer, rule, got, "Change a height, or write null for one of them."))
    return [left if h is None else h for h in given], 0


def _share_terms(heights: list[int], height: int, between: int, odd: int) -> list[Term]:
    """Return the terms that lead from a whole stack's height to one front's."""
    if len(heights) == 1:
        return []
    terms = [Term("gaps between fronts", -between * (len(heights) - 1))]
    if odd:
        terms.append(Term("left over from division, kept below the lowest front", -odd))
    return [*terms, Term("the other fronts", -(sum(heights) - height))]


def _with_drawer(built: Construction, shell: Shell, opening: Opening, front: _Front, slide: Slide) -> Construction:
    drawers = built.cabinet.drawers
    assert drawers is not None
    built = _with_front(built, drawers, front)
    low = max(front.box.z0, opening.z0) + drawers.below
    high = min(front.box.z1, opening.z1) - drawers.above
    built.context.require_room(
        high - low, drawers.pointer, "the drawer box's height", "Ask for fewer or higher drawers."
    )
    slot = Slot(front.key, opening.x0, opening.width, front.box.y1, low, high, opening.why_width)
    built = add_box(built, drawers, slide, slot)
    built = _with_runners(built, shell, slide, opening, slot)
    return _screwed(built, front)


def _with_front(built: Construction, drawers: Drawers, front: _Front) -> Construction:
    key, name, material = f"{front.key}/front", front.key.replace("-", " "), built.material(drawers.front)
    built = built.with_parts(
        Draft(key, "drawer-front", f"{name} front", material, front.box, 1, 3, front.why_width, front.why_height,
              front.key)
    )  # fmt: skip
    if drawers.pull is None:
        return built
    pull, box = built.registry.catalogue.pull(drawers.pull), front.box
    first = (box.x0 + box.x1) // 2 - pull.spacing * (pull.holes - 1) // 2
    z, thick = (box.z0 + box.z1) // 2, box.y1 - box.y0
    mouths = [(first + i * pull.spacing, box.y0, z) for i in range(pull.holes)]
    holes = [Cylinder(mouth, 2, pull.hole_diameter, thick) for mouth in mouths]
    if all(box.holds(drilled.envelope) for drilled in holes):
        use = HardwareUse(pull.id, pull.title, (mouths[0],), 2)
        return built.with_cuts(key, hole("pull", *holes, purpose=Purpose.PULL)).with_hardware(
            f"{built.id}/{front.key}", use
        )
    message = "the pull does not fit on the drawer front; choose a smaller one"
    missing = Finding("pull-off-wood", "stop", message, source="common-practice")
    return built.with_findings(f"{built.id}/{key}", missing)


def _rear(built: Construction, shell: Shell, opening: Opening) -> int:
    """Return how far back a drawer may reach: to the back panel, or to a strip that stands before it."""
    inside = [
        draft.box.y0
        for draft in built.drafts.values()
        if draft.group == "mounting"
        and draft.box.y0 < shell.inner_back
        and draft.box.x0 < opening.x1
        and draft.box.x1 > opening.x0
        and draft.box.z0 < opening.z1
        and draft.box.z1 > opening.z0
    ]
    return min([shell.inner_back, *inside])


def _slide(built: Construction, shell: Shell, drawers: Drawers, opening: Opening) -> Slide:
    """Return the named slide, or the longest of the catalogue that the depth takes."""
    write, catalogue = built.write, built.registry.catalogue
    front = _face(built.context, shell, drawers) + built.material(drawers.front).thickness
    room = _rear(built, shell, opening) - front
    pointer = f"{drawers.pointer}/slide"
    if drawers.slide is not None:
        slide = catalogue.slide(drawers.slide)
        if slide.length > room:
            rule = f"a slide that fits in {write.length(room)} behind the front"
            more = write.length(slide.length - room)
            fix = f"Make the cabinet {more} deeper, or leave the slide out: the longest that fits is then chosen."
            raise NoGeometryError(Problem(pointer, rule, write.length(slide.length), fix))
        return slide
    fitting = [slide for slide in catalogue.slides if slide.length <= room]
    if not fitting:
        rule = "a slide of the catalogue that fits behind the front"
        fix = f"Make the cabinet {write.length(min(slide.length for slide in catalogue.slides) - room)} deeper."
        raise NoGeometryError(Problem(pointer, rule, write.length(room), fix))
    return max(fitting, key=lambda slide: (slide.length, slide.id))


def _with_runners(built: Construction, shell: Shell, slide: Slide, opening: Opening, slot: Slot) -> Construction:
    """Place the pair of runners; on bare case sides drill their row of holes, in a frame state the packing."""
    middle = (slot.low + slot.high) // 2
    built, by = built.shift(Measure.ROW, (middle, middle), (shell.foot, shell.height))
    z = middle + by
    x0, x1 = slot.x0 + slide.side_room, slot.x0 + slot.width - slide.side_room
    points = ((x0, slot.front, z), (x1, slot.front, z))
    pair = HardwareUse(slide.id, f"{slide.title}, pair", points, 2, quantity=1)
    built = built.with_hardware(f"{built.id}/{slot.drawer}", pair)
    region = opening.leaf.region
    packing = (opening.x0 - region.x0, region.x1 - opening.x1)
    if any(packing):
        message = "the frame stands inside the case: pack each runner out from the case side by this much"
        packed = Finding("pack-runner", "note", message, max(packing), None, LENGTH, "common-practice")
        return built.with_findings(f"{built.id}/{slot.drawer}", packed)
    first = slot.front + slide.first_hole
    last = min(slot.front + slide.length, shell.inner_back) - RUNNER_PITCH
    ys = range(first, last + 1, RUNNER_PITCH * 6)
    sides: tuple[tuple[str, int, Axis], ...] = ((region.left, region.x0, -1), (region.right, region.x1, 1))
    placed: list[Point] = []
    for host, x, into in sides:
        box = built.drafts[host].box
        thick = box.x1 - box.x0
        depth = min(RUNNER_DEPTH, thick // 3 if built.drafts[host].role == "divider" else 2 * thick // 3)
        holes = [Cylinder((x, y, z), into, RUNNER_HOLE, depth) for y in ys]
        if holes and all(box.holds(drilled.envelope) for drilled in holes):
            built = built.with_cuts(
                host, hole(f"runner of {slot.drawer.replace('-', ' ')}", *holes, purpose=Purpose.RUNNER)
            )
            placed += [drilled.mouth for drilled in holes]
    if not placed:
        return built
    return built.with_hardware(
        f"{built.id}/{slot.drawer}", HardwareUse(*SYSTEM_SCREW, tuple(placed), where="in runners")
    )


def _screwed(built: Construction, front: _Front) -> Construction:
    """Fix the false front with four screws from inside the box."""
    key, box = front.key, built.drafts[f"{front.key}/box-front"].box
    whole = (front.box.y1 - front.box.y0) + (box.y1 - box.y0)
    screw = screw_within(built.registry.catalogue, 8, whole - 3 * MM)
    if screw is None:
        return built
    dx, dz = (box.x1 - box.x0) // 6, (box.z1 - box.z0) // 4
    points = tuple([(x, box.y1, z) for x in (box.x0 + dx, box.x1 - dx) for z in (box.z0 + dz, box.z1 - dz)])
    use = HardwareUse(screw.id, screw.title, points, -2, where="drawer front from inside")
    return built.with_hardware(f"{built.id}/{key}", use)
