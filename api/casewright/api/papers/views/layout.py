"""Each sheet and board as it is cut: the parts on it, what is left, and the number of every cut in working order."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.shapes import XY, Circle, Dimension, Hatch, Kind, Line, Shape, Shown, Text, View
from casewright.api.papers.facts import Facts
from casewright.api.papers.views.common import chosen
from casewright.api.papers.views.page import Area, Page, area_of, furniture, scale_for, table

RING = 2.3
COLUMNS, LINE = 3, 4.6
PLACES = (0.5, 0.35, 0.65, 0.2, 0.8, 0.08, 0.92, 0.42, 0.58, 0.27, 0.73, 0.14, 0.86)
Rectangle = tuple[float, float, float, float]


def layout(facts: Facts, subject: str | None, paper: str) -> list[Page]:
    """Return pages for each piece of stock, by its number; none where no cutting was planned."""
    layouts = {str(one["number"]): one for one in facts.stock.get("layouts", ())}
    return [page for n in chosen("layout", subject, list(layouts)) for page in _pages(facts, layouts[n], paper)]


def _pages(facts: Facts, one: Mapping[str, Any], paper: str) -> list[Page]:
    area = area_of(paper)
    numbers = {part: i + 1 for i, part in enumerate(dict.fromkeys(p["part"] for p in one["parts"]))}
    keys = [_key(facts, one, part, number) for part, number in numbers.items()]
    cuts = _cut_rows(facts, one)
    key_lines, cut_lines = -(-len(keys) // COLUMNS), -(-len(cuts) // COLUMNS)
    lines = min(key_lines, 9)
    held = lines * COLUMNS
    long, wide = (facts.nm(one[k]) / 1e6 for k in ("length", "width"))
    low = area.y0 + LINE * (lines + 1) + 5
    high = area.y1 - 9
    wish, _ = scale_for(facts, long, wide, (area.width - 24, high - low - 14))
    with_cuts = low + LINE * (cut_lines + 2)
    together = held >= len(keys) and wide * wish <= high - with_cuts - 14
    plot = Area(area.x0, with_cuts if together else low, area.x1, high)
    low = plot.y0
    room = (plot.width - 24, plot.height - 14)
    scale, name = scale_for(facts, long, wide, room)
    shapes, missed = _picture(facts, one, numbers, scale)
    at = (plot.x0 + 18 + (room[0] - long * scale) / 2, plot.y0 + 2 + (room[1] - wide * scale) / 2)
    extra: list[Shape] = [_heading(facts, one, area)]
    extra += _columns(area, low - 2, ("No.", "Part", "Size"), keys[:held], lines, (9.0, 36.0))
    if together:
        top = low - 2 - LINE * (lines + 1) - 3
        extra += _columns(area, top, ("Cut", "Makes", "Set"), cuts, cut_lines, (9.0, 36.0))
    if missed:
        said = "Too tight to number on the picture: cuts " + ", ".join(map(str, missed))
        extra.append(Text((area.x0, area.y1 - 7.5), metrics.fitted(said, 2.2, area.width), 2.2))
    pages = [Page(f"Layout {one['number']}", (View("layout", tuple(shapes), at, scale), furniture("key", extra)), name)]
    most = int((area.height - 8) / LINE)
    more = [("parts", ("No.", "Part", "Size"), keys[held:])]
    if not together:
        more.append(("cuts in order", ("Cut", "Makes", "Set"), cuts))
    for word, heads, rows in more:
        for start in range(0, len(rows), most * COLUMNS):
            some = rows[start : start + most * COLUMNS]
            shown = _columns(area, area.y1, heads, some, most, (9.0, 36.0))
            pages.append(Page(f"Layout {one['number']}, {word}", (furniture(word, shown),)))
    return pages


def _heading(facts: Facts, one: Mapping[str, Any], area: Area) -> Text:
    thick = facts.text(facts.nm(one["thickness"]))
    said = f"{one['kind']} {one['number']}: {one['stock']}, {one['material']}, {thick} thick"
    if one.get("use") is not None:
        said += f"; {one['use'] * 100:.0f} % becomes parts"
    return Text((area.x0, area.y1 - 3), metrics.fitted(metrics.clean(said), 2.5, area.width, True), bold=True)


def _columns(
    area: Area,
    top: float,
    heads: tuple[str, str, str],
    rows: Sequence[list[Text | str]],
    lines: int,
    ends: tuple[float, float],
) -> list[Shape]:
    """Return rows in three columns of tables, `lines` rows each; `ends` are the widths of first and last cells."""
    third = area.width / COLUMNS
    widths = (ends[0], third - sum(ends) - 2, ends[1])
    out: list[Shape] = []
    for c in range(COLUMNS):
        some = rows[c * lines : (c + 1) * lines]
        if some:
            out += table(area.x0 + c * third, top, heads, some, widths)
    return out


def _key(facts: Facts, one: Mapping[str, Any], part: str, number: int) -> list[Text | str]:
    placed = [p for p in one["parts"] if p["part"] == part]
    first = placed[0]
    sides = [facts.nm(first["along_length"]), facts.nm(first["along_width"])]
    said = " × ".join(facts.bare(n) for n in sides)
    times = f" ({len(placed)})" if len(placed) > 1 else ""
    shows = (Shown(part, "along the stock's length", sides[0]), Shown(part, "along the stock's width", sides[1]))
    return [str(number), metrics.clean(part) + times, Text((0, 0), said, shows=shows)]


def _cut_rows(facts: Facts, one: Mapping[str, Any]) -> list[list[Text | str]]:
    """Return the cuts in order: number, what it makes, the tool and its distance."""
    rows: list[list[Text | str]] = []
    made = {piece["piece"]: piece for piece in _pieces(one["tree"])}
    for cut in sorted(one["cuts"], key=lambda cut: int(cut["number"])):
        nm = facts.nm(cut["fence"])
        shown = (Shown(f"cut {cut['number']}", "fence", nm),)
        rows.append(
            [
                str(cut["number"]),
                _made(facts, made.get(cut["makes"], {})),
                Text((0, 0), f"{cut['tool']} {facts.bare(nm)}", shows=shown),
            ]
        )
    return rows


def _picture(
    facts: Facts, one: Mapping[str, Any], numbers: Mapping[str, int], scale: float
) -> tuple[list[Shape], list[int]]:
    def mm(value: float) -> float:
        return facts.nm(value) / 1e6

    tree = one["tree"]
    long, wide = mm(one["length"]), mm(one["width"])
    dx, dy = (long - mm(tree["length"])) / 2, (wide - mm(tree["width"])) / 2
    lines: list[Line] = _sides((0.0, 0.0, long, wide), Kind.WIDE)
    texts: list[Text] = []
    taken: list[Rectangle] = []
    shapes: list[Shape] = []
    for piece in _leaves(tree):
        x0, y0 = mm(piece["x"]) + dx, mm(piece["y"]) + dy
        box = (x0, y0, x0 + mm(piece["length"]), y0 + mm(piece["width"]))
        if piece["what"] == "part":
            lines += _sides(box, Kind.WIDE)
            text = _name(str(numbers[piece["part"]]), piece["part"], box, scale)
        elif piece["what"] == "leftover":
            lines += _sides(box, Kind.NARROW)
            said = f"keep {facts.bare(facts.nm(piece['length']))} × {facts.bare(facts.nm(piece['width']))}"
            text = _name("", said, box, scale)
        else:
            lines += _sides(box, Kind.NARROW)
            shapes.append(Hatch((((box[0], box[1]), (box[2], box[1]), (box[2], box[3]), (box[0], box[3])),), 45, 3.0))
            text = None
        if text is not None:
            texts.append(text)
            taken.append(_room(text, scale))
    rings, missed = _rings(list(_cuts(tree, mm, dx, dy)), taken, scale)
    shapes += _broken(lines, [c for c, _ in rings], RING / scale)
    for (x, y), number in rings:
        shapes.append(Circle((x, y), RING / scale, Kind.NARROW))
        shapes.append(Text((x, y), str(number), 1.8, "middle", shift=(0, -0.9)))
    shapes += texts
    shapes.append(Dimension("x", 0.0, long, wide, 7, facts.bare(facts.nm(one["length"])),
                            (Shown(one["stock"], "length", facts.nm(one["length"])),)))  # fmt: skip
    shapes.append(Dimension("y", 0.0, wide, 0.0, -7, facts.bare(facts.nm(one["width"])),
                            (Shown(one["stock"], "width", facts.nm(one["width"])),)))  # fmt: skip
    return shapes, missed


def _leaves(piece: Mapping[str, Any]) -> Iterator[Mapping[str, Any]]:
    inside = piece.get("inside", ())
    if not inside:
        yield piece
    for kid in inside:
        yield from _leaves(kid)


def _pieces(piece: Mapping[str, Any]) -> Iterator[Mapping[str, Any]]:
    yield piece
    for kid in piece.get("inside", ()):
        yield from _pieces(kid)


def _made(facts: Facts, piece: Mapping[str, Any]) -> str:
    """Return what a cut makes: the part's id, or a piece by its size."""
    if piece.get("part"):
        return metrics.clean(piece["part"])
    if not piece:
        return "piece"
    return f"piece {facts.bare(facts.nm(piece['length']))} × {facts.bare(facts.nm(piece['width']))}"


def _sides(b: Rectangle, kind: Kind) -> list[Line]:
    corners = [(b[0], b[1]), (b[2], b[1]), (b[2], b[3]), (b[0], b[3])]
    return [Line(p, corners[(i + 1) % 4], kind) for i, p in enumerate(corners)]


def _name(number: str, said: str, box: Rectangle, scale: float) -> Text | None:
    """Return what fits in a rectangle: number and name, the number alone, or nothing; upright where it is narrow."""
    wide, high = (box[2] - box[0]) * scale - 1.2, (box[3] - box[1]) * scale - 1.2
    middle = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
    said = metrics.clean(said)
    for words, height in ((f"{number}  {said}".strip(), 2.2), (number or said, 2.2), (number, 1.8)):
        if not words:
            continue
        long = metrics.width(words, height)
        if long <= wide and height <= high:
            return Text(middle, words, height, "middle", shift=(0, -height / 2))
        if long <= high and height <= wide:
            return Text(middle, words, height, "middle", 90, shift=(height / 2, 0))
    return None


def _room(text: Text, scale: float) -> Rectangle:
    long, h = metrics.width(text.text, text.height) / 2 + 0.8, text.height / 2 + 0.8
    dx, dy = (long, h) if text.angle == 0 else (h, long)
    x, y = text.at
    return (x - dx / scale, y - dy / scale, x + dx / scale, y + dy / scale)


def _cuts(piece: Mapping[str, Any], mm: Any, dx: float, dy: float) -> Iterator[tuple[int, XY, XY]]:
    """Yield each cut of a piece and of what lies in it: number, and from where to where its kerf runs."""
    inside = piece.get("inside", ())
    x0, y0 = mm(piece["x"]) + dx, mm(piece["y"]) + dy
    x1, y1 = x0 + mm(piece["length"]), y0 + mm(piece["width"])
    for number, kid in zip(piece.get("cuts", ()), inside, strict=False):
        right = mm(kid["x"]) + mm(kid["length"]) + dx
        upper = mm(kid["y"]) + mm(kid["width"]) + dy
        if mm(kid["length"]) == mm(piece["length"]):
            yield number, (x0, upper), (x1, upper)
        else:
            yield number, (right, y0), (right, y1)
    for kid in inside:
        yield from _cuts(kid, mm, dx, dy)


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


def _broken(lines: Sequence[Line], centres: Sequence[XY], r: float) -> list[Shape]:
    """Return level and upright lines with what lies in the rings left out."""
    out: list[Shape] = []
    for line in lines:
        axis = 0 if abs(line.a[0] - line.b[0]) > abs(line.a[1] - line.b[1]) else 1
        low, high = sorted((line.a[axis], line.b[axis]))
        off = line.a[1 - axis]
        gaps = []
        for c in centres:
            away = abs(c[1 - axis] - off)
            if away < r and low - r < c[axis] < high + r:
                half = (r * r - away * away) ** 0.5
                gaps.append((c[axis] - half, c[axis] + half))
        at = low
        for g0, g1 in sorted(gaps):
            if g0 > at:
                out.append(_along(axis, at, g0, off, line.kind))
            at = max(at, g1)
        if at < high:
            out.append(_along(axis, at, high, off, line.kind))
    return out


def _along(axis: int, a: float, b: float, off: float, kind: Kind) -> Line:
    return Line((a, off), (b, off), kind) if axis == 0 else Line((off, a), (off, b), kind)
