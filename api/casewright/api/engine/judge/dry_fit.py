"""The virtual dry fit: every solid put in place, and every joint tried.

A joint is tried by moving its guest: by the stated clearance along the joint's press it must not enter the
host, and by one nanometre more it must.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from casewright.api.engine.construction.draft import Draft, Work
from casewright.api.engine.construction.drawers import Drawer
from casewright.api.engine.solid.solids import Solid, common_volume, share_when_moved
from casewright.sdk.geometry import Box, Cylinder, Wedge
from casewright.sdk.model import LENGTH, Clash, Feature, Finding, Joint, Seat

EXACT = "boxes and straight bevels: exact"
ROUND = "round holes: left out of clash tests, so wood is counted as still there (safe side)"

CUT_IN = ("groove", "rabbet", "mortise", "hole")
"""Kinds of cut that go into a face and may meet another from the far side."""

NO_WEB = 1_000_000
"""Less wood than this (1 mm, in nm) between two cuts counts as none: under one ply (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Tried:
    """What the dry fit of one cabinet found."""

    pairs: int
    seats: tuple[Seat, ...]
    clashes: tuple[Clash, ...]
    outside: Box


def solid_of(cabinet: str, draft: Draft) -> Solid:
    """Return a draft as a solid in the cabinet frame."""
    waste: list[Box] = []
    wedges: list[Wedge] = []
    holes: list[Cylinder] = []
    for feature in draft.features:
        waste.extend(feature.boxes)
        wedges.extend(feature.wedges)
        holes.extend(feature.holes)
    wood = (draft.box, *(band.box for band in draft.bands))
    return Solid(f"{cabinet}/{draft.key}", wood, tuple(waste), tuple(wedges), tuple(holes))


def try_fit(work: Work, solids: dict[str, Solid]) -> Tried:
    """Try every pair and every joint of one cabinet, and turn what is wrong into `stop` checks."""
    ordered = list(solids.values())
    clashes = _clashes(ordered)
    seats = tuple([_seat(joint, solids) for joint in work.joints])
    for clash in clashes:
        work.find(
            clash.first,
            Finding(
                "clash",
                "stop",
                f"would fill the same room as {clash.second}",
                round(clash.volume_mm3, 3),
                0,
                "mm3",
                "dry-fit",
            ),
        )
    for seat in seats:
        if not seat.seated:
            work.find(
                seat.joint,
                Finding(
                    "not-seated",
                    "stop",
                    "the guest does not sit in its host as stated",
                    seat.seat,
                    None,
                    LENGTH,
                    "dry-fit",
                ),
            )
    _check_webs(work)
    return Tried(len(ordered) * (len(ordered) - 1) // 2, seats, clashes, _outside(work))


def _clashes(solids: Sequence[Solid]) -> tuple[Clash, ...]:
    """Sweep along x, so that only solids whose surrounding boxes overlap are compared."""
    spans = sorted((_round(s), i) for i, s in enumerate(solids))
    found: list[tuple[int, int, Clash]] = []
    open_: list[tuple[Box, int]] = []
    for box, i in spans:
        x0, y0, z0, _, y1, z1 = box
        open_ = [one for one in open_ if one[0][3] > x0]
        near = [j for o, j in open_ if o[1] < y1 and o[4] > y0 and o[2] < z1 and o[5] > z0]
        for j in near:
            a, b = (i, j) if i < j else (j, i)
            volume = common_volume(solids[a], solids[b])
            if volume > 0:
                found.append((a, b, Clash(solids[a].id, solids[b].id, float(volume) / 1e18)))
        open_.append((box, i))
    return tuple([clash for _, _, clash in sorted(found, key=lambda f: f[:2])])


def _round(solid: Solid) -> Box:
    out = solid.wood[0]
    for box in solid.wood[1:]:
        out = out.around(box)
    return out


def _bare(solid: Solid) -> Solid:
    """Return a solid without its bands: a band is glued on when the joint is together, and never seats one."""
    return Solid(solid.id, solid.wood[:1], solid.waste, solid.wedges, ()) if len(solid.wood) > 1 else solid


def _seat(joint: Joint, solids: dict[str, Solid]) -> Seat:
    host, guest = _bare(solids[joint.host]), _bare(solids[joint.guest])
    clear = joint.clearance == 0 or not share_when_moved(host, guest, joint.press, joint.clearance)
    seated = clear and share_when_moved(host, guest, joint.press, joint.clearance + 1)
    return Seat(joint.id, joint.seat, joint.clearance, seated)


def open_drawers(work: Work, solids: dict[str, Solid], drawers: list[Drawer]) -> None:
    """Sweep every drawer out by its whole travel: nothing else may stand in the way of its box and front.

    The sweep is each part's box drawn out to the front, cuts not counted: on the safe side.
    """
    for drawer in drawers:
        moving = {solid_id for solid_id in solids if solid_id.startswith(f"{work.id}/{drawer.key}/")}
        swept = [
            Solid(solid_id, tuple([b.grown(-2, drawer.travel) for b in solids[solid_id].wood]), (), (), ())
            for solid_id in sorted(moving)
        ]
        for other_id, other in solids.items():
            if other_id in moving:
                continue
            volume = max(common_volume(other, part) for part in swept)
            if volume > 0:
                message = f"{drawer.key} meets {other_id} before it is fully open"
                value = round(float(volume) / 1e18, 3)
                work.find(other_id, Finding("drawer-blocked", "stop", message, value, 0, "mm3", "dry-fit"))


def _outside(work: Work) -> Box:
    """Return the box round case and face frame (doors and mounting not counted)."""
    boxes = [
        box
        for draft in work.drafts.values()
        if draft.group in ("case", "face-frame", "base")
        for box in (draft.box, *(band.box for band in draft.bands))
    ]
    out = boxes[0]
    for box in boxes[1:]:
        out = out.around(box)
    return out


def _check_webs(work: Work) -> None:
    """Tell what wood is left between cuts that come from opposite faces, edges or ends of one part.

    Cuts of one joint may meet on purpose, as a screw's hole comes out in its housing: its method judges those.
    """
    for draft in work.drafts.values():
        cuts = [f for f in draft.features if f.kind in CUT_IN]
        entries = {f.entry for f in cuts}
        if entries.isdisjoint([-entry for entry in entries]):
            continue
        limit = draft.box.size[draft.thickness_axis - 1] // 4
        worst: tuple[int, Feature, Feature] | None = None
        for axis in (1, 2, 3):
            backward = [(f, f.envelope()) for f in cuts if f.entry == -axis]
            forward = [(f, f.envelope()) for f in cuts if f.entry == axis] if backward else []
            for f, round_f in forward:
                for g, round_g in backward:
                    if f.joint and f.joint == g.joint:
                        continue
                    least = _web(round_f, round_g, axis)
                    if least is None or least >= limit:
                        continue  # no web within them is smaller than that between their envelopes
                    webs = [_web(a, b, axis) for a in _waste(f) for b in _waste(g)]
                    web = min((w for w in webs if w is not None), default=limit)
                    if web < limit and (worst is None or web < worst[0]):
                        worst = (web, f, g)
        if worst is not None:
            _tell_web(work, draft, limit, worst)


def _waste(feature: Feature) -> list[Box]:
    return [*feature.boxes, *(h.envelope for h in feature.holes)]


def _web(a: Box, b: Box, axis: int) -> int | None:
    """Return the wood between cut `a` from the high face and `b` from the low face, where they lie opposite."""
    for other in (1, 2, 3):
        if other != axis and (a.low(other) >= b.high(other) or b.low(other) >= a.high(other)):
            return None
    return a.low(axis) - b.high(axis)


def _tell_web(work: Work, draft: Draft, limit: int, worst: tuple[int, Feature, Feature]) -> None:
    web, first, second = worst
    work.find(
        f"{work.id}/{draft.key}",
        Finding(
            "web",
            "stop" if web < NO_WEB else "caution",
            f"the cuts {first.label!r} and {second.label!r} from opposite sides leave "
            + ("no wood between them" if web < NO_WEB else "a thin web"),
            web,
            limit,
            LENGTH,
            "common-practice",
        ),
    )
