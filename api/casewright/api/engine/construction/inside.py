"""Dividing the inside: dividers and shelves, recursively, and the leaves they leave."""

from dataclasses import dataclass

from casewright.api.engine.construction.case import Shell, base_terms, front_band, inside_width_terms, parts_at
from casewright.api.engine.construction.divide import divided
from casewright.api.engine.construction.draft import Draft, Region, Work, alike, require_room
from casewright.api.engine.construction.meet import meet, meet_all, slack_terms
from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.geometry import Axis, Box
from casewright.sdk.model import Material, Space, Term


@dataclass(frozen=True, slots=True)
class Leaf:
    """A part of the inside that is not divided further: its clear region and what the job asks for there."""

    region: Region
    space: Space
    number: int


@dataclass(frozen=True, slots=True)
class Split:
    """One division as made, for the face frame to follow: the keys of the parts between entries."""

    region: Region
    space: Space
    between: tuple[str, ...]
    parts: tuple["Split | Leaf", ...]


def divide_inside(work: Work, shell: Shell) -> Split | Leaf:
    """Add dividers and dividing shelves over the whole inside and return the tree of what they leave."""
    return _divide(work, shell, shell.room, work.cabinet.space)


def leaves_of(tree: Split | Leaf) -> list[Leaf]:
    """Return the leaves in reading order."""
    if isinstance(tree, Leaf):
        return [tree]
    return [leaf for part in tree.parts for leaf in leaves_of(part)]


def _divide(work: Work, shell: Shell, region: Region, space: Space) -> Split | Leaf:
    if space.division is None:
        return Leaf(region, space, 0)
    upright = space.division == "bays"
    material = work.material(work.cabinet.case.material)
    clear = region.width if upright else region.height
    pointer = f"{space.pointer}/{space.division}"
    real = divided(clear, material.thickness, space.parts, pointer)
    slack = region.slack_x if upright else region.slack_z
    real[-1] += slack
    for entry, size in zip(space.parts, real, strict=True):
        require_room(size, entry.pointer, "the clear size of an entry", "Use fewer entries or a larger cabinet.")
    made = alike(real)
    regions, keys = _cut_up(work, shell, region, material, real, made, upright)
    parts = tuple(_divide(work, shell, r, entry) for r, entry in zip(regions, space.parts, strict=True))
    return Split(region, space, keys, parts)


def _cut_up(
    work: Work, shell: Shell, region: Region, material: Material, real: list[int], made: list[int], upright: bool
) -> tuple[list[Region], tuple[str, ...]]:
    """Return the regions of one division and the keys of the parts between them, which are added and fitted."""
    t = material.thickness
    keys: list[str] = []
    spans: list[tuple[int, int]] = []
    place = region.x0 if upright else region.z1
    for i, size in enumerate(real):
        spans.append((place, place + size) if upright else (place - size, place))
        place = place + size + t if upright else place - size - t
        if i + 1 < len(real):
            keys.append(_next_key(work, "divider" if upright else "shelf"))
            at = place - t if upright else place
            _add_between(work, shell, region, material, keys[-1], at, upright)
    regions: list[Region] = []
    for i, (low, high) in enumerate(spans):
        before = keys[i - 1] if i else (region.left if upright else region.roof)
        after = keys[i] if i < len(keys) else (region.right if upright else region.floor)
        slack = real[i] - made[i]
        if upright:
            regions.append(
                Region(low, high, region.z0, region.z1, before, after, region.floor, region.roof, slack, region.slack_z)
            )
        else:
            regions.append(
                Region(region.x0, region.x1, low, high, region.left, region.right, after, before, region.slack_x, slack)
            )
    return regions, tuple(keys)


def _next_key(work: Work, stem: str) -> str:
    return f"{stem}-{1 + sum(1 for key in work.drafts if key.startswith(stem + '-'))}"


def _add_between(
    work: Work, shell: Shell, region: Region, material: Material, key: str, at: int, upright: bool
) -> None:
    case, t = work.cabinet.case, material.thickness
    y0, y1 = shell.front, shell.inner_back
    depth = depth_terms(work, shell, 0, shell.front)
    if upright:
        box = Box(at, y0, region.z0, at + t, y1, region.z0 + region.height)
        why = {3: height_terms(work, shell, region), 2: depth}
        draft = Draft(key, "divider", key.replace("-", " "), material, box, 3, 2, why, "case")
        ends: tuple[tuple[str, Axis], ...] = ((region.floor, -3), (region.roof, 3))
    else:
        box = Box(region.x0, y0, at, region.x0 + region.width, y1, at + t)
        why = {1: width_terms(work, shell, region), 2: depth}
        draft = Draft(key, "shelf", key.replace("-", " "), material, box, 1, 2, why, "case")
        ends = ((region.left, -1), (region.right, 1))
    draft.bands = front_band(work, case.case_band, box, y0)
    work.add(draft)
    for host, way in ends:
        meet_all(work, "tee", parts_at(work, host), draft, way, case.fixed_joint)


def width_terms(work: Work, shell: Shell, region: Region) -> list[Term]:
    """Return the terms of a region's clear width, less what an equal division leaves over."""
    whole = shell.room.x1 - shell.room.x0
    taken = whole - (region.x1 - region.x0)
    terms = inside_width_terms(work, shell)
    if taken:
        terms.append(Term("other bays and dividers", -taken))
    return terms + slack_terms(region.slack_x)


def height_terms(work: Work, shell: Shell, region: Region) -> list[Term]:
    """Return the terms of a region's clear height, less what an equal division leaves over."""
    case = work.cabinet.case
    whole = shell.room.z1 - shell.room.z0
    taken = whole - (region.z1 - region.z0)
    terms = [
        Term("cabinet height", shell.height),
        Term("top inset and thickness", -(case.top_inset + shell.side)),
        Term("bottom inset and thickness", -(case.bottom_inset + shell.side)),
        *base_terms(shell.floor),
    ]
    if taken:
        terms.append(Term("other tiers and shelves", -taken))
    return terms + slack_terms(region.slack_z)


def depth_terms(work: Work, shell: Shell, setback: int, band: int) -> list[Term]:
    """Return the terms of an inside part's depth, from `setback` behind the front to the back panel."""
    terms = [Term("cabinet depth", work.cabinet.depth)]
    if shell.frame:
        terms.append(Term("face frame thickness", -shell.frame))
    if shell.inner_back < shell.depth:
        terms.append(Term("back inset and thickness", shell.inner_back - shell.depth))
    if setback:
        terms.append(Term("set back from the front", -setback))
    if band:
        terms.append(Term("band on the front edge", -band))
    return terms


def add_fixed_shelves(work: Work, shell: Shell, leaf: Leaf, setback: int) -> None:
    """Add the fixed shelves of a leaf, `setback` nm behind the case front, and fit them."""
    space, region, case = leaf.space, leaf.region, work.cabinet.case
    material = work.material(case.shelf_material)
    heights = _heights(leaf, material.thickness)
    if not heights:
        return
    band = work.material(case.shelf_band).thickness if case.shelf_band else 0
    y0 = setback + band
    require_room(
        shell.inner_back - y0, f"{space.pointer}/fixed_shelves", "shelf depth", "Set shelves back less or go deeper."
    )
    for above_floor in heights:
        z = region.z0 + above_floor
        key = _next_key(work, "shelf")
        box = Box(region.x0, y0, z, region.x0 + region.width, shell.inner_back, z + material.thickness)
        why = {1: width_terms(work, shell, region), 2: depth_terms(work, shell, setback, band)}
        draft = Draft(key, "shelf", key.replace("-", " "), material, box, 1, 2, why, "case")
        draft.bands = front_band(work, case.shelf_band, box, y0)
        work.add(draft)
        ends: tuple[tuple[str, Axis], ...] = ((region.left, -1), (region.right, 1))
        for host, way in ends:
            meet(work, "tee", work.drafts[host], draft, way, case.fixed_joint)


def _heights(leaf: Leaf, thickness: int) -> list[int]:
    """Return the fixed shelves' undersides above the leaf's floor, in nm."""
    space, region = leaf.space, leaf.region
    clear = region.z1 - region.z0
    if space.fixed_heights is None:
        n = space.fixed_count
        free = clear - n * thickness
        require_room(free, f"{space.pointer}/fixed_shelves", "the room between shelves", "Ask for fewer shelves.")
        return [free * (i + 1) // (n + 1) + i * thickness for i in range(n)]
    heights = sorted(space.fixed_heights)
    floor = 0
    for height in heights:
        if height <= floor or height + thickness >= clear:
            raise NoGeometryError(
                Problem(
                    f"{space.pointer}/fixed_shelves",
                    "shelves stand clear of floor, roof and one another",
                    f"a shelf {height / 1e6:g} mm above a floor {clear / 1e6:g} mm under the roof",
                    f"Keep shelves {thickness / 1e6:g} mm thick apart and between 0 and the roof.",
                )
            )
        floor = height + thickness
    return heights
