"""Features become cuts as a machine is set for them. Expected values by hand from the sizes given here."""

import pytest
from casewright.api.engine.work.cut import Measured
from casewright.api.engine.work.machining import cuts_of
from casewright.sdk.geometry import Box, Cylinder, Place, Wedge
from casewright.sdk.model import Action, Feature, Part, Side, Sides, Tilts
from casewright.sdk.model.parts import groove, hole, rabbet
from casewright.sdk.units import MM, inches, mm

AS_IT_LIES = Place((0, 0, 0), 1, 2, 3)
SAME = mm("0.1")


def board(*features, length=600, width=300, thickness=18, place=AS_IT_LIES):
    return Part("tools/board", "tools", "shelf", "board", 1, "case", length * MM, width * MM, thickness * MM,
                "along-length", (), (), place, features)  # fmt: skip


def slot(width, *, start=0, end=600, at=100):
    """Return a groove along the board, `at` mm from its low edge, 6 mm deep from the upper face."""
    box = Box(start * MM, at * MM, 12 * MM, end * MM, at * MM + width, 18 * MM)
    return groove("groove for shelf", box, entry=3, run=1)


def cut(*features, cutters=(), same=SAME, sides=None, **sizes):
    part = board(*features, **sizes)
    return list(cuts_of(Measured(part, sides), part.features, cutters, same))


def test_a_cutter_that_leaves_hardly_more_play_cuts_in_one_pass():
    # 23/32 in is 0.71875, 0.00015 in (0.004 mm) more than 0.7186: less than the 0.1 mm that are the same.
    (one,) = cut(slot(inches("0.7186")), cutters=(inches("1/2"), inches("23/32")))
    assert (one.run, one.setting.fence) == ((1, 1), 100 * MM)


def test_a_cutter_wider_by_more_than_that_is_not_used():
    # 19 mm in a groove of 18.2: 0.8 more. The next narrower one, 12, takes it in two: 12 and then to 18.2.
    first, second = cut(slot(mm("18.2")), cutters=(mm(12), mm(19)))
    assert (first.setting.fence, second.setting.fence) == (mm(100), mm("106.2"))
    assert {first.setting.cutter, second.setting.cutter} == {mm(12)}


def test_a_cutter_narrower_than_the_guest_never_cuts_in_one_pass():
    # 18.15 is within 0.1 of 18.2, yet narrower: the guest would not go in.
    assert len(cut(slot(mm("18.2")), cutters=(mm("18.15"),))) == 2


def test_a_rabbet_hardly_wider_than_the_cutter_is_cut_in_one_pass():
    # 0.229 in of back is 5.8166 mm, with 0.2 of play 6.0166: a cutter of 6 leaves 0.0166, which no fence is set to.
    back = Box(0, 0, 9 * MM, 600 * MM, mm("6.0166"), 18 * MM)
    (one,) = cut(rabbet("rabbet for back", back, entry=3, run=1), cutters=(mm(6), mm(10)))
    assert (one.run, one.setting.fence, one.setting.height) == ((1, 1), 0, mm(9))
    assert len(cut(rabbet("rabbet for back", back, entry=3, run=1), cutters=(mm("5.9"), mm(10)))) == 2


def test_a_stopped_groove_keeps_its_ends():
    (one,) = cut(slot(mm(18), start=0, end=540))
    assert (one.leads, one.setting.start, one.setting.end) == (Side.END_LOW, 0, 540 * MM)


def test_a_through_groove_is_stopped_nowhere():
    (one,) = cut(slot(mm(18)))
    assert (one.leads, one.setting.start, one.setting.end) == (None, None, None)


@pytest.mark.parametrize(
    ("kind", "action"),
    [
        ("notch", Action.NOTCH),
        ("pocket", Action.POCKET),
        ("dovetail", Action.DOVETAIL),
        ("biscuit-slot", Action.MORTISE),
        ("spline-slot", Action.GROOVE),
    ],
)
def test_the_kind_decides_what_is_done_whatever_the_label_says(kind, action):
    box = Box(0, 0, 0, 100 * MM, 60 * MM, 18 * MM)
    (one,) = cut(Feature(kind, "a rabbet, a mortise, a groove", -2, boxes=(box,), run=1))
    assert one.action is action


def test_places_that_are_marked_on_the_piece_are_one_cut():
    # Three slots 50 long and 4 wide, 7 from the lower face, 30, 275 and 520 from the left end: alike from both ends.
    boxes = tuple(Box(x * MM, 0, 7 * MM, (x + 50) * MM, 12 * MM, 11 * MM) for x in (30, 275, 520))
    (one,) = cut(Feature("biscuit-slot", "biscuit slots", -2, boxes=boxes))
    assert (one.setting.cutter, one.setting.height, one.setting.end) == (4 * MM, 12 * MM, 50 * MM)
    assert [place[1] for place in one.at] == [30 * MM, 275 * MM, 520 * MM]
    assert len({place[0] for place in one.at}) == 1


def test_fingers_are_cut_through_the_thickness_at_one_setting():
    gaps = tuple(Box(0, y * MM, 0, 12 * MM, (y + 20) * MM, 18 * MM) for y in (20, 60, 100))
    (one,) = cut(Feature("fingers", "fingers into the side", -1, boxes=gaps))
    assert (one.down, one.setting.cutter, one.setting.height) == (Side.END_LOW, 20 * MM, 12 * MM)
    assert (one.setting.end, len(one.at)) == (None, 3)


@pytest.mark.parametrize(("place", "side"), [
    (Place((0, 0, 0), 1, 3, -2), Side.FACE_HIGH),
    (Place((0, 0, 0), 1, -3, 2), Side.FACE_LOW),
])  # fmt: skip
def test_what_is_as_near_to_both_faces_is_measured_from_the_one_in_front(place, side):
    # A groove of 6 in the middle of an edge 18 thick: 6 from either face; the front looks to -2.
    box = Box(0, 0, 6 * MM, 600 * MM, 9 * MM, 12 * MM)
    (one,) = cut(groove("panel groove", box, entry=-2, run=1), place=place)
    assert (one.against, one.setting.fence) == (side, 6 * MM)


def test_a_notch_is_sawn_along_its_outline_and_not_cleared_by_passes():
    box = Box(0, 0, 0, 100 * MM, 60 * MM, 18 * MM)
    (one,) = cut(Feature("notch", "toe recess", -2, boxes=(box,), run=3), cutters=(6 * MM,))
    assert (one.setting.cutter, one.setting.height, one.run) == (100 * MM, 60 * MM, (1, 1))


def test_what_is_as_near_to_both_edges_is_measured_from_the_same_named_one_in_a_mirrored_pair():
    # A hole in the middle of a stile 60 wide: 30 from either edge, the outer one in both hands.
    middle = hole("pull", Cylinder((100 * MM, 30 * MM, 18 * MM), -3, 5 * MM, 18 * MM))
    left = Sides("bottom end", "top end", "outer edge", "inner edge", "back face", "show face")
    right = Sides("bottom end", "top end", "inner edge", "outer edge", "back face", "show face")
    against = [cut(middle, width=60, sides=sides)[0] for sides in (left, right)]
    assert [(one.leads, one.against) for one in against] == [
        (Side.EDGE_LOW, Side.END_LOW),
        (Side.EDGE_HIGH, Side.END_LOW),
    ]


@pytest.mark.parametrize(("thick", "turns"), [(18, True), (80, False)])
def test_a_flat_member_is_mitred_lying_on_its_back_by_a_turned_saw(thick, turns):
    # A mitre of 45 degrees across a stile 60 wide takes 60 of 600 off its inner edge: 540 are left there, 600 at the
    # outer edge. What is thicker than wide is left to a tilted blade, on its edge.
    sides = Sides("bottom end", "top end", "outer edge", "inner edge", "show face", "back face")
    wedge = Wedge(Box(0, 0, 0, 60 * MM, 60 * MM, thick * MM), 3, (-1, 2))
    (one,) = cut(Feature("bevel", "mitre", -1, wedges=(wedge,)), width=60, thickness=thick, sides=sides)
    setting = one.setting
    assert (one.against, setting.distance, setting.height, setting.tilts) == (
        Side.END_HIGH, 540 * MM, 60 * MM, Tilts.FAR,
    )  # fmt: skip
    if turns:
        assert (one.down, one.leads, setting.stop, setting.fence) == (Side.FACE_HIGH, Side.EDGE_HIGH, 540 * MM, None)
        assert (setting.turn_deg, setting.tilt_deg) == (pytest.approx(45), None)
    else:
        assert (one.down, setting.turn_deg, setting.tilt_deg) == (Side.EDGE_HIGH, None, pytest.approx(45))


@pytest.mark.parametrize(("low", "rides"), [(0, Side.EDGE_HIGH), (282, Side.EDGE_LOW)])
def test_what_a_bevel_leaves_never_lies_between_blade_and_fence(low, rides):
    # 45 degrees through 18 mm take 18 off the edge: of 300 mm 282 are left from the edge that rides the fence.
    corner = (-2 if low == 0 else 2, -3)
    wedge = Wedge(Box(0, low * MM, 0, 600 * MM, (low + 18) * MM, 18 * MM), 1, corner)
    (one,) = cut(Feature("bevel", "hook", -3, wedges=(wedge,)))
    assert (one.down, one.against, one.setting.fence) == (Side.FACE_LOW, rides, 282 * MM)
    assert (one.setting.tilts, one.setting.tilt_deg) == (Tilts.FAR, pytest.approx(45))
