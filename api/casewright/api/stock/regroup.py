"""The same layout parted by other cuts: which cuts come first changes the saw settings, not the parts."""

from __future__ import annotations

from casewright.api.stock.slicing import PART, Node, joined, leaf


def regrouped(root: Node, first: int) -> Node:
    """Give the same layout parted by other cuts: along axis `first` wherever a cut can go, else the other way."""
    rects: list[tuple[int, int, Node]] = []

    def lay(node: Node, x: int, y: int) -> None:
        if node.axis == PART:
            rects.append((x, y, node))
            return
        for kid in node.kids:
            lay(kid, x, y)
            if node.axis == 0:
                x += kid.w
            else:
                y += kid.h

    def split(group: list[tuple[int, int, Node]], axis: int) -> list[list[tuple[int, int, Node]]]:
        def start(rect: tuple[int, int, Node]) -> int:
            return rect[0] if axis == 0 else rect[1]

        ordered = sorted(group, key=lambda r: (r[0], r[1]) if axis == 0 else (r[1], r[0]))
        bands: list[list[tuple[int, int, Node]]] = []
        reach = -1
        for rect in ordered:
            if start(rect) >= reach:
                bands.append([])
            bands[-1].append(rect)
            reach = max(reach, start(rect) + (rect[2].w if axis == 0 else rect[2].h))
        return bands

    def build(group: list[tuple[int, int, Node]], axis: int) -> Node:
        if len(group) == 1:
            node = group[0][2]
            return leaf(node.w, node.h, node.item, node.turned)
        bands = split(group, axis)
        if len(bands) == 1:
            axis = 1 - axis
            bands = split(group, axis)
        return joined(axis, [build(band, first if first != axis else 1 - axis) for band in bands])

    lay(root, 0, 0)
    return build(rects, first)
