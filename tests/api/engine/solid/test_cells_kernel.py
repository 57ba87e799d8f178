"""Cells, spans and orders against an independent solid kernel, manifold3d (general-purpose library).

Random boxes and wedges on a coarse grid, so that faces touch often. Where a span says that a moved cell overlaps
another, the kernel finds common volume just inside its ends and none just outside; what an order sweeps on its way in
meets nothing that stands already.
"""

import random

import manifold3d
import numpy as np
from assembly_walk import order_is_clear
from casewright.api.engine.solid.blocking import blocking
from casewright.api.engine.solid.cells import cells, moved, overlap
from casewright.api.engine.work.assembly import assembly_order
from casewright.sdk.geometry import Box, Wedge, opposite

SEED = 20261127
PAIRS, PAIRS_FULL = 150, 1500
SETS, SETS_FULL = 15, 200
SIDE = 12
"""Size of the room in which boxes are drawn, in steps."""


def kernel_box(box):
    size = [float(box[i + 3] - box[i]) for i in range(3)]
    return manifold3d.Manifold.cube(size).translate([float(bound) for bound in box[:3]])


def kernel_wedge(wedge):
    """Return a wedge as the hull of its corners: those on the two faces of the box at its right angle."""
    axes = [abs(axis) - 1 for axis in wedge.corner]
    at = [wedge.box[i + 3] if axis > 0 else wedge.box[i] for i, axis in zip(axes, wedge.corner, strict=True)]
    corners = [
        (x, y, z)
        for x in (wedge.box.x0, wedge.box.x1)
        for y in (wedge.box.y0, wedge.box.y1)
        for z in (wedge.box.z0, wedge.box.z1)
        if any((x, y, z)[i] == bound for i, bound in zip(axes, at, strict=True))
    ]
    return manifold3d.Manifold.hull_points(np.array(corners, dtype=float))


def kernel_solid(wood, waste, wedges):
    out = manifold3d.Manifold()
    for box in wood:
        out += kernel_box(box)
    for cut in [*map(kernel_box, waste), *map(kernel_wedge, wedges)]:
        out -= cut
    return out


def a_box(draw, room, least=2):
    low = [draw.randint(room[i], room[i + 3] - least) for i in range(3)]
    return Box(*low, *(draw.randint(low[i] + least, room[i + 3]) for i in range(3)))


def a_solid(draw, room):
    """Return a block with random notches and slants out of it, as wood, waste and wedges."""
    block = a_box(draw, room, 4)
    waste = [a_box(draw, block, 1) for _ in range(draw.randint(0, 2))]
    wedges = []
    for _ in range(draw.randint(0, 2)):
        along = draw.choice((1, 2, 3))
        across = [axis for axis in (1, 2, 3) if axis != along]
        wedges.append(Wedge(a_box(draw, block, 1), along, tuple(draw.choice((-1, 1)) * axis for axis in across)))
    return [block], waste, wedges


def kernel_cell(cell):
    """Return a cell as the hull of its corners."""
    x0, y0, z0, x1, y1, z1 = cell.box
    corners = cell.corners or [(x, y, z) for x in (x0, x1) for y in (y0, y1) for z in (z0, z1)]
    return manifold3d.Manifold.hull_points(np.array([[float(c) for c in corner] for corner in corners]))


def test_cells_fill_what_the_kernel_leaves(full):
    draw = random.Random(SEED)
    slanted = 0
    for _ in range(PAIRS_FULL if full else PAIRS):
        drawn = a_solid(draw, (0, 0, 0, SIDE, SIDE, SIDE))
        solid, made = kernel_solid(*drawn), cells(*drawn)
        hulls = [kernel_cell(cell) for cell in made]
        assert abs(sum(hull.volume() for hull in hulls) - solid.volume()) < 1e-6, drawn
        assert all((hull - solid).volume() < 1e-6 for hull in hulls), drawn
        slanted += any(cell.corners for cell in made)
    assert slanted > 10


def test_spans_are_those_at_which_the_kernel_finds_common_volume(full):
    draw = random.Random(SEED + 1)
    met = passed = slanted = 0
    for _ in range(PAIRS_FULL if full else PAIRS):
        first, second = (cells(*a_solid(draw, (0, 0, 0, SIDE, SIDE, SIDE))) for _ in range(2))
        if not first or not second:
            continue
        a, b = (draw.choice([cell for cell in made if cell.corners] or made) for made in (first, second))
        solid, still = kernel_cell(a), kernel_cell(b)
        for axis in (1, 2, 3):
            span = overlap(a, b, axis)
            way = [float(axis == i + 1) for i in range(3)]

            def common(by, solid=solid, still=still, way=way):
                return (solid.translate([by * w for w in way]) ^ still).volume()

            if span is None:
                passed += 1
                assert max(common(by) for by in np.arange(-2 * SIDE, 2 * SIDE + 1, 0.5)) < 1e-9
                continue
            met += 1
            slanted += bool(a.corners or b.corners)
            low, high = float(span.low), float(span.high)
            assert common((low + high) / 2) > 0, (a, b, axis)
            inside = min(0.01, (high - low) / 4)
            assert common(low - 1e-6) < 1e-9 > common(high + 1e-6), (a, b, axis)
            assert common(low + inside) > 0 < common(high - inside), (a, b, axis)
    assert min(met, passed) > 10
    assert slanted > 10


def parted_block(draw):
    """Return disjoint solids: a block parted by random cuts, some of them slanting, some with pieces let in."""
    block = Box(0, 0, 0, SIDE, SIDE, SIDE)
    at = draw.randint(4, SIDE - 4)
    low, high = Box(0, 0, 0, SIDE, SIDE, at), Box(0, 0, at, SIDE, SIDE, SIDE)
    tongue = a_box(draw, (0, 0, at - 3, SIDE, SIDE, at), 1)
    tongue = Box(*tongue[:5], at)
    lip = a_box(draw, (0, 0, at, SIDE, SIDE, at + 3), 1)
    lip = Box(*lip[:2], at, *lip[3:])
    plug = a_box(draw, (1, 1, 1, SIDE - 1, SIDE - 1, SIDE - 1), 2)
    axis = draw.choice((1, 2, 3))
    plug = plug.grown(axis, block.high(axis) - plug.high(axis)) if draw.random() < 0.7 else plug
    flank = Wedge(plug, draw.choice([one for one in (1, 2, 3) if one != axis]), (1, 2))
    others = [one for one in (1, 2, 3) if one != flank.along]
    flank = Wedge(plug, flank.along, tuple(draw.choice((-1, 1)) * one for one in others))
    # The wedge goes to one part, the other half of its box to another; both are out of the halves of the block.
    mirrored = Wedge(plug, flank.along, tuple(opposite(one) for one in flank.corner))
    return {
        "A": ([low], [tongue, plug], []),
        "A2": ([lip], [plug], []),
        "B": ([high], [lip, plug], []),
        "B2": ([tongue], [plug], []),
        "P": ([plug], [], [flank]),
        "Q": ([plug], [], [mirrored]),
    }


def together(drawn):
    """Return the drawn solids as parts: a half and the tongue or lip that stands on it are one."""
    groups = {"low": ("A", "A2"), "high": ("B", "B2"), "P": ("P",), "Q": ("Q",)}
    made = {name: tuple(c for key in keys for c in cells(*drawn[key])) for name, keys in groups.items()}
    kernel = {}
    for name, keys in groups.items():
        solid = manifold3d.Manifold()
        for key in keys:
            solid += kernel_solid(*drawn[key])
        kernel[name] = solid
    return {name: cell for name, cell in made.items() if cell}, kernel


def sweep(made, way, by):
    """Return what cells cover when they move: the hull of each convex cell where it starts and where it ends."""
    out = manifold3d.Manifold()
    step = by if way > 0 else -by
    for cell in made:
        start = kernel_cell(cell)
        end = kernel_cell(moved(cell, abs(way), step))
        out += manifold3d.Manifold.batch_hull([start, end])
    return out


FAR = 3 * SIDE
"""Far enough to be free of everything."""


def test_ways_to_leave_are_those_whose_sweep_the_kernel_finds_free(full):
    draw = random.Random(SEED + 2)
    seen = {True: 0, False: 0}
    for _ in range(SETS_FULL if full else SETS):
        parts, kernel = together(parted_block(draw))
        graph = blocking(parts)
        for name, others in ((one, [o for o in parts if o != one]) for one in parts):
            for way in (1, -1, 2, -2, 3, -3):
                swept = sweep(parts[name], way, FAR)
                free = {o for o in others if (swept ^ kernel[o]).volume() < 1e-6}
                assert set(others) - free == set(graph.arcs[way][name]), (name, way)
                seen[not free] += 1
    assert min(seen.values()) > 10


def test_what_an_order_sweeps_on_its_way_in_meets_nothing(full):
    draw = random.Random(SEED + 3)
    turned = set_in = locked = 0
    for _ in range(SETS_FULL if full else SETS):
        parts, kernel = together(parted_block(draw))
        order = assembly_order(parts)
        assert order_is_clear(parts, order)
        locked += bool(order.locked)
        there = {order.first} if order.first else set(order.locked)
        for insertion in order.insertions:
            set_in += 1
            turned += len(insertion.legs) > 1
            going = [cell for name in insertion.parts for cell in parts[name]]
            for leg in reversed(insertion.legs):
                by = FAR if leg.by is None else leg.by
                swept = sweep(going, opposite(leg.way), by)
                assert all((swept ^ kernel[name]).volume() < 1e-6 for name in there), insertion
                step = by if opposite(leg.way) > 0 else -by
                going = [moved(cell, abs(leg.way), step) for cell in going]
            there |= set(insertion.parts)
        assert there == set(parts)
    print(f"\nseed {SEED + 3}: {set_in} insertions, {turned} of two legs, {locked} sets with locked parts")
    assert set_in > 20
