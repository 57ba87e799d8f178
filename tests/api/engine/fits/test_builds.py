"""Simulated builds through the solids: the deviation that chains predict within 3 %, the worst case never exceeded.

`pytest --full` makes 10,000 builds of each fit; fewer are made otherwise, and may then be off by four standard errors
of what is drawn. `builds` cuts and pushes together boxes and knows nothing of chains.
"""

import math
import sys
from pathlib import Path
from random import Random

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from builds import Shop
from casewright.sdk.model import Action, FitKind

BUILDS, BUILDS_FULL = 250, 10_000
SEED = 20261126
ACCURACY = {
    "rip": 0.03,
    "crosscut": 0.04,
    "groove": 0.02,
    "rabbet": 0.025,
    "tenon": 0.02,
    "bore": 0.03,
    "mark": 0.05,
    "fit": 0.015,
    "sheet": 0.02,
}
"""So fine that nothing waits for the work and every fit is cut to the plan; errors of a rough shop are as many times
larger, and so is the deviation."""
GROOVED = {"corner": {"method": "housed-groove"}, "back": None, "top_inset": 20, "bottom_inset": 20}
BACK = {**GROOVED, "back": {"material": "thin", "inset": 10, "joint": {"method": "housed-groove"}}}
CASE = ["bay/side-left", "bay/top", "bay/bottom", "bay/side-right"]


def shelf(shop):
    return shop.opening(CASE, "bay/loose-shelf-1") - shop.across(["bay/loose-shelf-1"])


def back(shop):
    return shop.opening(CASE, "bay/back") - shop.across(["bay/back"])


def drawer(shop):
    box = [name for name in shop.parts if "/box-" in name and "bottom" not in name]
    return shop.opening(CASE, "bay/drawer-1/box-front") - shop.across(box)


def door(shop):
    """Return the gap that is left on the side of the pull: on the other the hinges hold it, as their cups are bored."""
    (bored,) = [step for step in shop.plan.steps if step.action is Action.BORE and step.setting.cutter == 35_000_000]
    hinged = 2_000_000 + shop.error(bored.number, Action.BORE)
    return shop.opening(CASE, "bay/door-1/slab") - shop.across(["bay/door-1/slab"]) - hinged


def frame(shop):
    """Return how far a frame that is set flush at the left, by hand, stands over the case at the right."""
    parts = [name for name in shop.parts if "/frame-" in name]
    return shop.across(parts) - shop.across(CASE) + shop.error("set", Action.FIT)


def run(shop):
    """Return the gap between two cases that are each set to a mark."""
    first, second = shop.error("first", Action.MARK), shop.error("second", Action.MARK)
    return 1310_000_000 + second - (500_000_000 + first + shop.across(CASE))


DOOR = {"space": {"front": "door"}, "doors": {"style": "slab", "material": "case", "hang": "inset", "gap": 2}}
DRAWER = {
    "space": {"front": "drawer"},
    "drawers": {"material": "case", "bottom": "thin", "corner": {"method": "box-rabbet"}},
}
FRAME = {"face_frame": {"material": "frame", "stile": 40, "rail": 40}}
WALL = {"cabinets_at": {"bay": [{"x": 500, "z": 1000}, {"x": 1310, "z": 1000}]}, "length": 3000, "corners": "both"}
KINDS = {
    FitKind.SHELF_PLAY: ({"space": {"loose_shelves": 1}}, GROOVED, {}, "bay/loose-shelf-1 across", shelf),
    FitKind.PANEL_PLAY: ({}, BACK, {}, "bay/back across", back),
    FitKind.RUNNER_ROOM: (DRAWER, GROOVED, {}, "bay/drawer-1 across", drawer),
    FitKind.DOOR_GAP: (DOOR, GROOVED, {}, "bay/door-1 across", door),
    FitKind.FRAME_FLUSH: (FRAME, GROOVED, {}, "bay frame across", frame),
    FitKind.RUN_GAP: ({"count": 2}, GROOVED, {"wall": WALL}, "bay 1 to bay 2", run),
}


@pytest.mark.parametrize("kind", KINDS)
def test_what_builds_come_to(kind, planned, full):
    cabinet, case, top, name, measured = KINDS[kind]
    plan = planned(cabinet, case, **{**top, "shop": {"fit": 0, "accuracy": ACCURACY}})
    (fit,) = [fit for fit in plan.fits if fit.id == name]
    assert (fit.kind, fit.measuring) == (kind, None)
    shop, builds = Shop(plan, Random(SEED)), BUILDS_FULL if full else BUILDS
    off = []
    for _ in range(builds):
        shop.build()
        off.append(measured(shop) - fit.nominal)
    sigma = math.sqrt(math.fsum(one * one for one in off) / builds)
    largest = max(map(abs, off))
    print(f"\n{kind}: σ predicted {fit.stack.sigma:.0f} nm, of {builds} builds {sigma / fit.stack.sigma - 1:+.2%};")
    print(f"worst case {fit.stack.worst:.0f}, largest {largest:.0f}")
    assert largest <= fit.stack.worst * (1 + 1e-9)
    assert sigma == pytest.approx(fit.stack.sigma, rel=0.03 if full else 4 / math.sqrt(2 * builds))
    assert abs(math.fsum(off) / builds) <= 4 * fit.stack.sigma / math.sqrt(builds)


def test_what_is_left_of_a_door_that_is_cut_to_its_opening(planned, full):
    """A rough case, its opening read, a door ripped to the reading: what is left is reading, rip and cup."""
    rough = {**ACCURACY, "crosscut": 1.5, "groove": 1, "measure": 0.05}
    cabinet, case, top, name, _ = KINDS[FitKind.DOOR_GAP]
    plan = planned(cabinet, case, **{**top, "shop": {"fit": 0, "accuracy": rough}})
    (fit,) = [fit for fit in plan.fits if fit.id == name]
    (size,) = fit.measuring.sizes
    shop, builds = Shop(plan, Random(SEED)), BUILDS_FULL if full else BUILDS
    (bored,) = [step for step in shop.plan.steps if step.action is Action.BORE and step.setting.cutter == 35_000_000]
    off = []
    for _ in range(builds):
        shop.build()
        opening = shop.opening(CASE, "bay/door-1/slab")
        slab = opening + shop.error("reading", Action.MEASURE) - size.less + shop.error("rip", Action.RIP)
        off.append(opening - slab - 2_000_000 - shop.error(bored.number, Action.BORE) - fit.nominal)
    sigma, stack = math.sqrt(math.fsum(one * one for one in off) / builds), fit.measuring.stack
    print(f"\nto the reading: σ predicted {stack.sigma:.0f} nm, of {builds} builds {sigma / stack.sigma - 1:+.2%}")
    assert max(map(abs, off)) <= stack.worst * (1 + 1e-9)
    assert sigma == pytest.approx(stack.sigma, rel=0.03 if full else 4 / math.sqrt(2 * builds))
    assert stack.sigma < fit.stack.sigma / 10
