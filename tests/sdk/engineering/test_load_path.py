"""Links of a load: each allowable value worked out beside the code from the figures its docstring names."""

import math

import pytest
from casewright.plugins.catalogue.plugin import CATALOGUE
from casewright.sdk.engineering import load_path
from casewright.sdk.engineering.load_path import Link, best
from hypothesis import given
from hypothesis import strategies as st

PLY, OAK, MDF = (CATALOGUE.stuff(name) for name in ("birch-plywood", "red-oak", "mdf"))
PSI = 4.4482216152605 / 25.4**2


def test_a_glue_line_of_plywood():
    """100 cm2 at 53 psi (rolling shear, from memory), lasting 0.9, half for creep: 1644 N; a third across."""
    along = load_path.glue_n(10_000.0, (PLY, OAK), 0.9)
    assert along == pytest.approx(10_000 * 53 * PSI * 0.9 * 0.5, rel=1e-12)
    assert along == pytest.approx(1644.4, abs=0.1)
    assert load_path.glue_n(10_000.0, (PLY, OAK), 0.9, across=True) == pytest.approx(along / 3)


def test_fibreboard_makes_the_weaker_glue_line():
    """EN 312 P2 internal bond 0.35 with 0.6/1.3, halved: 0.0808 MPa."""
    assert load_path.shear_mpa((PLY, MDF), 1.0) == pytest.approx(0.35 * 0.6 / 1.3 / 2)
    assert load_path.shear_mpa((PLY, MDF), 1.0) < load_path.shear_mpa((PLY, OAK), 1.0)


def test_an_end_in_a_groove_is_sheared_or_pressed_in():
    """18 mm tongue 300 long: 18 · 300 · 0.3654/1.5 · 0.9 = 1184 N; 9 seated: 9 · 300 · 2.482 · 0.9 = 6031 N."""
    whole = load_path.tongue_n(18.0, 300.0, 9.0, PLY, 0.9)
    assert whole == pytest.approx(18 * 300 * 53 * PSI / 1.5 * 0.9, rel=1e-12)
    shallow = load_path.tongue_n(18.0, 300.0, 1.0, PLY, 0.9)
    assert shallow == pytest.approx(300 * 360 * PSI * 0.9, rel=1e-12)
    assert load_path.tongue_n(6.0, 300.0, 9.0, PLY, 0.9) == pytest.approx(whole / 3)


def test_dowels_by_their_cross_section():
    """1880 psi (GTR-282 Table 5-3b, yellow birch) · 0.77/4.1 = 353 psi; four of 8 mm: 201 mm2, 4/3 at the peak."""
    assert load_path.dowels_n(201.06, 1.0) == pytest.approx(201.06 * 1880 * 0.77 / 4.1 * PSI * 0.75)


def balance(bearing, diameter, depth, arm):
    """Find by bisection where a stiff pin turns: the wood presses up over `a`, down over the rest; P = q (2a − l).

    Moments about the face: P e + q a²/2 − q (l² − a²)/2 = 0. Nothing of the closed form is used.
    """
    q = bearing * diameter
    low, high = depth / 2, depth
    for _ in range(200):
        a = (low + high) / 2
        moment = q * (2 * a - depth) * arm + q * a * a / 2 - q * (depth**2 - a**2) / 2
        low, high = (low, a) if moment > 0 else (a, high)
    return q * (2 * a - depth)


@given(st.floats(5, 60), st.floats(3, 10), st.floats(2, 30), st.floats(0, 30))
def test_a_short_pin_by_root_finding(bearing, diameter, depth, arm):
    newtons = load_path.short_pin_n(bearing, diameter, depth, arm, 1.0)
    assert newtons == pytest.approx(balance(bearing, diameter, depth, arm), rel=1e-9)
    assert load_path.short_pin_n(bearing, diameter, depth, arm, 2.2) == pytest.approx(newtons / 2.2)


@given(st.floats(1, 30), st.floats(0, 30), st.floats(0.01, 10))
def test_farther_off_or_less_deep_never_helps_a_pin(depth, arm, more):
    here = load_path.short_pin_n(20.0, 5.0, depth, arm, 1.0)
    assert load_path.short_pin_n(20.0, 5.0, depth, arm + more, 1.0) <= here * (1 + 1e-12)
    assert load_path.short_pin_n(20.0, 5.0, depth + more, arm, 1.0) >= here * (1 - 1e-12)


def test_ways_never_add_up():
    link = best("the shelf", [Link("", 100.0, 300.0, "glue"), Link("", 100.0, 400.0, "groove")])
    assert (link.name, link.holds_n, link.by, link.use) == ("the shelf", 400.0, "groove", 0.25)
    none = best("the shelf", [Link("", 100.0, 0.0, "glue")])
    assert (none.by, none.use) == ("nothing", math.inf)
    assert best("the shelf", []).by == "nothing"


def test_an_end_of_fibreboard_is_no_end_grain():
    assert (load_path.butt_share(MDF), load_path.butt_share(OAK), load_path.butt_share(PLY)) == (1.0, 0.25, 0.25)
