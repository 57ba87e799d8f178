"""A face frame against its case, and the gaps between cabinets along a wall."""

from collections.abc import Iterator, Mapping, Sequence

from casewright.api.engine.fits.judged import WAYS, Question, Unanswered, loose, turned
from casewright.api.engine.fits.laid import Laid
from casewright.sdk.geometry import Box
from casewright.sdk.model import Accuracy, Action, FitKind, FitLink, Part, Run, Standing, WhyUnproved
from casewright.sdk.units import INCH

Widths = Mapping[str, tuple[FitLink, ...] | None]
"""The links across each cabinet of a run, by its id; `None` where nothing fastened leads across."""

FLUSH = INCH // 64
"""Edges within this of one another are flush (common practice, no source)."""
TIGHT = INCH // 32
"""A filler fits its gap within this (common practice, no source)."""
CLOSE = 2 * INCH
"""Wider gaps without a filler are no fit."""


def frame_fits(laid: Laid) -> Iterator[Question | Unanswered]:
    """Yield how a face frame's edges come out against the outside of the case, across and up."""
    frame = [part for part in laid.parts if part.role in ("frame-stile", "frame-rail")]
    case = [part for part in laid.parts if part.role == "side"]
    if not frame or not case:
        return
    outer, inner = _round(laid, frame), _round(laid, case)
    for axis in (1, 3):
        word = WAYS[axis]
        size, within = laid.across(axis, _ids(frame)), laid.across(axis, _ids(case))
        if size is None or within is None:
            yield Unanswered(FitKind.FRAME_FLUSH, f"{laid.cabinet.id} frame {word}", axis, WhyUnproved.NO_CHAIN)
            continue
        nominal = min(inner.low(axis) - outer.low(axis), outer.high(axis) - inner.high(axis))
        if nominal < 0:
            continue
        total = (*size, *turned(within))
        set_by_hand = loose(frame[0].id, f"{frame[0].id} set {word}", Action.FIT, laid.accuracy.of(Action.FIT))
        yield Question(
            kind=FitKind.FRAME_FLUSH,
            id=f"{laid.cabinet.id} frame {word}",
            axis=axis,
            nominal=nominal,
            least=0 if nominal else -FLUSH,
            most=2 * nominal if nominal else FLUSH,
            links=(*total, set_by_hand),
            cut=(_ids(frame),),
            between=(case[0].id, case[-1].id),
            room=inner.high(axis) - inner.low(axis),
            opening=within,
            own=(*size, set_by_hand),
        )


def links_across(laid: Laid) -> tuple[FitLink, ...] | None:
    """Return the links across a cabinet between what its neighbours may touch; `None` where nothing leads across."""
    outer = [part.id for part in laid.parts if part.role in ("side", "frame-stile", "end-panel")]
    across = laid.across(1, outer)
    return laid.across(1, [part.id for part in laid.parts if part.role == "side"]) if across is None else across


def run_fits(run: Run, widths: Widths, accuracy: Accuracy, uneven: int) -> Iterator[tuple[str, Question | Unanswered]]:
    """Yield the gaps along the wall that are closed by a filler or are narrow, each with its cabinet.

    Cabinets that touch are set against one another from the first that is set, so the widths of all up to the gap
    count; where there is a gap the next is set to a mark of its own. A wall that ends the run is off a straight line
    by up to `uneven` nm.
    """
    blocks, mark = _blocks(run), accuracy.of(Action.MARK)
    for gap in run.gaps:
        if gap.size <= 0 or not (gap.fillers or gap.size <= CLOSE):
            continue
        left = _reach(run, next((b for b in blocks if b[-1].name == gap.left), ()), widths, mark, last=True)
        right = _reach(run, next((b for b in blocks if b[0].name == gap.right), ()), widths, mark, last=False)
        standing = next(s for s in run.standings if s.name in (gap.left, gap.right))
        wall = () if left and right else (FitLink("wall", 0, uneven, "wall at the end"),)
        half = accuracy.of(Action.RIP)
        strips = tuple([loose(filler, f"{filler} rip", Action.RIP, half) for filler in gap.fillers])
        if left is None or right is None:
            name = f"{gap.left} to {gap.right}"
            yield standing.cabinet, Unanswered(FitKind.RUN_GAP, name, 1, WhyUnproved.NO_CHAIN)
            continue
        yield (
            standing.cabinet,
            Question(
                kind=FitKind.RUN_GAP,
                id=f"{gap.left} to {gap.right}",
                axis=1,
                nominal=gap.size,
                least=gap.size - TIGHT if gap.fillers else 0,
                most=gap.size + TIGHT if gap.fillers else None,
                links=(*left, *right, *wall, *strips),
                cut=tuple([(filler,) for filler in gap.fillers]),
                between=(gap.left, gap.right),
                room=gap.size,
                own=strips,
            ),
        )


def _blocks(run: Run) -> list[list[Standing]]:
    """Return the standings from left to right, those that touch together."""
    blocks: list[list[Standing]] = []
    touching = {gap.right for gap in run.gaps if gap.size == 0}
    for standing in run.standings:
        if blocks and standing.name in touching:
            blocks[-1].append(standing)
        else:
            blocks.append([standing])
    return blocks


def _reach(run: Run, block: Sequence[Standing], widths: Widths, mark: int, *, last: bool) -> tuple[FitLink, ...] | None:
    """Return the links from the mark a block is set to, to its end beside a gap; none at the end of the wall.

    A mark is of a cabinet's left side, off by up to `mark` nm.
    """
    if not block:
        return ()
    start = min(range(len(block)), key=lambda number: run.order.index(block[number].name))
    counted = block[start:] if last else block[:start]
    links = [loose(block[start].name, f"mark of {block[start].name}", Action.MARK, mark)]
    for standing in counted:
        width = widths[standing.cabinet]
        if width is None:
            return None
        links += turned(width)
    return tuple(links)


def _round(laid: Laid, parts: Sequence[Part]) -> Box:
    return Box.union(laid.boxes[part.id] for part in parts)


def _ids(parts: Sequence[Part]) -> tuple[str, ...]:
    return tuple([part.id for part in parts])
