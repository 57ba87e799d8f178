"""The booklet's canvas: contents, outline, page numbers and footers, written once all pages are made."""

from typing import Any

from casewright.api.engine.work.naming import first_of
from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.lettering import letter
from casewright.api.papers.drawing.pdf import POINTS
from reportlab.pdfgen.canvas import Canvas

__all__ = ["CONTENTS", "LINE", "Numbered", "note_cabinets", "note_contents", "note_place", "note_section"]

SIZE, SMALL = 10.0, 9.0
CONTENTS, LINE = 10, 13.5
"""Lines of each column of the list of sections, and their height in points."""

NAMED = 3
"""Cabinets that a footer names before it says how many more there are."""

ROOM = 90.0
"""Points of a footer that the page's number takes."""


class Numbered(Canvas):
    """A canvas that writes what hangs on the number of pages, and on which page things stand, at the very end."""

    footer, mark = "", ""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **{**kwargs, "initialFontName": metrics.PLAIN})
        self.setProducer("casewright")
        self.setAuthor("")
        self._pages: list[dict[str, Any]] = []
        self.sections: list[tuple[int, str, int]] = []
        self.contents: list[tuple[int, float, float]] = []
        self.places: dict[int | str, int] = {}
        self.references: list[tuple[int, int | str, float, float]] = []
        self.cabinets: dict[int, dict[str, None]] = {}

    def showPage(self) -> None:  # noqa: N802 - the library calls it by this name
        """Keep the page until all are made."""
        self._pages.append(dict(self.__dict__))
        start: Any = vars(Canvas)["_startPage"]
        start(self)

    def save(self) -> None:
        """Write every page with its footer, and the outline that a reader lists beside the pages."""
        for number, state in enumerate(self._pages, start=1):
            self.__dict__.update(state)
            for page, x, y in self.contents:
                if page == number:
                    self._list(x, y)
            for page, place, x, y in self.references:
                if page == number and place in self.places:
                    self.setFont(metrics.PLAIN, SMALL)
                    self.drawString(x, y, str(self.places[place]))
            for entry, (level, words, page) in enumerate(self.sections):
                if page == number:
                    self.bookmarkPage(f"entry-{entry}")
                    self.addOutlineEntry(words, f"entry-{entry}", level, closed=True)
            self._foot(f"page {number} of {len(self._pages)}", list(self.cabinets.get(number, ())))
            super().showPage()
        super().save()

    def _list(self, x: float, y: float) -> None:
        """Write the list of sections in two columns, each with its page."""
        half = (vars(self)["_pagesize"][0] - 2 * x) / 2
        heads = [(words, page) for level, words, page in self.sections if level == 0]
        for i, (words, page) in enumerate(heads[: 2 * CONTENTS]):
            left, line = x + half * (i // CONTENTS), y - LINE * (i % CONTENTS + 1) + 3
            self.setFont(metrics.PLAIN, SIZE)
            self.drawRightString(left + 18, line, str(page))
            self.drawString(left + 24, line, words)

    def _foot(self, words: str, cabinets: list[str]) -> None:
        y = 5.5 * POINTS
        width = vars(self)["_pagesize"][0]
        right = width - 10 * POINTS
        self.setFillGray(0)
        self.setFont(metrics.PLAIN, SMALL)
        self.drawRightString(right, y, words)
        height = SMALL * metrics.CAP / POINTS
        room = (right - 10 * POINTS - ROOM) / POINTS - metrics.width(self.mark, height)
        line = " · ".join(word for word in (metrics.clean(first_of(cabinets, NAMED)), self.footer) if word)
        letter(self, 10 * POINTS, y, metrics.fitted(line, height, room) + self.mark, SMALL)


def note_section(canvas: Any, words: str, level: int = 0) -> None:
    """Note that a section begins on the present page, or what is listed under it: one of level 1."""
    vars(canvas)["sections"].append((level, words, canvas.getPageNumber()))


def note_contents(canvas: Any, at: tuple[float, float]) -> None:
    """Note where on the present page the list of sections begins, in points."""
    vars(canvas)["contents"].append((canvas.getPageNumber(), *at))


def note_place(canvas: Any, place: int | str) -> None:
    """Note that a step, by its number, or the drawings of a cabinet, by its id, begin on the present page."""
    vars(canvas)["places"].setdefault(place, canvas.getPageNumber())


def note_cabinets(canvas: Any, cabinets: tuple[str, ...]) -> None:
    """Note which cabinets the present page is about."""
    vars(canvas)["cabinets"].setdefault(canvas.getPageNumber(), {}).update(dict.fromkeys(cabinets))
