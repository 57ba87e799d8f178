"""Terms and features: reasons sum, cuts are carried without loss."""

from casewright.sdk.geometry import Box, Cylinder, Place, Wedge
from casewright.sdk.model import Feature, HardwareUse, Term, groove, hole, mortise, rabbet, total
from hypothesis import given
from hypothesis import strategies as st


@given(st.lists(st.integers(-(10**12), 10**12)))
def test_total_is_exact_at_any_size(sizes):
    assert total(tuple(Term("x", n) for n in sizes)) == sum(sizes)


def test_nothing_sums_to_nothing():
    assert total(()) == 0


BLOCK = Box(0, 0, 0, 30, 20, 10)
MIXED = Feature(
    "tenon",
    "all three",
    1,
    boxes=(Box(0, 0, 0, 5, 20, 2),),
    holes=(Cylinder((20, 10, 10), -3, 4, 6),),
    wedges=(Wedge(Box(10, 0, 0, 14, 20, 4), 2, (1, -3)),),
    run=2,
    angle_deg=45.0,
)
PLACE = Place((100, 200, 300), -2, 3, -1)


def test_the_boxes_of_the_waste_are_its_own_and_those_round_its_wedges():
    assert MIXED.waste_boxes == (Box(0, 0, 0, 5, 20, 2), Box(10, 0, 0, 14, 20, 4))


def test_the_envelope_is_round_all_of_the_waste():
    assert MIXED.envelope() == Box(0, 0, 0, 22, 20, 10)


def test_a_feature_carried_there_and_back_is_itself():
    there = MIXED.carried(PLACE, joint="a+b")
    assert there.joint == "a+b"
    assert there.angle_deg == 45.0
    back = there.carried(PLACE.inverse())
    assert back.boxes == MIXED.boxes
    assert back.holes == MIXED.holes
    assert (back.entry, back.run) == (1, 2)
    assert there.envelope() == PLACE.box(MIXED.envelope())


def test_the_short_forms_say_what_they_are():
    box = Box(0, 0, 0, 1, 1, 1)
    kinds = [groove("a", box, 3, 1), rabbet("b", box, 3, 1), mortise("c", box, 3)]
    assert [f.kind for f in kinds] == ["groove", "rabbet", "mortise"]
    drilled = hole("d", Cylinder((0, 0, 0), -3, 5, 10))
    assert (drilled.kind, drilled.entry) == ("hole", 3)


def test_hardware_counts_its_points_unless_its_count_is_given():
    use = HardwareUse("brad", "brad", ((1, 2, 3), (4, 5, 6)), 3)
    assert use.count == 2
    assert HardwareUse("brad", "brad", quantity=40).count == 40
    carried = use.carried(PLACE)
    assert carried.at == tuple(PLACE.point(p) for p in use.at)
    assert carried.axis == PLACE.axis(3)
