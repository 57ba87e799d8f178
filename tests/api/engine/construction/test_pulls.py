"""Where the holes of pulls are drilled, worked by hand."""

from casewright.sdk.units import mm

FRAMED = {"style": "cope-and-stick", "material": "frame", "panel": "thin", "overlay": 10}
PLAIN = {"back": None}


def test_pulls_are_placed_alike_on_both_doors_in_the_lower_part(planned):
    doors = {**FRAMED, "pull": {"item": "bar-96", "from_edge": 25, "from_end": 60}}
    plan = planned({"space": {"front": "door-pair"}, "doors": doors}, PLAIN)
    left, right = plan.doors
    holes = {}
    for part in plan.parts:
        for h in (h for f in part.features if f.label == "pull" for h in f.holes):
            holes.setdefault(part.id.split("/")[1], []).append(part.place.cylinder(h).mouth[::2])
    z = left.at[2] + mm(60)
    assert sorted(holes["door-1"]) == [
        (left.at[0] + left.width - mm(25), z),
        (left.at[0] + left.width - mm(25), z + mm(96)),
    ]
    assert sorted(holes["door-2"]) == [(right.at[0] + mm(25), z), (right.at[0] + mm(25), z + mm(96))]


def test_pulls_of_a_tall_cabinet_are_within_reach(planned):
    # Two doors one over the other, 2000 high, from a plinth of 100: the lower door's upper end and the upper door's
    # lower end are nearer to a hand at 1 m (common practice, no source).
    doors = {"style": "slab", "material": "case", "overlay": 10, "pull": {"item": "knob-1", "from_end": 60}}
    cabinet = {
        "form": "tall", "height": 2000, "space": {"tiers": [{"front": "door"}, {"front": "door", "size": 800}]},
        "base": {"kind": "plinth", "height": 100, "setback": 50}, "doors": doors,
    }  # fmt: skip
    plan = planned(cabinet, {"back": None})
    knobs = {line.used_for: line.at[0][2] for line in plan.hardware if line.item == "knob-1"}
    leaves = {leaf.id: leaf for leaf in plan.doors}
    for door, z in knobs.items():
        leaf = leaves[door]
        low, high = leaf.at[2] + 60_000_000, leaf.at[2] + leaf.height - 60_000_000
        assert z == min((low, high), key=lambda end: abs(end - 1_000_000_000))
    assert len(knobs) == 2
    assert all(abs(z - 1_000_000_000) < 200_000_000 for z in knobs.values())
