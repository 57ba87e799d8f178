"""A line of text on a PDF page: in embedded fonts, or as shaped outlines over the same words unseen, for a search."""

from typing import Any

from casewright.api.papers import text as metrics
from casewright.api.papers.shaping import SCRIPTS, Run, shape
from reportlab.pdfgen.canvas import Canvas

HEAVY = 0.03
"""Width of the line that makes outlines bold, as a share of the font size."""


def letter(canvas: Canvas, x: float, y: float, words: str, size: float, bold: bool = False) -> None:
    """Write a line from x on the base line y, in the canvas's units; `size` is the font size."""
    for run in metrics.runs(words, bold):
        length = metrics.long(run) * size
        if run.font in SCRIPTS:
            _outlines(canvas, x, y, run, size, bold)
        else:
            canvas.setFont(run.font, size)
            canvas.drawString(x, y, run.text)
        x += length


def _outlines(canvas: Canvas, x: float, y: float, run: Run, size: float, bold: bool) -> None:
    made = shape(run)
    path: Any = canvas.beginPath()
    for glyph in made.glyphs:
        for move in glyph.outline:
            points = [(x + (glyph.at[0] + u) * size, y + (glyph.at[1] + v) * size) for u, v in move.points]
            flat = [n for point in points for n in point]
            {"move": path.moveTo, "line": path.lineTo, "curve": path.curveTo, "close": path.close}[move.kind](*flat)
    canvas.saveState()
    canvas.setLineWidth(HEAVY * size)
    canvas.setDash([])
    canvas.drawPath(path, stroke=int(bold), fill=1, fillMode=1)
    natural = float(metrics.font(run.font).stringWidth(made.text, size))
    canvas.setFont(run.font, size)
    unseen = canvas.beginText(x, y)
    unseen.setTextRenderMode(3)
    unseen.setHorizScale(100 * made.length * size / natural if natural else 100)
    unseen.textOut(made.text)
    unseen.setHorizScale(100)
    unseen.setTextRenderMode(0)
    canvas.drawText(unseen)
    canvas.restoreState()
