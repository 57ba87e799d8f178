"""How each form of cabinet is put up."""


def hang(plan):
    (found,) = [one.do for one in plan.steps if one.action == "hang"]
    return found


def test_a_wall_cabinet_is_hung_with_a_helper_and_kept_from_lifting_off(planned):
    do = hang(planned({"mounting": {"method": "bevel-cleat", "contents_kg": 5}}, {"back": {"inset": 19}}))
    assert do.startswith("Hang bay with a helper")
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
