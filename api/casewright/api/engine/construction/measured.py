"""A face frame as it was measured: the edges of its members moved to where its openings were found.

What an opening is larger or smaller than laid out, half each, moves the edges on its two sides; where openings beside
one member say otherwise of its edge, the least counts. Members between others are then as long as they are apart.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from casewright.api.engine.construction.frame_layout import Layout, Member, Opening
from casewright.sdk.model import Term

__all__ = ["Edges", "edges_of", "measured_terms", "moved_layout"]

_Edge = tuple[str, bool]
"""A member's key, and whether its edge at the higher coordinate is meant."""


@dataclass(frozen=True, slots=True)
class Edges:
    """How far edges of members are moved along their axis, in nm."""

    moved: Mapping[_Edge, int] = field(default_factory=dict)

    def low(self, key: str) -> int:
        """Return how far a member's edge at the lower coordinate is moved."""
        return self.moved.get((key, False), 0)

    def high(self, key: str) -> int:
        """Return how far a member's edge at the higher coordinate is moved."""
        return self.moved.get((key, True), 0)


def edges_of(openings: Iterable[Opening]) -> Edges:
    """Return where the edges round openings are, by what was measured of these."""
    moved: dict[_Edge, int] = {}
    for opening in openings:
        width, height = opening.leaf.space.measured
        across = ((opening.left, True), (opening.right, False))
        up = ((opening.below, True), (opening.above, False))
        for size, planned, (first, second) in (
            (width, opening.x1 - opening.x0, across),
            (height, opening.z1 - opening.z0, up),
        ):
            if size is not None:
                more = size - planned
                low, high = -(more // 2), more - more // 2
                moved[first] = max(moved.get(first, low), low)
                moved[second] = min(moved.get(second, high), high)
    return Edges(moved)


def moved_layout(layout: Layout, edges: Edges) -> Layout:
    """Return a layout with its members and openings as they were measured."""
    if not edges.moved:
        return layout
    openings = [_opening(one, edges) for one in layout.openings]
    return Layout(tuple([_member(one, edges) for one in layout.members]), tuple(openings))


def _opening(one: Opening, edges: Edges) -> Opening:
    x0, x1 = one.x0 + edges.high(one.left), one.x1 + edges.low(one.right)
    z0, z1 = one.z0 + edges.high(one.below), one.z1 + edges.low(one.above)
    return replace(one, x0=x0, x1=x1, z0=z0, z1=z1, width=x1 - x0, height=z1 - z0)


def _member(one: Member, edges: Edges) -> Member:
    x0, z0, x1, z1 = one.at
    ends = edges.high(one.hosts[0]), edges.low(one.hosts[1])
    sides = edges.low(one.key), edges.high(one.key)
    (dx0, dx1), (dz0, dz1) = (ends, sides) if one.level else (sides, ends)
    return replace(
        one,
        at=(x0 + dx0, z0 + dz0, x1 + dx1, z1 + dz1),
        why_length=one.why_length + measured_terms(ends[1] - ends[0]),
        why_width=one.why_width + measured_terms(sides[1] - sides[0]),
    )


def measured_terms(by: int) -> tuple[Term, ...]:
    """Return the term for what a size differs by, as the openings round it were measured."""
    return (Term("openings as measured", by),) if by else ()
