"""From a job's geometry to what is judged, one bridge a test: the worked jobs with one thing changed, by hand again.

The figures and their sources are those of `test_worked_job`.
"""

import copy
import math

import pytest
from worked import CUPBOARD, IN, LBF, SHELF, G, planned, screw_into_spruce, use_of

SHELF_KG, SHELF_Y = 12.9139488, 166.50504
"""The shelf's mass and how far its centre stands behind its front, as worked in `test_worked_job`."""


def changed(job, cabinet=None, case=None, mounting=None, **top):
    """Return a job with what is given laid over its cabinet, its case, its mounting and itself."""
    out = copy.deepcopy(job)
    one = out["cabinets"][0]
    one.update(cabinet or {})
    one["case"].update(case or {})
    one["mounting"].update(mounting or {})
    out.update(top)
    return out


def checks(plan, code):
    return {c["subject"]: (c["value"], c["limit"], c["level"]) for c in plan["checks"] if c["code"] == code}


# --- to hanging ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("loading", "pressure"), [({}, 718.2), ({"shelf_pa": 500}, 500.0)])
def test_contents_not_given_are_a_load_on_bottom_and_shelves(client, loading, pressure):
    # 15 psf, 718.2 Pa, where the job says nothing (ANSI/KCMA A161.1 5.1): on 582 × 320 and 576 × 320 mm.
    job = changed(SHELF, {"loading": loading})
    del job["cabinets"][0]["mounting"]["contents_kg"]
    (answer,) = planned(client, job)["mounting"]
    assert answer["given"]["contents_assumed"] is True
    assert answer["given"]["contents_kg"] == pytest.approx(pressure * 1158 * 320e-6 / G)


def test_assumed_contents_stop_at_200_lb_a_level(client):
    # AWS 1st ed. p. 253. A bottom of 2382 × 600 mm at 15 psf would be 1026 N; 200 lbf are 889.6 N, 90.718 kg.
    job = changed(SHELF, {"width": 2400, "depth": 600, "space": {}})
    del job["cabinets"][0]["mounting"]["contents_kg"]
    (answer,) = planned(client, job)["mounting"]
    assert answer["given"]["contents_kg"] == pytest.approx(200 * LBF / G)


def test_a_back_moves_the_contents_forward_and_the_screw_further_from_its_stud(client):
    # A back 6.5 mm thick behind the strip: contents lie between front and back, the screw crosses strip, back and
    # lining before the stud.
    thin = {"kind": "sheet", "stuff": "birch-plywood", "thickness": 6.5}
    back = {"back": {"material": "thin", "inset": 0, "joint": {"method": "rabbet"}}}
    plan = planned(client, changed(SHELF, case=back, materials={**SHELF["materials"], "thin": thin}))
    (answer,) = plan["mounting"]
    (weight,) = plan["weights"]
    parts = {p["id"]: p for p in plan["parts"]}
    front_of_back = parts["patch/back"]["place"]["at"][1]
    assert front_of_back == 320 - 6.5
    out = 320 - (weight["mass_kg"] * weight["centre"][1] + 20 * front_of_back / 2) / (weight["mass_kg"] + 20)
    assert answer["given"]["centre_out_mm"] == pytest.approx(out, rel=1e-5)
    pull_lb, shear_lb = screw_into_spruce(18 / IN, (12.5 + 6.5) / IN, 0.42, 3350)
    assert answer["capacity"]["gap_mm"] == pytest.approx(12.5 + 6.5)
    assert answer["capacity"]["pull_n"] == pytest.approx(pull_lb * LBF, rel=1e-6)
    assert answer["capacity"]["lateral_n"] == pytest.approx(shear_lb * LBF, rel=1e-6)


def test_a_cleat_packed_out_from_the_wall_lengthens_the_gap(client):
    # The back inset by 1 1/4 in leaves 1/2 in behind a 3/4 in cleat: 1/2 of lining and 1/2 of packing.
    back = copy.deepcopy(CUPBOARD["cabinets"][0]["case"]["back"])
    plan = planned(client, changed(CUPBOARD, case={"back": {**back, "inset": "1 1/4"}}, mounting={"fastener": None}))
    (answer,) = plan["mounting"]
    assert answer["capacity"]["gap_mm"] == pytest.approx(1.0 * IN)
    assert answer["lengths"]["packing between wall and wall cleat"] == 0.5


def test_a_cleat_thicker_than_its_room_holds_the_case_off_the_wall(client):
    # The back inset by 1/2 in leaves 1/2 for a 3/4 in cleat: the wall is 1/4 further from the front, at 12 1/4, and
    # the spacer that keeps the case plumb is the lowest bearing, 1 1/2 over the case's lower edge.
    back = copy.deepcopy(CUPBOARD["cabinets"][0]["case"]["back"])
    plan = planned(client, changed(CUPBOARD, case={"back": {**back, "inset": "1/2"}}))
    (answer,), (weight,) = plan["mounting"], plan["weights"]
    contents = 40 * 0.45359237
    out = 12.25 - (weight["mass_kg"] * weight["centre"][1] + contents * (12 - 1.25) / 2) / (
        weight["mass_kg"] + contents
    )
    assert answer["given"]["centre_out_mm"] == pytest.approx(out * IN, rel=1e-5)
    assert answer["given"]["strip_low_mm"] == pytest.approx((28.5 - 3 + 0.75 - 3 - 1.5) * IN)


def test_masonry_anchors_share_pull_and_shear(client):
    # Two anchors an eighth of the 564 mm strip from its ends, at 138 + 70.5 and 702 − 70.5, in one row at the
    # strip's middle, 622 + 40 over the lower edge: each takes half of the tie and half of the weight.
    wall = {
        "masonry": {"tension_n": 500, "shear_n": 300, "approval": "approval sheet 12"},
        "lining": 0, "cabinets_at": {"patch": [{"x": 120, "z": 1400}]},
    }  # fmt: skip
    (answer,) = planned(client, changed(SHELF, wall=wall))["mounting"]
    weight = (SHELF_KG + 20) * G
    out = 320 - (SHELF_KG * SHELF_Y + 20 * 160) / (SHELF_KG + 20)
    pull, shear = weight * out / 662 / 2, weight / 2
    assert [(f["at_mm"], f["up_mm"]) for f in answer["fasteners"]] == [(208.5, 40), (631.5, 40)]
    assert [f["use"] for f in answer["fasteners"]] == pytest.approx([pull / 500 + shear / 300] * 2, rel=1e-6)


def test_two_cupboards_on_one_cleat(client):
    # Side by side at 4 and 28: the shared cleat runs from 5 to 51 and crosses the studs at 7, 23 and 39, whose middle
    # is 23. Both together weigh 2 W at 28; their pull falls on the columns by 1/3 + 5 (x − 23)/512, and on the last
    # 1/3 + 80/512 = 0.4896 of 2 W, more than any stud takes of one alone.
    job = changed(CUPBOARD)
    job["cabinets"][0]["count"] = 2
    job["wall"]["cabinets_at"]["tools"].append({"x": 28, "z": 54})
    plan = planned(client, job)
    (shared,) = plan["run"]["shared_cleats"]
    assert (shared["left_mm"], shared["length_mm"]) == (pytest.approx(5 * IN), pytest.approx(46 * IN))
    assert shared["studs_mm"] == pytest.approx([7 * IN, 23 * IN, 39 * IN])
    pounds = 2 * plan["mounting"][0]["weight_n"] / LBF
    low, high = 0.475, 2.25 - 0.475
    moment = pounds * (3 - 0.375) + pounds * 0.375
    pull = max(pounds / 2, moment * high / (low**2 + high**2)) * (1 / 3 + 80 / 512)
    polar = 4 * 16**2 + 6 * 0.65**2
    shear = math.hypot(pounds / 6 + pounds * 5 * 16 / polar, pounds * 5 * 0.65 / polar)
    use = use_of(pull, shear, *screw_into_spruce(0.75, 0.5, 0.43, 3500))
    assert shared["use"] == pytest.approx(use, rel=1e-6)
    assert shared["works"] is (use <= 1)


def test_neighbours_apart_or_at_other_heights_share_no_cleat(client):
    # The shop's wall allowance and 50 mm is the most that may lie between them (common practice, no source): with
    # 1/8 in, 53.175 mm, 2 in but not 2 1/8.
    for x, z, shares in ((30, 54, 1), ("30 1/8", 54, 0), (28, 55, 0)):
        job = changed(CUPBOARD, shop={"fit": 0, "wall_allowance": "1/8"})
        job["cabinets"][0]["count"] = 2
        job["wall"]["cabinets_at"]["tools"].append({"x": x, "z": z})
        assert len(planned(client, job)["run"]["shared_cleats"]) == shares, (x, z)


# --- to sag ----------------------------------------------------------------------------------------------------------

INERTIA = 320 * 18**3 / 12
OWN_N_MM = 320 * 18 * 685e-9 * G
"""What a millimetre of the shelf's length weighs, N."""


def test_a_load_at_the_centre_sags_by_its_own_rule(client):
    # FPL-GTR-190 Table 9-1: W L³ / (48 E I), all of the load taken at the centre (the safe side), doubled by creep.
    plan = planned(client, changed(SHELF, {"loading": {"spread": "centre"}}))
    load = (20 * 576 / 1158) * G + 576 * OWN_N_MM
    sag = 2 * load * 564**3 / (48 * 10_048 * INERTIA)
    assert checks(plan, "shelf-sag")["patch/shelf-1"] == (pytest.approx(sag, abs=1e-6), pytest.approx(2.9375), "note")


def test_without_a_mounting_shelves_carry_the_jobs_load(client):
    # 2000 Pa on 576 × 320 mm and its own weight. 0.02 in a foot of span allows 564 / 600 = 0.94 mm.
    job = changed(SHELF, {"loading": {"shelf_pa": 2000, "limit": "two-hundredths-per-foot"}})
    del job["cabinets"][0]["mounting"]
    load = 2000 * 576 * 320e-6 + 576 * OWN_N_MM
    sag = 2 * 5 * load * 564**3 / (384 * 10_048 * INERTIA)
    assert 0.94 < sag < 1.4
    sagging = checks(planned(client, job), "shelf-sag")
    assert sagging["patch/shelf-1"] == (pytest.approx(sag, abs=1e-6), pytest.approx(0.94), "caution")


def test_a_divider_halves_the_bottoms_span(client):
    # Bays share 564 − 18 = 546: the bottom spans 273, each shelf too, and they carry by their areas: the bottom
    # 582 × 320, the shelves 273 + 2 × 6 = 285 × 320. The divider's groove takes 6 × 18 × 320 of the bottom.
    job = changed(SHELF, {"space": {"bays": [{"fixed_shelves": [351]}, {"fixed_shelves": [351]}]}})
    sagging = checks(planned(client, job), "shelf-sag")
    for name, length, cut in (("bottom", 582, 6 * 18 * 320), ("shelf-1", 285, 0)):
        load = (20 * length / (582 + 2 * 285)) * G + length * OWN_N_MM - cut * 685e-9 * G
        sag = 2 * 5 * load * 273**3 / (384 * 10_048 * INERTIA)
        assert sagging[f"patch/{name}"][0] == pytest.approx(sag, abs=1e-6)


# --- to movement -----------------------------------------------------------------------------------------------------


def test_a_poplar_shelf_over_the_year(client):
    # FPL-GTR-282 eq. 4-5: 20 °C and 50 % are 9.27 %, 70 °F and 30 to 65 % 6.17 and 11.96 %. C_T 0.00289 (Table 13-5,
    # from memory). 10 1/2 in between the driest and the dampest: 10.5 × 0.00289 × (11.96 − 6.17) = 0.1757 in.
    climate = {"shop_c": 20, "shop_humidity": 50, "room_c": (70 - 32) / 1.8, "room_driest": 30, "room_dampest": 65}
    movement = checks(planned(client, changed(CUPBOARD, climate=climate)), "solid-movement")
    assert movement["tools/shelf-1"][0] == pytest.approx(10.5 * 0.00289 * (11.96 - 6.17), rel=3e-3)
    # Fitted at 70 %, 13.09 % (eq. 4-5): damper than the room ever is, so it counts as the dampest.
    damp = {**climate, "shop_c": (70 - 32) / 1.8, "shop_humidity": 70}
    movement = checks(planned(client, changed(CUPBOARD, climate=damp)), "solid-movement")
    assert movement["tools/shelf-1"][0] == pytest.approx(10.5 * 0.00289 * (13.09 - 6.17), rel=3e-3)


# --- to tipping ------------------------------------------------------------------------------------------------------


def test_an_open_door_against_the_case(client):
    # A base cabinet 600 × 700 × 300 of 18 mm plywood, rabbeted, without a back; one slab door 584 × 684, overlay 10,
    # standing 2 off, opened square: its centre is half its width in front of its rear face, 2 + 292 = 294 before the
    # case. Case: 2 sides 700 × 300 less 2 rabbets 9 × 18 × 300, top and bottom 582 × 300; its centre 150 behind. The
    # door turns it by 14.1 N·m, the case holds 13.8.
    cabinet = {
        "id": "stand", "form": "base", "width": 600, "height": 700, "depth": 300,
        "case": {"material": "ply", "corner": {"method": "rabbet"}, "back": None},
        "space": {"front": "door"},
        "doors": {"style": "slab", "material": "ply", "overlay": 10, "stand_off": 2},
    }  # fmt: skip
    plan = planned(client, {"units": "mm", "materials": SHELF["materials"], "cabinets": [cabinet], "shop": {"fit": 0}})
    case = (2 * (700 * 300 * 18 - 2 * 9 * 18 * 300) + 2 * 582 * 300 * 18) * 685e-9 * G * 150 / 1000
    door = 584 * 684 * 18 * 685e-9 * G * (2 + 292) / 1000
    (value, limit, level) = checks(plan, "anti-tip")["stand"]
    # What holds must be 1.5 times what tips (the job's own margin, by default; common practice, no source).
    assert limit == pytest.approx(case / 1.5, rel=1e-3)
    # Three cups of 35 × 12.5 mm are bored out of the door: 0.5 % of it.
    cups = 3 * math.pi * 35**2 / 4 * 12.5 * 685e-9 * G * 0.294
    assert value == pytest.approx(door - cups, rel=2e-3)
    assert level == "stop"
