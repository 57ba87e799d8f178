"""A paragraph in which some text is of a script that is shaped: the PDF library breaks lines of other text itself."""

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.lettering import letter
from casewright.api.papers.drawing.pdf import POINTS
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Flowable

MOST = 10_000
"""Lines of one paragraph, more than any text here has."""


class Lines(Flowable):
    """A paragraph broken into lines at spaces, each ordered and shaped by itself."""

    def __init__(self, words: str, style: ParagraphStyle, lines: tuple[str, ...] = ()) -> None:
        super().__init__()
        self.words, self.style, self.lines = words, style, lines
        self.spaceBefore, self.spaceAfter = style.spaceBefore, style.spaceAfter

    def wrap(self, room: float, high: float) -> tuple[float, float]:
        """Break it into lines."""
        bold = self.style.fontName == metrics.BOLD
        height = self.style.fontSize * metrics.CAP / POINTS
        if self.words:
            self.lines = tuple(metrics.wrapped(self.words, height, room / POINTS, MOST, bold))
        self.width, self.height = room, self.style.leading * len(self.lines)
        return (self.width, self.height)

    def split(self, room: float, high: float) -> list[Flowable]:
        """Return the lines that have room and the others; nothing where none has."""
        self.wrap(room, high)
        fits = int(high // self.style.leading)
        if fits < 1:
            return []
        return [Lines("", self.style, part) for part in (self.lines[:fits], self.lines[fits:]) if part]

    def draw(self) -> None:
        """Draw its frame, if it has one, and its lines."""
        style = self.style
        around = style.borderPadding
        if style.borderWidth:
            self.canv.setLineWidth(style.borderWidth)
            self.canv.rect(-around, -around, self.width + 2 * around, self.height + 2 * around)
        for i, line in enumerate(self.lines):
            y = self.height - style.leading * i - style.fontSize
            letter(self.canv, 0, y, line, style.fontSize, style.fontName == metrics.BOLD)
