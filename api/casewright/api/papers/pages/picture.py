"""A picture among the words of a page, and words with a picture beside them."""

from collections.abc import Sequence

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.pdf import POINTS, draw_sheet
from casewright.api.papers.drawing.shapes import Sheet, View
from reportlab.platypus import Flowable, Table, TableStyle

_BARE = TableStyle(
    [
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("FONTNAME", (0, 0), (-1, -1), metrics.PLAIN),
        ("LEFTPADDING", (0, 0), (0, -1), 0),
        ("LEFTPADDING", (1, 0), (1, -1), 8),
        ("RIGHTPADDING", (0, 0), (-1, -1), 0),
        ("TOPPADDING", (0, 0), (-1, -1), 0),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 0),
    ]
)

_ROW = TableStyle([*_BARE.getCommands(), ("LEFTPADDING", (0, 0), (-1, -1), 0)])


class Picture(Flowable):
    """Views drawn in the run of the text, `width` by `high` mm."""

    def __init__(self, views: Sequence[View], width: float, high: float) -> None:
        super().__init__()
        self.sheet = Sheet("", "", width, high, "mm", tuple(views))
        self.width, self.height = width * POINTS, high * POINTS

    def draw(self) -> None:
        """Draw them from the lower left corner."""
        draw_sheet(self.canv, self.sheet)


def beside(
    heading: Flowable, words: Flowable, pictures: Sequence[Flowable], shares: tuple[float, float]
) -> list[Flowable]:
    """Return words with pictures on their right under a heading; `shares` sum to 100."""
    widths = [f"{share}%" for share in shares]
    return [heading, Table([[words, list(pictures)]], colWidths=widths, style=_BARE, spaceAfter=6)]


def row_of(pictures: Sequence[Picture], between: float) -> Flowable:
    """Return pictures beside one another, `between` mm apart, the tops level."""
    gaps = [between * POINTS] * (len(pictures) - 1)
    widths = [one.width + gap for one, gap in zip(pictures, [*gaps, 0.0], strict=True)]
    made = Table([list(pictures)], colWidths=widths, style=_ROW, spaceAfter=between * POINTS)
    made.hAlign = "LEFT"
    return made
