"""The holes of wood screws stand at the step that drives them.

NDS 2018, Table L3: a No. 8 screw is 0.164 in at the shank and 0.131 in at the root. The next 1/64 in over 0.164 is
11/64, and 70 % of 0.131 are 0.0917, nearest 3/32 (0.0938). Drill charts name both bits for No. 8 (from memory).
"""

from casewright.api.engine import make_plan
from casewright.api.job.document import read_job


def test_a_step_that_drives_screws_names_both_bits_and_the_depth(document, registry):
    job = document({"mounting": {"method": "bevel-cleat", "contents_kg": 20}})
    inches = {**job, "units": "in", "tape": "1/64", "shop": {"fit": 0}}
    inches["materials"] = {
        "case": {"kind": "sheet", "stuff": "birch-plywood", "thickness": "3/4"},
        "frame": {"kind": "board", "stuff": "red-oak", "thickness": "3/4"},
    }
    inches["cabinets"] = [{**job["cabinets"][0], "width": 30, "height": 30, "depth": 12}]
    plan = make_plan(read_job(inches, registry), registry)
    driven = [step for step in plan.steps if step.action == "screw" and "No. 8" in step.do]
    assert driven
    for step in driven:
        assert "a bit of 11/64 in through the piece under its head" in step.do
        assert "one of 3/32 in to " in step.do


def test_a_step_without_wood_screws_names_no_bits(planned):
    plan = planned({"space": {"front": "door"}, "doors": {"style": "slab", "material": "case"}})
    assert not any("through the piece under its head" in step.do for step in plan.steps)


def test_denser_wood_takes_a_wider_hole(planned):
    # NDS 2018 12.1.5 (from memory): 90 % of the root over 0.6, and red oak has 0.67 (Table 12.3.3A): of 0.131 in,
    # 3.3274 mm, that is 2.99; 70 % of it are 2.33.
    found = {}
    for material in ("case", "frame"):
        hung = {"method": "screw-strip", "contents_kg": 5, "material": material}
        plan = planned({"mounting": hung}, {"back": None})
        (found[material],) = [step.do for step in plan.steps if "through the top into the hanging strip" in step.do]
    assert "then one of 2.3 mm" in found["case"]
    assert "then one of 3.0 mm" in found["frame"]


def test_hinge_screws_get_holes_that_stay_in_the_door(planned):
    # NDS 2018, Table L3: the root of a No. 6 is 0.113 in, 2.87 mm; 70 % of it, for birch plywood, are 2.0. Three
    # quarters of its 5/8 in are 11.9 mm (common practice, no source: the bit stays short of the point).
    plan = planned({"space": {"front": "door"}, "doors": {"style": "slab", "material": "case"}})
    (do,) = [one.do for one in plan.steps if "hang door 1" in one.do]
    assert "; for wood screw No. 6 × 5/8 in, bore 2.0 mm, 11.9 mm deep; hang door 1" in do
