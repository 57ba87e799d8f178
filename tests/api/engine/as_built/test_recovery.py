"""The least repair of a mistake. What geometry decides is worked by hand; the rest is common practice, no source."""

import pytest
from casewright.sdk.errors import NoGeometryError
from casewright.sdk.model import Mistake
from casewright.sdk.units import MM

DOOR = {
    "face_frame": {"material": "frame"},
    "doors": {"style": "cope-and-stick", "material": "frame", "panel": "thin", "hinge": "cup-35"},
    "space": {"front": "door"},
}
GROOVED = {"corner": {"method": "housed-groove", "depth": 6}, "top_inset": 20, "bottom_inset": 20}


def mistake(what, part, **more):
    return {"cabinet": "bay", "part": part, "mistake": what, **more}


def repaired(plan):
    (one,) = plan.built.repairs
    return one


def test_every_mistake_has_a_repair(planned):
    """None is left out: a door for what is done to doors, a side for its joinery; each is a caution, no stop."""
    for what in Mistake:
        part = "side-left" if what is Mistake.WRONG_FACE else "door-1"
        plan = planned(DOOR, GROOVED, built=[mistake(what.value, part, value=1)])
        one = repaired(plan)
        assert (one.mistake, one.part) == (what, part)
        assert [c.level for c in plan.checks if c.code == "built-mistake"] == ["caution"]
        assert not [c for c in plan.checks if c.level == "stop"]


def test_a_side_with_its_grooves_in_the_other_face_is_the_other_side(planned):
    """Two sides are mirror images: grooves for top, bottom and back through the other face make one of the other."""
    one = repaired(planned(DOOR, GROOVED, built=[mistake("groove-on-wrong-face", "side-left")]))
    assert "is the right side now" in one.do
    assert one.again == ()


def test_where_the_other_side_is_cut_too_the_groove_is_filled(planned):
    """Grooves 6 mm deep in 18 mm from both faces leave 6 mm, which is enough; 7 mm deep leave 4, which is not."""
    right = {"cabinet": "bay", "part": "side-right", "measure": "length", "value": 900}
    built = [right, mistake("groove-on-wrong-face", "side-left")]
    back = {"back": {"material": "thin", "inset": 15, "joint": {"method": "housed-groove", "depth": 6}}}
    filled = planned(DOOR, {**GROOVED, **back}, built=built)
    assert "6 mm of wood are left" in repaired(filled).do
    assert {part.id: part.built for part in filled.parts if part.role == "side"} == {
        "bay/side-left": 1,
        "bay/side-right": 1,
    }
    deep = {**GROOVED, **back, "corner": {"method": "housed-groove", "depth": 7}}
    again = planned(DOOR, deep, built=built)
    assert repaired(again).again == ("bay/side-left",)
    assert {part.id: part.built for part in again.parts if part.role == "side"} == {
        "bay/side-left": 0,
        "bay/side-right": 1,
    }


def test_a_part_made_again_is_cut_from_a_piece_on_hand(planned):
    right = {"cabinet": "bay", "part": "side-right", "measure": "length", "value": 900}
    deep = {**GROOVED, "corner": {"method": "housed-groove", "depth": 9}}
    stock = {
        "sheets": [
            {"id": "ply-sheet", "material": "case", "length": 2440, "width": 1220, "copies": None},
            {"id": "thin-sheet", "material": "thin", "length": 2440, "width": 1220, "copies": None},
        ],
        "boards": [{"id": "oak", "material": "frame", "width": 200, "length": 2400, "copies": None}],
    }
    plan = planned(DOOR, deep, built=[right, mistake("groove-on-wrong-face", "side-left")], stock=stock)
    placed = {one.part: f"{layout.stock} {layout.number}" for layout in plan.stock.layouts for one in layout.placed}
    assert repaired(plan).do.endswith(f"from {placed['bay/side-left']}")
    assert "bay/side-right" not in placed


def test_a_forgotten_panel_goes_in_from_behind(planned, part_of):
    """The lip behind a groove is the frame's thickness less the face before it and the panel; said to 0.01 mm."""
    plan = planned(DOOR, built=[mistake("panel-forgotten", "door-1")])
    stile, panel = part_of(plan, "door-1/stile-left"), part_of(plan, "door-1/panel")
    behind = stile.place.box(stile.blank).y1 - panel.place.box(panel.blank).y1
    assert f"{round(behind / MM, 2):g} mm thick" in repaired(plan).do
    assert stile.built == 1
    assert panel.built == 0


@pytest.mark.parametrize(
    ("value", "words", "again"),
    [(1, "side screw", False), (5, "Plane 5 mm", False), (9, "make it again", True)],
)
def test_a_door_that_meets_its_neighbour(planned, registry, value, words, again):
    """The hinge has 2 mm to the side (its data sheet); a stile of 57.15 mm may lose a tenth, 5.7 mm."""
    (hinge,) = [one for one in registry.catalogue.hinges if one.id == "cup-35"]
    assert 1 * MM <= hinge.side_adjustment < 5 * MM
    one = repaired(planned(DOOR, built=[mistake("meets-neighbour", "door-1", value=value)]))
    assert words in one.do
    assert bool(one.again) is again


def test_a_door_bored_on_the_wrong_side_is_turned_upside_down_where_that_is_the_same(planned):
    one = repaired(planned(DOOR, built=[mistake("hinge-on-wrong-side", "door-1")]))
    assert "upside down" in one.do
    wide = {**DOOR, "doors": {**DOOR["doors"], "bottom_rail": 90}}
    assert "plugs" in repaired(planned(wide, built=[mistake("hinge-on-wrong-side", "door-1")])).do


def test_a_mistake_with_what_is_not_there_is_refused(planned):
    with pytest.raises(NoGeometryError) as refused:
        planned(DOOR, built=[mistake("panel-forgotten", "door-2")])
    (problem,) = refused.value.problems
    assert (problem.pointer, '"door-1"' in problem.fix) == ("/built/0/part", True)


def steps_of(plan):
    """Return the steps by hand that say what a repair says, and all the plan's stops."""
    repair_texts = tuple(one.do[1:] for one in plan.built.repairs)
    return [step for step in plan.steps if step.do.startswith("Put right ") and step.do.endswith(repair_texts)], [
        c.message for c in plan.checks if c.level == "stop"
    ]


def test_every_repair_is_a_step_of_the_work_and_the_simulated_shop_takes_it(planned):
    """A repair of a part comes before its joints are cut, of a door when it is glued up or hung; none is a stop."""
    for what in Mistake:
        part = "side-left" if what is Mistake.WRONG_FACE else "door-1"
        plan = planned(DOOR, GROOVED, built=[mistake(what.value, part, value=1)])
        (step,), stops = steps_of(plan)
        assert stops == []
        assert {one.part.removeprefix("bay/").startswith(part) for one in step.on} == {True}
        assert step.machine == "by-hand"
        others = [s for s in plan.steps if s is not step and {o.part for o in s.on} & {o.part for o in step.on}]
        after = [s.action for s in others if s.number > step.number]
        before = [s.action for s in others if s.number < step.number]
        match what:
            case Mistake.WRONG_FACE:
                assert "groove" in after
            case Mistake.MEETS_NEIGHBOUR:
                assert before[-1] == "screw"
            case _:
                assert "clamp" in before
                assert "bore" in after


def test_a_door_with_a_forgotten_panel_is_glued_up_without_and_gets_it_from_behind(planned):
    plan = planned(DOOR, built=[mistake("panel-forgotten", "door-1")])
    (repair,), stops = steps_of(plan)
    (sets_in,) = [s for s in plan.steps if s.action == "insert" and "bay/door-1/panel" in {o.part for o in s.on}]
    assert stops == []
    assert sets_in.number > repair.number
    assert [move.towards for move in sets_in.moves] == ["front"]
    assert {name.rpartition("/")[2] for name in sets_in.on[0].into} == {
        "stile-left",
        "stile-right",
        "rail-top",
        "rail-bottom",
    }
    clamped = [s.number for s in plan.steps if s.action == "clamp" and s.stage == "doors"]
    assert max(clamped) < repair.number
    # The frame stands glued: nothing of making it is left to do, and what puts it right is.
    doing = {s.number for s in plan.steps if s.stage == "doors" and s.number < repair.number}
    assert doing
    assert doing <= set(plan.job.done)
    assert not {repair.number, sets_in.number} & set(plan.job.done)


def test_what_is_made_again_has_no_repair_among_the_steps(planned):
    plan = planned(DOOR, built=[mistake("meets-neighbour", "door-1", value=9)])
    steps, _ = steps_of(plan)
    assert steps == []
    cut = {piece.keeps for step in plan.steps if step.stage == "cut" for piece in step.on}
    assert "bay/door-1/stile-left" in cut


def test_two_sides_that_were_both_turned_change_places(planned):
    plan = planned(DOOR, GROOVED, built=[mistake("groove-on-wrong-face", f"side-{way}") for way in ("left", "right")])
    assert all("mark both so" in one.do for one in plan.built.repairs)
    assert {part.id: part.built for part in plan.parts if part.role == "side"} == {
        "bay/side-left": 1,
        "bay/side-right": 1,
    }


@pytest.mark.parametrize(
    ("entry", "pointer", "words"),
    [
        (mistake("groove-on-wrong-face", "loose-shelf-1"), "/built/0/part", "side-left"),
        (mistake("meets-neighbour", "door-1", value=500), "/built/0/value", "half its width"),
        (mistake("panel-forgotten", "door-1"), "/built/0/part", "Take the entry out"),
    ],
)
def test_a_mistake_that_cannot_be_is_refused(planned, entry, pointer, words):
    """A loose shelf has no joinery, a slab door no panel, and no door stands half over its neighbour."""
    slab = {"doors": {"style": "slab", "material": "case"}, "space": {"front": "door", "loose_shelves": 1}}
    with pytest.raises(NoGeometryError) as refused:
        planned(slab, GROOVED, built=[entry])
    (problem,) = refused.value.problems
    assert problem.pointer == pointer
    assert words in problem.rule + problem.fix
