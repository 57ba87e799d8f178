"""The virtual dry fit: every solid put in place, and every joint tried.

A joint is tried by moving its guest: by the stated clearance along the joint's press it must not enter the
host, and by one nanometre more it must.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.drawers import Drawer
from casewright.api.engine.judge.webs import check_webs
from casewright.api.engine.solid.solids import Solid, common_volume, share_when_moved
from casewright.sdk.geometry import Box
from casewright.sdk.model import LENGTH, Check, Clash, Finding, Joint, Seat

EXACT = "boxes and straight bevels: exact"
ROUND = "round holes: left out of clash tests, so wood is counted as still there (safe side)"


@dataclass(frozen=True, slots=True)
class CabinetFit:
    """What the dry fit of one cabinet comes to."""

    pairs: int
    seats: tuple[Seat, ...]
    clashes: tuple[Clash, ...]
    outside: Box
    checks: tuple[Check, ...]


def dry_fit(built: Construction, solids: Mapping[str, Solid], drawers: Sequence[Drawer]) -> CabinetFit:
    """Try every pair, every joint and every drawer of one cabinet; what is wrong is a `stop` check."""
    ordered = list(solids.values())
    clashes = tuple(_clashes(ordered))
    seats = tuple([_seat(joint, solids) for joint in built.joints])
    outside = _outside(built)
    return CabinetFit(
        pairs=len(ordered) * (len(ordered) - 1) // 2,
        seats=seats,
        clashes=clashes,
        outside=outside,
        checks=(
            *(_clash_check(clash) for clash in clashes),
            *(_seat_check(seat) for seat in seats if not seat.seated),
            *check_webs(built),
            *_check_drawers(built, solids, drawers),
            *_check_outside(built, outside),
        ),
    )


def _clash_check(clash: Clash) -> Check:
    message = f"would fill the same room as {clash.second}"
    return Check(clash.first, Finding("clash", "stop", message, round(clash.volume_mm3, 3), 0, "mm3", "dry-fit"))


def _seat_check(seat: Seat) -> Check:
    message = "the guest does not sit in its host as stated"
    return Check(seat.joint, Finding("not-seated", "stop", message, seat.seat, None, LENGTH, "dry-fit"))


def _clashes(solids: Sequence[Solid]) -> tuple[Clash, ...]:
    """Sweep along x, so that only solids whose surrounding boxes overlap are compared."""
    spans = sorted((Box.union(solid.wood), i) for i, solid in enumerate(solids))
    clashes: list[tuple[int, int, Clash]] = []
    open_: list[tuple[Box, int]] = []
    for box, i in spans:
        open_ = [one for one in open_ if one[0].x1 > box.x0]
        for other, j in open_:
            if not other.meets(box):
                continue
            a, b = min(i, j), max(i, j)
            volume = common_volume(solids[a], solids[b])
            if volume > 0:
                clashes.append((a, b, Clash(solids[a].id, solids[b].id, float(volume) / 1e18)))
        open_.append((box, i))
    return tuple([clash for _, _, clash in sorted(clashes, key=lambda f: f[:2])])


def _bare(solid: Solid) -> Solid:
    """Return a solid without its bands: a band is glued on when the joint is together, and never seats one."""
    return Solid(solid.id, solid.wood[:1], solid.waste, solid.wedges, ()) if len(solid.wood) > 1 else solid


def _seat(joint: Joint, solids: Mapping[str, Solid]) -> Seat:
    host, guest = _bare(solids[joint.host]), _bare(solids[joint.guest])
    clear = joint.clearance == 0 or not share_when_moved(host, guest, joint.press, joint.clearance)
    seated = clear and share_when_moved(host, guest, joint.press, joint.clearance + 1)
    return Seat(joint.id, joint.seat, joint.clearance, seated)


def _check_drawers(built: Construction, solids: Mapping[str, Solid], drawers: Sequence[Drawer]) -> list[Check]:
    """Sweep every drawer out by its whole travel: nothing else may stand in the way of its box and front.

    The sweep is each part's box drawn out to the front, cuts not counted: on the safe side.
    """
    checks: list[Check] = []
    for drawer in drawers:
        moving = {solid_id for solid_id in solids if solid_id.startswith(f"{built.id}/{drawer.key}/")}
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
                checks.append(Check(other_id, Finding("drawer-blocked", "stop", message, value, 0, "mm3", "dry-fit")))
    return checks


def _outside(built: Construction) -> Box:
    """Return the box round case and face frame (doors and mounting not counted)."""
    return Box.union(
        box
        for draft in built.drafts.values()
        if draft.group in ("case", "face-frame", "base")
        for box in (draft.box, *(band.box for band in draft.bands))
    )


def _check_outside(built: Construction, outside: Box) -> list[Check]:
    """Compare the assembled outside with the job's sizes, to the nanometre."""
    cabinet = built.cabinet
    spec = (cabinet.width, cabinet.depth, cabinet.height)
    return [
        Check(
            built.id,
            Finding("outside-size", "stop", f"the assembled {name} is not the one asked for", got, wanted, LENGTH,
                    "dry-fit"),
        )
        for got, wanted, name in zip(outside.size, spec, ("width", "depth", "height"), strict=True)
        if got != wanted
    ]  # fmt: skip
