"""Masses and centres of gravity from the parts' own volumes and their stuff's density."""

from casewright.api.engine.construction.draft import Draft, Work
from casewright.api.engine.judge.dry_fit import solid_of
from casewright.api.engine.solid.solids import Solid, moment_centre
from casewright.sdk.model import Weight

NM_PER_MM = 1_000_000
Masses = dict[str, tuple[float, tuple[float, float, float]]]
"""Mass (kg) and centroid (mm, in the cabinet frame) of each part by its key."""


class Scales:
    """Weighs the parts of one cabinet; a part without new cuts since it was weighed is not weighed again."""

    def __init__(self, work: Work) -> None:
        self.work = work
        self._known: dict[str, tuple[int, tuple[float, tuple[float, float, float]]]] = {}
        self._densities: dict[tuple[str, int], float] = {}

    def doors(self) -> dict[str, float]:
        """Return the mass of each door before it is bored, kg, by its key."""
        out: dict[str, float] = {}
        for draft in self.work.drafts.values():
            if draft.group.startswith("door-"):
                mass, _ = self._weighed(draft, solid_of(self.work.id, draft))
                out[draft.group] = out.get(draft.group, 0.0) + mass
        return out

    def parts(self, solids: dict[str, Solid]) -> Masses:
        """Return the mass and centroid of every part."""
        work = self.work
        return {key: self._weighed(draft, solids[f"{work.id}/{key}"]) for key, draft in work.drafts.items()}

    def _weighed(self, draft: Draft, solid: Solid) -> tuple[float, tuple[float, float, float]]:
        cuts = len(draft.features)
        known = self._known.get(draft.key)
        if known is not None and known[0] == cuts:
            return known[1]
        found = self._weigh(draft, solid)
        self._known[draft.key] = (cuts, found)
        return found

    def _weigh(self, draft: Draft, solid: Solid) -> tuple[float, tuple[float, float, float]]:
        """Return a part's mass and centroid. Bands weigh as their own stuff."""
        work = self.work
        volume, at = moment_centre(solid.wood[0], solid.waste, solid.wedges, solid.holes)
        mass = volume * 1e-9 * self._density(draft)
        moments = [mass * c for c in at]
        for band in draft.bands:
            volume, at = moment_centre(band.box, solid.waste, solid.wedges)
            extra = volume * 1e-9 * work.stuff(work.material(band.material)).density_kg_m3
            mass += extra
            moments = [m + extra * c for m, c in zip(moments, at, strict=True)]
        if not mass:
            return 0.0, (0.0, 0.0, 0.0)
        return mass, (moments[0] / mass, moments[1] / mass, moments[2] / mass)

    def _density(self, draft: Draft) -> float:
        thickness = draft.box.size[draft.thickness_axis - 1]
        key = (draft.material.stuff, thickness)
        if key not in self._densities:
            self._densities[key] = self.work.stuff(draft.material).density_at(thickness)
        return self._densities[key]


def cabinet_weight(work: Work, found: Masses) -> Weight:
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
