"""Findings on hinges and pulls, worked by hand from the common figures of cup hinges (hinge-planning-pages)."""

import pytest
from casewright.sdk.units import mm

SLAB = {"style": "slab", "material": "case", "overlay": 10}
FRAMED = {"style": "cope-and-stick", "material": "frame", "panel": "thin", "overlay": 10}
PLAIN = {"back": None}


@pytest.mark.parametrize(
    ("doors", "code", "level"),
    [
        ({"bore": "1 1/2 in"}, "bore-wider-than-cup", "caution"),  # 38.1 for a 35 mm cup: over 36
        ({"bore": 36}, "bore-wider-than-cup", None),
        ({"bore": "36.001"}, "bore-wider-than-cup", "caution"),
        ({"bore": 34}, "bore-narrower-than-cup", "stop"),
        ({"bore_edge": "2.9"}, "bore-edge-distance", "stop"),
        ({"bore_edge": "6.1"}, "bore-edge-distance", "stop"),
        ({"bore_edge": 6}, "bore-edge-distance", None),
    ],
)
def test_bores_are_judged(planned, codes, doors, code, level):
    plan = planned({"space": {"front": "door"}, "doors": {**SLAB, **doors}}, PLAIN)
    assert [found for found, *_ in codes(plan, code)] == ([level] if level else [])


# Stile s, groove 10 deep, panel 1 short of its bottom: the bore of 35 at 5 reaches 40 from the door's edge.
@pytest.mark.parametrize(
    ("stile", "code", "level"),
    [
        (57, None, None),
        (50, None, None),  # groove from 40
        ("49.9", "bore-meets-groove", "caution"),
        (49, "bore-meets-groove", "caution"),  # panel from 40
        ("48.9", "bore-meets-panel", "stop"),
        (39, "bore-meets-panel", "stop"),
        (30, "bore-off-wood", "stop"),
    ],
)
def test_the_bore_is_kept_from_groove_panel_and_edge(planned, codes, stile, code, level):
    doors = {**FRAMED, "stile": stile, "rail": 60, "groove_depth": 10, "panel_clearance": 1}
    plan = planned({"space": {"front": "door"}, "doors": doors}, PLAIN)
    bores = {(c, at) for at, c, _ in codes(plan) if c.startswith("bore-")}
    assert ((code, level) in bores) if code else not bores


def test_a_door_as_thin_as_the_cup_is_a_stop(planned, codes):
    materials = {"case": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 12}}
    plan = planned({"space": {"front": "door"}, "doors": SLAB}, PLAIN, materials=materials)
    assert codes(plan, "wood-under-bore") == [("stop", "wood-under-bore", "bay/door-1/slab")]


def test_a_pull_off_the_wood_is_a_stop(planned, codes):
    doors = {**FRAMED, "pull": {"item": "knob-1", "from_edge": 90, "from_end": 200}}
    plan = planned({"space": {"front": "door"}, "doors": doors}, PLAIN)
    assert codes(plan, "pull-off-wood") == [("stop", "pull-off-wood", "bay/door-1")]


def test_a_shelf_at_a_hinge_is_found(planned, codes):
    # Door from 8 to 892: its hinges stand at 88 and 812. A shelf from 103 to 121 is 15 over the first: 11 too near.
    cabinet = {"space": {"front": "door", "fixed_shelves": [85]}, "doors": SLAB}
    plan = planned(cabinet, PLAIN)
    assert codes(plan, "hinge-near-shelf") == [("caution", "hinge-near-shelf", "bay/shelf-1")]
    assert any(check.message.endswith("move the shelf 11 mm up or more") for check in plan.checks)
    cabinet["space"]["fixed_shelves"] = [96]  # underside at 114: 26 clear
    assert codes(planned(cabinet, PLAIN), "hinge-near-shelf") == []


def test_a_door_too_short_for_its_hinges_is_a_stop(planned, codes):
    plan = planned({"space": {"tiers": [{"front": "door", "size": 60}, {}]}, "doors": SLAB}, PLAIN)
    assert ("stop", "hinge-spacing", "bay/door-1") in codes(plan)


def test_a_bore_off_the_wood_names_what_it_needs(planned):
    # A stile of 30 for a cup of 35 that stands 5 from the edge: 40 are needed.
    doors = {**FRAMED, "stile": 30, "rail": 60, "groove_depth": 10, "panel_clearance": 1}
    (check,) = [
        c for c in planned({"space": {"front": "door"}, "doors": doors}, PLAIN).checks if c.code == "bore-off-wood"
    ]
    assert (check.value, check.limit) == (mm(30), mm(40))


@pytest.mark.parametrize("side", ["left", "right"])
def test_a_pull_over_the_doors_free_edge_is_a_stop(planned, codes, side):
    # A hole of 5 mm whose centre stands 2 from the edge is half a millimetre off the wood, at either hand.
    for from_edge, stops in ((2, 1), (3, 0)):
        doors = {**SLAB, "pull": {"item": "knob-1", "from_edge": from_edge, "from_end": 100}}
        plan = planned({"space": {"front": "door", "hinge_side": side}, "doors": doors}, PLAIN)
        assert len(codes(plan, "pull-off-wood")) == stops


def test_a_heavy_low_door_takes_as_many_hinges_as_fit(planned, codes):
    # 784 × 184 of 18 mm steel-heavy stuff asks more by mass than fit: 184 less twice a quarter leaves 92, two hinges.
    glass = {"kind": "sheet", "stuff": "float-glass", "thickness": 18}
    doors = {"style": "slab", "material": "glass", "overlay": 10}
    plan = planned({"space": {"tiers": [{"front": "door", "size": 164}, {}]}, "doors": doors}, PLAIN,
                   materials={"glass": glass})  # fmt: skip
    (leaf,) = plan.doors
    assert len(leaf.hinges) == 2
    assert codes(plan, "hinge-spacing") == []
    assert [level for level, *_ in codes(plan, "hinges-too-few")] == ["caution"]


def test_racking_pulls_the_top_hinge(planned):
    # 650 in lb (KCMA A161.1 6.1) over the outer hinges, and the door's own m g (w/2) over the same; two No. 6 screws
    # in red oak: 2850 · 0.67² · 0.138 lb/in over 4 D = 0.552 in of thread, 1.6 for minutes.
    plan = planned({"space": {"front": "door"}, "doors": {**FRAMED, "hinges": 2}}, PLAIN)
    (leaf,) = plan.doors
    (check,) = [check for check in plan.checks if check.code == "door-racking"]
    apart = (leaf.hinges[-1] - leaf.hinges[0]) / 1e6
    pull = 650 * 4.4482216152605 * 25.4 / apart + leaf.mass_kg * 9.80665 * leaf.width / 2e6 / apart
    assert check.value == pytest.approx(pull, abs=0.1)
    assert check.limit == pytest.approx(2 * 2850 * 0.67**2 * 0.138 * 0.552 * 1.6 * 4.4482216152605, rel=1e-3)
    assert check.level == "note"


def test_racking_of_a_door_of_plywood_has_nothing_to_be_held_to(planned):
    plan = planned({"space": {"front": "door"}, "doors": SLAB}, PLAIN)
    (check,) = [check for check in plan.checks if check.code == "door-racking"]
    assert (check.level, check.limit) == ("note", None)
    assert "no source" in check.message


def test_the_count_of_hinges_says_what_height_mass_and_width_ask_for(planned):
    # 18 mm birch plywood at 685 kg/m³ (0.784 × 0.884 m: 8.5 kg) on a door over 600 mm wide; charts of published
    # planning pages: two up to 40 in high, three up to 9 kg, one more on a wide door.
    door = {"space": {"front": "door"}}
    for hinges, opening in ((None, "4 hinges: "), (3, "3 hinges are too few: ")):
        plan = planned({**door, "doors": {**SLAB, "hinges": hinges}}, PLAIN)
        (check,) = [one for one in plan.checks if one.code in {"hinge-count", "hinges-too-few"}]
        assert check.message.startswith(opening)
        assert "its height of 884 mm asks for 2, its mass of 8.5 kg for 3, and one more for its width" in check.message
