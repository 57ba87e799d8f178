"""Which span a level is judged by; the sag itself is worked by hand in `tests/api/use/test_worked_bridges.py`."""

import re

PLAIN = {"corner": {"method": "dowel"}, "fixed_joint": {"method": "dowel"}, "back": None}


def limits(plan):
    return {c.subject: c.limit for c in plan.checks if c.code == "shelf-sag"}


def test_the_widest_bay_over_the_bottom_is_its_span(planned):
    # 800 less two sides of 18 is 764; bays of 200 and, less a divider of 18, 546. 1/16 in a foot is span/192.
    plan = planned({"space": {"bays": [{"size": 200}, {}]}}, PLAIN)
    assert limits(plan) == {"bay/bottom": round(546e6 / 192)}
    plan = planned({"space": {"bays": [{}, {"size": 200}]}}, PLAIN)
    assert limits(plan) == {"bay/bottom": round(546e6 / 192)}
    assert limits(planned(None, PLAIN)) == {"bay/bottom": round(764e6 / 192)}


def test_what_would_pass_passes_when_it_is_built(planned):
    """A thicker shelf weighs more, and a shorter one carries less; sides of 18 stand outside its span."""
    (check,) = [c for c in planned({"width": 1400}, PLAIN).checks if c.code == "shelf-sag"]
    thick, span = re.search(r"; ([\d.]+) mm thick would pass, or a span of ([\d.]+) mm", check.message).groups()
    thicker = {"case": {"kind": "sheet", "stuff": "birch-plywood", "thickness": float(thick)}}
    for plan in (planned({"width": 1400}, PLAIN, materials=thicker), planned({"width": float(span) + 36}, PLAIN)):
        assert [c.level for c in plan.checks if c.code == "shelf-sag"] == ["note"]


def test_what_would_pass_is_as_stiff_as_the_stuff_is_when_so_thick(planned):
    """Birch plywood's modulus goes by its thickness (its makers' table): more plies, less of it along the grain."""
    ply = {"case": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 15}}
    (check,) = [c for c in planned({"width": 1000}, PLAIN, materials=ply).checks if c.code == "shelf-sag"]
    (thick,) = re.findall(r"; ([\d.]+) mm thick would pass", check.message)
    ply["case"]["thickness"] = float(thick)
    assert [c.level for c in planned({"width": 1000}, PLAIN, materials=ply).checks if c.code == "shelf-sag"] == ["note"]
