"""The cabinet in isometric projection, put together and taken apart, every part with its number."""

from collections.abc import Callable, Hashable, Sequence
from math import fsum

from casewright.api.engine.work.naming import in_a_row
from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.hidden import ISOMETRIC, Eye, sight
from casewright.api.papers.drawing.shapes import TEXT, XY, Circle, Kind, Line, Shape, Shown, Text, View
from casewright.api.papers.drawing.solids import XYZ, Solid
from casewright.api.papers.facts import Facts, mm
from casewright.api.papers.views.common import WALL_ROLES, bounds, chosen, picture, placed_box, solids_of
from casewright.api.papers.views.page import Area, Page, area_of, centred, furniture, scale_for, table
from casewright.sdk.model import Cabinet, Part

RING = 2.9
HEADS = ("No.", "Part")
SIZE = 18.0
"""Width of a size in the key beside the picture, mm."""

LINE = 4.6
"""Height of a line of the key, mm."""

STEP = 6.6
"""Between two balloons, mm of paper."""


def isometric(facts: Facts, subject: str | None, paper: str) -> list[Page]:
    """Return three or more pages a cabinet: put together, taken apart, and the list of its parts."""
    cabinets = [facts.cabinets[c] for c in chosen("isometric", subject, list(facts.cabinets))]
    return [
        page for cabinet in cabinets for page in (*assembled(facts, cabinet, paper), *exploded(facts, cabinet, paper))
    ]


def assembled(facts: Facts, cabinet: Cabinet, paper: str) -> list[Page]:
    """Return the cabinet as it hangs."""
    solids = [s for s in solids_of(facts, cabinet.id) if s.part.role not in WALL_ROLES]
    shapes = picture(solids, ISOMETRIC, Kind.NARROW)
    area = area_of(paper)
    x0, y0, x1, y1 = bounds(solids, ISOMETRIC)
    room = (area.width - 10, area.height - 10)
    scale, name = scale_for(facts, x1 - x0, y1 - y0, room)
    at = centred((area.x0, area.y0), (area.width, area.height), (x0, y0, x1, y1), scale)
    return [Page(f"Isometric view of {cabinet.id}", (View("isometric", tuple(shapes), at, scale),), name)]


def offset(part: Part, cabinet: Cabinet) -> XYZ:
    """Return how far a part moves, in mm, when the cabinet is taken apart."""
    w, d, h = mm(cabinet.width), mm(cabinet.depth), mm(cabinet.height)
    reach = max(d, 0.35 * max(w, h), 120.0)
    if part.group.startswith(("door-", "drawer-")):
        return (0.0, -1.5 * reach, 0.0)
    if part.group == "face-frame":
        return (0.0, -0.7 * reach, 0.0)
    if part.role == "wall-cleat":
        return (0.0, 1.9 * reach, 0.0)
    if part.group == "mounting":
        return (0.0, 1.35 * reach, 0.0)
    if part.role == "back":
        return (0.0, 0.8 * reach, 0.0)
    box = placed_box(part)
    if part.role == "side":
        left = mm(box.x0 + box.x1) < w
        return (-0.55 * reach if left else 0.55 * reach, 0.0, 0.0)
    if part.role == "top":
        return (0.0, 0.0, 0.35 * reach)
    if part.role in ("bottom", "plinth"):
        return (0.0, 0.0, -0.35 * reach)
    return (0.0, 0.0, 0.0)


def exploded(facts: Facts, cabinet: Cabinet, paper: str) -> list[Page]:
    """Return the cabinet taken apart, with numbers, and the list they stand for."""
    area, parts = area_of(paper), list(facts.of(cabinet.id))
    return [_apart(facts, cabinet, area, _like_doors(parts)), *_lists(facts, cabinet, parts, area)]


def _apart(facts: Facts, cabinet: Cabinet, area: Area, alike: Sequence[Sequence[int]]) -> Page:
    """Return the picture, on which the first part of each row of like ones has its number."""
    solids = [s.moved(offset(s.part, cabinet)) for s in solids_of(facts, cabinet.id)]
    most = 2 * int((area.height - 4) / STEP)
    x0, y0, x1, y1 = bounds(solids, ISOMETRIC)
    room = (area.width - 44, area.height - 6)
    scale, name = scale_for(facts, x1 - x0, y1 - y0, room)
    at = centred((area.x0, area.y0), (area.width, area.height), (x0, y0, x1, y1), scale)
    shapes = picture(solids, ISOMETRIC, Kind.NARROW)
    repeated = {i for row in alike for i in row[1:]}
    spots = {i: spot for i, spot in anchors(solids).items() if i not in repeated}
    numbers = balloons({i: (at[0] + p[0] * scale, at[1] + p[1] * scale) for i, p in spots.items()}, area, most)
    if repeated:
        numbers.append(Text((area.x0, area.y0 - 3), "Of like parts one has its number here.", TEXT))
    if len(spots) > most:
        left = len(spots) - most
        words = f"{'1 part has' if left == 1 else f'{left} parts have'} no number here for want of room: see the list."
        numbers.append(Text((area.x1, area.y0 - 3), words, TEXT, "end"))
    views = (View("taken apart", tuple(shapes), at, scale), furniture("numbers", numbers))
    return Page(f"{cabinet.id} taken apart", views, name)


def keyed(facts: Facts, cabinet: Cabinet, paper: str) -> list[Page]:
    """Return the cabinet taken apart with the key of its numbers on the same sheet, or on sheets after it.

    A key that is too long lists like parts of like doors and drawers once, then parts of one role and size.
    """
    parts, area = facts.of(cabinet.id), area_of(paper)
    for listed in (_each, _like_fronts, _like_sizes):
        alike = listed(parts)
        if LINE * (len(alike) + 2) <= area.height:
            rows = [_key(parts, row) for row in alike]
            texts = [*rows, HEADS]
            widths = (*(max(metrics.width(row[i], TEXT, True) for row in texts) + 2 for i in (0, 1)), SIZE, SIZE)
            left = area.x1 - fsum(widths)
            shown = alike if len(alike) < len(parts) else _like_doors(parts)
            page = _apart(facts, cabinet, Area(area.x0, area.y0, left - 4, area.y1), shown)
            cells: list[list[Text | str]] = [
                [row[0], row[1], *(_sized(facts, parts[one[0]], what, nm) for what, nm in _long_wide(parts[one[0]]))]
                for row, one in zip(rows, alike, strict=True)
            ]
            shapes = table((left, area.y1), (*HEADS, "Length", "Width"), cells, widths)
            return [Page(page.name, (*page.views, furniture("parts", shapes)), page.scale)]
    return exploded(facts, cabinet, paper)


def _key(parts: Sequence[Part], row: Sequence[int]) -> tuple[str, str]:
    """Return the numbers of a row of the key, and the first part's name with how many have its size."""
    more = f" and {len(row) - 1} of its size" if len(row) > 1 else ""
    return _numbers(row), metrics.clean(parts[row[0]].name) + more


def _long_wide(part: Part) -> tuple[tuple[str, int], tuple[str, int]]:
    return ("length", part.length), ("width", part.width)


def _numbers(row: Sequence[int]) -> str:
    """Return the numbers of a row, those one after another as from and to: `24, 29` and `16–19`."""
    return ", ".join(str(a + 1) if a == b else f"{a + 1}–{b + 1}" for a, b in in_a_row(row))


def _each(parts: Sequence[Part]) -> list[list[int]]:
    return [[i] for i in range(len(parts))]


def _like_doors(parts: Sequence[Part]) -> list[list[int]]:
    return _rows(parts, lambda i: _in_group(i, parts[i], ("door-",)))


def _like_fronts(parts: Sequence[Part]) -> list[list[int]]:
    return _rows(parts, lambda i: _in_group(i, parts[i], ("door-", "drawer-")))


def _like_sizes(parts: Sequence[Part]) -> list[list[int]]:
    return _rows(parts, lambda i: (parts[i].role, parts[i].group.partition("-")[0], *_sizes(parts[i])))


def _rows(parts: Sequence[Part], key: Callable[[int], Hashable]) -> list[list[int]]:
    """Return the numbers of parts with those of one key together, in the order of the first of each."""
    rows: dict[Hashable, list[int]] = {}
    for i in range(len(parts)):
        rows.setdefault(key(i), []).append(i)
    return list(rows.values())


def _in_group(i: int, part: Part, groups: tuple[str, ...]) -> Hashable:
    """Return what tells a part of a door or drawer from all but its likes in others; any other part by its number."""
    if not part.group.startswith(groups):
        return i
    return (part.group.partition("-")[0], part.role, part.id.rpartition("/")[2], *_sizes(part))


def _sizes(part: Part) -> tuple[object, ...]:
    return (part.length, part.width, part.thickness, part.material)


def anchors(solids: list[Solid], eye: Eye = ISOMETRIC) -> dict[int, XY]:
    """Return for each solid the middle of its longest stretch that is seen, on the picture."""
    best: dict[int, tuple[float, XY]] = {}
    for one in sight(solids, eye):
        for a, b in one.seen:
            long = abs(a[0] - b[0]) + abs(a[1] - b[1])
            if long > best.get(one.solid, (0.0, (0.0, 0.0)))[0]:
                best[one.solid] = (long, ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2))
    return {i: spot for i, (_, spot) in sorted(best.items())}


def balloons(spots: dict[int, XY], area: Area, most: int) -> list[Shape]:
    """Return numbered balloons in a column at each side, with a line from each to its part."""
    shapes: list[Shape] = []
    ordered = sorted(spots.items(), key=lambda item: item[1][0])[:most]
    half = (len(ordered) + 1) // 2
    for side, group in ((-1, ordered[:half]), (1, ordered[half:])):
        column = sorted(group, key=lambda item: item[1][1])
        if not column:
            continue
        gap = min(12.0, (area.height - 8) / max(1, len(column)))
        start = (area.y0 + area.y1) / 2 - gap * (len(column) - 1) / 2
        x = area.x0 + 4 if side < 0 else area.x1 - 4
        for k, (number, spot) in enumerate(column):
            y = start + k * gap
            shapes.append(Circle((x, y), RING, Kind.NARROW))
            shapes.append(Text((x, y - 1.1), str(number + 1), TEXT, "middle"))
            shapes.append(Line((x - side * RING, y), spot, Kind.FINE))
            shapes.append(Circle(spot, 0.45, Kind.WIDE))
    return shapes


def _lists(facts: Facts, cabinet: Cabinet, parts: list[Part], area: Area) -> list[Page]:
    heads = ("No.", "Part", "Name", "To cut", "Length", "Width", "Thickness", "Material")
    widths = (10, 62, 62, 14, 26, 26, 26, area.width - 226)
    room = int((area.height - 8) / 4.6)
    pages = []
    for start in range(0, len(parts), room):
        rows: list[list[Text | str]] = []
        for i, part in enumerate(parts[start : start + room], start=start):
            rows.append(
                [
                    str(i + 1),
                    metrics.clean(part.id),
                    metrics.clean(part.name),
                    str(part.quantity),
                    _sized(facts, part, "length", part.length),
                    _sized(facts, part, "width", part.width),
                    _sized(facts, part, "thickness", part.thickness),
                    metrics.clean(part.material),
                ]
            )
        shapes = table((area.x0, area.y1), heads, rows, widths)
        pages.append(Page(f"Parts of {cabinet.id}", (furniture("parts", shapes),)))
    return pages


def _sized(facts: Facts, part: Part, what: str, nm: int) -> Text:
    return Text((0, 0), facts.bare(nm), shows=(Shown(part.id, what, nm),))
