"""A shop that follows the list to the letter: what it makes, worked out by hand, and what it reports of a faulty list.

One board 2000 x 200 x 30 gives two rails 600 x 45 x 20: rip 47 twice, crosscut 600, take 2 off a face and 2 off an
edge, and plane to 20 (hand arithmetic; kerf 3: 2000 - 603 = 1397 are left of each strip's length, 47 wide).
"""

from dataclasses import replace

import pytest
from casewright.api.engine.work.carried_out import given_of, work_checks
from casewright.api.engine.work.replay import replay, replay_making
from casewright.api.engine.work.replay_records import Blank, Fault, Given
from casewright.sdk.geometry import Box, Cylinder, Place, Wedge
from casewright.sdk.model import Feature, Machine, Operation, Part, Setting, Stage, Workpiece, groove, hole
from casewright.sdk.model.operations import Action, Tilts
from casewright.sdk.model.sides import Side

MM = 1_000_000
SAW = Setting(kerf=3 * MM)


def mm(*sizes):
    return tuple(size * MM for size in sizes)


def step(number, action, setting, *on, needs=()):
    return Operation(number, Stage.CUT, Machine.BY_HAND, Action(action), setting, on, tuple(needs))


def rail(*features):
    return Part(
        id="bay/rail",
        cabinet="bay",
        role="frame-rail",
        name="rail",
        quantity=2,
        material="oak",
        length=600 * MM,
        width=45 * MM,
        thickness=20 * MM,
        grain="along-length",
        why_length=(),
        why_width=(),
        place=Place((0, 0, 0), 1, 2, 3),
        features=features,
    )


BOARD = Given({"oak 1": Blank("oak", 2000 * MM, 200 * MM, 30 * MM, "along-length")}, {}, 3 * MM)
RIPPED = Workpiece(piece="oak 1", keeps="strip", leaves="oak 1")
MILLED = Workpiece(piece="bay/rail", count=2, keeps="bay/rail")
LIST = (
    step(1, "rip", replace(SAW, fence=47 * MM), RIPPED, RIPPED),
    step(2, "crosscut", replace(SAW, stop=600 * MM), Workpiece(piece="strip", count=2, keeps="bay/rail"), needs=[1]),
    step(3, "face", Setting(depth=2 * MM), MILLED, needs=[2]),
    step(4, "edge", Setting(depth=2 * MM), MILLED, needs=[3]),
    step(5, "thickness", Setting(height=20 * MM), MILLED, needs=[4]),
)


def faults(steps, *features, given=BOARD):
    return replay_making(steps, [rail(*features)], given)


def without(number):
    """Return the list with one operation left out, the others numbered and needing by their new places."""
    new = {one.number: one.number - (one.number > number) for one in LIST}
    kept = [one for one in LIST if one.number != number]
    return [
        replace(
            one, number=new[one.number], needs=tuple(sorted({min(new[n], new[one.number] - 1) for n in one.needs if n}))
        )
        for one in kept
    ]


def test_a_board_becomes_two_milled_rails():
    assert faults(LIST) == []


@pytest.mark.parametrize(
    ("at", "altered", "what"),
    [
        (0, {"setting": replace(SAW, fence=47 * MM + 1)}, "it is cut to another size"),
        (0, {"on": (RIPPED,)}, "there is no such piece to cut"),
        (0, {"on": (RIPPED,) * 4}, "nothing is left for it"),
        (1, {"needs": ()}, "it does not wait for the cut that makes its piece"),
        (1, {"on": (Workpiece(piece="strip", keeps="bay/rail"),)}, "it is not faced, edged and thicknessed in turn"),
        (1, {"setting": Setting(stop=600 * MM, kerf=2 * MM)}, "a cut has another kerf than the saw"),
        (3, {"action": Action.FACE}, "it is not faced, edged and thicknessed in turn"),
        (4, {"setting": Setting(height=28 * MM)}, "nothing comes off it, or nothing is left of it"),
        (4, {"setting": Setting(height=19 * MM)}, "it is cut to another size"),
        (4, {"number": 6}, "it is not numbered by its place"),
        (2, {"needs": (4,)}, "it needs what is not done before it"),
    ],
)
def test_a_faulty_list_is_reported(at, altered, what):
    steps = [replace(one, **altered) if n == at else one for n, one in enumerate(LIST)]
    assert what in {fault.what for fault in faults(steps)}


@pytest.mark.parametrize("number", [1, 2, 3, 4, 5])
def test_an_operation_left_out_is_reported(number):
    assert faults(without(number))


def test_what_is_left_over_is_as_planned():
    """Each strip leaves 1397 mm (2000 - 600 - 3), of 47; kept, where the list names it."""
    kept = Workpiece(piece="strip", count=2, keeps="bay/rail", leaves="leftover")
    steps = [LIST[0], replace(LIST[1], on=(kept,)), *LIST[2:]]
    assert faults(steps, given=replace(BOARD, leftovers=[mm(1397, 47), mm(1397, 47)])) == []
    assert faults(steps, given=replace(BOARD, leftovers=[mm(1397, 47), mm(1400, 47)])) == [
        Fault("", 0, "what is left over is not of the sizes planned")
    ]


GROOVE = groove("", Box(*mm(0, 10, 14, 600, 18, 20)), 3, 1)
"""8 wide, 6 deep in the high face, 10 from the low edge."""
IN_GROOVE = Workpiece(part="bay/rail", count=2, down=Side.FACE_HIGH, against=Side.EDGE_LOW)
GROOVED = step(6, "groove", Setting(fence=10 * MM, cutter=8 * MM, height=6 * MM), IN_GROOVE, needs=[5])


def test_a_groove_lies_where_the_fence_and_the_cutter_put_it():
    assert faults([*LIST, GROOVED], GROOVE) == []
    # From the other edge the same groove is 45 - 18 = 27 away.
    turned = replace(IN_GROOVE, against=Side.EDGE_HIGH)
    assert faults([*LIST, replace(GROOVED, on=(turned,))], GROOVE)
    assert (
        faults([*LIST, replace(GROOVED, on=(turned,), setting=replace(GROOVED.setting, fence=27 * MM))], GROOVE) == []
    )
    assert faults([*LIST, replace(GROOVED, on=(replace(IN_GROOVE, down=Side.FACE_LOW),))], GROOVE)


def test_a_groove_of_two_passes_needs_both():
    """A 6 mm cutter over 8 mm: passes at 10 and 12."""
    first = replace(GROOVED, setting=replace(GROOVED.setting, cutter=6 * MM), on=(replace(IN_GROOVE, run=(1, 2)),))
    second = replace(
        first, number=7, setting=replace(first.setting, fence=12 * MM), on=(replace(IN_GROOVE, run=(2, 2)),)
    )
    assert faults([*LIST, first, second], GROOVE) == []
    missing = faults([*LIST, first], GROOVE)
    assert {fault.what for fault in missing} >= {"a cut is missing or too small", "a pass of a cut is missing"}


def test_a_cut_that_is_not_planned_is_reported_at_its_operation():
    assert faults([*LIST, GROOVED]) == [Fault("bay/rail", 6, "wood is cut away that should stay")]


def test_a_joint_waits_for_the_thickness():
    early = replace(GROOVED, needs=(2,))
    assert faults([*LIST, early], GROOVE) == [Fault("bay/rail", 6, "it does not wait for the cutting of it")]


def test_a_bore_goes_in_from_the_side_opposite_the_table():
    """8 mm, 12 deep in the low end, at the middle of the width and 10 from the low face."""
    planned = hole("", Cylinder(mm(0, 22, 10), 1, 8 * MM, 12 * MM))
    piece = Workpiece(
        part="bay/rail",
        count=2,
        down=Side.END_HIGH,
        against=Side.EDGE_LOW,
        leads=Side.FACE_LOW,
        at=(mm(22, 10),),
    )
    bored = step(6, "bore", Setting(cutter=8 * MM, depth=12 * MM), piece, needs=[5])
    assert faults([*LIST, bored], planned) == []
    assert faults([*LIST, replace(bored, on=(replace(piece, down=Side.END_LOW),))], planned)
    assert faults([*LIST, replace(bored, setting=replace(bored.setting, depth=None))], planned)


def test_a_slant_takes_the_wedge_of_its_tilt():
    """45 degrees over 20 mm of height: a base of 20, its upright on the low edge."""
    wedge = Wedge(Box(*mm(0, 0, 0, 600, 20, 20)), 1, (-2, -3))
    planned = Feature("bevel", "", -3, wedges=(wedge,), run=1)
    piece = Workpiece(part="bay/rail", count=2, down=Side.FACE_LOW, against=Side.EDGE_LOW)
    setting = Setting(fence=0, height=20 * MM, tilt_deg=45.0, tilts=Tilts.NEAR)
    cut = step(6, "bevel", setting, piece, needs=[5])
    assert faults([*LIST, cut], planned) == []
    assert faults([*LIST, replace(cut, setting=replace(setting, tilts=Tilts.FAR))], planned)
    assert faults([*LIST, replace(cut, setting=replace(setting, tilt_deg=44.0))], planned)


def test_a_plan_says_which_operation_does_not_make_which_part(planned):
    plan = planned({"space": {"fixed_shelves": 1}})
    assert work_checks(plan.job, plan.parts, plan.joints, plan.steps, given_of(plan.job, plan.parts, plan.stock)) == ()
    (at, *_) = [n for n, one in enumerate(plan.steps) if one.action == "groove" and one.on[0].against is not None]
    one = plan.steps[at]
    harmed = replace(one, setting=replace(one.setting, height=one.setting.height + 1))
    checks = work_checks(
        plan.job,
        plan.parts,
        plan.joints,
        [*plan.steps[:at], harmed, *plan.steps[at + 1 :]],
        given_of(plan.job, plan.parts, None),
    )
    assert {check.subject for check in checks} == {piece.part for piece in one.on}
    assert {(check.level, check.code, check.value) for check in checks} == {("stop", "work-not-carried-out", at + 1)}
    assert checks[0].message.startswith(f"Operation {at + 1} does not make what is planned of {checks[0].subject}: ")


def test_parts_that_no_order_puts_together_have_no_stop_more_for_being_left_apart(planned):
    """Without the step that sets the shelf in it stays apart, as it does where it is locked: another stop says that."""
    plan = planned({"space": {"fixed_shelves": 1}})
    given = given_of(plan.job, plan.parts, None)
    shelf = "bay/shelf-1"
    sets = [one for one in plan.steps if one.action == "insert" and shelf in [piece.part for piece in one.on]]
    assert sets
    steps = [replace(one, on=()) if one in sets else one for one in plan.steps]
    steps = [
        replace(one, on=tuple([replace(piece, into=tuple(set(piece.into) - {shelf})) for piece in one.on]))
        for one in steps
    ]
    apart = {one.part for one in replay(steps, plan.parts, plan.joints, given) if one.apart}
    assert shelf in apart
    words = "never put together"
    (check,) = [one for one in work_checks(plan.job, plan.parts, plan.joints, steps, given) if one.subject == shelf]
    assert words in check.message
    checks = work_checks(plan.job, plan.parts, plan.joints, steps, given, frozenset(apart))
    assert not [one for one in checks if words in one.message]
