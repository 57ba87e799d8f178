"""What wood is left between cuts that come from opposite faces, edges or ends of one part, and between its holes."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations
from math import dist

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.draft import Draft
from casewright.api.engine.judge.cut_away import without
from casewright.sdk.geometry import Box
from casewright.sdk.model import LENGTH, Check, Feature, FeatureKind, Finding
from casewright.sdk.units import MM

CUT_IN: frozenset[FeatureKind] = frozenset(
    {"groove", "rabbet", "mortise", "loose-mortise", "biscuit-slot", "pocket", "dovetail", "hole"}
)
"""Kinds of cut that go into a face and may meet another from the far side."""

NO_WEB = 1 * MM
"""Less wood than this (1 mm) between two cuts counts as none: under one ply (common practice, no source)."""

ONE_HOLE = MM // 10
"""Holes nearer one another than this (0.1 mm) are one."""


@dataclass(frozen=True, slots=True)
class _Web:
    """The wood two cuts leave between them, in nm; less than nothing where they overlap."""

    size: int
    first: Feature
    second: Feature


def check_webs(built: Construction) -> list[Check]:
    """Return a check for every part whose cuts leave less than a quarter of its thickness between them.

    Cuts of one joint may meet on purpose, as a screw's hole comes out in its housing: its method judges those.
    """
    checks: list[Check] = []
    for draft in built.drafts.values():
        limit = draft.thickness // 4
        thin = [web for web in _webs(draft, limit) if web.size < limit]
        if thin:
            checks.append(Check(f"{built.id}/{draft.key}", _finding(min(thin, key=lambda web: web.size), limit)))
        if met := _holes_that_meet(draft):
            first, second = met
            message = (
                f"holes of {first.label!r} and {second.label!r} run into each other; "
                f"{without(built, first, second) or 'move one row or the other'}"
            )
            checks.append(
                Check(f"{built.id}/{draft.key}", Finding("holes-meet", "caution", message, source="common-practice"))
            )
    return checks


def _holes_that_meet(draft: Draft) -> tuple[Feature, Feature] | None:
    """Return two features of which holes from one side run into each other, and are not one hole that both use."""
    bored = [(feature, feature.envelope()) for feature in draft.features if feature.holes]
    for (first, here), (second, there) in combinations(bored, 2):
        if (
            first.entry == second.entry
            and here.meets(there)
            and any(dist(a.mouth, b.mouth) > ONE_HOLE and a.meets(b) for a in first.holes for b in second.holes)
        ):
            return first, second
    return None


def _webs(draft: Draft, limit: int) -> Iterator[_Web]:
    """Yield the least web between each two cuts from opposite sides that may leave less than the limit."""
    cuts = [feature for feature in draft.features if feature.kind in CUT_IN]
    for axis in (1, 2, 3):
        backward = [(cut, cut.envelope()) for cut in cuts if cut.entry == -axis]
        forward = [(cut, cut.envelope()) for cut in cuts if cut.entry == axis] if backward else []
        for first, first_box in forward:
            for second, second_box in backward:
                if first.joint and first.joint == second.joint:
                    continue
                least = _between(first_box, second_box, axis)
                if least is None or least >= limit:
                    continue  # no web within them is smaller than that between their envelopes
                webs = [_between(a, b, axis) for a in _waste(first) for b in _waste(second)]
                yield _Web(min([web for web in webs if web is not None], default=limit), first, second)


def _waste(feature: Feature) -> list[Box]:
    return [*feature.boxes, *(drilled.envelope for drilled in feature.holes)]


def _between(a: Box, b: Box, axis: int) -> int | None:
    """Return the wood between cut `a` from the high face and `b` from the low face, where they lie opposite."""
    for other in (1, 2, 3):
        if other != axis and (a.low(other) >= b.high(other) or b.low(other) >= a.high(other)):
            return None
    return a.low(axis) - b.high(axis)


def _finding(web: _Web, limit: int) -> Finding:
    none = web.size < NO_WEB
    return Finding(
        "web",
        "stop" if none else "caution",
        f"the cuts {web.first.label!r} and {web.second.label!r} from opposite sides leave "
        + ("no wood between them" if none else "a thin web"),
        web.size,
        limit,
        LENGTH,
        "common-practice",
    )
