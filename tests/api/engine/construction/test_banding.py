"""Bands on slab doors and drawer fronts: the finished size stays, their thickness is taken off the wood. By hand."""

from casewright.sdk.model import Purpose
from casewright.sdk.units import mm

SLAB = {"style": "slab", "material": "case", "overlay": 10, "band": "edging"}
PLAIN = {"back": None}


def test_a_banded_slab_keeps_its_finished_size(planned, part_of):
    # Opening 764 × 864, overlay 10: 784 × 884 finished; edging of 1 on all edges leaves 782 × 882 of wood.
    plan = planned({"space": {"front": "door"}, "doors": SLAB}, PLAIN)
    door, (leaf,) = part_of(plan, "door-1/slab"), plan.doors
    assert (door.width, door.length) == (mm(782), mm(882))
    assert (leaf.width, leaf.height) == (mm(784), mm(884))
    assert sum(term.nm for term in door.why_width) == mm(782)
    boxes = [door.place.box(band.box) for band in door.bands]
    x0, z0 = min(box.x0 for box in boxes), min(box.z0 for box in boxes)
    assert (x0, z0) == (leaf.at[0], leaf.at[2])
    assert sum(max(box.size) for box in boxes) == 2 * mm(884) + 2 * mm(782)
    # Edging is as much wood as it covers: 2 × 884 + 2 × 782 by 1, in front of 782 × 882.
    assert sum(box.volume for box in boxes) == (2 * 884 + 2 * 782) * 1 * 18 * mm(1) ** 3
    assert plan.dry_fit.clashes == ()


def test_the_cups_stand_where_they_stood(planned):
    def mouths(doors):
        plan = planned({"space": {"front": "door"}, "doors": {**doors, "hinges": 2}}, PLAIN)
        return {
            part.place.cylinder(hole).mouth
            for part in plan.parts
            for feature in part.features
            if feature.purpose is Purpose.HINGE_CUP
            for hole in feature.holes
        }

    assert mouths(SLAB) == mouths({**SLAB, "band": None}) != set()


def test_a_front_is_banded_after_its_cuts(planned):
    plan = planned({"space": {"front": "door"}, "doors": SLAB}, PLAIN)
    cups = [step.number for step in plan.steps if any("hinge cups" in " ".join(one.cuts) for one in step.on)]
    (band,) = [step for step in plan.steps if step.stage == "band"]
    assert cups
    assert max(cups) < band.number
    assert "door 1" in band.do
    assert [check for check in plan.checks if check.code == "work-not-carried-out"] == []


def test_drawer_fronts_are_banded_too(planned, part_of):
    base = {
        "form": "base", "depth": 500, "space": {"front": "drawer"},
        "drawers": {"material": "case", "bottom": "thin", "front": "case", "overlay": 10, "band": "edging"},
    }  # fmt: skip
    front = part_of(planned(base, PLAIN), "drawer-1/front")
    assert (front.length, front.width) == (mm(782), mm(882))
    assert len(front.bands) == 4


def test_a_framed_door_has_no_slab_to_band(planned, codes):
    doors = {"style": "cope-and-stick", "material": "frame", "panel": "thin", "overlay": 10, "band": "edging"}
    plan = planned({"space": {"front": "door"}, "doors": doors}, PLAIN)
    assert [level for level, *_ in codes(plan, "band-unused")] == ["caution"]
    assert not [part for part in plan.parts if part.bands]
