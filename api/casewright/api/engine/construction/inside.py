"""Dividing the inside: dividers and shelves, recursively, and the leaves they leave."""

from dataclasses import dataclass, replace
from itertools import pairwise

from casewright.api.engine.construction.case import (
    Shell,
    front_band,
    inside_height_terms,
    inside_width_terms,
    keys_at,
)
from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.context import Context
from casewright.api.engine.construction.divide import divided, left_over
from casewright.api.engine.construction.draft import Draft, Region, alike
from casewright.api.engine.construction.equal import Measure
from casewright.api.engine.construction.meet import Joining, meet, moved_terms, slack_terms
from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.geometry import Axis, Box
from casewright.sdk.model import Space, Term
from casewright.sdk.writer import Writer

Spans = list[tuple[int, int]]
"""The low and the high bound of each entry of a division, in nm."""


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


@dataclass(frozen=True)
class _Placing:
    """Where the entries of a division stand, as asked for and as set, and what is over whole shares in each."""

    asked: Spans
    made: Spans
    over: list[int]


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
    over = left_over(sizes, space.parts)
    sizes[-1] += slack
    over[-1] += region.over_x if upright else region.over_z
    for entry, size in zip(space.parts, sizes, strict=True):
        built.context.require_room(
            size, entry.pointer, "the clear size of an entry", "Use fewer entries or a larger cabinet."
        )
    wanted = _spans(region, sizes, t, upright)
    built, spans = _set_alike(built, shell, wanted, upright)
    keys: list[str] = []
    for low, high in spans[:-1]:
        stem = "divider" if upright else "shelf"
        keys.append(f"{stem}-{built.next_number(stem)}")
        between = _divider if upright else _dividing_shelf
        built = between(built, shell, region, keys[-1], high if upright else low - t)
    parts: list[Split | Leaf] = []
    built, regions = _regions(built, region, _Placing(wanted, spans, over), keys, upright)
    for inner, entry in zip(regions, space.parts, strict=True):
        built, part = _divide(built, shell, inner, entry)
        parts.append(part)
    return built, Split(space, tuple(keys), tuple(parts))


def _spans(region: Region, sizes: list[int], thickness: int, upright: bool) -> Spans:
    """Return each entry's low and high bound: from the left for bays, from the top down for tiers."""
    spans: Spans = []
    place = region.x0 if upright else region.z1
    for size in sizes:
        spans.append((place, place + size) if upright else (place - size, place))
        place = place + size + thickness if upright else place - size - thickness
    return spans


def _set_alike(built: Construction, shell: Shell, spans: Spans, upright: bool) -> tuple[Construction, Spans]:
    """Return the spans of entries with the parts between them set like other parts that stand nearly there.

    A divider is measured from the ends of its region, as the parts it is let into are; a shelf from the ends of the
    case's sides. Rooms so small that this could close them are left as they are.
    """
    if min(high - low for low, high in spans) <= 2 * built.job.shop.same:
        return built, spans
    rising = sorted(spans)
    ends = (rising[0][0], rising[-1][1]) if upright else (shell.foot, shell.height)
    measure = Measure.FROM_REGION if upright else Measure.FROM_SIDE_END
    shifts = [0]
    for (_, low), (high, _) in pairwise(rising):
        built, shift = built.shift(measure, (low, high), ends)
        shifts.append(shift)
    shifts.append(0)
    moved = [(low + shifts[i], high + shifts[i + 1]) for i, (low, high) in enumerate(rising)]
    return built, moved if upright else moved[::-1]


def _regions(
    built: Construction, region: Region, placing: _Placing, keys: list[str], upright: bool
) -> tuple[Construction, list[Region]]:
    """Return the region of each entry.

    What one is larger than those its parts are made alike with is its slack.
    """
    made, over = placing.made, placing.over
    first, last = (region.left, region.right) if upright else (region.roof, region.floor)
    edges = [first, *keys, last]
    sizes = [high - low for low, high in made]
    measure = Measure.CLEAR_WIDTH if upright else Measure.CLEAR_HEIGHT
    near = alike([size - more for size, more in zip(sizes, over, strict=True)])
    built = built.asking(measure, *near)
    slacks = [size - built.context.equal(measure, one) for size, one in zip(sizes, near, strict=True)]
    moved = [size - (high - low) for size, (low, high) in zip(sizes, placing.asked, strict=True)]
    out: list[Region] = []
    for i, (low, high) in enumerate(made):
        if upright:
            left, right = edges[i], edges[i + 1]
            one = replace(
                region, x0=low, x1=high, left=left, right=right, slack_x=slacks[i], moved_x=moved[i], over_x=over[i]
            )
        else:
            floor, roof = edges[i + 1], edges[i]
            one = replace(
                region, z0=low, z1=high, floor=floor, roof=roof, slack_z=slacks[i], moved_z=moved[i], over_z=over[i]
            )
        out.append(one)
    return built, out


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
    """Return the terms of a region's clear width, less what it is larger than those its parts are made alike with."""
    taken = shell.room.x1 - shell.room.x0 - (region.x1 - region.x0) + region.moved_x
    others = (Term("other bays and dividers", -taken),) if taken else ()
    return (*inside_width_terms(context, shell), *others, *moved_terms(region.moved_x), *slack_terms(region.slack_x))


def height_terms(context: Context, shell: Shell, region: Region) -> tuple[Term, ...]:
    """Return the terms of a region's clear height, less what it is larger than those its parts are made alike with."""
    taken = shell.room.z1 - shell.room.z0 - (region.z1 - region.z0) + region.moved_z
    others = (Term("other tiers and shelves", -taken),) if taken else ()
    return (*inside_height_terms(context, shell), *others, *moved_terms(region.moved_z), *slack_terms(region.slack_z))


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
    built, heights = _shelves_alike(built, shell, region, heights, material.thickness)
    for above_floor in heights:
        z = region.z0 + above_floor
        key = f"shelf-{built.next_number('shelf')}"
        box = Box(region.x0, y0, z, region.x0 + region.width, shell.inner_back, z + material.thickness)
        bands = front_band(context, case.shelf_band, box)
        shelf = Draft(key, "shelf", key.replace("-", " "), material, box, 1, 2, *why, "case", bands=bands)
        built = _fixed_between(built.with_parts(shelf), region, key)
    return built


def _shelves_alike(
    built: Construction, shell: Shell, region: Region, heights: list[int], thickness: int
) -> tuple[Construction, list[int]]:
    """Return the heights of a region's shelves over its floor, each like another shelf that stands nearly there.

    Shelves so close over one another that this could bring them together are left as they are.
    """
    below = [0, *[height + thickness for height in heights]]
    above = [*heights, region.z1 - region.z0]
    if min(high - low for low, high in zip(below, above, strict=True)) <= 2 * built.job.shop.same:
        return built, heights
    out = []
    for height in heights:
        z = region.z0 + height
        built, by = built.shift(Measure.FROM_SIDE_END, (z, z + thickness), (shell.foot, shell.height))
        out.append(height + by)
    return built, out


def _heights(context: Context, leaf: Leaf, thickness: int) -> list[int]:
    """Return the fixed shelves' undersides above the leaf's floor, in nm."""
    space, region = leaf.space, leaf.region
    clear = region.z1 - region.z0
    pointer = f"{space.pointer}/fixed_shelves"
    if space.fixed_heights is None:
        n = space.fixed_count
        free = clear - n * thickness
        context.require_room(free, pointer, "the room between shelves", "Ask for fewer shelves.")
        lower = [free * (i + 1) // (n + 1) + i * thickness for i in range(-(-n // 2))]
        return [*lower, *[clear - thickness - height for height in reversed(lower[: n // 2])]]
    heights = sorted(space.fixed_heights)
    floor = 0
    for height in heights:
        if not floor < height < clear - thickness:
            raise NoGeometryError(_stands_in_the_way(context.write, pointer, height, (floor, clear - thickness)))
        floor = height + thickness
    return heights


def _stands_in_the_way(write: Writer, pointer: str, height: int, between: tuple[int, int]) -> Problem:
    """Return why a shelf cannot be at a height; its underside may stand between two others, over the space's floor."""
    low, high = between
    under = f"its underside less than {write.length(high)} over the floor of its space"
    over = f"more than {write.length(low)}, where the shelf below ends" if low else "more than 0"
    fix = f"Give {under} and {over}." if low < high else "There is no room for it over the shelf below: leave it out."
    return Problem(
        pointer,
        "shelves that stand clear of floor, roof and one another",
        f"a shelf with its underside at {write.length(height)}",
        fix,
    )
