"""What lies in the drawers of a cabinet, by what its job says."""

from collections.abc import Sequence

from casewright.api.engine.construction.case import BACK
from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.inside import Leaf
from casewright.sdk.engineering.units import weight_n


def drawer_pressure_pa(built: Construction, leaves: Sequence[Leaf]) -> float:
    """Return what lies on each area of the drawers: stated contents shared over drawers and shelves, else the job's."""
    mounting = built.cabinet.mounting
    if mounting is None or mounting.contents_kg is None:
        return built.cabinet.loading.shelf_pa
    sizes = [draft.box.size for draft in built.drafts.values() if draft.role == "box-bottom"]
    area = sum(wide * deep for wide, deep, _ in sizes) + sum(_shelf_area(built, leaf) for leaf in leaves)
    return weight_n(mounting.contents_kg) / (area * 1e-18) if area else 0.0


def _shelf_area(built: Construction, leaf: Leaf) -> int:
    """Return the area that a part of the inside offers to its contents in square nm: nothing where drawers fill it."""
    space, region = leaf.space, leaf.region
    if space.front == "drawer":
        return 0
    fixed = len(space.fixed_heights) if space.fixed_heights is not None else space.fixed_count
    deep = built.drafts[BACK].box.y0 if BACK in built.drafts else built.cabinet.depth
    return region.width * deep * (1 + fixed + space.loose_count)
