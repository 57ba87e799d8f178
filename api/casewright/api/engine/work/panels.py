"""Panels of board too wide for any board on hand: strips, glued edge to edge with the grain along them, cut to size.

The widest board is the widest of those on hand of the part's material, or else what the material says. A panel is glued
up over size and cut to size when its glue has held; its strips are ripped and crosscut as parts are, with what the
jointer takes off both edges over their width. The amounts are common practice, no source.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from casewright.api.engine.work.machines import sawn_at
from casewright.api.engine.work.naming import OVER_SIZE, STRIP, joined, short_title, summed_up
from casewright.api.stock import Saws, StraightCut, is_milled
from casewright.sdk.model import Action, Job, Machine, Operation, Part, Setting, Stage, Stock, Workpiece
from casewright.sdk.units import INCH, MM, NM_PER_UNIT, Units, tape_text

__all__ = ["Panel", "glued_up", "lying", "panels_of", "to_saw", "wide"]

WIDE = 150 * MM
"""Board wider than this is not everywhere to be had."""
NARROWEST = 25 * MM
"""Nothing is glued up of strips that are narrower (common practice, no source)."""
NAMED = 3
"""Panels that are named one by one."""


@dataclass(frozen=True, slots=True)
class _Over:
    """What a panel is glued up over its size, what the jointer takes off an edge, how far apart clamps are at most."""

    length: int
    width: int
    edge: int
    clamps: int


OVER: Mapping[Units, _Over] = {
    "in": _Over(INCH, INCH // 2, INCH // 16, 8 * INCH),
    "mm": _Over(25 * MM, 12 * MM, 3 * MM // 2, 200 * MM),
}


@dataclass(frozen=True, slots=True)
class Panel:
    """A part that is glued up, its size along and across the grain, its strips as a part, and how many make one."""

    part: Part
    along: int
    across: int
    strip: Part
    count: int
    over: _Over

    @property
    def glued(self) -> str:
        """What the panel is called until it is cut to size."""
        return f"{self.part.id}, {OVER_SIZE}"

    @property
    def length(self) -> int:
        """How long it is glued up."""
        return self.along + self.over.length

    @property
    def width(self) -> int:
        """How wide it is glued up."""
        return self.count * (self.strip.width - 2 * self.over.edge)

    @property
    def clamps(self) -> int:
        """How many clamps press across it."""
        return max(2, -(-self.length // self.over.clamps) + 1)


def panels_of(job: Job, parts: Iterable[Part]) -> tuple[Panel, ...]:
    """Return the parts that are glued up of strips, because no board is as wide; none where no width is known."""
    return tuple([panel for part in _not_cut(job, parts) if (panel := _panel(job, part)) is not None])


def to_saw(job: Job, parts: Sequence[Part]) -> tuple[Part, ...]:
    """Return what is sawn from stock: parts not cut yet nor bought to size, or the strips of those glued up."""
    strips = {panel.part.id: panel.strip for panel in panels_of(job, parts)}
    return tuple([strips.get(part.id, part) for part in _not_cut(job, parts)])


def _not_cut(job: Job, parts: Iterable[Part]) -> list[Part]:
    """Return parts as often as they are still to be cut, those left out that are bought to size."""
    return [
        replace(part, quantity=part.quantity - part.built, built=0) if part.built else part
        for part in parts
        if part.built < part.quantity and not job.materials[part.material].to_size
    ]


def wide(job: Job, part: Part) -> bool:
    """Return whether a part may be wider than the boards to be had, where the job does not say how wide these are."""
    if job.materials[part.material].kind != "board" or _widest(job, part) is not None:
        return False
    return lying(part)[1] > WIDE


def _panel(job: Job, part: Part) -> Panel | None:
    if job.materials[part.material].kind != "board":
        return None
    widest, (along, across), over = _widest(job, part), lying(part), OVER[job.units]
    if widest is None or across <= widest or widest < NARROWEST:
        return None
    most = widest - 2 * over.edge
    count = -(-(across + over.width) // most)
    step = int(NM_PER_UNIT[job.units] * job.tape)
    width = min(-(-(across + over.width) // (count * step)) * step, most)
    strip = replace(
        part,
        id=f"{part.id}, {STRIP}",
        role="loose",
        name=f"{short_title(part)} {STRIP}",
        group="",
        length=along + over.length,
        width=width + 2 * over.edge,
        quantity=part.quantity * count,
        grain="along-length",
        features=(),
        bands=(),
        matched=None,
    )
    return Panel(part, along, across, strip, count, over)


def lying(part: Part) -> tuple[int, int]:
    """Return a part's size along and across the grain; one that may lie either way lies with its long side along."""
    match part.grain:
        case "along-length":
            return part.length, part.width
        case "along-width":
            return part.width, part.length
        case "free":
            return max(part.length, part.width), min(part.length, part.width)


def _widest(job: Job, part: Part) -> int | None:
    """Return the widest piece that any board yields for a part; `None` where nothing is known of boards."""
    stock = job.stock
    boards = [board for board in stock.boards if board.material == part.material] if stock else []
    if stock is None or not boards:
        return job.materials[part.material].widest
    over = stock.mill_width if is_milled(part.material, boards) else 0
    rooms = [board.width - (0 if board.surfaced == "all-sides" else stock.mill_edge) - over for board in boards]
    return max(0, *rooms)


def glued_up(job: Job, panels: Sequence[Panel], stock: Stock | None) -> list[Operation]:
    """Return the operations that make panels of their strips, unnumbered; `stock` is what the strips are cut from."""
    if not panels:
        return []
    kerf = stock.kerf if stock else 0
    return [*_jointed(job, panels), *_together(job, panels), *_cut(job, panels, kerf)]


def _jointed(job: Job, panels: Sequence[Panel]) -> Iterator[Operation]:
    """Yield the jointing of strips: one edge of each, then the other."""
    off, text = panels[0].over.edge, tape_text(panels[0].over.edge, job.units, job.tape)
    count = sum(one.strip.quantity for one in panels)
    strips = [(one.strip.id, one.strip.quantity) for one in panels]
    for number, edge in enumerate(("one edge", "the other edge"), start=1):
        on = [Workpiece(piece=strip, keeps=strip, count=each, run=(number, 2)) for strip, each in strips]
        do = f"Straighten {edge} of {count} strips, {text} off, on the jointer"
        check = "two strips on edge, face to face about, meet without a gap and stand straight"
        yield Operation(0, Stage.MILL, Machine.JOINTER, Action.EDGE, Setting(depth=off), tuple(on), (), do, check)


def _together(job: Job, panels: Sequence[Panel]) -> Iterator[Operation]:
    """Yield gluing, clamping, waiting and levelling: in each row of the gluing one strip goes to each panel."""
    names, times = _names(panels), job.shop.glue
    strips = [
        Workpiece(piece=one.strip.id, keeps=one.glued, count=one.part.quantity)
        for one in panels
        for _ in range(one.count)
    ]
    counts = joined(list(dict.fromkeys(f"{one.count} strips" for one in panels)))
    do = f"Glue up {names}, {counts} to a panel: lay them out for grain, glue on every edge that meets another"
    yield _by_hand(Action.GLUE, do, strips, f"together and clamped before the glue has been open for {times.open} min")
    panes = [Workpiece(piece=one.glued, keeps=one.glued, count=one.part.quantity) for one in panels]
    clamps = [replace(pane, clamps=one.clamps) for pane, one in zip(panes, panels, strict=True)]
    apart = tape_text(panels[0].over.clamps, job.units, job.tape)
    count = joined(list(dict.fromkeys(str(one.clamps) for one in panels)))
    do = f"Clamp {names} across the strips, {count} clamps to a panel, over and under by turns, {apart} apart at most"
    yield _by_hand(Action.CLAMP, do, clamps, "the faces of neighbours level, and the panel flat under a straight edge")
    do = f"Leave {names} clamped for {times.clamped} min"
    yield replace(_by_hand(Action.WAIT, do, panes, "glue squeezed out all along every joint"), minutes=times.clamped)
    do = f"Scrape off the glue and level the joints of {names}"
    yield _by_hand(Action.SAND, do, panes, "no joint can be felt, and the thickness the same all over")


def _cut(job: Job, panels: Sequence[Panel], kerf: int) -> Iterator[Operation]:
    """Yield the final cuts of panels: rips by width, then crosscuts by length, each setting once."""
    saws = Saws.of(job.shop)
    lines: dict[tuple[Action, int, Machine], list[Workpiece]] = {}
    for one in panels:
        ripped, count = f"{one.part.id}, ripped", one.part.quantity
        rip = saws.machine(StraightCut(one.length, one.width, one.across))
        stop = saws.machine(StraightCut(one.across, one.length, one.along))
        line = Workpiece(piece=one.glued, keeps=ripped, count=count)
        lines.setdefault((Action.RIP, one.across, rip), []).append(line)
        line = Workpiece(piece=ripped, keeps=one.part.id, count=count)
        lines.setdefault((Action.CROSSCUT, one.along, stop), []).append(line)
    for (action, at, saw), on in sorted(lines.items(), key=lambda item: (item[0][0] is Action.CROSSCUT, -item[0][1])):
        setting = sawn_at(saw, at, kerf)
        yield Operation(0, Stage.CUT, saw, action, setting, tuple(on))


def _by_hand(action: Action, do: str, on: Sequence[Workpiece], check: str) -> Operation:
    return Operation(0, Stage.MILL, Machine.BY_HAND, action, Setting(), tuple(on), (), do, check)


def _names(panels: Sequence[Panel]) -> str:
    """Return panels one by one where they are few."""
    if len(panels) > NAMED:
        return f"{len(panels)} kinds of panel"
    return joined([summed_up([one.part], Counter()) for one in panels])
