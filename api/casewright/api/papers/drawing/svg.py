"""A sheet as SVG: paths and text only, no style sheet, no script, nothing fetched."""

from math import cos, pi, sin
from xml.sax.saxutils import escape, quoteattr

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.inked import AnyMark, Label, Mark, Round
from casewright.api.papers.drawing.marks import on_paper
from casewright.api.papers.drawing.shapes import Kind, Sheet

FAMILY = "'DejaVu Sans Condensed','DejaVu Sans',Verdana,sans-serif"


def to_svg(sheet: Sheet) -> str:
    """Return one sheet as an SVG document in mm. Text lengths are set, so that any font keeps the layout."""
    lines: dict[Kind, list[str]] = {kind: [] for kind in Kind}
    solids: list[str] = []
    labels: list[str] = []
    for mark in on_paper(sheet):
        _sort(mark, sheet.height, lines, solids, labels)
    w, h = _n(sheet.width), _n(sheet.height)
    out = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{w}mm" height="{h}mm" viewBox="0 0 {w} {h}" role="img">',
        f"<title>{escape(metrics.clean(f'{sheet.title}: {sheet.name}'))}</title>",
        f'<rect width="{w}" height="{h}" fill="white"/>',
        '<g fill="none" stroke="black" stroke-linecap="round" stroke-linejoin="round">',
    ]
    for kind, paths in lines.items():
        if paths:
            dash = f' stroke-dasharray="{" ".join(_n(d) for d in kind.dashes)}"' if kind.dashes else ""
            cap = ' stroke-linecap="butt"' if kind.dashes else ""
            out.append(f'<path stroke-width="{_n(kind.width)}"{dash}{cap} d="{"".join(paths)}"/>')
    out.append("</g>")
    if solids:
        out.append(f'<path fill="black" d="{"".join(solids)}"/>')
    out.append(f'<g fill="black" font-family="{FAMILY}">')
    out += labels
    out.append("</g></svg>\n")
    return "\n".join(out)


def _sort(mark: AnyMark, height: float, lines: dict[Kind, list[str]], solids: list[str], labels: list[str]) -> None:
    if isinstance(mark, Label):
        labels.append(_text(mark, height))
    elif isinstance(mark, Round):
        lines[mark.kind].append(_round(mark, height))
    else:
        (solids if mark.solid else lines[mark.kind]).append(_path(mark, height))


def _path(mark: Mark, height: float) -> str:
    points = [f"{_n(x)} {_n(height - y)}" for x, y in mark.points]
    return "M" + "L".join(points) + ("Z" if mark.closed else "")


def _round(mark: Round, height: float) -> str:
    (x, y), r = mark.centre, mark.radius
    y = height - y
    if mark.end - mark.start >= 360:
        return (
            f"M{_n(x + r)} {_n(y)}A{_n(r)} {_n(r)} 0 1 0 {_n(x - r)} {_n(y)}A{_n(r)} {_n(r)} 0 1 0 {_n(x + r)} {_n(y)}Z"
        )
    a, b = mark.start * pi / 180, mark.end * pi / 180
    big = 1 if mark.end - mark.start > 180 else 0
    return (
        f"M{_n(x + r * cos(a))} {_n(y - r * sin(a))}"
        f"A{_n(r)} {_n(r)} 0 {big} 0 {_n(x + r * cos(b))} {_n(y - r * sin(b))}"
    )


def _text(label: Label, height: float) -> str:
    x, y = _n(label.at[0]), _n(height - label.at[1])
    words = metrics.clean(label.text)
    long = metrics.width(words, label.height, label.bold)
    if not words or long <= 0:
        return ""
    turn = f' transform="rotate(-90 {x} {y})"' if label.angle == 90 else ""
    bold = ' font-weight="bold"' if label.bold else ""
    anchor = "" if label.anchor == "start" else f" text-anchor={quoteattr(label.anchor)}"
    size = _n(label.height / metrics.CAP)
    return (
        f'<text x="{x}" y="{y}" font-size="{size}"{bold}{anchor}{turn} textLength="{_n(long)}" '
        f'lengthAdjust="spacingAndGlyphs">{escape(words)}</text>'
    )


def _n(value: float) -> str:
    """Return a number of mm to a ten-thousandth, without needless zeros."""
    words = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if words in ("-0", "") else words
