"""What a cabinet stands on and what lies on it: toe recess, plinth, levelling feet, counter."""

from casewright.api.engine.construction.case import LEFT, RIGHT, Shell, case_width_terms
from casewright.api.engine.construction.draft import Draft, Work, require_room
from casewright.sdk.geometry import Axis, Box
from casewright.sdk.model import Band, Base, Feature, HardwareUse, Joint, Material, Term

FOOT_APART = 900_000_000
"""Levelling feet stand no farther apart than this along the front (common practice, no source)."""

FOOT_INSET = 60_000_000


def add_base(work: Work, shell: Shell) -> None:
    """Add the base the cabinet stands on, if it has one, and its counter."""
    base = work.cabinet.base
    if base is not None:
        material = work.material(base.material)
        room = shell.depth - base.setback - material.thickness
        require_room(
            room, f"{work.cabinet.pointer}/base/setback", "the depth behind the toe board", "Set it back less."
        )
        if base.kind == "toe-recess":
            _toe_recess(work, shell, base, material)
        elif base.kind == "plinth":
            _plinth(work, shell, base, material)
        else:
            _feet(work, shell, base, material)
    _counter(work, shell)


def _toe_recess(work: Work, shell: Shell, base: Base, material: Material) -> None:
    """Notch both sides and set a board between them behind the notch."""
    for key in (LEFT, RIGHT):
        side = work.drafts[key]
        waste = Box(side.box.x0, side.box.y0, 0, side.box.x1, base.setback, base.height)
        if waste.volume > 0:
            side.features.append(Feature("rabbet", "toe recess", -2, boxes=(waste,), run=1))
            side.bands = [Band(b.material, _above(b.box, base.height)) for b in side.bands]
    y = base.setback
    box = Box(shell.side, y, 0, shell.width - shell.side, y + material.thickness, base.height)
    why = [*case_width_terms(work), Term("left side thickness", -shell.side), Term("right side thickness", -shell.side)]
    _board(work, "toe-board", "toe board", material, box, why, base)
    _butt(work, "toe-board", LEFT, -1)
    _butt(work, "toe-board", RIGHT, 1)


def _above(box: Box, height: int) -> Box:
    return Box(box.x0, box.y0, max(box.z0, height), box.x1, box.y1, box.z1)


def _plinth(work: Work, shell: Shell, base: Base, material: Material) -> None:
    """Add a frame of its own: front and back over the whole width, two ends between them."""
    t, w = material.thickness, shell.width
    front, rear = base.setback, shell.depth
    across = case_width_terms(work)
    _board(work, "plinth-front", "plinth front", material, Box(0, front, 0, w, front + t, base.height), across, base)
    _board(work, "plinth-back", "plinth back", material, Box(0, rear - t, 0, w, rear, base.height), across, base)
    deep = rear - front - 2 * t
    require_room(deep, f"{work.cabinet.pointer}/base/setback", "the plinth's inside depth", "Set it back less.")
    for key, x in (("left", 0), ("right", w - t)):
        box = Box(x, front + t, 0, x + t, rear - t, base.height)
        why = {
            2: [
                Term("case depth", shell.depth),
                Term("set back from the front", -front),
                Term("plinth front and back", -2 * t),
            ],
            3: [Term("base height", base.height)],
        }
        work.add(Draft(f"plinth-end-{key}", "plinth", f"{key} plinth end", material, box, 2, 3, why, "base"))
        _butt(work, f"plinth-end-{key}", "plinth-front", -2)
        _butt(work, f"plinth-end-{key}", "plinth-back", 2)


def _feet(work: Work, shell: Shell, base: Base, material: Material) -> None:
    """Add levelling feet at the corners (and between, under a wide case) and a board clipped before them."""
    t = material.thickness
    box = Box(0, base.setback, 0, shell.width, base.setback + t, base.height)
    _board(work, "toe-board", "toe board", material, box, case_width_terms(work), base)
    columns = 2 + (shell.width - 2 * FOOT_INSET - 1) // FOOT_APART
    span = shell.width - 2 * FOOT_INSET
    xs = [FOOT_INSET + span * i // (columns - 1) for i in range(columns)]
    ys = (base.setback + t + FOOT_INSET // 2, shell.depth - FOOT_INSET)
    points = tuple([(x, y, base.height) for x in xs for y in ys])
    use = HardwareUse("levelling-foot", f"levelling foot for {base.height / 1e6:g} mm, with clip", points, -3)
    work.use((use,), f"{work.id}/base")


def _board(work: Work, key: str, name: str, material: Material, box: Box, why: list[Term], base: Base) -> None:
    why_both = {1: list(why), 3: [Term("base height", base.height)]}
    work.add(Draft(key, "plinth", name, material, box, 1, 3, why_both, "base"))


def _butt(work: Work, guest: str, host: str, way: Axis) -> None:
    """Record a glued butt: the guest just touches its host."""
    work.joints.append(
        Joint(
            f"{work.id}/{guest}+{host}", work.id, "butt", "butt", f"{work.id}/{host}", f"{work.id}/{guest}", way, 0, 0
        )
    )


def _counter(work: Work, shell: Shell) -> None:
    """Lay a counter on the case, standing out as the job says; it is no part of the cabinet's own size."""
    counter = work.cabinet.counter
    if counter is None:
        return
    material = work.material(counter.material)
    x0, x1 = -counter.left, shell.width + counter.right
    y0 = -shell.frame - counter.front
    box = Box(x0, y0, shell.height, x1, shell.depth, shell.height + material.thickness)
    across = case_width_terms(work)
    if counter.left or counter.right:
        across.append(Term("stands out at the ends", counter.left + counter.right))
    why = {1: across, 2: [Term("cabinet depth", work.cabinet.depth), Term("stands out at the front", counter.front)]}
    work.add(Draft("counter", "top", "counter", material, box, 1, 2, why, "counter"))
