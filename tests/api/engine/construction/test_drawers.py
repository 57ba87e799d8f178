"""Drawer fronts and their pulls, worked by hand: 18 mm stock, fronts 8 mm over their openings."""

import pytest
from casewright.api.command.bench_text import problem_lines
from casewright.sdk.errors import NoGeometryError
from casewright.sdk.units import mm


def chest(width, pull="bar-96"):
    drawers = {"material": "case", "bottom": "thin", "front": "case", "overlay": 8, "between": 4, "pull": pull}
    return {
        "form": "base", "width": width, "depth": 600, "space": {"front": "drawer", "drawers": 2}, "drawers": drawers,
    }  # fmt: skip


BARE = {"back": None, "corner": {"method": "dowel"}, "fixed_joint": {"method": "dowel"}}


@pytest.mark.parametrize(("width", "fits"), [(121, True), (120, False)])
def test_a_pull_wider_than_its_front_is_a_stop(planned, codes, width, fits):
    # Openings are width − 36 wide, fronts width − 20. Two holes of 5 mm, 96 apart, take 101.
    checks = codes(planned(chest(width), BARE), "pull-off-wood")
    assert checks == ([] if fits else [("stop", "pull-off-wood", f"bay/drawer-{n}/front") for n in (1, 2)])


def test_a_pull_sits_in_the_middle_of_its_front(planned, part_of):
    # Case 800 wide: the front's middle is 400; holes 96 apart at 352 and 448, half way up the front.
    front = part_of(planned(chest(800), BARE), "drawer-1/front")
    holes = [front.place.cylinder(h).mouth for f in front.features if f.label == "pull" for h in f.holes]
    box = front.place.box(front.blank)
    assert [x for x, _, _ in sorted(holes)] == [mm(352), mm(448)]
    assert {z for _, _, z in holes} == {(box.z0 + box.z1) // 2}


def test_one_pull_a_front_is_bought(planned):
    (line, other) = [h for h in planned(chest(800, "knob-1"), BARE).hardware if h.item == "knob-1"]
    assert (line.quantity, other.quantity) == (1, 1)


def test_a_front_with_drawers_of_which_nothing_is_given_says_what_is_needed_in_one_sentence(planned):
    with pytest.raises(NoGeometryError) as caught:
        planned({"space": {"front": "drawer"}}, BARE)
    text = " ".join(problem_lines(caught.value.problems, 400))
    assert "needs `drawers` in the cabinet of a front with drawers; got drawer. Add `drawers` to the cabinet" in text
