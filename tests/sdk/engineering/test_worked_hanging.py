"""The worked one-stud, two-screw hanging: hand arithmetic from printed terms, then the code, to the printed places.

The left column of PRINTED is what the worked text prints; the page `worked-hanging` must print the same.
"""

import math
import re
from importlib.resources import files

import pytest
from casewright.plugins.catalogue.plugin import CATALOGUE
from casewright.sdk.engineering.hanging import hang
from casewright.sdk.engineering.hanging_case import HangingCase, Strip, Wall
from casewright.sdk.engineering.units import KG_PER_LB, N_PER_LBF

IN = 25.4


def _case():
    strip = Strip(0.75 * IN, 5 * IN, 26 * IN, 0.0, 24 * IN, CATALOGUE.stuff("yellow-poplar"))
    wall = Wall("studs", (11 * IN,), CATALOGUE.stuff("spruce-pine-fir"), lining_mm=0.5 * IN)
    return HangingCase(
        mounting="bevel-cleat", cabinet_kg=22 * KG_PER_LB, contents_kg=18 * KG_PER_LB, left_mm=-1 * IN,
        width_mm=28 * IN, height_mm=33 * IN, depth_mm=11 * IN, centre_x_mm=13 * IN, centre_out_mm=6 * IN,
        strip=strip, wall=wall, fastener=CATALOGUE.screw("screw-10-3"), hook_clearance_mm=IN / 8,
    )  # fmt: skip


def _by_hand():
    """Every figure from the printed terms alone, in pounds and inches; nothing of the project is used."""
    weight, out, d, root, head, length = 40.0, 6.0, 0.190, 0.152, 0.363, 3.0
    cleat, high, gap, slope = 0.75, 5.0, 0.5, math.tan(math.radians(45.0))
    zone = high - cleat * slope
    low_row, high_row = 2.5 * d, zone - 2.5 * d
    hand = {"rows": (low_row, high_row), "asked": weight * out / (24 + (low_row + high_row) / 2)}
    hand["free"], hand["resists"] = weight * slope, weight * math.tan(math.radians(61.7))
    moment = weight * (high - cleat / 2) + weight * cleat / 2
    squares = low_row**2 + high_row**2
    share = 1 + 2 / 11
    hand["pulls"] = (max(20.0, moment * low_row / squares) * share, moment * high_row / squares * share)
    hand["shear"] = math.hypot(weight / 2, weight * 2 / (high_row - low_row))
    deep = length - cleat - gap
    hand["withdrawal"] = 2850 * 0.42**2 * d * deep * 0.9
    hand["through"] = 690 * math.pi * head * 0.43**2 * cleat * 0.9
    q_m, q_s = 3350 * root, 3500 * root
    bend = 80_000 * root**3 / 6
    a, b, c = 1 / (4 * q_s) + 1 / (2 * q_m), cleat / 2 + gap, -q_s * cleat**2 / 4 - bend
    hand["lateral"] = (-b + math.sqrt(b * b - 4 * a * c)) / (2 * a) / 2.2 * 0.9
    uses = []
    for pull in hand["pulls"]:
        total, angle = math.hypot(pull, hand["shear"]), math.atan2(pull, hand["shear"])
        both = hand["through"] * hand["lateral"]
        both /= hand["through"] * math.cos(angle) ** 2 + hand["lateral"] * math.sin(angle) ** 2
        uses.append(total / both)
    hand["uses"] = tuple(uses)
    hand["likely pull"] = weight * math.tan(math.radians(28.3))
    pried = hand["likely pull"] * (high - cleat / 2) + weight * cleat / 2
    pull = pried * high_row / squares * share
    tight = (-cleat / 2 + math.sqrt(cleat**2 / 4 - 4 * a * c)) / (2 * a) / 2.2 * 0.9
    total, angle = math.hypot(pull, hand["shear"]), math.atan2(pull, hand["shear"])
    both = hand["through"] * tight / (hand["through"] * math.cos(angle) ** 2 + tight * math.sin(angle) ** 2)
    hand |= {"likely upper": pull, "likely lateral": tight, "likely use": total / both}
    return hand


HAND = _by_hand()
PRINTED = {
    "9.19 lb of inward pull": HAND["asked"],
    "tan 45° = 40.0 lb": HAND["free"],
    "tan 61.7° = 74.3 lb": HAND["resists"],
    "tan 28.3° = 21.5 lb": HAND["likely pull"],
    "T = 35.3 lb": HAND["likely upper"],
    "0.9: 76.8 lb": HAND["likely lateral"],
    "use of 0.541": HAND["likely use"],
    "T = 61.6 lb": HAND["pulls"][1],
    "T = 23.6 lb": HAND["pulls"][0],
    "= 31.4 lb": HAND["shear"],
    "= 150.4 lb": HAND["withdrawal"],
    "0.9: 98.2 lb": HAND["through"],
    "Z' = 47.7 lb": HAND["lateral"],
    "= 0.859": HAND["uses"][1],
    "use 0.672": HAND["uses"][0],
}


@pytest.mark.parametrize("words", PRINTED)
def test_printed_figures_are_the_hand_figures(words):
    text = re.findall(r"\d+\.\d+", words)[-1]
    places = len(text.split(".")[1])
    assert float(text) == pytest.approx(PRINTED[words], abs=0.5000001 * 10**-places)


def test_the_code_agrees_with_the_hand():
    answer = hang(_case())
    pounds = [(each.pull_n / N_PER_LBF, each.shear_n / N_PER_LBF) for each in answer.fasteners]
    assert [each.up_mm / IN for each in answer.fasteners] == pytest.approx(HAND["rows"], rel=1e-12)
    assert answer.hook.needed_n / N_PER_LBF == pytest.approx(HAND["asked"], rel=1e-9)
    assert answer.hook.frictionless_n / N_PER_LBF == pytest.approx(HAND["free"], rel=1e-9)
    assert answer.hook.with_friction_n / N_PER_LBF == pytest.approx(HAND["resists"], rel=1e-9)
    assert answer.likely.pull_n / N_PER_LBF == pytest.approx(HAND["likely pull"], rel=1e-9)
    assert answer.likely.lateral_n / N_PER_LBF == pytest.approx(HAND["likely lateral"], rel=1e-9)
    assert answer.likely.use == pytest.approx(HAND["likely use"], rel=1e-9)
    assert answer.likely.use < answer.use
    assert not answer.hook.rides_up
    assert [pull for pull, _ in pounds] == pytest.approx(HAND["pulls"], rel=1e-9)
    assert [shear for _, shear in pounds] == pytest.approx([HAND["shear"]] * 2, rel=1e-9)
    most = answer.capacity
    assert most.withdrawal_n / N_PER_LBF == pytest.approx(HAND["withdrawal"], rel=1e-9)
    assert most.pull_through_n / N_PER_LBF == pytest.approx(HAND["through"], rel=1e-9)
    assert most.lateral_n / N_PER_LBF == pytest.approx(HAND["lateral"], rel=1e-9)
    assert most.mode == "IIIs"
    assert [round(value / N_PER_LBF, 1) for _, value in most.modes_n] == [325.0, 163.2, 84.9, 91.2, 47.7, 51.6]
    assert [each.use for each in answer.fasteners] == pytest.approx(HAND["uses"], rel=1e-9)
    assert answer.use == pytest.approx(HAND["uses"][1], rel=1e-9)
    assert not answer.stops
    low, high = answer.works_between_mm
    assert (low / IN, high / IN) == pytest.approx((10.22, 15.78), abs=0.005)
    assert answer.lift.rise_mm / IN == pytest.approx(0.875, rel=1e-9)
    assert answer.proofs[-1].use == pytest.approx(HAND["uses"][1] * 600 / 40 * 0.9, rel=1e-9)
    assert answer.proofs[-1].use == pytest.approx(11.6, abs=0.05)


def test_the_document_prints_them():
    flat = " ".join(files("casewright.sdk").joinpath("pages", "worked-hanging.md").read_text("utf-8").split())
    for words in PRINTED:
        assert words in flat
