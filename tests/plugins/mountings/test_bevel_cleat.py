"""The bevelled cleat in planned cabinets: where it hooks and how far the case then stands off the wall, by hand.

Common practice, no source: both strips are ripped at 45 degrees; a back set in by one cleat thickness lets the case
meet the wall.
"""

import pytest
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.sdk.errors import NoGeometryError
from casewright.sdk.loader import load
from casewright.sdk.units import inches

REGISTRY = load(discover="built-in")


def plan(inset, **more):
    joint = "housed-groove" if inset != "0" else "rabbet"
    back = {"material": "case", "inset": inset, "joint": {"method": joint}}
    case = {
        "material": "case", "corner": {"method": "housed-groove"}, "top_inset": "3/4", "bottom_inset": "3/4",
        "back": back,
    }  # fmt: skip
    hung = {"method": "bevel-cleat", "contents_kg": 20, **more}
    cabinet = {"id": "tools", "width": 28, "height": 33, "depth": 12, "case": case, "space": {}, "mounting": hung}
    ply = {"kind": "sheet", "stuff": "birch-plywood", "thickness": "3/4"}
    job = {"units": "in", "materials": {"case": ply}, "cabinets": [cabinet], "shop": {"fit": 0}}
    return make_plan(read_job(job, REGISTRY), REGISTRY)


def part(made, key):
    (one,) = [p for p in made.parts if p.id == f"tools/{key}"]
    return one


@pytest.mark.parametrize(("inset", "past"), [("3/4", "0"), ("1/2", "1/4")])
def test_a_back_inset_of_one_cleat_thickness_lets_the_case_meet_the_wall(inset, past):
    # The wall is where the wall cleat's rear face is: 3/4 of cleat behind a back inset by 3/4 is flush with the
    # case's back edge; behind one inset by 1/2 it stands 1/4 in off.
    made = plan(inset)
    cleat = part(made, "wall-cleat")
    assert cleat.place.box(cleat.blank).y1 == inches(12) + inches(past)
    assert made.dry_fit.clashes == ()


def test_both_cleats_are_ripped_at_45_degrees_and_hook():
    made = plan("3/4")
    bevels = [f for key in ("cleat", "wall-cleat") for f in part(made, key).features if f.kind == "bevel"]
    assert [f.angle_deg for f in bevels] == [45.0, 45.0]
    # At 45 degrees the slope falls as much as the cleat is thick.
    for key in ("cleat", "wall-cleat"):
        (slope,) = [w for f in part(made, key).features for w in f.wedges]
        assert sorted(slope.box.size)[:2] == [inches("3/4"), inches("3/4")]
    assert [s.seated for s in made.dry_fit.seats if "cleat" in s.joint] == [True, True]


@pytest.mark.parametrize(
    ("through", "ends", "notched"),
    [
        ("none", ("1", "27"), ()),
        ("left", ("0", "27"), ("side-left",)),
        ("right", ("1", "28"), ("side-right",)),
        ("both", ("0", "28"), ("side-left", "side-right")),
    ],
)
def test_a_cleat_runs_on_through_the_sides_that_are_notched_for_it(through, ends, notched):
    # Sides of 3/4 and 1/4 of play: 1 in from the outside at a closed end, flush with it at an open one.
    made = plan("3/4", through=through)
    box = part(made, "wall-cleat").place.box(part(made, "wall-cleat").blank)
    assert (box.x0, box.x1) == (inches(ends[0]), inches(ends[1]))
    with_notch = [one.id for one in made.parts if any(feature.kind == "notch" for feature in one.features)]
    assert with_notch == [f"tools/{key}" for key in notched]
    assert made.dry_fit.clashes == ()


def test_a_cleat_behind_the_sides_needs_no_notch():
    made = plan("0", through="both")
    assert not [one for one in made.parts if any(feature.kind == "notch" for feature in one.features)]
    assert part(made, "wall-cleat").length == inches(28)


def test_a_notch_that_would_reach_the_bottom_is_refused():
    # Both cleats of 15 1/2 in fill 30 of the 30 in between top and bottom; the notch reaches 7/8 and 2 mm lower.
    plan("3/4", height="15 1/4")
    with pytest.raises(NoGeometryError, match="the notch for a cleat that runs through stays above the bottom"):
        plan("3/4", height="15 1/4", through="left")
