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
