"""Dividing the inside: dividers and shelves, recursively, and the leaves they leave."""

from dataclasses import dataclass

from casewright.api.engine.construction.case import (
    Shell,
    front_band,
    inside_height_terms,
    inside_width_terms,
    keys_at,
)
from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.context import Context
from casewright.api.engine.construction.divide import divided
from casewright.api.engine.construction.draft import Draft, Region, alike
from casewright.api.engine.construction.meet import Joining, meet, slack_terms
from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.geometry import Axis, Box
from casewright.sdk.model import Space, Term
from casewright.sdk.writer import Writer


@dataclass(frozen=True, slots=True)
class Leaf:
    """A part of the inside that is not divided further: its clear region and what the job asks for there."""

    region: Region
    space: Space


@dataclass(frozen=True, slots=True)
class Split:
    """One division as made, for the face frame to follow: the keys of the parts between entries."""

    space: Space
    between: tuple[str, ...]
    parts: tuple["Split | Leaf", ...]


def divide_inside(built: Construction, shell: Shell) -> tuple[Construction, Split | Leaf]:
    """Add dividers and dividing shelves over the whole inside and return the tree of what they leave."""
    return _divide(built, shell, shell.room, built.cabinet.space)


def leaves_of(tree: Split | Leaf) -> list[Leaf]:
    """Return the leaves in reading order."""
    if isinstance(tree, Leaf):
        return [tree]
    return [leaf for part in tree.parts for leaf in leaves_of(part)]


def _divide(built: Construction, shell: Shell, region: Region, space: Space) -> tuple[Construction, Split | Leaf]:
    if space.division is None:
        return built, Leaf(region, space)
    upright = space.division == "bays"
    t = shell.side
    clear, slack = (region.width, region.slack_x) if upright else (region.height, region.slack_z)
    sizes = divided(clear, t, space.parts, f"{space.pointer}/{space.division}", built.write)
    sizes[-1] += slack
    for entry, size in zip(space.parts, sizes, strict=True):
        built.context.require_room(
            size, entry.pointer, "the clear size of an entry", "Use fewer entries or a larger cabinet."
        )
    spans = _spans(region, sizes, t, upright)
    keys: list[str] = []
    for low, high in spans[:-1]:
        stem = "divider" if upright else "shelf"
        keys.append(f"{stem}-{built.next_number(stem)}")
        between = _divider if upright else _dividing_shelf
        built = between(built, shell, region, keys[-1], high if upright else low - t)
    parts: list[Split | Leaf] = []
    for inner, entry in zip(_regions(region, spans, keys, upright), space.parts, strict=True):
        built, part = _divide(built, shell, inner, entry)
        parts.append(part)
    return built, Split(space, tuple(keys), tuple(parts))


def _spans(region: Region, sizes: list[int], thickness: int, upright: bool) -> list[tuple[int, int]]:
    """Return each entry's low and high bound: from the left for bays, from the top down for tiers."""
    spans: list[tuple[int, int]] = []
    place = region.x0 if upright else region.z1
    for size in sizes:
        spans.append((place, place + size) if upright else (place - size, place))
        place = place + size + thickness if upright else place - size - thickness
    return spans


def _regions(region: Region, spans: list[tuple[int, int]], keys: list[str], upright: bool) -> list[Region]:
    """Return the region of each entry; what one is larger than its siblings from an equal division is its slack."""
    first, last = (region.left, region.right) if upright else (region.roof, region.floor)
    edges = [first, *keys, last]
    sizes = [high - low for low, high in spans]
    slacks = [size - made for size, made in zip(sizes, alike(sizes), strict=True)]
    r = region
    if upright:
        return [
            Region(low, high, r.z0, r.z1, edges[i], edges[i + 1], r.floor, r.roof, slacks[i], r.slack_z)
            for i, (low, high) in enumerate(spans)
        ]
    return [
        Region(r.x0, r.x1, low, high, r.left, r.right, edges[i + 1], edges[i], r.slack_x, slacks[i])
        for i, (low, high) in enumerate(spans)
    ]


def _divider(built: Construction, shell: Shell, region: Region, key: str, x: int) -> Construction:
    """Add an upright part over a region's height and fit its ends."""
    context, case = built.context, built.cabinet.case
    material = context.material(case.material)
    box = Box(x, shell.front, region.z0, x + material.thickness, shell.inner_back, region.z0 + region.height)
    why = (height_terms(context, shell, region), depth_terms(context, shell, 0, shell.front))
    bands = front_band(context, case.case_band, box)
    built = built.with_parts(
        Draft(key, "divider", key.replace("-", " "), material, box, 3, 2, *why, "case", bands=bands)
    )
    ends: tuple[tuple[str, Axis], ...] = ((region.floor, -3), (region.roof, 3))
    for host, way in ends:
        built = meet(built, Joining("tee", case.fixed_joint), keys_at(built, host), key, way)
    return built


def _dividing_shelf(built: Construction, shell: Shell, region: Region, key: str, z: int) -> Construction:
    """Add a level part over a region's width and fit its ends."""
    context, case = built.context, built.cabinet.case
    material = context.material(case.material)
    box = Box(region.x0, shell.front, z, region.x0 + region.width, shell.inner_back, z + material.thickness)
    why = (width_terms(context, shell, region), depth_terms(context, shell, 0, shell.front))
    bands = front_band(context, case.case_band, box)
    shelf = Draft(key, "shelf", key.replace("-", " "), material, box, 1, 2, *why, "case", bands=bands)
    return _fixed_between(built.with_parts(shelf), region, key)


def _fixed_between(built: Construction, region: Region, key: str) -> Construction:
    """Fit a level part's two ends to what stands beside it."""
    ends: tuple[tuple[str, Axis], ...] = ((region.left, -1), (region.right, 1))
    for host, way in ends:
        built = meet(built, Joining("tee", built.cabinet.case.fixed_joint), host, key, way)
    return built


def width_terms(context: Context, shell: Shell, region: Region) -> tuple[Term, ...]:
    """Return the terms of a region's clear width, less what an equal division leaves over."""
    taken = shell.room.x1 - shell.room.x0 - (region.x1 - region.x0)
    others = (Term("other bays and dividers", -taken),) if taken else ()
    return (*inside_width_terms(context, shell), *others, *slack_terms(region.slack_x))


def height_terms(context: Context, shell: Shell, region: Region) -> tuple[Term, ...]:
    """Return the terms of a region's clear height, less what an equal division leaves over."""
    taken = shell.room.z1 - shell.room.z0 - (region.z1 - region.z0)
    others = (Term("other tiers and shelves", -taken),) if taken else ()
    return (*inside_height_terms(context, shell), *others, *slack_terms(region.slack_z))


def depth_terms(context: Context, shell: Shell, setback: int, band: int) -> tuple[Term, ...]:
    """Return the terms of an inside part's depth, from `setback` behind the front to the back panel."""
    terms = [Term("cabinet depth", context.cabinet.depth)]
    if shell.frame:
        terms.append(Term("face frame thickness", -shell.frame))
    if shell.inner_back < shell.depth:
        terms.append(Term("back inset and thickness", shell.inner_back - shell.depth))
    if setback:
        terms.append(Term("set back from the front", -setback))
    if band:
        terms.append(Term("band on the front edge", -band))
    return tuple(terms)


def add_fixed_shelves(built: Construction, shell: Shell, leaf: Leaf, setback: int) -> Construction:
    """Add the fixed shelves of a leaf, `setback` nm behind the case front, and fit them."""
    context, region, case = built.context, leaf.region, built.cabinet.case
    material = context.material(case.shelf_material)
    heights = _heights(context, leaf, material.thickness)
    if not heights:
        return built
    band = context.material(case.shelf_band).thickness if case.shelf_band else 0
    y0 = setback + band
    pointer = f"{leaf.space.pointer}/fixed_shelves"
    context.require_room(shell.inner_back - y0, pointer, "shelf depth", "Set shelves back less or go deeper.")
    why = (width_terms(context, shell, region), depth_terms(context, shell, setback, band))
    for above_floor in heights:
        z = region.z0 + above_floor
        key = f"shelf-{built.next_number('shelf')}"
        box = Box(region.x0, y0, z, region.x0 + region.width, shell.inner_back, z + material.thickness)
        bands = front_band(context, case.shelf_band, box)
        shelf = Draft(key, "shelf", key.replace("-", " "), material, box, 1, 2, *why, "case", bands=bands)
        built = _fixed_between(built.with_parts(shelf), region, key)
    return built


def _heights(context: Context, leaf: Leaf, thickness: int) -> list[int]:
    """Return the fixed shelves' undersides above the leaf's floor, in nm."""
    space, region = leaf.space, leaf.region
    clear = region.z1 - region.z0
    pointer = f"{space.pointer}/fixed_shelves"
    if space.fixed_heights is None:
        n = space.fixed_count
        free = clear - n * thickness
        context.require_room(free, pointer, "the room between shelves", "Ask for fewer shelves.")
        return [free * (i + 1) // (n + 1) + i * thickness for i in range(n)]
    heights = sorted(space.fixed_heights)
    floor = 0
    for height in heights:
        if height <= floor or height + thickness >= clear:
            raise NoGeometryError(_stands_in_the_way(context.write, pointer, height, clear, thickness))
        floor = height + thickness
    return heights


def _stands_in_the_way(write: Writer, pointer: str, height: int, clear: int, thickness: int) -> Problem:
    return Problem(
        pointer,
        "shelves stand clear of floor, roof and one another",
        f"a shelf {write.length(height)} above a floor {write.length(clear)} under the roof",
        f"Keep shelves {write.length(thickness)} thick apart and between 0 and the roof.",
    )
