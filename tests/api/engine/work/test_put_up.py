"""How each form of cabinet is put up."""

import pytest
from casewright.api.papers.pages.today import hands


def hang(plan):
    (words,) = [one.do for one in plan.steps if one.action == "hang"]
    return words


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
    assert "level on its base and screw it to the wall so that it cannot tip, before it is loaded" in do


def test_a_standing_cabinet_without_a_mounting_is_only_set_level(planned):
    base = {"form": "base", "height": 850, "base": {"kind": "plinth", "height": 100}}
    wall = {"studs": {"at": [100, 500], "stuff": "spruce-pine-fir", "width": 38, "depth": 89}}
    plan = planned(base, wall={**wall, "cabinets_at": {"bay": [{"x": 50, "z": 0}]}})
    assert hang(plan).startswith("Set bay level on its base, with its left side at 50.0 mm")


def test_each_standing_cabinet_of_several_names_the_screws_of_its_own_place(planned):
    base = {"form": "base", "height": 850, "count": 2, "base": {"kind": "plinth", "height": 100}}
    wall = {"studs": {"at": [300, 1400], "stuff": "spruce-pine-fir", "width": 38, "depth": 89}}
    places = {"bay": [{"x": 50, "z": 0}, {"x": 1000, "z": 0}]}
    plan = planned({**base, "mounting": {"method": "screw-strip"}}, wall={**wall, "cabinets_at": places})
    hung = {place: do for do in (one.do for one in plan.steps if one.action == "hang") for place in ("bay 1", "bay 2")
            if do.startswith(f"Set {place} level on its base, with its left side at ")}  # fmt: skip
    # Both stand over one stud; what lies between is measured on the wall, and every screw is counted.
    for place, stud in (("bay 1", "300.0 mm"), ("bay 2", "1400.0 mm")):
        count = sum(line.quantity for line in plan.hardware if line.used_for == f"bay/mounting, place {place[-1]}")
        assert f" {count} × wood screw No. 10" in hung[place]
        assert f"at {stud} from the wall's left end" in hung[place]
        assert "first a hole of " in hung[place]
