"""Equations with a short closed answer, each worked beside its check."""

from dataclasses import replace

import pytest
from casewright.plugins.catalogue.plugin import CATALOGUE
from casewright.sdk.engineering import (
    adhesive,
    adjust,
    beams,
    bearing,
    hinges,
    movement,
    panels,
    placement,
    shelves,
    weights,
)
from casewright.sdk.materials import CountByHeight, CountByMass

MM = 1_000_000
IN = 25_400_000
HINGE = CATALOGUE.hinge("cup-35")


@pytest.mark.parametrize(("height_in", "count"), [(40, 2), (40.001, 3), (60, 3), (60.001, 4), (80, 4), (80.001, 5)])
def test_hinges_by_height(height_in, count):
    """Chart bands of the planning pages: 40 in 2, 60 in 3, 80 in 4, above 5."""
    assert hinges.count_hinges(HINGE, round(height_in * IN), 400 * MM, 1.0).by_height == count


@pytest.mark.parametrize(("kg", "count"), [(5.0, 2), (5.01, 3), (9.0, 3), (9.01, 4), (15.0, 4), (15.01, 5), (22.0, 5)])
def test_hinges_by_mass(kg, count):
    """The strictest of three published charts: under 5 kg 2, 9 kg 3, 15 kg 4, 22 kg 5."""
    assert hinges.count_hinges(HINGE, 700 * MM, 400 * MM, kg).by_mass == count


def test_larger_rule_governs_and_wide_doors_take_one_more():
    assert hinges.count_hinges(HINGE, 700 * MM, 400 * MM, 10.0).count == 4
    assert hinges.count_hinges(HINGE, 1600 * MM, 400 * MM, 3.0).count == 4
    assert hinges.count_hinges(HINGE, 700 * MM, 600 * MM, 3.0).count == 2
    assert hinges.count_hinges(HINGE, 700 * MM, 601 * MM, 3.0).count == 3


def test_beyond_the_tables():
    """22 kg is the last row of the strictest chart: one hinge more, marked as too heavy. No chart knows one hinge."""
    heavy = hinges.count_hinges(HINGE, 700 * MM, 400 * MM, 22.01)
    assert (heavy.count, heavy.too_heavy) == (6, True)
    assert not hinges.count_hinges(HINGE, 700 * MM, 400 * MM, 22.0).too_heavy
    short = replace(HINGE, count_by_height=(CountByHeight(40 * IN, 1),), count_by_mass=(CountByMass(5.0, 1),))
    assert hinges.count_hinges(short, 30 * IN, 400 * MM, 1.0).count == 2
    assert hinges.count_hinges(short, 50 * IN, 400 * MM, 9.0).count == 2


def test_hinge_places():
    """80 mm from either end (planning pages); 720 → 640; spaces between are equal to the nanometre."""
    assert hinges.place_hinges(HINGE, 720 * MM, 2) == (80 * MM, 640 * MM)
    assert hinges.place_hinges(HINGE, 1_000_000_001, 4) == (80 * MM, 360 * MM, 640 * MM, 920 * MM + 1)
    assert hinges.place_hinges(HINGE, 200 * MM, 2) == (50 * MM, 150 * MM)  # a quarter in


def test_hinge_pull():
    """5 kg, 400 mm wide, hinges 560 mm apart: 49.03 N × 200/560 = 17.51 N; racking adds 650 in·lb/560 mm."""
    assert hinges.pull_on_top_hinge_n(5.0, 400.0, 560.0) == pytest.approx(17.51, abs=0.01)
    extra = 650 * 4.4482216152605 * 25.4 / 560.0
    assert hinges.racking_pull_n(560.0, 5.0, 400.0) == pytest.approx(17.51 + extra, abs=0.01)


def test_placement_of_large_dowels():
    """NDS 2018 12.5.1: 7 D softwood, 5 D hardwood along; 4 D across; edge 1.5 D, loaded edge 4 D."""
    soft, hard = placement.spacing(10.0, along_grain=True), placement.spacing(10.0, softwood=False, along_grain=True)
    across = placement.spacing(10.0)
    assert (soft.end, hard.end, across.end) == (70.0, 50.0, 40.0)
    assert (soft.edge, across.loaded_edge, across.in_row) == (15.0, 40.0, 40.0)
    assert not soft.advisory
    assert placement.spacing(4.8).advisory


@pytest.mark.parametrize(("g", "share"), [(0.67, 0.9), (0.6, 0.7), (0.55, 0.7), (0.5, 0.0), (0.42, 0.0)])
def test_screw_lead_holes(g, share):
    """90 % of root above G 0.6, 70 % above 0.5, none needed at and below (from memory)."""
    assert placement.screw_lead_hole_mm(4.0, g) == pytest.approx(4.0 * share)


@pytest.mark.parametrize(("g", "low", "high"), [(0.67, 0.65, 0.85), (0.55, 0.60, 0.75), (0.42, 0.40, 0.70)])
def test_lag_lead_holes(g, low, high):
    assert placement.lag_lead_hole_mm(10.0, g) == pytest.approx((10 * low, 10 * high))


def test_factors():
    """NDS 2018 Table 2.3.2."""
    assert dict(adjust.DURATION) == {
        "permanent": 0.9, "ten-years": 1.0, "two-months": 1.15, "seven-days": 1.25, "ten-minutes": 1.6,
    }  # fmt: skip


def test_hankinson_ends_and_middle():
    assert bearing.hankinson(5600.0, 4450.0, 0.0) == pytest.approx(5600.0)
    assert bearing.hankinson(5600.0, 4450.0, 90.0) == pytest.approx(4450.0)
    assert bearing.hankinson(5600.0, 4450.0, 45.0) == pytest.approx(2 * 5600 * 4450 / (5600 + 4450))


def test_reduction_terms():
    """NDS 2018 Table 12.3.1B: 2.2 to 0.17 in; 10 D + 0.5; 4, 3.6, 3.2 times K_theta from 1/4 in."""
    assert bearing.reduction(0.19, 0.152) == bearing.Reduction(2.2, 2.2, 2.2)
    assert bearing.reduction(0.242, 0.196).one == pytest.approx(2.46)
    assert bearing.reduction(0.25, 0.173, 90.0).two == pytest.approx(2.23 * 1.25)
    large = bearing.reduction(0.5, 0.371, 0.0)
    assert (large.one, large.two, large.three_four) == (4.0, 3.6, 3.2)


@pytest.mark.parametrize("limit", sorted(beams.LIMITS))
@pytest.mark.parametrize("spread", ["uniform", "centre"])
def test_shelf_that_fails_says_what_would_pass(limit, spread):
    case = shelves.ShelfCase(1000.0, 280.0, 18.0, 3000.0, 500.0, spread, limit=limit)
    answer = shelves.judge(case)
    assert not answer.passes
    assert answer.longest_span_mm < 1000.0
    assert answer.thickness_mm > 18.0
    thick = shelves.judge(
        shelves.ShelfCase(1000.0, 280.0, answer.thickness_mm + 1e-6, 3000.0, 500.0, spread, limit=limit)
    )
    assert thick.passes
    if answer.nosing_mm is not None:
        nosed = beams.Nosing(19.0, answer.nosing_mm, 3000.0)
        assert shelves.judge(
            shelves.ShelfCase(1000.0, 280.0, 18.0, 3000.0, 500.0, spread, nosing=nosed, limit=limit)
        ).passes


def test_no_nosing_of_sensible_height_is_none():
    assert beams.nosing_needed_mm(1e15, 280.0, 18.0, 3000.0, 19.0, 3000.0) is None
    assert beams.nosing_needed_mm(1.0, 280.0, 18.0, 3000.0, 19.0, 3000.0) == 18.0


def test_panel_room():
    """Red oak 300 mm fitted at 8 %, 6 to 12 %: grows 4.428, shrinks 2.214; 9 mm grooves hold 9 - 2.214 - 1.107."""
    room = movement.panel_room(300.0, 0.00369, 8.0, 6.0, 12.0, 9.0)
    assert room.grows_mm == pytest.approx(4.428)
    assert room.shrinks_mm == pytest.approx(2.214)
    assert room.gap_each_side_mm == pytest.approx(2.214)
    assert room.hold_each_side_mm == pytest.approx(9.0 - 2.214 - 1.107)
    assert movement.panel_room(300.0, 0.00369, 8.0, 6.0, 12.0, 3.0).hold_each_side_mm < 0


def test_movement_beyond_the_linear_range():
    """4 → 8 %, C 0.00369: S = 3000 C/(1 + 20 C) = 10.31; 300·4/(3000/10.31 - 30 + 4) = 4.53 mm."""
    assert movement.change_over_mm(300.0, 0.00369, 4.0, 8.0) == pytest.approx(4.53, abs=0.005)
    assert movement.change_over_mm(300.0, 0.00369, 8.0, 12.0) == pytest.approx(4.428)


def test_assumed_contents():
    """15 psf on 0.6 × 0.28 m, 3 levels: 718.2·0.168·3/9.80665 = 36.9 kg; a level takes no more than 200 lb."""
    assert weights.assumed_contents_kg(600.0, 280.0, 3) == pytest.approx(36.9, abs=0.02)
    assert weights.assumed_contents_kg(3000.0, 600.0, 1) == pytest.approx(200 * 0.45359237)


def test_glue_up():
    """0.02 m2 at 168 g/m2 = 3.36 g."""
    glue = CATALOGUE.glue("pva")
    assert adhesive.glue_g(20_000.0, glue.spread_g_m2) == pytest.approx(3.36)


def test_thickness_verdict():
    birch = CATALOGUE.stuff("birch-plywood")
    good, thin = panels.thickness_verdict(birch, 17_700_000), panels.thickness_verdict(birch, 16_800_000)
    assert good.inside
    assert good.nominal == 18 * MM
    assert not thin.inside
    assert panels.thickness_verdict(CATALOGUE.stuff("red-oak"), 19 * MM) is None


def test_creep_decides_a_shelf():
    """A first deflection inside the limit and twice it outside: judged with creep it fails, without it passes."""
    stiffness = beams.stiffness_n_mm2(300.0, 18.0, 5000.0)
    allowed = 900.0 / 192.0
    load = 0.75 * allowed * 384 * stiffness / (5 * 900.0**3)
    assert not shelves.judge(shelves.ShelfCase(900.0, 300.0, 18.0, 5000.0, load)).passes
    assert shelves.judge(shelves.ShelfCase(900.0, 300.0, 18.0, 5000.0, load, creep=1.0)).passes
