"""Grooves that go by the thickness of the piece that goes in: as wide as it measures and what the shop adds, 0.2 mm."""

import pytest
from casewright.sdk.units import MM

CASE = {
    "corner": {"method": "housed-groove"},
    "top_inset": 20,
    "bottom_inset": 20,
    "back": {"material": "thin", "inset": 20},
}
SHELVES = {"space": {"fixed_shelves": 2}}
SHOP = {"fit": 0.2}


def grooves(plan, host, guest):
    """Return how wide the grooves of a part for another are."""
    (part,) = [one for one in plan.parts if one.id == f"bay/{host}"]
    ids = {joint.id for joint in plan.joints if joint.host == part.id and joint.guest == f"bay/{guest}"}
    return [
        min(box.size) if guest == "back" else box.size[0] for f in part.features if f.joint in ids for box in f.boxes
    ]


def measured(part, value, **more):
    return {"cabinet": "bay", "part": part, "measure": "thickness", "value": value, **more}


@pytest.mark.parametrize(("part", "value"), [("shelf-1", 18.5), ("shelf-1", 17.4), ("bottom", 18.6), ("top", 17.5)])
def test_the_grooves_of_one_piece_are_as_wide_as_it_is(planned, part_of, part, value):
    first, plan = (planned(SHELVES, CASE, shop=SHOP, built=rows) for rows in ([], [measured(part, value)]))
    for side in ("side-left", "side-right"):
        assert grooves(plan, side, part) == [round((value + 0.2) * MM)]
        assert grooves(plan, side, "shelf-2") == grooves(first, side, "shelf-2") == [round(18.2 * MM)]
    assert part_of(plan, part).thickness == round(value * MM)
    assert not [check for check in plan.checks if check.level == "stop"]
    assert all(seat.seated for seat in plan.dry_fit.seats)
    changed = {change.part for change in plan.built.changed if change.cuts}
    assert {"bay/side-left", "bay/side-right"} <= changed


@pytest.mark.parametrize("value", [6.5, 5.5])
def test_a_back_s_grooves_go_round_it(planned, value):
    plan = planned(SHELVES, CASE, shop=SHOP, built=[measured("back", value)])
    for host in ("side-left", "side-right", "top", "bottom"):
        (part,) = [one for one in plan.parts if one.id == f"bay/{host}"]
        (groove,) = [f for f in part.features if f.joint.startswith("bay/back+")]
        assert round((value + 0.2) * MM) in {size for box in groove.boxes for size in box.size}, host
    assert not [check for check in plan.checks if check.level == "stop"]


def test_of_two_copies_each_has_its_own_grooves(planned):
    rows = [measured("shelf-1", 18.5, copy=1), measured("shelf-1", 17.5, copy=2)]
    plan = planned({**SHELVES, "count": 2}, CASE, shop=SHOP, built=rows)
    wide = {
        part.id: {box.size[0] for f in part.features for box in f.boxes} for part in plan.parts if part.role == "side"
    }
    assert {cabinet.id: cabinet.copies for cabinet in plan.job.cabinets} == {"bay 1": (1,), "bay 2": (2,)}
    assert 18_700_000 in wide["bay 1/side-left"]
    assert 17_700_000 in wide["bay 2/side-left"]


@pytest.mark.parametrize(
    "already",
    [
        {"cabinet": "bay", "measure": "outside-width", "value": 800},
        {"cabinet": "bay", "part": "loose-shelf-1", "measure": "opening-width", "value": 764},
    ],
)
def test_a_case_that_is_glued_up_has_its_grooves(planned, codes, already):
    cabinet = {"space": {"fixed_shelves": 1, "loose_shelves": 1}}
    plan = planned(cabinet, CASE, shop=SHOP, built=[already, measured("shelf-1", 18.5)])
    assert [code for level, code, _ in codes(plan) if level == "stop"] == ["built-too-long"]


def test_grooves_that_are_cut_by_a_done_step_stay(planned, codes):
    first = planned(SHELVES, CASE, shop=SHOP)
    cut = [
        step.number for step in first.steps if step.action == "groove" and "bay/side-left" in {o.part for o in step.on}
    ]
    upto = list(range(1, max(cut) + 1))
    plan = planned(SHELVES, CASE, shop=SHOP, built=[measured("shelf-1", 18.5)], done=upto)
    assert [code for level, code, _ in codes(plan) if level == "stop"] == ["built-too-long"]


def test_what_stands_on_a_shelf_keeps_it_as_planned(planned, codes):
    """A divider is let into its upper side, where it would be thicker."""
    space = {"tiers": [{"bays": [{"front": "open"}, {"front": "open"}]}, {"front": "open"}]}
    plan = planned({"space": space}, CASE, shop=SHOP, built=[measured("shelf-1", 18.5)])
    assert [code for level, code, _ in codes(plan) if level == "stop"] == ["built-too-long"]
