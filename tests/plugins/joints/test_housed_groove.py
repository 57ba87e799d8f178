"""The housed groove in planned cases, worked by hand: half the thickness deep (common practice, no source)."""

import pytest
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.sdk.loader import load
from casewright.sdk.units import inches, mm

REGISTRY = load(discover="built-in")
BACK = {"material": "case", "inset": "3/4", "joint": {"method": "housed-groove"}}
PLY = {"kind": "sheet", "stuff": "birch-plywood", "thickness": "3/4"}


def plan(space, case=None, material=None, fit: str | int = 0):
    """Plan a case 28 × 33 × 12 in of 3/4 in plywood, all of it housed."""
    case = {
        "material": "case", "corner": {"method": "housed-groove"}, "top_inset": "3/4", "bottom_inset": "3/4",
        "back": BACK, **(case or {}),
    }  # fmt: skip
    cabinet = {"id": "tools", "width": 28, "height": 33, "depth": 12, "case": case, "space": space}
    job = {"units": "in", "materials": {"case": material or PLY}, "cabinets": [cabinet], "shop": {"fit": fit}}
    return make_plan(read_job(job, REGISTRY), REGISTRY)


def part(made, key):
    (one,) = [p for p in made.parts if p.id == f"tools/{key}"]
    return one


def groove(made, key, guest):
    """Return the waste of the groove a part has for a guest, in the cabinet frame."""
    host = part(made, key)
    cuts = [f for f in host.features if f.kind == "groove" and f.label.endswith(f"for {guest}")]
    (cut,) = [host.place.box(b) for f in cuts for b in f.boxes]
    return cut


def levels(made, code):
    return [c.level for c in made.checks if c.code == code]


def test_the_groove_is_half_the_thickness_deep():
    made = plan({"fixed_shelves": 1})
    for guest in ("top", "bottom", "back", "shelf 1"):
        cut = groove(made, "side-left", guest)
        assert cut.x1 - cut.x0 == inches("3/8")
        assert cut.x1 == inches("3/4")


def test_top_and_shelf_reach_both_groove_bottoms():
    # 28 − 2 × 3/4 + 2 × 3/8 = 27 1/4.
    made = plan({"fixed_shelves": 1})
    assert part(made, "top").length == part(made, "shelf-1").length == inches("27 1/4")


def test_the_back_groove_starts_the_inset_from_the_edge():
    # 12 − 3/4 − 3/4 = 10 1/2 to 12 − 3/4 = 11 1/4.
    cut = groove(plan({}), "side-left", "back")
    assert (cut.y0, cut.y1) == (inches("10 1/2"), inches("11 1/4"))


def test_two_grooves_of_nearly_half_the_thickness_leave_no_web():
    # 23/64 + 23/64 in from both sides of a 3/4 in divider: 1/32 in is left (common practice, no source: a stop).
    shelves = {"bays": [{"fixed_shelves": [12]}, {"fixed_shelves": [12]}]}
    made = plan(shelves, {"fixed_joint": {"method": "housed-groove", "depth": "23/64"}})
    assert levels(made, "web") == ["stop"]
    assert next(c.value for c in made.checks if c.code == "web") == inches("1/32")
    # 1/4 in deep, the usual depth in a divider, they leave 1/4 in, a third of the stock.
    assert levels(plan(shelves), "web") == []
    assert levels(plan(shelves, {"fixed_joint": {"method": "housed-groove", "depth": "1/4"}}), "web") == []


# Birch plywood sold as 18 mm measures 17.1 to 18.1 mm (thickness table of an EN 315-class data sheet).
@pytest.mark.parametrize("tenths", range(171, 182))
@pytest.mark.parametrize("fit", ["0 mm", "0.2 mm"])
def test_measured_thickness_flows_through(tenths, fit):
    t = tenths * mm("0.1")
    sheet = {"kind": "sheet", "stuff": "birch-plywood", "nominal": "18 mm", "thickness": f"{tenths / 10} mm"}
    made = plan({"fixed_shelves": 1}, material=sheet, fit=fit)
    cut = groove(made, "side-left", "shelf 1")
    assert cut.z1 - cut.z0 == t + mm(fit.split()[0])
    assert cut.x1 - cut.x0 == t // 2
    assert made.dry_fit.outside == (("tools", (0, 0, 0), (inches(28), inches(12), inches(33))),)
    assert part(made, "side-left").length == inches(33)
    assert part(made, "shelf-1").length == inches(28) - 2 * t + 2 * (t // 2)
    assert all(s.seated for s in made.dry_fit.seats)
