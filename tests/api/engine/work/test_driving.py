"""Room for the driver: plates and walls by hand."""

from dataclasses import replace

import pytest
from casewright.api.engine.work.assembly import AssemblyOrder, Insertion, Leg
from casewright.api.engine.work.driving import driving_checks
from casewright.api.engine.work.together import Together
from casewright.sdk.geometry import Box, Cylinder, Place, Wedge
from casewright.sdk.hardware import Screw
from casewright.sdk.model import Feature, HardwareLine, Joint, Part
from casewright.sdk.model.parts import hole
from casewright.sdk.units import MM, mm
from casewright.sdk.writer import MILLIMETRES

SCREW = Screw("s", "wood screw", 8, 4 * MM, 3 * MM, 8 * MM, mm(40), 600.0, ())
JOINT = Joint("j", "bay", "screwed", "tee", "bay/plate", "bay/shelf", 1, 0, 0, 100.0)
DRIVER = mm(200)


def part(name, at, size, *features):
    """Return a part that fills a box, its length, width and thickness along x, y and z."""
    return Part(
        id=f"bay/{name}", cabinet="bay", role="shelf", name=name, quantity=1, material="oak", length=size[0],
        width=size[1], thickness=size[2], grain="free", why_length=(), why_width=(), place=Place(at, 1, 2, 3),
        features=features, group="case",
    )  # fmt: skip


def box(*sizes):
    return tuple(mm(size) for size in sizes)


# A plate 18 thick stands at x 0 to 18; the shelf lies to its left; the screw goes in from the plate's right face.
PLATE = part("plate", box(0, 0, 0), box(18, 300, 300),
             replace(hole("screw", Cylinder(box(18, 150, 100), -1, 4 * MM, mm(18))), joint="j"))  # fmt: skip
SHELF = part("shelf", box(-300, 0, 91), box(300, 300, 18))
LINE = HardwareLine("s", "wood screw", "bay", "j", 1, (box(18, 150, 100),))


def checks(*parts, order):
    first, *rest = order
    made = AssemblyOrder(first, tuple(Insertion((name,), (Leg(1),)) for name in rest))
    together = Together(parts, made, (JOINT,), (LINE,))
    return driving_checks({("bay", "case"): together}, (SCREW,), DRIVER, MILLIMETRES)


def wall(x, z0=0, z1=300):
    return part("wall", box(x, 0, z0), box(18, 300, z1 - z0))


@pytest.mark.parametrize(("x", "level"), [(18 + 201, None), (18 + 150, "caution"), (18 + 30, "stop")])
def test_a_wall_before_the_screw_stops_the_driver(x, level):
    # The driver is 200 long with its bit, the screw 40: a wall 150 off is for an angle driver, one 30 off for none.
    blocked = checks(PLATE, SHELF, wall(x), order=("bay/wall", "bay/plate", "bay/shelf"))
    assert [check.finding.level for check in blocked] == ([level] if level else [])
    assert [check.finding.value for check in blocked] == ([mm(x - 18)] if level else [])
    assert all("wall" in check.finding.message for check in blocked)


def test_a_wall_that_comes_after_is_not_in_the_way():
    assert checks(PLATE, SHELF, wall(18 + 30), order=("bay/plate", "bay/shelf", "bay/wall")) == ()


@pytest.mark.parametrize(("z0", "blocked"), [(103, True), (105, False)])
def test_the_way_is_as_wide_as_the_head(z0, blocked):
    # The screw's axis is at 100, its head 8 wide: what begins at 104 is passed by.
    checks_made = checks(PLATE, SHELF, wall(18 + 30, z0), order=("bay/wall", "bay/plate", "bay/shelf"))
    assert bool(checks_made) is blocked


def test_a_pocket_is_driven_along_its_slope():
    """A pocket in the shelf's upper face, 10 deep and 40 long: its way rises 1 in 4, left along the shelf."""
    wedge = Wedge(Box(*box(240, 146, 8, 280, 154, 18)), 2, (1, 3))
    pocket = Feature("pocket", "pocket", 3, wedges=(wedge,), joint="j")
    shelf = part("shelf", box(-300, 0, 91), box(300, 300, 18), pocket)
    plate = replace(PLATE, features=())
    # From x = -20, z = 104: at x = -120 it is 100 to the left and 25 up, at 129: a beam from 120 to 140 is hit there,
    # hypot(100, 25) = 103.08 along the way, less a little for the width of the head; one over 150 to 170 is not.
    beam = part("beam", box(-140, 0, 120), box(20, 300, 20))
    order = ("bay/beam", "bay/plate", "bay/shelf")
    beam = replace(beam, id="bay/beam")
    (check,) = checks(plate, shelf, beam, order=order)
    assert check.finding.level == "caution"
    assert mm(98) < check.finding.value <= mm("103.1")
    over = replace(beam, place=Place(box(-140, 0, 150), 1, 2, 3))
    assert checks(plate, shelf, over, order=order) == ()
