"""A slicing tree: rectangles side by side (axis 0) or one over another (axis 1), nested.

Every tree of this kind can be cut with straight edge-to-edge cuts. A part may enter not only beside the last one but
beside or over any rectangle of the tree, as long as the whole still fits the piece of stock; `positions` lists all
such places with the room each has. Sizes carry one kerf each, so no kerf appears here.

This module is compiled where a C compiler is at hand; its `i64` are plain int otherwise.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from mypy_extensions import i64

SIDE: Final = 0
OVER: Final = 1
PART: Final = 2
WRAP: Final = 0
JOIN: Final = 2
NO_KIDS: list[Node] = []


class Node:
    """A rectangle w by h: a part (`axis` PART, its number in `item`), or `kids` along an axis; `count` parts in all."""

    __slots__ = ("axis", "count", "h", "item", "kids", "turned", "w")

    def __init__(self, axis: i64, w: i64, h: i64, kids: list[Node], item: i64, turned: bool) -> None:
        self.axis: i64 = axis
        self.count: i64 = 1
        self.w: i64 = w
        self.h: i64 = h
        self.kids = kids
        self.item: i64 = item
        self.turned = turned


class Place:
    """Where a part could enter: `room` is what it may take, `match` the size it should equal along the joint.

    `grow` is the size that becomes waste by being outgrown; `how` is WRAP (node and part become a new node of `axis`)
    or JOIN (the part becomes one more kid of the node).
    """

    __slots__ = ("axis", "grow", "how", "match", "node", "room_h", "room_w")

    def __init__(self, room_w: i64, room_h: i64, match: i64, grow: i64, axis: i64, node: Node, how: i64) -> None:
        self.room_w: i64 = room_w
        self.room_h: i64 = room_h
        self.match: i64 = match
        self.grow: i64 = grow
        self.axis: i64 = axis
        self.node = node
        self.how: i64 = how


def leaf(w: i64, h: i64, item: i64, turned: bool) -> Node:
    """Give a part of size w by h."""
    return Node(PART, w, h, NO_KIDS, item, turned)


def joined(axis: i64, kids: list[Node]) -> Node:
    """Give the node that holds some kids along an axis."""
    node = Node(axis, 0, 0, kids, -1, False)
    _measure(node)
    return node


def _measure(node: Node) -> None:
    """Set a node's size and count from its kids."""
    w: i64 = 0
    h: i64 = 0
    count: i64 = 0
    for kid in node.kids:
        count += kid.count
    node.count = count
    if node.axis == SIDE:
        for kid in node.kids:
            w += kid.w
            if kid.h > h:
                h = kid.h
    else:
        for kid in node.kids:
            h += kid.h
            if kid.w > w:
                w = kid.w
    node.w = w
    node.h = h


def positions(root: Node, room_w: i64, room_h: i64) -> list[Place]:
    """All places where one more part could enter the tree in a piece of stock room_w by room_h."""
    out: list[Place] = []
    dx: i64 = room_w - root.w
    dy: i64 = room_h - root.h
    if root.axis != SIDE and dx > 0:
        out.append(Place(dx, room_h, root.h, root.w, SIDE, root, WRAP))
    if root.axis != OVER and dy > 0:
        out.append(Place(room_w, dy, root.w, root.h, OVER, root, WRAP))
    if root.axis != PART:
        _inside(root, dx, dy, out)
    return out


def _inside(node: Node, dx: i64, dy: i64, out: list[Place]) -> None:
    """Add the places in a node that may grow by dx and dy."""
    w: i64 = node.w
    h: i64 = node.h
    if node.axis == SIDE:
        if dx > 0:
            out.append(Place(dx, h + dy, h, w, SIDE, node, JOIN))
        for kid in node.kids:
            ky: i64 = dy + h - kid.h
            if kid.axis == PART:
                if ky > 0:
                    out.append(Place(kid.w + dx, ky, kid.w, kid.h, OVER, kid, WRAP))
            elif dx > 0 or ky > 0:
                _inside(kid, dx, ky, out)
    else:
        if dy > 0:
            out.append(Place(w + dx, dy, w, h, OVER, node, JOIN))
        for kid in node.kids:
            kx: i64 = dx + w - kid.w
            if kid.axis == PART:
                if kx > 0:
                    out.append(Place(kx, kid.h + dy, kid.h, kid.w, SIDE, kid, WRAP))
            elif dy > 0 or kx > 0:
                _inside(kid, kx, dy, out)


def row_positions(root: Node, room_w: i64, room_h: i64) -> list[Place]:
    """As `positions`, but only full-length rows of parts end to end: rip first, then crosscut, then trim."""
    out: list[Place] = []
    w: i64 = root.w
    h: i64 = root.h
    if root.axis != OVER:
        if room_w > w:
            out.append(Place(room_w - w, h, h, w, SIDE, root, WRAP if root.axis == PART else JOIN))
        if room_h > h:
            out.append(Place(room_w, room_h - h, w, h, OVER, root, WRAP))
        return out
    if room_h > h:
        out.append(Place(room_w, room_h - h, w, h, OVER, root, JOIN))
    for kid in root.kids:
        if room_w > kid.w:
            how: i64 = WRAP if kid.axis == PART else JOIN
            out.append(Place(room_w - kid.w, kid.h, kid.h, kid.w, SIDE, kid, how))
    return out


def column_positions(root: Node, room_w: i64, room_h: i64) -> list[Place]:
    """As `row_positions` with the axes changed: crosscut first, then rip, then trim."""
    out: list[Place] = []
    w: i64 = root.w
    h: i64 = root.h
    if root.axis != SIDE:
        if room_h > h:
            out.append(Place(w, room_h - h, w, h, OVER, root, WRAP if root.axis == PART else JOIN))
        if room_w > w:
            out.append(Place(room_w - w, room_h, h, w, SIDE, root, WRAP))
        return out
    if room_w > w:
        out.append(Place(room_w - w, room_h, h, w, SIDE, root, JOIN))
    for kid in root.kids:
        if room_h > kid.h:
            how: i64 = WRAP if kid.axis == PART else JOIN
            out.append(Place(kid.w, room_h - kid.h, kid.w, kid.h, OVER, kid, how))
    return out


def insert(root: Node, place: Place, new: Node) -> Node:
    """Put a part into the tree at a place from `positions`; changes the tree and returns its root."""
    found = _entered(root, place, new)
    assert found is not None, "the place is not of this tree"
    return found


def _entered(at: Node, place: Place, new: Node) -> Node | None:
    """Give what stands where `at` stood once the part is in, or None when the place is not under it."""
    node = place.node
    if at is node:
        if place.how == WRAP:
            return joined(place.axis, [at, new])
        at.kids.append(new)
        _measure(at)
        return at
    kids = at.kids
    for i in range(len(kids)):
        found = _entered(kids[i], place, new)
        if found is not None:
            kids[i] = found
            _measure(at)
            return at
    return None


def copy_without(node: Node, out: set[int]) -> Node | None:
    """Give a copy of the tree without the given parts, closed up; None when nothing is left."""
    axis: i64 = node.axis
    if axis == PART:
        return None if node.item in out else Node(PART, node.w, node.h, NO_KIDS, node.item, node.turned)
    kids: list[Node] = []
    for kid in node.kids:
        kept = copy_without(kid, out)
        if kept is None:
            continue
        if kept.axis == axis:
            kids.extend(kept.kids)
        else:
            kids.append(kept)
    if not kids:
        return None
    if len(kids) == 1:
        return kids[0]
    return joined(axis, kids)


def parts_of(node: Node, out: list[int]) -> list[int]:
    """Give the parts under a node, appended to `out`."""
    if node.axis == PART:
        out.append(node.item)
    else:
        for kid in node.kids:
            parts_of(kid, out)
    return out


def groups_of(node: Node, out: list[Node]) -> list[Node]:
    """Give the nodes of a tree that are not single parts, appended to `out`."""
    if node.axis != PART:
        out.append(node)
        for kid in node.kids:
            groups_of(kid, out)
    return out
