"""Numbers of steps and the pages they stand on: noted as they are drawn, written where wanted once all are made."""

from collections.abc import Sequence
from math import ceil
from typing import Any

from casewright.api.papers import text as metrics
from casewright.api.papers.pages.canvas import note_cabinets, note_place
from casewright.api.papers.pages.setting import CELL, para
from reportlab.platypus import Flowable, Paragraph, Table, TableStyle

__all__ = ["PageOf", "StepNumbers", "pages_of"]

COLUMNS = 3
"""Entries beside one another in a list of pages."""

_LIST = TableStyle(
    [
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("FONTNAME", (0, 0), (-1, -1), metrics.PLAIN),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 4),
        ("TOPPADDING", (0, 0), (-1, -1), 0),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 0),
    ]
)


class StepNumbers(Paragraph):
    """The numbers of the steps of a row; those of other steps that stand in it are noted too, and their cabinets."""

    def __init__(self, numbers: Sequence[int], also: Sequence[int] = (), cabinets: Sequence[str] = ()) -> None:
        super().__init__(", ".join(map(str, numbers)), CELL)
        self.noted, self.cabinets = (*numbers, *also), tuple(cabinets)

    def draw(self) -> None:
        """Draw them, and note where."""
        for number in self.noted:
            note_place(self.canv, number)
        note_cabinets(self.canv, self.cabinets)
        super().draw()


class PageOf(Flowable):
    """Room for the page that a step stands on, by its number, or the drawings of a cabinet begin on, by its id."""

    def __init__(self, place: int | str) -> None:
        super().__init__()
        self.place = place

    def wrap(self, room: float, high: float) -> tuple[float, float]:
        """Take one line."""
        return (room, CELL.leading)

    def draw(self) -> None:
        """Note where it is to be written."""
        at = self.canv.absolutePosition(0, CELL.leading - CELL.fontSize)
        vars(self.canv)["references"].append((self.canv.getPageNumber(), self.place, *at))


def pages_of(entries: Sequence[tuple[str, int]]) -> list[Flowable]:
    """Return a list of what stands on which page, by the first step of each; nothing for fewer than two."""
    if len(entries) < 2:
        return []
    lines = ceil(len(entries) / COLUMNS)
    cells: list[list[Any]] = [[] for _ in range(lines)]
    for i in range(COLUMNS * lines):
        known = i < len(entries)
        cells[i % lines] += [PageOf(entries[i][1]), para(entries[i][0], CELL)] if known else ["", ""]
    shares = [f"{share}%" for share in (4, 29) * COLUMNS]
    made = Table(cells, colWidths=shares, style=_LIST, spaceAfter=4)
    made.hAlign = "LEFT"
    return [made]
