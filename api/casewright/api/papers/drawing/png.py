"""A sheet as PNG, for a look on the screen: the same marks as the other writers draw, at 150 dots an inch."""

from io import BytesIO
from itertools import pairwise

from casewright.api.papers import shaping
from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.inked import Label, Mark, Round
from casewright.api.papers.drawing.marks import on_paper
from casewright.api.papers.drawing.shapes import XY, Kind, Sheet
from PIL import Image, ImageDraw, ImageFont

DOTS = 150 / 25.4
"""Dots a mm of paper."""


def to_png(sheet: Sheet) -> bytes:
    """Return one sheet as a PNG picture, black on white."""
    picture = Image.new("L", (round(sheet.width * DOTS), round(sheet.height * DOTS)), 255)
    draw = ImageDraw.Draw(picture)

    def dot(p: XY) -> XY:
        return (p[0] * DOTS, (sheet.height - p[1]) * DOTS)

    for mark in on_paper(sheet):
        if isinstance(mark, Label):
            _write(picture, mark, dot(mark.at))
        elif isinstance(mark, Round):
            x, y = dot(mark.centre)
            r = mark.radius * DOTS
            draw.arc((x - r, y - r, x + r, y + r), -mark.end, -mark.start, 0, _wide(mark.kind))
        else:
            _line(draw, mark, [dot(p) for p in mark.points])
    out = BytesIO()
    picture.save(out, "PNG", optimize=True)
    return out.getvalue()


def _wide(kind: Kind) -> int:
    return max(1, round(kind.width * DOTS))


def _line(draw: ImageDraw.ImageDraw, mark: Mark, points: list[XY]) -> None:
    if mark.solid:
        draw.polygon(points, fill=0)
        return
    if mark.closed:
        points = [*points, points[0]]
    for start, end in pairwise(points):
        for a, b in _dashes(start, end, mark.kind):
            draw.line((*a, *b), fill=0, width=_wide(mark.kind))


def _dashes(start: XY, end: XY, kind: Kind) -> list[tuple[XY, XY]]:
    """Return what is drawn of a straight line: all of it, or its dashes."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    long = (dx * dx + dy * dy) ** 0.5
    if not kind.dashes or long == 0:
        return [(start, end)]
    out, at, number = [], 0.0, 0
    while at < long:
        step = kind.dashes[number % len(kind.dashes)] * DOTS
        if number % 2 == 0:
            stop = min(at + step, long)
            out.append(
                ((start[0] + dx * at / long, start[1] + dy * at / long),
                 (start[0] + dx * stop / long, start[1] + dy * stop / long))
            )  # fmt: skip
        at, number = at + step, number + 1
    return out


def _face(bold: bool) -> str:
    return str(shaping.FONTS / ("bold.ttf" if bold else "plain.ttf"))


def _write(picture: Image.Image, label: Label, at: XY) -> None:
    font = ImageFont.truetype(_face(label.bold), label.height / metrics.CAP * DOTS)
    anchor = {"start": "ls", "middle": "ms", "end": "rs"}[label.anchor]
    if label.angle == 0:
        ImageDraw.Draw(picture).text(at, label.text, fill=0, font=font, anchor=anchor)
        return
    left, top, right, low = font.getbbox(label.text, anchor="ls")
    wide, high = int(right - left) + 2, int(low - top) + 2
    words = Image.new("L", (wide, high), 0)
    ImageDraw.Draw(words).text((-left, -top), label.text, fill=255, font=font, anchor="ls")
    turned = words.rotate(90, expand=True)
    back = {"start": 0.0, "middle": wide / 2, "end": float(wide)}[label.anchor]
    picture.paste(0, (round(at[0] + top), round(at[1] - wide + back)), turned)
