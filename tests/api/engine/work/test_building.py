"""Assembly in the steps: which way parts go in, what is done before, and what no order puts together."""

from dataclasses import replace

import pytest
from needs import before

CAPTURED = {
    "corner": {"method": "housed-groove", "depth": 6},
    "top_inset": 20,
    "bottom_inset": 20,
    "back": {"material": "case", "inset": 19, "joint": {"method": "housed-groove"}},
    "fixed_joint": {"method": "housed-groove", "depth": 5},
    "shelf_band": "edging",
}
SHELVED = {"space": {"tiers": [{"front": "door", "fixed_shelves": 1}]}}
DOORS = {"doors": {"style": "cope-and-stick", "material": "frame", "panel": "thin"}}
FRAME = {"face_frame": {"material": "frame", "joint": {"method": "loose-tenon"}}}


@pytest.fixture
def plan(planned):
    return planned({**SHELVED, **DOORS, **FRAME, "mounting": {"method": "bevel-cleat", "contents_kg": 20}}, CAPTURED)


def of(plan, stage, action):
    return [step for step in plan.steps if step.stage == stage and step.action == action]


def inserted(steps):
    return [one.part for step in steps for one in step.on]


def test_a_captured_back_goes_in_before_the_last_member_of_the_case(plan):
    order = inserted(of(plan, "glue", "insert"))
    assert "bay/back" not in order[-1:]
    sides = [name for name in order if name in ("bay/side-left", "bay/side-right", "bay/top", "bay/bottom")]
    assert order[-1] == sides[-1]


@pytest.mark.parametrize(("glue", "check"), [(0.0, "the panel slides by hand"), (900.0, "every joint closed")])
def test_a_panel_slides_unless_it_is_glued_in(planned, registry, glue, check):
    """What is glued in its groove, as a board tongued into clamps is, cannot be tried by sliding it once it is made."""
    usual = registry.doors["cope-and-stick"]

    class Own(type(usual)):
        id = "own"

        def build(self, request, options):
            made = super().build(request, options)
            joints = tuple(
                replace(one, glue_area_mm2=glue) if "panel" in (one.host, one.guest) else one
                for one in made.assembly.joints
            )
            return replace(made, assembly=replace(made.assembly, joints=joints))

    using = replace(registry, doors={**registry.doors, "own": Own()})
    plan = planned({**SHELVED, "doors": {**DOORS["doors"], "style": "own"}}, using=using)
    assert [step.check.startswith(check) for step in of(plan, "doors", "fit")] == [True]


def test_a_panel_goes_in_before_the_last_member_of_its_door(plan):
    order = inserted(of(plan, "doors", "insert"))
    assert order[-1] != "bay/door-1/panel"
    assert len(order) == 4  # five parts: the first is not set into anything


def test_members_on_loose_tenons_move_along_the_tenons(plan):
    # Tenons between rails and stiles lie across: neither can come from the front (worked out on paper).
    moves = [move for step in of(plan, "face-frame", "insert") for move in step.moves]
    assert moves
    assert {move.towards for move in moves} <= {"left", "right"}


def test_what_is_set_in_names_what_it_goes_into_and_where_the_glue_is(plan):
    last = of(plan, "glue", "insert")[-1]
    (side,) = last.on
    assert side.part in ("bay/side-left", "bay/side-right")
    assert {"bay/top", "bay/bottom", "bay/shelf-1", "bay/back"} == set(side.into)
    assert [side.replace("face", "").strip("-") for side in side.glue] in (["low"], ["high"])
    assert "which go into its grooves" in last.do
    assert "glue where they go in" in last.do


def test_a_glue_up_is_clamped_across_each_member_and_left(plan):
    (clamp,) = of(plan, "glue", "clamp")
    # Top, bottom and shelf each span both sides: front and back of each (common practice, no source).
    assert {one.part: one.clamps for one in clamp.on} == {"bay/top": 2, "bay/bottom": 2, "bay/shelf-1": 2}
    (wait,) = of(plan, "glue", "wait")
    assert wait.minutes == 60  # white glue: an hour in clamps where the joint is stressed (published advice)
    assert clamp.number in wait.needs
    (cure,) = of(plan, "hardware", "wait")
    assert cure.minutes == 1440  # a day from its last glue on, which is the cleat's, until it is loaded (published)
    assert wait.number in before(plan.steps)[cure.number]


def test_a_case_that_hangs_by_nothing_cures_from_its_clamps_on(planned):
    (cure,) = of(planned({**SHELVED, **DOORS, **FRAME}, CAPTURED), "hardware", "wait")
    assert cure.minutes == 1440 - 60  # a day from the clamps on until it is loaded (published advice)


def test_glue_that_closes_sooner_is_opened_in_lots(planned):
    slow = planned({**SHELVED, **DOORS}, CAPTURED)
    quick = planned({**SHELVED, **DOORS}, CAPTURED, shop={"fit": 0, "glue": {"open": 2}})
    # Five parts to set in after the first, two minutes: 2 + 2 + 1.
    assert len(of(slow, "glue", "glue")) == 1
    assert [len(step.on) for step in of(quick, "glue", "insert")] == [1] * 5
    assert len(of(quick, "glue", "glue")) == len(of(quick, "glue", "wait")) == 3


def test_bands_come_before_the_dry_fit_and_cleats_before_doors(plan):
    earlier = before(plan.steps)
    (band,) = of(plan, "band", "band")
    (dry,) = of(plan, "dry-fit", "fit")
    assert band.number in earlier[dry.number]
    fixed = next(step for step in plan.steps if step.stage == "mounting" and "bay/cleat" in step.parts)
    (hung,) = [step for step in plan.steps if step.stage == "hardware" and "bay/door-1/panel" in step.parts]
    assert fixed.number in earlier[hung.number]


def test_glue_of_cleats_cures_before_the_cabinet_is_put_up(plan):
    """What hangs by a glued strip carries the day that its glue asks for too, not only that of the case."""
    fixed = next(step for step in plan.steps if step.stage == "mounting" and "bay/cleat" in step.parts)
    (cured,) = [step for step in plan.steps if step.stage == "hardware" and step.action == "wait"]
    assert fixed.number in before(plan.steps)[cured.number]
    assert cured.minutes == plan.job.shop.glue.cure
    (hung,) = [step for step in plan.steps if step.action == "hang"]
    assert cured.number in before(plan.steps)[hung.number]


def test_a_base_is_set_before_the_cabinet_stands_on_it(planned):
    plan = planned(
        {
            "form": "base",
            "height": 850,
            "base": {"kind": "plinth", "height": 100},
            "mounting": {"method": "screw-strip"},
        }
    )
    (base,) = [step for step in plan.steps if step.do.startswith("Set the base")]
    (stands,) = of(plan, "hang", "hang")
    assert base.number in before(plan.steps)[stands.number]
    (screwed,) = of(plan, "base", "screw")[:1]
    lines = [line for line in plan.hardware if "plinth" in line.words]
    assert sum(line.quantity for line in lines) == 8  # two at each of four corners (common practice, no source)
    assert all(f"4 × {line.words}" in screwed.do and len(line.at) == 2 for line in lines)
    assert all("No. 8 × 2 in," in line.words for line in lines)  # 50.8 mm: two to three times the 18 it passes through


def test_a_cabinet_without_a_place_is_set_on_its_base_last_and_the_base_waits_for_all_its_parts(planned):
    plan = planned({"form": "base", "height": 850, "base": {"kind": "plinth", "height": 100}})
    assert plan.steps[-1].do == "Set bay level on its base"
    first, *_ = of(plan, "base", "insert")
    cut = {step.number for step in plan.steps if step.stage == "cut" and any("plinth" in part for part in step.parts)}
    assert cut <= before(plan.steps)[first.number]


def test_each_coat_is_left_to_dry_before_hardware(planned):
    coats = [{"what": "oil", "minutes": 720}, {"what": "wax", "minutes": 30}]
    plan = planned({**SHELVED, **DOORS}, CAPTURED, shop={"fit": 0, "finish": coats})
    work = [(step.action, step.minutes) for step in plan.steps if step.stage == "finish" and step.on[0].part][-5:]
    assert work == [("sand", None), ("finish", None), ("wait", 720), ("finish", None), ("wait", 30)]
    last = of(plan, "finish", "wait")[-1]
    (hung,) = [step for step in plan.steps if step.stage == "hardware" and "bay/door-1/panel" in step.parts]
    assert last.number in before(plan.steps)[hung.number]


STOPPED = {"method": "sliding-dovetail", "stop": 12}
LET_ON = {"material": "thin", "inset": 0, "joint": {"method": "rabbet"}}


def test_a_stopped_dovetail_behind_a_captured_back_cannot_be_put_together(planned, codes):
    """The shelf slides in from the back alone, where the back stands in grooves all round: worked out on paper."""
    plan = planned({**SHELVED, **DOORS}, {**CAPTURED, "fixed_joint": STOPPED})
    assert codes(plan, "locked-parts") == [("stop", "locked-parts", "bay")]
    ((message, source),) = [(one.message, one.finding.source) for one in plan.checks if one.code == "locked-parts"]
    assert not codes(plan, "work-not-carried-out")  # what follows from it is named in it
    assert "leave them apart" in message
    assert source == "dry-fit"  # a stop says what it was judged by, as every check does
    for name in ("left side", "right side", "top", "bottom", "shelf 1", "back"):
        assert name in message


@pytest.mark.parametrize(
    ("change", "way"),
    [
        ({"fixed_joint": {"method": "sliding-dovetail"}}, "back"),  # through: from the open front
        ({"fixed_joint": STOPPED, "back": LET_ON}, "front"),  # stopped at the front: from behind, before the back
    ],
)
def test_a_dovetailed_shelf_is_slid_in_from_where_its_slot_is_open(planned, codes, change, way):
    plan = planned({**SHELVED, **DOORS}, {**CAPTURED, **change})
    assert not codes(plan, "locked-parts")
    steps = of(plan, "glue", "insert")
    moves = [move.towards for step in steps if "bay/shelf-1" in step.parts for move in step.moves]
    assert moves == [way]
    order = inserted(steps)
    if way == "front":
        assert order.index("bay/shelf-1") < order.index("bay/back")


def test_the_doors_of_a_cabinet_are_bored_at_each_setting_once(planned):
    """Cups and pull: two settings, both stiles of a kind at each, after both doors have left their clamps."""
    doors = {"style": "cope-and-stick", "material": "frame", "panel": "thin", "pull": {"item": "bar-96"}}
    plan = planned({"space": {"front": "door-pair"}, "face_frame": {"material": "frame"}, "doors": doors})
    bored = of(plan, "doors", "bore")
    assert [{part.split("/")[1] for part in step.parts} for step in bored] == [{"door-1", "door-2"}] * 2
    clamped = [step.number for step in of(plan, "doors", "wait")]
    assert len(clamped) == 2
    assert max(clamped) < bored[0].number
