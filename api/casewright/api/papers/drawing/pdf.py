"""Sheets as PDF, through reportlab: vector lines, embedded fonts, text that can be searched."""

from collections.abc import Iterable
from io import BytesIO
from typing import Any

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.inked import AnyMark, Label, Mark, Round
from casewright.api.papers.drawing.lettering import letter
from casewright.api.papers.drawing.marks import on_paper
from casewright.api.papers.drawing.shapes import Kind, Sheet
from reportlab import rl_config
from reportlab.pdfgen.canvas import Canvas

rl_config.useA85 = 0
"""What pages hold is compressed and left as bytes: as letters it is a quarter longer."""

POINTS = 72 / 25.4
"""PDF points in a mm."""


NON_ZERO = 1
"""What is filled of outlines that lie over one another: all of it (ISO 32000-1, 8.5.3.3.2)."""


def to_pdf(sheets: Iterable[Sheet]) -> bytes:
    """Return sheets as one PDF, a page each, at true size. The same sheets always give the same bytes."""
    out = BytesIO()
    canvas: Canvas | None = None
    for sheet in sheets:
        size = (sheet.width * POINTS, sheet.height * POINTS)
        if canvas is None:
            metrics.font(metrics.PLAIN)
            first: Any = metrics.PLAIN
            canvas = Canvas(out, pagesize=size, invariant=1, pageCompression=1, initialFontName=first)
            canvas.setTitle(metrics.clean(sheet.title))
            canvas.setCreator("casewright")
            canvas.setProducer("casewright")
            canvas.setAuthor("")
            canvas.setViewerPreference("PrintScaling", "None")
        canvas.setPageSize(size)
        draw_sheet(canvas, sheet)
        canvas.showPage()
    if canvas is None:
        raise ValueError("no sheets to write")
    canvas.save()
    return out.getvalue()


def draw_sheet(canvas: Canvas, sheet: Sheet) -> None:
    """Draw a sheet on the canvas's present page, its lower left corner at the origin."""
    canvas.saveState()
    canvas.scale(POINTS, POINTS)
    canvas.setLineJoin(1)
    strokes: dict[Kind, list[AnyMark]] = {kind: [] for kind in Kind}
    solids: list[Mark] = []
    labels: list[Label] = []
    for mark in on_paper(sheet):
        if isinstance(mark, Label):
            labels.append(mark)
        elif isinstance(mark, Mark) and mark.solid:
            solids.append(mark)
        else:
            strokes[mark.kind].append(mark)
    for kind, lines in strokes.items():
        if lines:
            canvas.setLineWidth(kind.width)
            canvas.setLineCap(0 if kind.dashes else 1)
            canvas.setDash(list(kind.dashes))
            _stroke(canvas, lines)
    if solids:
        path = canvas.beginPath()
        for solid in solids:
            _follow(path, solid)
        canvas.drawPath(path, stroke=0, fill=1, fillMode=NON_ZERO)
    for label in labels:
        _label(canvas, label)
    canvas.restoreState()


def _stroke(canvas: Canvas, lines: list[AnyMark]) -> None:
    path = canvas.beginPath()
    for mark in lines:
        if isinstance(mark, Mark):
            _follow(path, mark)
        elif isinstance(mark, Round):
            (x, y), r = mark.centre, mark.radius
            if mark.end - mark.start >= 360:
                path.circle(x, y, r)
            else:
                _arc(path, x, y, r, mark)
    canvas.drawPath(path, stroke=1, fill=0)


def _follow(path: Any, mark: Mark) -> None:
    path.moveTo(*mark.points[0])
    for point in mark.points[1:]:
        path.lineTo(*point)
    if mark.closed:
        path.close()


def _arc(path: Any, x: float, y: float, r: float, mark: Round) -> None:
    path.arc(x - r, y - r, x + r, y + r, mark.start, mark.end - mark.start)


def _label(canvas: Canvas, label: Label) -> None:
    words = metrics.clean(label.text)
    if not words:
        return
    long = metrics.width(words, label.height, label.bold)
    start = {"start": 0.0, "middle": -long / 2, "end": -long}[label.anchor]
    size = label.height / metrics.CAP
    canvas.saveState()
    canvas.translate(*label.at)
    if label.angle:
        canvas.rotate(label.angle)
    letter(canvas, start, 0, words, size, label.bold)
    canvas.restoreState()
