"""Masses and centres of gravity from the parts' own volumes and their stuff's density."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.draft import Draft
from casewright.api.engine.solid.solids import Solid, moment_centre
from casewright.sdk.model import Weight
from casewright.sdk.units import MM

Mass = tuple[float, tuple[float, float, float]]
"""A mass (kg) and its centroid (mm, in the cabinet frame)."""

Masses = Mapping[str, Mass]
"""The mass of each part by its key."""


@dataclass(frozen=True, slots=True)
class Weighed:
    """A part as it was weighed."""

    draft: Draft
    mass: Mass


def weigh_doors(built: Construction) -> Mapping[str, Weighed]:
    """Weigh the parts of every door before it is bored, by their keys."""
    return {
        key: Weighed(draft, _weigh(built, draft, draft.solid(built.id)))
        for key, draft in built.drafts.items()
        if draft.group.startswith("door-")
    }


def door_masses(weighed: Mapping[str, Weighed]) -> dict[str, float]:
    """Return the mass of each door, kg, by its key."""
    out: dict[str, float] = {}
    for one in weighed.values():
        out[one.draft.group] = out.get(one.draft.group, 0.0) + one.mass[0]
    return out


def part_masses(built: Construction, solids: Mapping[str, Solid], weighed: Mapping[str, Weighed]) -> Masses:
    """Return the mass and centroid of every part; what was weighed as it still is, is not weighed again."""
    return {
        key: weighed[key].mass
        if key in weighed and weighed[key].draft is draft
        else _weigh(built, draft, solids[f"{built.id}/{key}"])
        for key, draft in built.drafts.items()
    }


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
    """Return the empty cabinet's mass and centre of gravity, what stays on the wall left out.

    Hinges, pulls and slides weigh as their catalogue says, where they stand.
    """
    whole = 0.0
    sums = [0.0, 0.0, 0.0]
    for key, draft in built.drafts.items():
        if draft.role == "wall-cleat":
            continue
        mass, centre = masses[key]
        whole += mass
        for i in range(3):
            sums[i] += mass * centre[i]
    for mass, centre in _hardware(built):
        whole += mass
        for i in range(3):
            sums[i] += mass * centre[i]
    centre_nm = [round(s / whole * MM) for s in sums]
    return Weight(built.id, whole, (centre_nm[0], centre_nm[1], centre_nm[2]))


def _hardware(built: Construction) -> Iterator[Mass]:
    """Yield the mass and place of each hinge, pull and pair of slides; a line's mass is spread over its places."""
    catalogue = built.registry.catalogue
    each = {one.id: one.mass_kg for one in catalogue.hinges}
    each |= {one.id: one.mass_kg for one in catalogue.pulls} | {one.id: one.mass_kg for one in catalogue.slides}
    for line in built.hardware:
        if line.item in each and line.at:
            pieces = line.quantity // built.cabinet.count
            for x, y, z in line.at:
                yield each[line.item] * pieces / len(line.at), (x / MM, y / MM, z / MM)
