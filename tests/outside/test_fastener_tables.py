"""NDS 2018 table cells and AWC worked examples, in printed units to their printed tolerance.

Cells were read in a page-cited second-hand copy of NDS 2018 unless marked "from memory" or "derived".
"""

import math

import pytest
from casewright.plugins.catalogue.plugin import CATALOGUE
from casewright.sdk.engineering import adjust, bearing, hanging_capacity, hanging_forces, weights, withdrawal, yielding
from casewright.sdk.engineering.units import N_PER_LBF, inches, mm

# NDS 2018 Table L3: shank, root, head (in); Table I1: F_yb (psi)
NO_8 = (0.164, 0.131, 0.312, 90_000.0)
NO_10 = (0.190, 0.152, 0.363, 80_000.0)
NO_12 = (0.216, 0.171, 0.414, 80_000.0)
NO_14 = (0.242, 0.196, 0.480, 70_000.0)
# common nails, NDS 2018 Table L4 (from memory) and Table I1
NAILS = {
    "6d": (0.113, 0.113, 0.0, 100_000.0),
    "8d": (0.131, 0.131, 0.0, 100_000.0),
    "10d": (0.148, 0.148, 0.0, 90_000.0),
    "16d": (0.162, 0.162, 0.0, 90_000.0),
}
SMALL = dict(zip((8, 10, 12, 14), (NO_8, NO_10, NO_12, NO_14), strict=True))


def at_ten_diameters(size, side_in, g, *, bearing_s=None):
    """One shear plane as the tables take it: penetration 10 D, bearing length less half the 2 D tip, same wood."""
    nominal, root, _, f_yb = size
    f_e = bearing.bearing_psi(g, nominal)
    return yielding.Shear(
        root, 10 * nominal - nominal, side_in, f_e, bearing_s or f_e, f_yb, bearing.reduction(nominal, root)
    )


def touching(shear):
    """Return the yield modes of faces in contact: a gap of nothing."""
    return yielding.single_shear_with_gap(shear, 0.0)


def printed_yield_limits(shear):
    """NDS 2018 eqs 12.3-1 to 12.3-6 with k1, k2, k3 of Table 12.3.1A, as printed."""
    d, f_yb, f_em, f_es = shear.diameter, shear.bending, shear.bearing_m, shear.bearing_s
    l_m, l_s, r_d = shear.length_m, shear.length_s, shear.reduction
    r_e, r_t = f_em / f_es, l_m / l_s
    root = math.sqrt(r_e + 2 * r_e**2 * (1 + r_t + r_t**2) + r_t**2 * r_e**3)
    k_1 = (root - r_e * (1 + r_t)) / (1 + r_e)
    k_2 = -1 + math.sqrt(2 * (1 + r_e) + 2 * f_yb * (1 + 2 * r_e) * d**2 / (3 * f_em * l_m**2))
    k_3 = -1 + math.sqrt(2 * (1 + r_e) / r_e + 2 * f_yb * (2 + r_e) * d**2 / (3 * f_em * l_s**2))
    return (
        d * l_m * f_em / r_d.one,
        d * l_s * f_es / r_d.one,
        k_1 * d * l_s * f_es / r_d.two,
        k_2 * d * l_m * f_em / ((1 + 2 * r_e) * r_d.three_four),
        k_3 * d * l_s * f_em / ((2 + r_e) * r_d.three_four),
        d**2 / r_d.three_four * math.sqrt(2 * f_em * f_yb / (3 * (1 + r_e))),
    )


# --- withdrawal: Tables 12.2A, B, C, half the last printed digit -------------------------------------------------


@pytest.mark.parametrize(
    ("g", "diameter", "cell", "equation"),
    [(0.50, 0.190, 135, 135.375), (0.42, 0.164, 82, 82.45)],
    ids=["12.2B No. 10, G 0.50", "12.2B No. 8, G 0.42"],
)
def test_wood_screw_withdrawal_table_12_2b(g, diameter, cell, equation):
    assert withdrawal.screw_lb_in(g, diameter) == pytest.approx(cell, abs=0.5)
    assert withdrawal.screw_lb_in(g, diameter) == pytest.approx(equation, abs=0.001)


def test_lag_withdrawal_table_12_2a():
    assert withdrawal.lag_lb_in(0.50, 0.25) == pytest.approx(225.0, abs=0.5)


def test_awc_example_e2_3_lag():
    """AWC Structural Wood Design Solved Example Problems, E2.3: lag 1/2 × 4 in, southern pine, 1 1/2 in side."""
    lag = CATALOGUE.lag("lag-1-2-4")
    thread = inches(mm(lag.thread)) - inches(mm(lag.tip))
    assert thread == pytest.approx(2.1875, abs=1e-9)
    assert withdrawal.lag_lb_in(0.55, 0.5) == pytest.approx(436.56, abs=0.01)
    assert withdrawal.lag_lb_in(0.55, 0.5) * thread == pytest.approx(954.97, abs=0.1)
    strength = hanging_capacity.capacity(
        lag, CATALOGUE.stuff("southern-pine"), 38.1, CATALOGUE.stuff("southern-pine"), 140.0, 0.0, 1.0
    )
    assert strength.withdrawal_n / N_PER_LBF == pytest.approx(954.97, abs=0.1)


# --- head pull-through: Table 12.2F ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("head", "side", "g", "cell", "equation"),
    [(0.234, 0.3125, 0.50, 40, 39.63), (0.312, 1.0, 0.50, 132, 131.88), (0.500, 1.5, 0.42, 239, 238.99)],
)
def test_pull_through_table_12_2f(head, side, g, cell, equation):
    assert withdrawal.head_pull_through_lb(g, head, side) == pytest.approx(cell, abs=0.5)
    assert withdrawal.head_pull_through_lb(g, head, side) == pytest.approx(equation, abs=0.005)


@pytest.mark.parametrize(("g", "load"), [(0.42, 104.1), (0.50, 147.5), (0.55, 178.5)])
def test_pull_through_of_no_10_in_three_quarters(g, load):
    """Derived beforehand from eq. 12.2-6a, not itself a printed cell."""
    assert withdrawal.head_pull_through_lb(g, NO_10[2], 0.75) == pytest.approx(load, abs=0.05)


# --- bearing and yield: Tables 12.3.3, 12J, 12L, 12M, 12N ---------------------------------------------------------


@pytest.mark.parametrize(("g", "cell"), [(0.42, 3350), (0.43, 3500), (0.50, 4650), (0.55, 5550)])
def test_bearing_table_12_3_3(g, cell):
    assert bearing.bearing_psi(g, 0.19) == cell


@pytest.mark.parametrize(
    ("size", "side", "cell", "value", "mode"),
    [
        (NO_8, 0.5, 73, 72.92, "IIIs"),
        (NO_10, 0.5, 90, 89.93, "IIIs"),
        (NO_14, 0.5, 120, 119.61, "IIIs"),
        (NO_10, 1.5, 117, 116.94, "IV"),
    ],
)
def test_wood_screw_table_12l(size, side, cell, value, mode):
    modes = touching(at_ten_diameters(size, side, 0.50))
    assert min(modes) == pytest.approx(cell, abs=1)
    assert min(modes) == pytest.approx(value, abs=0.01)
    assert modes.governing == mode


def test_k3_of_no_10():
    """NDS 2018 Table 12.3.1A, worked in the same copy: k3 1.679535, so III_s = k3 D l_s F_em / ((2 + R_e) R_d)."""
    shear = at_ten_diameters(NO_10, 0.5, 0.50)
    three_s = 1.679535 * 0.152 * 0.5 * 4650.0 / (3.0 * 2.2)
    assert touching(shear).three_s == pytest.approx(three_s, rel=5e-7)


@pytest.mark.parametrize(("size", "plate", "cell"), [(NO_10, 0.060, 116), (NO_8, 0.105, 103)])
def test_steel_side_plate_table_12m(size, plate, cell):
    """Table 12M; the plate's bearing strength 61,850 psi (ASTM A653 grade 33) is from memory."""
    shear = at_ten_diameters(size, plate, 0.50, bearing_s=61_850.0)
    assert min(touching(shear)) == pytest.approx(cell, abs=1)


@pytest.mark.parametrize(
    ("side", "nail", "cell"),
    [
        (0.75, "6d", 72), (0.75, "8d", 90), (0.75, "10d", 105), (0.75, "16d", 121),
        (1.0, "6d", 72), (1.0, "8d", 97), (1.0, "10d", 118), (1.0, "16d", 141),
    ],
)  # fmt: skip
def test_common_nail_table_12n(side, nail, cell):
    assert min(touching(at_ten_diameters(NAILS[nail], side, 0.50))) == pytest.approx(cell, abs=1)


@pytest.mark.parametrize(("angle", "cell", "value"), [(0.0, 120, 119.07), (90.0, 80, 82.25)])
def test_lag_table_12j(angle, cell, value):
    """Lag 1/4 in, root 0.173 in, tip 5/32 in, side 1/2 in, G 0.50; penetration 8 D."""
    f_e = bearing.bearing_psi(0.50, 0.25, angle)
    shear = yielding.Shear(0.173, 8 * 0.25 - 5 / 64, 0.5, f_e, f_e, 70_000.0, bearing.reduction(0.25, 0.173, angle))
    assert min(touching(shear)) == pytest.approx(cell, abs=5)
    assert min(touching(shear)) == pytest.approx(value, abs=0.01)


def test_awc_nail_lateral():
    """AWC solved examples: nail 0.148 × 3 in, 3/4 in side, G 0.50, F_e not rounded, l_m 2.25 in: 105.10 lb."""
    f_e = bearing.bearing_psi(0.50, 0.148, rounded=False)
    shear = yielding.Shear(0.148, 2.25, 0.75, f_e, f_e, 90_000.0, bearing.reduction(0.148, 0.148))
    assert min(touching(shear)) == pytest.approx(105.10, abs=0.01)


@pytest.mark.parametrize(
    ("gauge", "g", "value"),
    [
        (8, 0.42, 68.6), (8, 0.43, 70.9), (8, 0.50, 88.3), (8, 0.55, 100.7), (8, 0.67, 120.5),
        (10, 0.42, 83.4), (10, 0.43, 86.1), (10, 0.50, 106.6), (10, 0.55, 122.4), (10, 0.67, 152.9),
    ],
)  # fmt: skip
def test_three_quarter_side_member(gauge, g, value):
    """Derived beforehand with a routine that reproduces Table 12L; not printed cells."""
    assert min(touching(at_ten_diameters(SMALL[gauge], 0.75, g))) == pytest.approx(value, abs=0.1)


# --- a gap: AWC TR-12 (from memory) ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("gauge", "g", "value"),
    [
        (8, 0.42, 42.0), (8, 0.50, 46.0), (10, 0.42, 51.64), (10, 0.50, 61.6),
        (12, 0.42, 63.0), (12, 0.50, 77.9), (14, 0.42, 68.6), (14, 0.50, 84.0),
    ],
)  # fmt: skip
def test_half_inch_gap(gauge, g, value):
    """TR-12 from memory: 3/4 in side, 1/2 in gap; derived beforehand."""
    modes = yielding.single_shear_with_gap(at_ten_diameters(SMALL[gauge], 0.75, g), 0.5)
    assert min(modes) == pytest.approx(value, abs=0.1)


@pytest.mark.parametrize("size", [NO_8, NO_10, NO_14, NAILS["16d"]])
@pytest.mark.parametrize("side", [0.25, 0.5, 1.5, 3.0])
@pytest.mark.parametrize(("g", "g_side"), [(0.42, 0.42), (0.36, 0.67), (0.67, 0.36)])
def test_no_gap_is_the_printed_yield_limit(size, side, g, g_side):
    """TR-12 without a gap is another algebra for NDS 2018 eqs 12.3-1 to 12.3-6: all six modes agree."""
    shear = at_ten_diameters(size, side, g, bearing_s=bearing.bearing_psi(g_side, size[0]))
    assert touching(shear) == pytest.approx(printed_yield_limits(shear), rel=1e-12)


# --- combined action and statics ---------------------------------------------------------------------------------


def test_combined_action_12_4_1():
    """Derived beforehand: W·p 143.28 lb, Z 51.64 lb at 45 degrees → 75.92 lb."""
    assert adjust.combined(143.28, 51.64, 45.0) == pytest.approx(75.92, abs=0.05)


def test_proof_load_on_four_screws():
    """Derived beforehand: 600 lb at 6 in, bearing 27 in below, four No. 10 in spruce-pine-fir through 1/2 in lining."""
    tie = hanging_forces.overturning_pull_n(600.0, 6.0, 27.0)
    assert tie == pytest.approx(133.3, abs=0.05)
    capacity = withdrawal.screw_lb_in(0.42, 0.190) * 1.5
    side = min(yielding.single_shear_with_gap(at_ten_diameters(NO_10, 0.75, 0.42), 0.5))
    assert capacity == pytest.approx(143.28, abs=0.005)
    pull, shear = tie / 4, 600.0 / 4
    alpha = math.degrees(math.atan2(pull, shear))
    assert math.hypot(pull, shear) == pytest.approx(153.7, abs=0.05)
    assert alpha == pytest.approx(12.53, abs=0.005)
    assert adjust.combined(capacity, side, alpha) == pytest.approx(53.25, abs=0.05)
    assert math.hypot(pull, shear) / adjust.combined(capacity, side, alpha) == pytest.approx(2.89, abs=0.005)
    assert adjust.combined_use(pull, shear, capacity, side) >= math.hypot(pull, shear) / adjust.combined(
        capacity, side, alpha
    )


def test_frictionless_bevel():
    """Statics: at 45 degrees the pull equals the weight; at b it is V tan b."""
    assert hanging_forces.hook_pull_n(500.0, 45.0) == pytest.approx(500.0)
    assert hanging_forces.hook_pull_n(500.0, 30.0) == pytest.approx(500.0 / math.sqrt(3.0))


# --- what a combination lasts, what a shelf of cans weighs ---------------------------------------------------------


def test_lag_withdrawal_by_its_thread():
    """Lag 1/4 x 6 in through 1-1/2 in, G 0.50: 1/2 in of thread past the tip in 1-1/2 in of wood holds 112.5 lb."""
    assert withdrawal.lag_lb_in(0.50, 0.25) * 0.5 == pytest.approx(112.5, abs=0.1)
    assert withdrawal.lag_lb_in(0.42, 0.25) == pytest.approx(173.22, abs=0.01)


def test_a_lag_in_end_grain():
    """NDS 2018 12.2.1.3, 12.5.2: C_eg 0.75 pulled, 129.92 lb an inch of thread of 1/4 in at G 0.42; 0.67 sideways."""
    lag, spf = CATALOGUE.lag("lag-1-4-3"), CATALOGUE.stuff("spruce-pine-fir")
    side, end = (
        hanging_capacity.capacity(lag, CATALOGUE.stuff("red-oak"), 19.05, spf, 400.0, 12.7, 1.0, end_grain=grain)
        for grain in (False, True)
    )
    assert end.withdrawal_n / N_PER_LBF / inches(end.thread_mm) == pytest.approx(129.92, abs=0.01)
    assert (end.thread_mm, end.pull_through_n) == (side.thread_mm, side.pull_through_n)
    assert end.lateral_n == pytest.approx(0.67 * side.lateral_n)


def test_a_wood_screw_may_not_be_pulled_out_of_end_grain():
    """NDS 2018 12.2.2.3."""
    screw, oak = CATALOGUE.screw("screw-8-2"), CATALOGUE.stuff("red-oak")
    strength = hanging_capacity.capacity(screw, oak, 19.05, oak, 400.0, 0.0, 1.0, end_grain=True)
    assert strength.pull_n == 0.0
    assert strength.lateral_n > 0.0


def test_a_layer_of_cans_is_more_than_the_assumed_load():
    """Soup cans 2-1/2 x 4 in of 13 oz (read): one packed layer 18.72 psf, over the 15 that is assumed."""
    assert pytest.approx(18.72, abs=0.01) == 13 / 16 / (2.5 / 12) ** 2
    assert weights.LIGHT_SHELF_PA / 47.88026 < 18.72
