"""Parts as DXF R2010 for a machine or a drawing program: a block each, its cuts on layers by kind, face and depth.

Model space is in the job's units. Parts of one material stand in rows, each with its name, how many there are, and true
dimensions. A part lies on the face from which more of its cuts are made away from the table, as its drawing shows it.
"""

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Any

import numpy as np
from casewright.api.papers.drawing.dxf import document, plain_text, written
from casewright.api.papers.facts import Facts
from casewright.api.papers.solid_model import wood
from casewright.api.papers.views.part import shown_from_below
from casewright.sdk.geometry import Box
from casewright.sdk.model import Feature, Part, Plan
from casewright.sdk.units import NM_PER_UNIT

OUTLINE, DIMENSIONS, TEXT = "outline", "dimensions", "text"

HIGH, GAP, ROW = 8.0, 40.0, 2500.0
"""Height of text, room between parts, and how long a row grows before the next begins, mm."""

Point = tuple[float, float]


def outlines(plan: Plan) -> bytes:
    """Return every part that is made once as DXF, with how often; panes bought to size are left out.

    The same plan gives the same bytes.
    """
    facts = Facts(plan)
    doc = document(facts.units)
    for layer in (OUTLINE, DIMENSIONS, TEXT):
        doc.layers.add(layer, color=7)
    drawn = _Drawn(facts, doc)
    low = 0.0
    made = [part for part in plan.parts if not facts.job.materials[part.material].to_size]
    by_material = sorted(made, key=lambda part: list(facts.job.materials).index(part.material))
    for material, parts in groupby(by_material, key=lambda part: part.material):
        thick = facts.text(facts.job.materials[material].thickness)
        low = drawn.rows(f"{material}, {thick} thick", list(parts), low) - 4 * GAP
    return written(doc)


class _Drawn:
    """The document as it grows; lengths go in as mm or nm and stand there in the job's units."""

    def __init__(self, facts: Facts, doc: Any) -> None:
        self.facts, self.doc, self.space = facts, doc, doc.modelspace()
        self.nm = NM_PER_UNIT[facts.units]
        self.mm = self.nm / 1e6

    def rows(self, title: str, parts: Sequence[Part], top: float) -> float:
        """Stand parts of one material in rows under a title; return how low the last row comes, mm."""
        self._text(title, (0.0, top), 2 * HIGH)
        at, low = top - 2 * GAP, top
        x, deepest = 0.0, 0.0
        for part in parts:
            long, wide = part.length / 1e6, part.width / 1e6
            if x and x + long > ROW:
                x, at, deepest = 0.0, at - deepest - 3 * GAP, 0.0
            self._stand(part, (x, at - wide))
            x, deepest = x + long + 2 * GAP, max(deepest, wide)
            low = at - deepest - GAP
        return low

    def _stand(self, part: Part, at: Point) -> None:
        name = part.id.replace("/", "-")
        block = self.doc.blocks.new(name)
        for points in _silhouette(part):
            self._closed(block, points, OUTLINE)
        down = shown_from_below(part)
        for feature in part.features:
            for layer, shape in self._cuts(part, feature, down):
                if layer not in self.doc.layers:
                    self.doc.layers.add(layer, color=7)
                if isinstance(shape, list):
                    self._closed(block, shape, layer)
                else:
                    (x, y), radius = shape
                    block.add_circle((x / self.mm, y / self.mm), radius / self.mm, dxfattribs={"layer": layer})
        corner = (at[0] / self.mm, at[1] / self.mm)
        self.space.add_blockref(name, corner, dxfattribs={"layer": OUTLINE})
        self._text(f"{part.id}: {part.quantity} to make", (at[0], at[1] - GAP * 0.9), HIGH)
        long, wide = part.length / self.nm, part.width / self.nm
        self._dimension((corner[0], corner[1]), (corner[0] + long, corner[1]), 0, part.length)
        self._dimension((corner[0], corner[1]), (corner[0], corner[1] + wide), 90, part.width)

    def _cuts(self, part: Part, feature: Feature, down: bool) -> Iterator[tuple[str, Any]]:
        """Yield each cut of a feature as seen on the face shown: its layer, and a polygon or a circle, mm."""
        blank = part.blank
        for raw in feature.waste_boxes:
            if not raw.meets(blank):
                continue
            box = raw.cut(blank)
            yield self._layer(part, feature, box, down), _rectangle(box, part, down)
        for hole in feature.holes:
            if abs(hole.into) == 3:
                y = (part.width - hole.mouth[1] if down else hole.mouth[1]) / 1e6
                through = hole.depth >= part.thickness
                face = "through" if through else "face" if (hole.into == -3) != down else "underside"
                depth = "" if through else f"-{self._number(hole.depth)}-deep"
                layer = f"hole-{self._number(hole.diameter)}-{face}{depth}"
                yield layer, ((hole.mouth[0] / 1e6, y), hole.diameter / 2e6)
            else:
                layer = f"edge-hole-{self._number(hole.diameter)}-{self._number(hole.depth)}-deep"
                yield layer, _rectangle(_bore(hole.mouth, hole.into, hole.depth, hole.diameter), part, down)

    def _layer(self, part: Part, feature: Feature, box: Box, down: bool) -> str:
        low, high = box.low(3) <= part.blank.low(3), box.high(3) >= part.blank.high(3)
        kind = feature.kind
        if low and high:
            return f"{kind}-through"
        if not low and not high:
            return f"edge-{kind}"
        face = "face" if high != down else "underside"
        return f"{kind}-{face}-{self._number(box.high(3) - box.low(3))}-deep"

    def _number(self, nm: int) -> str:
        return f"{nm / self.nm:.3f}".rstrip("0").rstrip(".")

    def _closed(self, block: Any, points: Sequence[Point], layer: str) -> None:
        block.add_lwpolyline(
            [(round(x / self.mm, 6), round(y / self.mm, 6)) for x, y in points], close=True, dxfattribs={"layer": layer}
        )

    def _text(self, words: str, at: Point, high: float) -> None:
        made = self.space.add_text(
            plain_text(words), height=high / self.mm, dxfattribs={"layer": TEXT, "style": "plain"}
        )
        made.set_placement((at[0] / self.mm, at[1] / self.mm))

    def _dimension(self, a: Point, b: Point, angle: int, nm: int) -> None:
        """Add a true dimension beside a part, on its left or under it."""
        off = GAP * 0.45 / self.mm
        base = (a[0], a[1] - off) if angle == 0 else (a[0] - off, a[1])
        unit = 1 / self.mm
        override = {
            "dimtxt": HIGH * unit, "dimasz": HIGH * unit, "dimexo": unit, "dimexe": 1.5 * unit, "dimgap": 0.7 * unit,
            "dimtxsty": "plain", "dimtad": 1,
        }  # fmt: skip
        made = self.space.add_linear_dim(
            base=base, p1=a, p2=b, angle=angle, text=self.facts.bare(nm), override=override,
            dxfattribs={"layer": DIMENSIONS},
        )  # fmt: skip
        made.render()


def _silhouette(part: Part) -> Iterator[list[Point]]:
    """Yield the closed outlines of a part's wood as seen on the face shown, holes bored by a round bit left out."""
    made = wood(part, bored=False).project()
    down = shown_from_below(part)
    for polygon in made.to_polygons():
        points = [(float(x), part.width / 1e6 - float(y) if down else float(y)) for x, y in np.asarray(polygon)]
        yield points[::-1] if down else points


def _rectangle(box: Box, part: Part, down: bool) -> list[Point]:
    x0, x1 = box.low(1) / 1e6, box.high(1) / 1e6
    y0, y1 = box.low(2) / 1e6, box.high(2) / 1e6
    if down:
        y0, y1 = part.width / 1e6 - y1, part.width / 1e6 - y0
    return [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]


def _bore(mouth: tuple[int, int, int], into: int, depth: int, diameter: int) -> Box:
    """Return the box round a bore."""
    low, high = [n - diameter // 2 for n in mouth], [n + diameter // 2 for n in mouth]
    axis = abs(into) - 1
    low[axis], high[axis] = sorted((mouth[axis], mouth[axis] + (depth if into > 0 else -depth)))
    return Box(low[0], low[1], low[2], high[0], high[1], high[2])
