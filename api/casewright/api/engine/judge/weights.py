"""Masses and centres of gravity from the parts' own volumes and their stuff's density."""

from collections.abc import Mapping

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.draft import Draft
from casewright.api.engine.solid.solids import Solid, moment_centre
from casewright.sdk.model import Weight
from casewright.sdk.units import MM

Mass = tuple[float, tuple[float, float, float]]
"""A mass (kg) and its centroid (mm, in the cabinet frame)."""

Masses = Mapping[str, Mass]
"""The mass of each part by its key."""


def door_masses(built: Construction) -> dict[str, float]:
    """Return the mass of each door before it is bored, kg, by its key."""
    out: dict[str, float] = {}
    for draft in built.drafts.values():
        if draft.group.startswith("door-"):
            mass, _ = _weigh(built, draft, draft.solid(built.id))
            out[draft.group] = out.get(draft.group, 0.0) + mass
    return out


def part_masses(built: Construction, solids: Mapping[str, Solid]) -> Masses:
    """Return the mass and centroid of every part."""
    return {key: _weigh(built, draft, solids[f"{built.id}/{key}"]) for key, draft in built.drafts.items()}


def _weigh(built: Construction, draft: Draft, solid: Solid) -> Mass:
    """Return a part's mass and centroid. Bands weigh as their own stuff."""
    volume, at = moment_centre(solid.wood[0], solid.waste, solid.wedges, solid.holes)
    mass = volume * 1e-9 * built.stuff(draft.material).density_at(draft.thickness)
    moments = [mass * c for c in at]
    for band in draft.bands:
        volume, at = moment_centre(band.box, solid.waste, solid.wedges)
        extra = volume * 1e-9 * built.stuff(built.material(band.material)).density_kg_m3
        mass += extra
        moments = [m + extra * c for m, c in zip(moments, at, strict=True)]
    if not mass:
        return 0.0, (0.0, 0.0, 0.0)
    return mass, (moments[0] / mass, moments[1] / mass, moments[2] / mass)


def cabinet_weight(built: Construction, masses: Masses) -> Weight:
    """Return the empty cabinet's mass and centre of gravity, what stays on the wall left out."""
    whole = 0.0
    sums = [0.0, 0.0, 0.0]
    for key, draft in built.drafts.items():
        if draft.role == "wall-cleat":
            continue
        mass, centre = masses[key]
        whole += mass
        for i in range(3):
            sums[i] += mass * centre[i]
    centre_nm = [round(s / whole * MM) for s in sums]
    return Weight(built.id, whole, (centre_nm[0], centre_nm[1], centre_nm[2]))
