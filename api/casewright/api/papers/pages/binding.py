"""A story bound as a PDF: pages with their footers, the list of sections on the first, no heading at a page's end."""

from collections.abc import Iterator, Sequence
from io import BytesIO
from typing import Any

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.lettering import letter
from casewright.api.papers.drawing.pdf import POINTS
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.lines import Lines
from casewright.api.papers.pages.setting import CELL, CONTENTS, LINE, MARGIN, SIZE, UNDER, Heading
from casewright.api.papers.views.page import size_of
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BaseDocTemplate, CondPageBreak, Flowable, Frame, PageTemplate, Paragraph

ORPHAN = 80.0
"""Room in points that a heading wants below itself."""


class _Numbered(Canvas):
    """A canvas that writes the footer of each page once the number of pages is known."""

    footer, mark = "", ""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **{**kwargs, "initialFontName": metrics.PLAIN})
        self.setProducer("casewright")
        self.setAuthor("")
        self._pages: list[dict[str, Any]] = []
        self.sections: list[tuple[str, int]] = []
        self.contents: tuple[float, float] = (0.0, 0.0)
        self.steps: dict[int, int] = {}
        self.asked: list[tuple[int, int, float, float]] = []

    def showPage(self) -> None:  # noqa: N802 - the library calls it by this name
        """Keep the page until all are made."""
        self._pages.append(dict(self.__dict__))
        start: Any = vars(Canvas)["_startPage"]
        start(self)

    def save(self) -> None:
        """Write every page with its footer."""
        for number, state in enumerate(self._pages, start=1):
            self.__dict__.update(state)
            if number == 1:
                self._list()
            for page, step, x, y in self.asked:
                if page == number and step in self.steps:
                    self.setFont(metrics.PLAIN, CELL.fontSize)
                    self.drawString(x, y, str(self.steps[step]))
            self._foot(f"page {number} of {len(self._pages)}")
            super().showPage()
        super().save()

    def _list(self) -> None:
        """Write the list of sections in two columns, each with its page."""
        x, y = self.contents
        half = (vars(self)["_pagesize"][0] - 2 * x) / 2
        for i, (words, page) in enumerate(self.sections[: 2 * CONTENTS]):
            left, line = x + half * (i // CONTENTS), y - LINE * (i % CONTENTS + 1) + 3
            self.setFont(metrics.PLAIN, SIZE)
            self.drawRightString(left + 18, line, str(page))
            self.drawString(left + 24, line, words)

    def _foot(self, words: str) -> None:
        size = 9.0
        y = 5.5 * POINTS
        width = vars(self)["_pagesize"][0]
        right = width - 10 * POINTS
        self.setFillGray(0)
        self.setFont(metrics.PLAIN, size)
        self.drawRightString(right, y, words)
        height = size * metrics.CAP / POINTS
        room = (right - 10 * POINTS - 90) / POINTS - metrics.width(self.mark, height)
        letter(self, 10 * POINTS, y, metrics.fitted(self.footer, height, room) + self.mark, size)


def _headed(story: Sequence[Flowable]) -> Iterator[Flowable]:
    """Yield a story in which no heading ends a page."""
    for one in story:
        if isinstance(one, Heading) or (isinstance(one, Paragraph | Lines) and one.style is UNDER):
            yield CondPageBreak(ORPHAN)
        yield one


def bound(story: list[Flowable], facts: Facts, fingerprint: str, paper: str) -> bytes:
    """Return a story as a PDF whose pages carry title, fingerprint and number. The same story gives the same bytes."""
    metrics.font(metrics.PLAIN)
    metrics.font(metrics.BOLD)
    width, high = (n * POINTS for n in size_of(paper, True))
    out = BytesIO()
    doc = BaseDocTemplate(out, pagesize=(width, high), title=facts.title, creator="casewright", invariant=1)
    frame = Frame(MARGIN, MARGIN, width - 2 * MARGIN, high - 2 * MARGIN, 0, 0, 0, 0)
    whole = Frame(0, 0, width, high, 0, 0, 0, 0)
    doc.addPageTemplates([PageTemplate("text", [frame], pagesize=(width, high)),
                          PageTemplate("drawing", [whole], pagesize=(width, high))])  # fmt: skip
    canvas: Any = type(
        "Numbered",
        (_Numbered,),
        {
            "footer": " · ".join(word for word in (facts.stop_words, facts.title) if word),
            "mark": f" · plan {fingerprint}" if fingerprint else "",
        },
    )
    doc.build(list(_headed(story)), canvasmaker=canvas)
    return out.getvalue()
