"""A drawing that takes a piece of paper of its own: several stand on one page, or in the run of a text."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from casewright.api.papers.drawing.shapes import XY, View
from casewright.api.papers.views.page import Area, Page

BETWEEN = 5.0
"""Paper between two figures, mm."""


@dataclass(frozen=True, slots=True)
class Figure:
    """Views with the lower left corner of their paper at zero, how wide and how high that is in mm, and their scale."""

    views: tuple[View, ...]
    width: float
    high: float
    scale: str

    def moved(self, by: XY) -> list[View]:
        """Return its views at another place of the paper."""
        return [replace(one, at=(one.at[0] + by[0], one.at[1] + by[1])) for one in self.views]


def stacked(name: str, rows: Iterable[Sequence[Figure]], area: Area) -> list[Page]:
    """Return pages of rows of figures from the top down, each as wide as the page; nothing where there are none."""
    pages: list[list[Sequence[Figure]]] = []
    low = 0.0
    for row in rows:
        high = max(one.high for one in row)
        if not pages or low - high < area.y0:
            pages.append([])
            low = area.y1
        pages[-1].append(row)
        low -= high + BETWEEN
    return [_page(name, rows, area) for rows in pages]


def _page(name: str, rows: Sequence[Sequence[Figure]], area: Area) -> Page:
    views: list[View] = []
    scales: dict[str, None] = {}
    low = area.y1
    for row in rows:
        left = area.x0
        for one in row:
            views += one.moved((left, low - one.high))
            left += one.width + BETWEEN
            scales[one.scale] = None
        low -= max(one.high for one in row) + BETWEEN
    return Page(name, tuple(views), " and ".join(scales) if len(scales) < 3 else "by each")
