"""A story bound as a PDF: frames of its pages, what their footers carry, no heading at a page's end."""

from collections.abc import Iterator, Sequence
from io import BytesIO
from typing import Any

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.pdf import POINTS
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.canvas import Numbered
from casewright.api.papers.pages.lines import Lines
from casewright.api.papers.pages.setting import MARGIN, UNDER, Heading
from casewright.api.papers.views.page import size_of
from reportlab.platypus import BaseDocTemplate, CondPageBreak, Flowable, Frame, PageTemplate, Paragraph

ORPHAN = 80.0
"""Room in points that a heading wants below itself."""


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
        "Footed",
        (Numbered,),
        {
            "footer": " · ".join(word for word in (facts.stop_words, facts.title) if word),
            "mark": f" · plan {fingerprint}" if fingerprint else "",
        },
    )
    doc.build(list(_headed(story)), canvasmaker=canvas)
    return out.getvalue()
