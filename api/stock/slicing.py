"""A slicing tree: rectangles side by side (axis 0) or one over another (axis 1), nested.

Every tree of this kind can be cut with straight edge-to-edge cuts. A part may enter not only beside the last one but
beside or over any rectangle of the tree, as long as the whole still fits the piece of stock; `positions` lists all
such places with the room each has. Sizes carry one kerf each, so no kerf appears here.

A node is a plain list for speed: [axis, w, h, kids, parent, item]; axis 2 is a part, whose kids slot is its turn flag.
"""

from __future__ import annotations

from typing import Any

Node = list[Any]
AXIS, WIDE, HIGH, KIDS, PARENT, ITEM = range(6)
PART = 2
# a position: (room across x, room across y, size to match, size that would grow, axis, node, how)
# how: 0/1 wrap the node with the new part in a new node of that axis, 2 join the node's kids
Position = tuple[int, int, int, int, int, Node, int]


def leaf(w: int, h: int, item: int, turned: bool) -> Node:
    """Give a part of size w by h."""
    return [PART, w, h, turned, None, item]


def positions(root: Node, room_w: int, room_h: int) -> list[Position]:
    """All places where one more part could enter the tree in a piece of stock room_w by room_h."""
    out: list[Position] = []
    add = out.append
    axis, w, h = root[0], root[1], root[2]
    dx = room_w - w
    dy = room_h - h
    if axis == PART:
        if dx > 0:
            add((dx, room_h, h, w, 0, root, 0))
        if dy > 0:
            add((room_w, dy, w, h, 1, root, 1))
        return out
    if axis == 0:
        if dy > 0:
            add((room_w, dy, w, h, 1, root, 1))
    elif dx > 0:
        add((dx, room_h, h, w, 0, root, 0))
    stack = [(root, dx, dy)]
    pop = stack.pop
    push = stack.append
    while stack:
        node, dx, dy = pop()
        w = node[1]
        h = node[2]
        if node[0] == 0:
            if dx > 0:
                add((dx, h + dy, h, w, 0, node, 2))
            for kid in node[3]:
                ky = dy + h - kid[2]
                if kid[0] == PART:
                    if ky > 0:
                        add((kid[1] + dx, ky, kid[1], kid[2], 1, kid, 1))
                elif dx > 0 or ky > 0:
                    push((kid, dx, ky))
        else:
            if dy > 0:
                add((w + dx, dy, w, h, 1, node, 2))
            for kid in node[3]:
                kx = dx + w - kid[1]
                if kid[0] == PART:
                    if kx > 0:
                        add((kx, kid[2] + dy, kid[2], kid[1], 0, kid, 0))
                elif dy > 0 or kx > 0:
                    push((kid, kx, dy))
    return out


def row_positions(root: Node, room_w: int, room_h: int) -> list[Position]:
    """As `positions`, but only full-length rows of parts end to end: rip first, then cross-cut, then trim."""
    out: list[Position] = []
    w, h = root[1], root[2]
    dy = room_h - h
    if root[0] != 1:
        if room_w > w:
            out.append((room_w - w, h, h, w, 0, root, 0 if root[0] == PART else 2))
        if dy > 0:
            out.append((room_w, dy, w, h, 1, root, 1))
        return out
    if dy > 0:
        out.append((room_w, dy, w, h, 1, root, 2))
    for kid in root[3]:
        if room_w > kid[1]:
            out.append((room_w - kid[1], kid[2], kid[2], kid[1], 0, kid, 0 if kid[0] == PART else 2))  # noqa: PERF401
    return out


def column_positions(root: Node, room_w: int, room_h: int) -> list[Position]:
    """As `row_positions` with the axes changed: cross-cut first, then rip, then trim."""
    out: list[Position] = []
    w, h = root[1], root[2]
    dx = room_w - w
    if root[0] != 0:
        if room_h > h:
            out.append((w, room_h - h, w, h, 1, root, 1 if root[0] == PART else 2))
        if dx > 0:
            out.append((dx, room_h, h, w, 0, root, 0))
        return out
    if dx > 0:
        out.append((dx, room_h, h, w, 0, root, 2))
    for kid in root[3]:
        if room_h > kid[2]:
            out.append((kid[1], room_h - kid[2], kid[1], kid[2], 1, kid, 1 if kid[0] == PART else 2))  # noqa: PERF401
    return out


def insert(root: Node, place: Position, new: Node) -> Node:
    """Put a part into the tree at a place from `positions`; changes the tree and returns its root."""
    axis = place[4]
    node = place[5]
    if place[6] == 2:
        node[3].append(new)
        new[4] = node
        above = node
    else:
        parent = node[4]
        joined: Node = [axis, 0, 0, [node, new], parent, -1]
        node[4] = joined
        new[4] = joined
        if parent is None:
            root = joined
        else:
            kids = parent[3]
            for i, kid in enumerate(kids):
                if kid is node:
                    kids[i] = joined
                    break
        above = joined
    while above is not None:
        w = h = 0
        if above[0] == 0:
            for kid in above[3]:
                w += kid[1]
                if kid[2] > h:
                    h = kid[2]
        else:
            for kid in above[3]:
                h += kid[2]
                if kid[1] > w:
                    w = kid[1]
        above[1] = w
        above[2] = h
        above = above[4]
    return root


def copy_without(node: Node, out: set[int]) -> Node | None:
    """Give a copy of the tree without the given parts, closed up; None when nothing is left."""
    axis = node[0]
    if axis == PART:
        return None if node[5] in out else [PART, node[1], node[2], node[3], None, node[5]]
    kids: list[Node] = []
    w = h = 0
    new: Node = [axis, 0, 0, kids, None, -1]
    for kid in node[3]:
        kept = copy_without(kid, out)
        if kept is None:
            continue
        if kept[0] == axis:
            for grandkid in kept[3]:
                grandkid[4] = new
                kids.append(grandkid)
        else:
            kept[4] = new
            kids.append(kept)
        if axis == 0:
            w += kept[1]
            if kept[2] > h:
                h = kept[2]
        else:
            h += kept[2]
            if kept[1] > w:
                w = kept[1]
    if not kids:
        return None
    if len(kids) == 1:
        kids[0][4] = None
        return kids[0]
    new[1] = w
    new[2] = h
    return new


def parts_of(node: Node, out: list[int]) -> list[int]:
    """Give the parts under a node, appended to `out`."""
    if node[0] == PART:
        out.append(node[5])
    else:
        for kid in node[3]:
            parts_of(kid, out)
    return out


def groups_of(node: Node, out: list[Node]) -> list[Node]:
    """Give the nodes of a tree that are not single parts, appended to `out`."""
    if node[0] != PART:
        out.append(node)
        for kid in node[3]:
            groups_of(kid, out)
    return out


def regrouped(root: Node, first: int) -> Node:
    """Give the same layout parted by other cuts: along axis `first` wherever a cut can go, else the other way."""
    rects: list[tuple[int, int, Node]] = []

    def lay(node: Node, x: int, y: int) -> None:
        if node[0] == PART:
            rects.append((x, y, node))
            return
        for kid in node[3]:
            lay(kid, x, y)
            if node[0] == 0:
                x += kid[1]
            else:
                y += kid[2]

    def split(group: list[tuple[int, int, Node]], axis: int) -> list[list[tuple[int, int, Node]]]:
        ordered = sorted(group, key=lambda r: (r[axis], r[1 - axis]))
        bands = [[ordered[0]]]
        reach = ordered[0][axis] + ordered[0][2][1 + axis]
        for rect in ordered[1:]:
            if rect[axis] >= reach:
                bands.append([rect])
            else:
                bands[-1].append(rect)
            reach = max(reach, rect[axis] + rect[2][1 + axis])
        return bands

    def build(group: list[tuple[int, int, Node]], axis: int) -> Node:
        if len(group) == 1:
            node = group[0][2]
            return [PART, node[1], node[2], node[3], None, node[5]]
        bands = split(group, axis)
        if len(bands) == 1:
            axis = 1 - axis
            bands = split(group, axis)
        kids = [build(band, first if first != axis else 1 - axis) for band in bands]
        new: Node = [axis, 0, 0, kids, None, -1]
        for kid in kids:
            kid[4] = new
        sizes = [kid[1 + axis] for kid in kids]
        across = [kid[2 - axis] for kid in kids]
        new[1 + axis] = sum(sizes)
        new[2 - axis] = max(across)
        return new

    lay(root, 0, 0)
    return build(rects, first)
