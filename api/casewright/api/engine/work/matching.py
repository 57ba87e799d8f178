"""Rows of parts that the grain runs on over: cut in sequence of one piece of stock, seen on the layouts, said in words.

Of sheet a row lies as its fronts hang; of board it lies along the grain, one part after another.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from casewright.api.engine.work.naming import joined, short_title
from casewright.api.engine.work.panels import lying, panels_of, to_saw
from casewright.api.engine.work.pieces import parts_in
from casewright.sdk.errors import pointer_to
from casewright.sdk.model import Check, CutPiece, Finding, GrainRule, Job, Part, StockLayout, StockPlan
from casewright.sdk.writer import writer

__all__ = ["Row", "in_words", "match_checks", "row_pieces", "rows_of"]

MATCH = "match"


@dataclass(frozen=True, slots=True)
class Row:
    """Parts in the order that they hang in, from the left or from the top."""

    name: str
    parts: tuple[Part, ...]

    @property
    def ids(self) -> tuple[str, ...]:
        """The ids of its parts."""
        return tuple([part.id for part in self.parts])

    @property
    def quantity(self) -> int:
        """How many times it is cut."""
        return min(part.quantity for part in self.parts)

    def of_board(self, job: Job) -> bool:
        """Return whether it is cut of a board."""
        return job.materials[self.parts[0].material].kind == "board"

    def along(self, job: Job) -> bool:
        """Return whether it runs along the length of its parts."""
        first = self.parts[0]
        if self.of_board(job):
            return first.grain != "along-width"
        return first.matched is not None and first.matched.way == "length"

    def grain(self, job: Job) -> GrainRule:
        """Return which way the grain runs: of board there is always one."""
        grain = self.parts[0].grain
        return "along-length" if grain == "free" and self.of_board(job) else grain


def rows_of(job: Job, parts: Sequence[Part]) -> Mapping[str, Row]:
    """Return the rows that parts are cut in, by the id of each part; none with a part that is not sawn as it is.

    Those are glued up of strips, or are built by now.
    """
    rows = _rows(to_saw(job, _matched(parts)))
    return {part.id: row for row in rows for part in row.parts}


def _matched(parts: Iterable[Part]) -> list[Part]:
    return [part for part in parts if part.matched is not None]


def _rows(parts: Sequence[Part]) -> list[Row]:
    """Return the rows that all parts are there of."""
    by_row: dict[str, dict[int, Part]] = {}
    for part in parts:
        if part.matched is not None:
            by_row.setdefault(part.matched.row, {})[part.matched.place] = part
    rows = [Row(name, tuple([places[place] for place in sorted(places)])) for name, places in by_row.items()]
    return [row for row in rows if row.parts[0].matched and len(row.parts) == row.parts[0].matched.of]


def in_words(row: Row) -> str:
    """Return what to do so that the grain runs on over a row."""
    parts = joined([short_title(part) for part in row.parts])
    first = row.parts[0]
    return (
        f"Grain runs on over {first.cabinet} {parts}: cut them one after another of one piece, in this order; before "
        "that mark a triangle across all of them and number them."
    )


def row_pieces(layout: StockLayout, rows: Mapping[str, Row]) -> dict[str, Row]:
    """Return the pieces of a layout that become one row and nothing else, by their label."""
    return dict(_row_pieces(layout.tree, rows))


def _row_pieces(piece: CutPiece, rows: Mapping[str, Row]) -> Iterator[tuple[str, Row]]:
    """Yield the innermost pieces that hold one row and nothing else."""
    inside = [one for kid in piece.inside for one in _row_pieces(kid, rows)]
    yield from inside
    ids = sorted(parts_in(piece))
    row = rows.get(ids[0]) if ids else None
    if not inside and row is not None and ids == sorted(row.ids):
        yield piece.label, row


def match_checks(job: Job, parts: Sequence[Part], stock: StockPlan | None) -> tuple[Check, ...]:
    """Return a stop for each row that cannot be cut of one piece, or is not by the layouts."""
    matched = _matched(parts)
    rows = rows_of(job, matched)
    strips = {panel.part.id for panel in panels_of(job, matched)}
    glued = [row for row in _rows(matched) if strips.intersection(row.ids)]
    whole = {row.name: row for row in rows.values()}.values()
    short = {one.part for one in stock.short} if stock else set[str]()
    broken = [row for row in whole if stock is not None and not short.intersection(row.ids) and not _cut(row, stock)]
    return (*(_glued(job, row) for row in glued), *(_broken(row) for row in broken))


def _cut(row: Row, stock: StockPlan) -> bool:
    """Return whether all of a row lies in sequence, as often as it is made."""
    rows = dict.fromkeys(row.ids, row)
    count = 0
    for layout in stock.layouts:
        for label in row_pieces(layout, rows):
            count += _in_order([one for one in _under(layout.tree, label) if one.what == "part"], row)
    return count == row.quantity


def _under(piece: CutPiece, label: str) -> Iterator[CutPiece]:
    """Yield every piece that comes of the one of a label, itself too."""
    if f"{piece.label}.".startswith(f"{label}."):
        yield piece
    for kid in piece.inside:
        yield from _under(kid, label)


def _in_order(placed: Sequence[CutPiece], row: Row) -> bool:
    """Return whether parts lie one after another in the order of their row, read from either end."""
    orders = [tuple([one.part for one in sorted(placed, key=key)]) for key in (_along, _across)]
    return any(order in (row.ids, row.ids[::-1]) for order in orders)


def _along(piece: CutPiece) -> tuple[int, int]:
    return piece.x, piece.y


def _across(piece: CutPiece) -> tuple[int, int]:
    return piece.y, piece.x


def _glued(job: Job, row: Row) -> Check:
    widest = max(lying(part)[1] for part in row.parts)
    material = row.parts[0].material
    message = (
        f"{joined(row.ids)} are matched, and no board of {material} is as wide as they are: glued up of strips, the "
        f'grain does not run on. List boards that yield {writer(job.units).length(widest)}, or leave out "match".'
    )
    return Check(pointer_to("materials", material), Finding(MATCH, "stop", message, len(row.parts), None, "parts"))


def _broken(row: Row) -> Check:
    message = f"The layouts do not cut {joined(row.ids)} in sequence of one piece, as they are matched."
    return Check(row.ids[0], Finding(MATCH, "stop", message, len(row.parts), None, "parts"))
