"""How each form of cabinet is put up."""

import pytest
from casewright.api.papers.pages.today import hands


def hang(plan):
    (found,) = [one.do for one in plan.steps if one.action == "hang"]
    return found


@pytest.mark.parametrize(("width", "kg", "people", "start"), [
    (400, (0, 15), "one person", "Hang bay, doors and shelves off"),
    (1000, (15, 40), "two people", "Hang bay with a helper,"),
])  # fmt: skip
def test_a_wall_cabinet_is_hung_by_the_people_its_weight_asks_for_and_kept_from_lifting_off(
    planned, width, kg, people, start
):  # one lifts up to 15 kg overhead, two up to 40 kg: common practice, no source
    mounting = {"method": "bevel-cleat", "contents_kg": 5}
    plan = planned({"width": width, "mounting": mounting}, {"back": {"inset": 19}})
    low, high = kg
    assert low < plan.weights[0].mass_kg <= high
    assert hands(plan.weights[0].mass_kg) == people
    do = hang(plan)
    assert do.startswith(start)
    assert "against lifting" in do
    assert do.endswith("before it is loaded")


def test_a_standing_cabinet_is_kept_from_tipping(planned):
    base = {"form": "base", "height": 850, "base": {"kind": "plinth", "height": 100}}
    do = hang(planned({**base, "mounting": {"method": "screw-strip"}}))
    assert "level in its place and screw it to the wall so that it cannot tip, before it is loaded" in do


def test_a_standing_cabinet_without_a_mounting_is_only_set_level(planned):
    base = {"form": "base", "height": 850, "base": {"kind": "plinth", "height": 100}}
    wall = {"studs": {"at": [100, 500], "stuff": "spruce-pine-fir", "width": 38, "depth": 89}}
    plan = planned(base, wall={**wall, "cabinets_at": {"bay": [{"x": 50, "z": 0}]}})
    assert hang(plan).startswith("Set bay level with its left side at 50.0 mm")
