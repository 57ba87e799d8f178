"""Base and tall cabinets: what they stand on, drawers, beads, counters, and that they do not tip."""

import copy
from typing import Any

import pytest
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.sdk.loader import Registry, load
from casewright.sdk.model import Plan
from casewright.sdk.units import MM

SHEET = {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}
JOB: dict[str, Any] = {
    "units": "mm",
    "materials": {
        "case": SHEET,
        "thin": {**SHEET, "thickness": 6},
        "oak": {"kind": "board", "stuff": "red-oak", "thickness": 20},
    },
    "shop": {"fit": 0},
    "cabinets": [
        {
            "id": "chest",
            "form": "base",
            "width": 600,
            "height": 800,
            "depth": 600,
            "case": {
                "material": "case",
                "corner": {"method": "dowel"},
                "fixed_joint": {"method": "dowel"},
                "back": {"material": "thin", "inset": 14},
            },
            "space": {"front": "drawer", "drawers": 2},
            "drawers": {"material": "case", "bottom": "thin", "front": "case", "overlay": 8, "between": 4},
        }
    ],
}


@pytest.fixture(scope="module")
def registry() -> Registry:
    return load(discover="built-in")


def planned(registry: Registry, **changes: Any) -> Plan:
    job = copy.deepcopy(JOB)
    wall = changes.pop("wall", None)
    if wall:
        job["wall"] = wall
    job["cabinets"][0].update(changes)
    return make_plan(read_job(job, registry), registry)


def sizes(plan: Plan) -> dict[str, tuple[float, float]]:
    return {p.id.removeprefix("chest/"): (p.length / MM, p.width / MM) for p in plan.parts}


def codes(plan: Plan, code: str) -> list[str]:
    return [c.level for c in plan.checks if c.code == code]


def test_drawer_sizes_worked_by_hand(registry: Registry) -> None:
    measured = sizes(planned(registry))
    # Opening 600 - 36 = 564 by 800 - 36 = 764; overlay 8 all round; two fronts share 780 - 4, half each.
    assert measured["drawer-1/front"] == (580.0, 388.0)
    # Side slides take 1/2 in a side (common practice, no source): 564 - 25.4 outside; 18 mm sides; box-rabbet 9 deep.
    assert measured["drawer-1/box-front"][0] == pytest.approx(564 - 25.4 - 36 + 2 * 9)
    # The longest slide of the catalogue under 600 - 20 = 580 mm is 22 in.
    assert measured["drawer-1/box-side-left"][0] == pytest.approx(22 * 25.4)
    # Slot: from the opening's top to the front's lower edge 388 - 8 = 380, less 1/2 in below and above.
    assert measured["drawer-1/box-side-left"][1] == pytest.approx(380 - 25.4)


def test_graduated_fronts_grow_downward(registry: Registry) -> None:
    plan = planned(registry, space={"front": "drawer", "drawers": 3, "drawer_rule": "graduated"})
    heights = [sizes(plan)[f"drawer-{i}/front"][1] for i in (1, 2, 3)]
    # 780 less two gaps of 4 shared 2 : 3 : 4.
    assert heights == pytest.approx([772 * 2 / 9, 772 * 3 / 9, 772 * 4 / 9], abs=1e-5)


def test_given_fronts_and_one_that_takes_what_is_left(registry: Registry) -> None:
    plan = planned(registry, space={"front": "drawer", "drawer_heights": [100, None]})
    assert [sizes(plan)[f"drawer-{i}/front"][1] for i in (1, 2)] == [100.0, 676.0]


def test_a_toe_recess_notches_the_sides(registry: Registry) -> None:
    plan = planned(registry, base={"kind": "toe-recess", "height": 100, "setback": 60})
    side = next(p for p in plan.parts if p.id == "chest/side-left")
    notch = next(f for f in side.features if f.label == "toe recess")
    assert side.length == 800 * MM
    assert sorted(n / MM for n in notch.envelope().size) == [18.0, 60.0, 100.0]
    assert sizes(plan)["toe-board"] == (564.0, 100.0)


@pytest.mark.parametrize("kind", ["plinth", "feet"])
def test_a_base_under_the_case_shortens_the_sides(registry: Registry, kind: str) -> None:
    plan = planned(registry, base={"kind": kind, "height": 100, "setback": 60})
    assert sizes(plan)["side-left"][0] == 700.0
    assert plan.dry_fit.clashes == ()
    assert codes(plan, "outside-size") == []


def test_stretchers_stand_for_the_top(registry: Registry) -> None:
    case = {**JOB["cabinets"][0]["case"], "top_kind": "stretchers", "stretcher": 90}
    measured = sizes(planned(registry, case=case))
    assert measured["stretcher-front"] == measured["stretcher-rear"] == (564.0, 90.0)
    assert "top" not in measured


def test_beads_narrow_the_opening(registry: Registry) -> None:
    frame = {"material": "oak", "stile": 40, "rail": 40, "bead": 6}
    doors = {"style": "slab", "hang": "inset", "gap": 2, "material": "case"}
    plan = planned(registry, face_frame=frame, doors=doors, space={"front": "door"}, drawers=None)
    # 600 - 2 × 40 of stiles - 2 × 6 of bead - 2 × 2 of gap.
    assert sizes(plan)["door-1/slab"][1] == 504.0
    assert sizes(plan)["bead-1-lower"] == (520.0, 6.0)
    assert plan.dry_fit.clashes == ()


def test_a_counter_is_no_part_of_the_cabinets_size(registry: Registry) -> None:
    plan = planned(registry, counter={"material": "case", "front": 25, "left": 10})
    assert sizes(plan)["counter"] == (610.0, 625.0)
    assert codes(plan, "outside-size") == []


def test_loaded_drawers_that_tip_it_are_a_stop_until_it_is_fixed(registry: Registry) -> None:
    assert codes(planned(registry), "anti-tip") == ["stop"]
    wall = {
        "studs": {"at": [200, 600], "stuff": "spruce-pine-fir"},
        "cabinets_at": {"chest": [{"x": 100, "z": 0}]},
    }
    plan = planned(registry, mounting={"method": "screw-strip"}, wall=wall)
    assert codes(plan, "anti-tip") == ["caution"]
    result = plan.mounting[0].result
    share = result.pull_n / len(result.fasteners)
    assert all(fastener.pull_n == pytest.approx(share) for fastener in result.fasteners)
    assert {fastener.at_mm for fastener in result.fasteners} == {200.0, 600.0}
    assert codes(plan, "tip-fastener-use") == ["note"]


def test_a_strip_that_meets_no_stud_is_a_stop(registry: Registry) -> None:
    wall = {
        "studs": {"at": [1500], "stuff": "spruce-pine-fir"},
        "cabinets_at": {"chest": [{"x": 100, "z": 0}]},
    }
    plan = planned(registry, mounting={"method": "screw-strip"}, wall=wall)
    assert codes(plan, "no-stud") == ["stop"]


def moments(plan: Plan) -> tuple[float, float]:
    """Return what tips and what holds, N·m: the check's limit leaves out the margin of 1.5."""
    (check,) = [c for c in plan.checks if c.code == "anti-tip"]
    return check.value, check.limit * 1.5  # type: ignore[operator,return-value]


def test_an_empty_box_is_held_by_its_weight_behind_the_line_it_stands_on(registry: Registry) -> None:
    # All of it stands behind the plinth, 75 behind the front: its weight times its centre's distance from the plinth.
    base = {"kind": "plinth", "height": 100, "setback": 75}
    plan = planned(registry, space={}, base=base)
    (weight,) = plan.weights
    behind_mm = weight.centre[1] / MM - 75
    tips, holds = moments(plan)
    assert tips == pytest.approx(0.0, abs=0.05 * holds)
    assert holds - tips == pytest.approx(weight.mass_kg * 9.80665 * behind_mm / 1000, rel=1e-4)


def test_what_lies_in_a_drawer_tips_by_its_place_when_it_is_out(registry: Registry) -> None:
    # 1000 Pa more on each bottom, at the bottom's middle, less the travel of the drawer: its runner's length.
    low, high = (planned(registry, loading={"shelf_pa": pressure}) for pressure in (1000, 2000))
    bottoms = [part for part in low.parts if part.role == "box-bottom"]
    assert len(bottoms) == 2
    (runner,) = {line.item for line in low.hardware if "slide" in line.item or "runner" in line.item}
    travel_mm = int(runner.rsplit("-", 1)[1]) * 25.4  # named by inches
    more = 0.0
    for part in bottoms:
        box = part.place.box(part.blank)
        middle_mm = (box.y0 + box.y1) / 2 / MM
        wide, deep = (box.x1 - box.x0) / MM, (box.y1 - box.y0) / MM
        more += 1000 * wide * deep * 1e-6 * (travel_mm - middle_mm) / 1000
    difference = [a - b for a, b in zip(moments(high), moments(low), strict=True)]
    assert difference[0] - difference[1] == pytest.approx(more, rel=1e-3)


def test_stated_contents_lie_in_the_drawers(registry: Registry) -> None:
    # 60 and 300 kg, all in two drawers: each bottom's middle stands its travel less its own depth in front.
    wall = {"studs": {"at": [200, 600], "stuff": "spruce-pine-fir"}, "cabinets_at": {"chest": [{"x": 100, "z": 0}]}}
    low, high = (
        planned(registry, mounting={"method": "screw-strip", "contents_kg": kg}, wall=wall) for kg in (60, 300)
    )
    bottoms = [part.place.box(part.blank) for part in low.parts if part.role == "box-bottom"]
    middle_mm = (bottoms[0].y0 + bottoms[0].y1) / 2 / MM
    (runner,) = {line.item for line in low.hardware if "slide" in line.item}
    travel_mm = int(runner.rsplit("-", 1)[1]) * 25.4
    more = 240 * 9.80665 * (travel_mm - middle_mm) / 1000
    assert moments(high)[0] - moments(low)[0] == pytest.approx(more, rel=1e-6)
    assert high.mounting[0].result.pull_n > low.mounting[0].result.pull_n


def test_a_person_bearing_down_counts_and_is_an_input(registry: Registry) -> None:
    # 60 lb (27.2155 kg) by default at the outermost open front: 22 in of travel past a front whose face stands 18
    # before the case; the pull at the fixing's height grows by 1.5 times its moment.
    wall = {"studs": {"at": [200, 600], "stuff": "spruce-pine-fir"}, "cabinets_at": {"chest": [{"x": 100, "z": 0}]}}
    strip = {"method": "screw-strip", "contents_kg": 60}
    alone, leaned = (
        planned(registry, mounting=strip, wall=wall, loading=loading).mounting[0].result
        for loading in ({"lean_kg": 0}, {})
    )
    arm_mm = 22 * 25.4 + 18
    more = 1.5 * 27.2155422 * 9.80665 * arm_mm / leaned.fixing_height_mm
    assert leaned.pull_n - alone.pull_n == pytest.approx(more, rel=1e-6)


def test_a_cabinet_that_only_a_person_tips_is_a_caution(registry: Registry) -> None:
    # A shut empty box on the floor, 600 deep: no own load is in front; 30 kg at its very edge tips nothing, a door of
    # 560 opened square and 27 kg at its end do.
    doors = {"style": "slab", "material": "case", "overlay": 8}
    light = planned(registry, space={"front": "door"}, doors=doors, drawers=None, loading={"lean_kg": 0})
    assert codes(light, "anti-tip-leaned-on") == []
    hung = planned(registry, space={"front": "door"}, doors=doors, drawers=None)
    assert codes(hung, "anti-tip") == ["note"]
    assert codes(hung, "anti-tip-leaned-on") == ["caution"]


def test_a_cabinet_fixed_to_masonry_is_held_by_its_anchors(registry: Registry) -> None:
    # Two anchors share the pull; each holds the lesser of its approval and of its 1/2 in head through 18 mm of plywood
    # of G 0.42: 690 π 0.5 0.42² (18/25.4) 0.9 = 121.9 lb, 542.4 N (NDS 2018 eq. 12.2-6a).
    stone = {"tension_n": 2000, "shear_n": 3000, "approval": "approval 12", "anchors": 2}
    wall = {"masonry": stone, "lining": 0, "cabinets_at": {"chest": [{"x": 100, "z": 0}]}}
    plan = planned(registry, mounting={"method": "screw-strip", "contents_kg": 20}, wall=wall)
    result = plan.mounting[0].result
    assert len(result.fasteners) == 2
    head = 690 * 3.14159265 * 0.5 * 0.42**2 * (18 / 25.4) * 0.9 * 4.4482216152605
    assert result.use == pytest.approx(result.pull_n / 2 / head, rel=1e-6)
    assert [line.quantity for line in plan.hardware if line.item == "wall-anchor"] == [2]


def test_what_drawers_are_taken_to_hold_is_said(registry: Registry) -> None:
    def words(**changes: Any) -> str:
        (check,) = [check for check in planned(registry, **changes).checks if check.code == "anti-tip"]
        return check.message

    assert "718.2 Pa taken in its drawers" in words()
    assert "taken in its drawers" not in words(mounting={"method": "screw-strip", "contents_kg": 20})
    assert "taken in its drawers" not in words(space={}, drawers=None)
