"""The picture of a piece of stock: its parts and leftovers by name, and each cut by its number on its line."""

from collections.abc import Iterator, Mapping, Sequence

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.ringed import ringed
from casewright.api.papers.drawing.shapes import (
    TEXT,
    XY,
    Circle,
    Dimension,
    Hatch,
    Kind,
    Line,
    Shape,
    Shown,
    Text,
)
from casewright.api.papers.facts import Facts, mm
from casewright.sdk.model import CutPiece, StockLayout

RING = 2.8
"""Radius of the ring round a cut's number, mm of paper."""

PLACES = (0.5, 0.35, 0.65, 0.2, 0.8, 0.08, 0.92, 0.42, 0.58, 0.27, 0.73, 0.14, 0.86)
"""Where along its line a cut's number is tried, as shares of the line."""

Rectangle = tuple[float, float, float, float]  # x0, y0, x1, y1, mm


def layout_picture(
    facts: Facts,
    layout: StockLayout,
    numbers: Mapping[str, int],
    scale: float,
    steps: Mapping[int, int] | None = None,
) -> tuple[list[Shape], list[int], frozenset[str]]:
    """Return the shapes of a layout, the numbers of the cuts that found no room, and the parts not named in full.

    `numbers` are of the parts.

    A cut's ring holds its number among the cuts, or the step that `steps` gives for it; one without a step has none.
    """
    tree = layout.tree
    corner = ((mm(layout.length) - mm(tree.dx)) / 2, (mm(layout.width) - mm(tree.dy)) / 2)
    sheet = (0.0, 0.0, mm(layout.length), mm(layout.width))
    lines: list[Line] = _sides(sheet, Kind.WIDE)
    texts: list[Text] = []
    short: set[str] = set()
    shapes: list[Shape] = []
    for piece in _leaves(tree):
        box = _box(piece, corner)
        lines += _sides(box, Kind.WIDE if piece.what == "part" else Kind.NARROW)
        if piece.what == "part":
            words = _full(f"{numbers[piece.part]}  {metrics.clean(piece.part)}", _size(facts, piece), box, scale)
            if not words:
                short.add(piece.part)
                words = _name(str(numbers[piece.part]), piece.part, box, scale)
        elif piece.what == "leftover":
            words = _full("keep", _size(facts, piece), box, scale)
        else:
            x0, y0, x1, y1 = box
            shapes.append(Hatch((((x0, y0), (x1, y0), (x1, y1), (x0, y1)),), 45, 3.0))
            words = []
        texts += words
    every = _cuts(tree, corner)
    cuts = [*every] if steps is None else [(steps[number], a, b) for number, a, b in every if number in steps]
    rings, missed = _rings(cuts, [_room(text, scale) for text in texts], scale)
    shapes += ringed(lines, [centre for centre, _ in rings], RING / scale)
    for centre, number in rings:
        shapes.append(Circle(centre, RING / scale, Kind.NARROW))
        shapes.append(Text(centre, str(number), TEXT, "middle", shift=(0, -TEXT / 2)))
    shapes += texts
    _, _, right, top = sheet
    shapes.append(Dimension("x", 0.0, right, top, 6, facts.bare(layout.length),
                            (Shown(layout.stock, "length", layout.length),)))  # fmt: skip
    shapes.append(Dimension("y", 0.0, top, 0.0, -7, facts.bare(layout.width),
                            (Shown(layout.stock, "width", layout.width),)))  # fmt: skip
    return shapes, missed, frozenset(short)


def _leaves(piece: CutPiece) -> Iterator[CutPiece]:
    if not piece.inside:
        yield piece
    for inner in piece.inside:
        yield from _leaves(inner)


def _box(piece: CutPiece, corner: XY) -> Rectangle:
    x0, y0 = mm(piece.x) + corner[0], mm(piece.y) + corner[1]
    return (x0, y0, x0 + mm(piece.dx), y0 + mm(piece.dy))


def _cuts(piece: CutPiece, corner: XY) -> Iterator[tuple[int, XY, XY]]:
    """Yield each cut of a piece and of what lies in it: number, and from where to where its kerf runs."""
    x0, y0, x1, y1 = _box(piece, corner)
    for number, inner in zip(piece.cuts, piece.inside, strict=False):
        right = mm(inner.x) + mm(inner.dx) + corner[0]
        upper = mm(inner.y) + mm(inner.dy) + corner[1]
        if inner.dx == piece.dx:
            yield number, (x0, upper), (x1, upper)
        else:
            yield number, (right, y0), (right, y1)
    for inner in piece.inside:
        yield from _cuts(inner, corner)


def _sides(b: Rectangle, kind: Kind) -> list[Line]:
    corners = [(b[0], b[1]), (b[2], b[1]), (b[2], b[3]), (b[0], b[3])]
    return [Line(p, corners[(i + 1) % 4], kind) for i, p in enumerate(corners)]


def _size(facts: Facts, piece: CutPiece) -> str:
    return f"{facts.bare(piece.dx)} × {facts.bare(piece.dy)}"


def _full(name: str, size: str, box: Rectangle, scale: float) -> list[Text]:
    """Return name and size where a rectangle holds both, on one line or two, upright where it is narrow."""
    width, high = (box[2] - box[0]) * scale - 1.2, (box[3] - box[1]) * scale - 1.2
    for lines in ([f"{name}  {size}"], [name, size]):
        long, deep = max(metrics.width(line, TEXT) for line in lines), len(lines) * (TEXT + 1.2) - 1.2
        for angle, room in ((0, (width, high)), (90, (high, width))):
            if long <= room[0] and deep <= room[1]:
                return [_line(line, box, deep / 2 - TEXT - i * (TEXT + 1.2), angle) for i, line in enumerate(lines)]
    return []


def _line(words: str, box: Rectangle, off: float, angle: int) -> Text:
    """Return a line of text in the middle of a rectangle, its base line `off` mm of paper above the middle."""
    middle = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
    return Text(middle, words, TEXT, "middle", angle, shift=(0, off) if angle == 0 else (-off, 0))


def _name(number: str, name: str, box: Rectangle, scale: float) -> list[Text]:
    """Return what fits in a rectangle: number and name, the number alone, or nothing; upright where it is narrow."""
    width, high = (box[2] - box[0]) * scale - 1.2, (box[3] - box[1]) * scale - 1.2
    middle = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
    name = metrics.clean(name)
    for words, more in ((f"{number}  {name}".strip(), 0.0), (number or name, 0.0), (number, 0.8)):
        if not words:
            continue
        long = metrics.width(words, TEXT)
        if long <= width + more and high + more >= TEXT:
            return [Text(middle, words, TEXT, "middle", shift=(0, -TEXT / 2))]
        if long <= high + more and width + more >= TEXT:
            return [Text(middle, words, TEXT, "middle", 90, shift=(TEXT / 2, 0))]
    return []


def _room(text: Text, scale: float) -> Rectangle:
    """Return the room round a line of text."""
    half, clear = metrics.width(text.text, text.height) / 2 + 0.8, 0.8
    x, y = text.at
    if text.angle == 0:
        low = text.shift[1] - clear
        return (x - half / scale, y + low / scale, x + half / scale, y + (low + text.height + 2 * clear) / scale)
    right = text.shift[0] + clear
    return (x + (right - text.height - 2 * clear) / scale, y - half / scale, x + right / scale, y + half / scale)


def _rings(
    cuts: Sequence[tuple[int, XY, XY]], taken: list[Rectangle], scale: float
) -> tuple[list[tuple[XY, int]], list[int]]:
    """Return where each cut's number stands on its line, clear of others; those without room are told apart."""
    rings: list[tuple[XY, int]] = []
    missed: list[int] = []
    r = RING / scale
    for number, a, b in sorted(cuts, key=lambda cut: abs(cut[1][0] - cut[2][0]) + abs(cut[1][1] - cut[2][1])):
        long = abs(a[0] - b[0]) + abs(a[1] - b[1])
        spot = None
        for share in PLACES:
            p = (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]))
            if min(share, 1 - share) * long < r * 0.9:
                continue
            box = (p[0] - r, p[1] - r, p[0] + r, p[1] + r)
            if not any(box[0] < t[2] and t[0] < box[2] and box[1] < t[3] and t[1] < box[3] for t in taken):
                spot = p
                taken.append(box)
                break
        if spot is None:
            missed.append(number)
        else:
            rings.append((spot, number))
    return rings, sorted(missed)
