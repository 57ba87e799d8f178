"""Masses and centres of gravity from the parts' own volumes and their stuff's density."""

from casewright.api.engine.draft import Draft, Work
from casewright.api.engine.dry_fit import solid_of
from casewright.api.engine.solids import Solid, moment_centre
from casewright.sdk.model import Weight

NM_PER_MM = 1_000_000


def part_mass(work: Work, draft: Draft, solid: Solid) -> tuple[float, tuple[float, float, float]]:
    """Return a part's mass in kg and its centroid in mm, in the cabinet frame. Bands weigh as their own stuff."""
    volume, at = moment_centre(Solid(solid.id, solid.wood[:1], solid.waste, solid.wedges, solid.holes))
    thickness = draft.box.size[draft.thickness_axis - 1]
    mass = volume * 1e-9 * work.stuff(draft.material).density_at(thickness)
    moments = [mass * c for c in at]
    for band in draft.bands:
        volume, at = moment_centre(Solid(solid.id, (band.box,), solid.waste, solid.wedges, ()))
        extra = volume * 1e-9 * work.stuff(work.material(band.material)).density_kg_m3
        mass += extra
        moments = [m + extra * c for m, c in zip(moments, at, strict=True)]
    if not mass:
        return 0.0, (0.0, 0.0, 0.0)
    return mass, (moments[0] / mass, moments[1] / mass, moments[2] / mass)


def masses(work: Work, solids: dict[str, Solid]) -> dict[str, tuple[float, tuple[float, float, float]]]:
    """Return each draft's mass (kg) and centroid (mm) by key."""
    return {key: part_mass(work, draft, solids[f"{work.id}/{key}"]) for key, draft in work.drafts.items()}


def door_masses(work: Work) -> dict[str, float]:
    """Return the mass of each door before it is bored, kg, by its key."""
    out: dict[str, float] = {}
    for draft in work.drafts.values():
        if draft.group.startswith("door-"):
            mass, _ = part_mass(work, draft, solid_of(work.id, draft))
            out[draft.group] = out.get(draft.group, 0.0) + mass
    return out


def cabinet_weight(work: Work, found: dict[str, tuple[float, tuple[float, float, float]]]) -> Weight:
    """Return the empty cabinet's mass and centre of gravity, what stays on the wall left out."""
    whole = 0.0
    sums = [0.0, 0.0, 0.0]
    for key, draft in work.drafts.items():
        if draft.role == "wall-cleat":
            continue
        mass, centre = found[key]
        whole += mass
        for i in range(3):
            sums[i] += mass * centre[i]
    centre_nm = [round(s / whole * NM_PER_MM) for s in sums]
    return Weight(work.id, whole, (centre_nm[0], centre_nm[1], centre_nm[2]))
