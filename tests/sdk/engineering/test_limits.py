"""Every equation refuses input outside its range by a named check: both sides of each bound."""

import math
import pickle

import pytest
from casewright.plugins.catalogue.plugin import CATALOGUE
from casewright.sdk.engineering import (
    adhesive,
    adjust,
    beams,
    bearing,
    group_action,
    hanging_capacity,
    hanging_forces,
    hanging_solve,
    hinges,
    moisture,
    movement,
    placement,
    shelves,
    tipping,
    weights,
    withdrawal,
    yielding,
)
from casewright.sdk.engineering.limits import OutsideLimits, within
from casewright.sdk.sources import SOURCES

SPF, POPLAR = CATALOGUE.stuff("spruce-pine-fir"), CATALOGUE.stuff("yellow-poplar")
R = bearing.reduction(0.19, 0.152)


def shear(**changed):
    given = {"diameter": 0.152, "length_m": 1.5, "length_s": 0.75, "bearing_m": 3350.0, "bearing_s": 3350.0}
    return yielding.Shear(**(given | {"bending": 80_000.0, "reduction": R} | changed))


def shelf(span):
    return shelves.judge(shelves.ShelfCase(span, 300.0, 18.0, 10_000.0, 100.0))


def screw(length_id, gap=12.7, duration=0.9):
    return hanging_capacity.capacity(CATALOGUE.screw(length_id), POPLAR, 19.05, SPF, 88.9, gap, duration)


# check code, function of one value, low bound, high bound (None: open)
BOUNDS = [
    ("emc-temperature", lambda v: moisture.equilibrium_moisture(v, 50), -1.0, 132.0),
    ("emc-humidity", lambda v: moisture.equilibrium_moisture(20, v), 5.0, 95.0),
    ("movement-moisture", lambda v: movement.change_mm(100, 0.002, v, 10), 6.0, 14.0),
    ("movement-moisture", lambda v: movement.change_mm(100, 0.002, 10, v), 6.0, 14.0),
    ("movement-moisture-wide", lambda v: movement.change_by_shrinkage_mm(100, 8, v, 10), 0.0, 30.0),
    ("movement-moisture-wide", lambda v: movement.change_by_shrinkage_mm(100, 8, 10, v), 0.0, 30.0),
    ("movement-shrinkage", lambda v: movement.change_by_shrinkage_mm(100, v, 10, 12), 0.1, 25.0),
    ("movement-coefficient", movement.shrinkage_from_coefficient, 0.0, 0.02),
    ("movement-width", lambda v: movement.change_mm(v, 0.002, 8, 10), 0.0, None),
    ("movement-width", lambda v: movement.change_by_shrinkage_mm(v, 8, 8, 10), 0.0, None),
    ("movement-order", lambda v: movement.panel_room(300, 0.002, 8, v, 12, 9), None, 12.0),
    ("beam-section", lambda v: beams.second_moment_mm4(v, 10), 1e-3, None),
    ("beam-section", lambda v: beams.second_moment_mm4(10, v), 1e-3, None),
    ("beam-load", lambda v: beams.bending_deflection_mm(v, 100, 1e6, 0.01), 0.0, None),
    ("beam-load", lambda v: beams.longest_span_mm(v, 1e9, "uniform", beams.LIMITS["span-over-144"]), 1e-12, None),
    ("beam-span", lambda v: beams.bending_deflection_mm(1, v, 1e6, 0.01), 1e-3, None),
    ("beam-stiffness", lambda v: beams.bending_deflection_mm(1, 100, v, 0.01), 1e-3, None),
    ("beam-creep", lambda v: beams.sag_mm(1, 100, 1e6, "uniform", creep=v), 1.0, 6.0),
    ("beam-creep", lambda v: beams.longest_span_mm(1, 1e9, "centre", beams.LIMITS["span-over-144"], creep=v), 1.0, 6.0),
    ("beam-limit", lambda v: beams.stiffness_needed_n_mm2(1, 100, "uniform", v), 1e-6, None),
    ("shelf-modulus", lambda v: beams.stiffness_n_mm2(300, 18, v), 1.0, 50_000.0),
    ("shelf-modulus", lambda v: beams.thickness_needed_mm(1e9, 300, v), 1.0, 50_000.0),
    ("shelf-modulus", lambda v: beams.stiffness_n_mm2(300, 18, 1e4, beams.Nosing(20, 30, v)), 1.0, 50_000.0),
    ("nosing-height", lambda v: beams.stiffness_n_mm2(300, 18, 1e4, beams.Nosing(20, v, 1e4)), 18.0, None),
    ("shelf-span", shelf, 72.0, None),
    ("fastener-gravity", lambda v: withdrawal.screw_lb_in(v, 0.19), 0.31, 0.73),
    ("fastener-gravity", lambda v: withdrawal.lag_lb_in(v, 0.25), 0.31, 0.73),
    ("fastener-gravity", lambda v: withdrawal.head_pull_through_lb(v, 0.363, 0.75), 0.31, 0.73),
    ("fastener-gravity", lambda v: bearing.bearing_psi(v, 0.19), 0.31, 0.73),
    ("screw-diameter", lambda v: withdrawal.screw_lb_in(0.5, v), 0.138, 0.372),
    ("lag-diameter", lambda v: withdrawal.lag_lb_in(0.5, v), 0.25, 1.25),
    ("pull-through-head", lambda v: withdrawal.head_pull_through_lb(0.5, v, 0.75), 0.234, 0.500),
    ("pull-through-thickness", lambda v: withdrawal.head_pull_through_lb(0.5, 0.363, v), 0.3125, 1.5),
    ("bearing-diameter", lambda v: bearing.bearing_psi(0.5, v), 0.047, 1.0),
    ("bearing-angle", lambda v: bearing.bearing_psi(0.5, 0.25, v), 0.0, 90.0),
    ("bearing-angle", lambda v: bearing.hankinson(5600, 4450, v), 0.0, 90.0),
    ("bearing-angle", bearing.k_theta, 0.0, 90.0),
    ("reduction-diameter", bearing.k_d, 0.047, 0.25),
    ("reduction-diameter", lambda v: bearing.reduction(v, 0.15), 0.047, 1.0),
    ("yield-gap", lambda v: yielding.single_shear_with_gap(shear(), v), 0.0, None),
    *(
        ("yield-input", lambda v, name=name: shear(**{name: v}), 1e-9, None)
        for name in ("diameter", "length_m", "length_s", "bearing_m", "bearing_s", "bending")
    ),
    ("placement-diameter", placement.spacing, 1.0, 25.4),
    ("combined-angle", lambda v: adjust.combined(100, 50, v), 0.0, 90.0),
    ("combined-capacity", lambda v: adjust.combined(v, 50, 45), 1e-9, None),
    ("combined-capacity", lambda v: adjust.combined(100, v, 45), 1e-9, None),
    ("combined-load", lambda v: adjust.combined_use(v, 1, 100, 50), 0.0, None),
    ("combined-load", lambda v: adjust.combined_use(1, v, 100, 50), 0.0, None),
    ("hanging-weight", lambda v: hanging_forces.overturning_pull_n(v, 150, 600), 0.0, None),
    ("hanging-weight", lambda v: hanging_forces.hook_pull_n(v, 45), 0.0, None),
    ("hanging-centre", lambda v: hanging_forces.overturning_pull_n(300, v, 600), 0.0, None),
    ("hanging-height", lambda v: hanging_forces.overturning_pull_n(300, 150, v), 1.0, None),
    ("hook-bevel", lambda v: hanging_forces.hook_pull_n(300, v), 20.0, 60.0),
    ("hook-friction", lambda v: hanging_forces.hook_pull_n(300, 45, v), 0.0, 45.0),
    ("cleat-width", lambda v: hanging_forces.flat_zone_mm(v, 0.0, 45), 1.0, None),
    ("cleat-overhang", lambda v: hanging_forces.column_shares((10.0 + v,), 400, 10, 500), 1.0, None),
    ("fastener-rows", lambda v: hanging_forces.row_pulls_n(10, 10, (v, 50.0)), 1e-6, None),
    ("fastener-group", lambda v: hanging_forces.shear_vectors_n(1.0, v, ((0.0, 0.0),)), None, 1e-6),
    ("fastener-count", lambda v: hanging_solve.spread_rows_mm(int(v), 2000, 10, 10, 5), 1, 12),
    ("strip-height", lambda v: hanging_solve.spread_rows_mm(2, v, 10, 20, 15), 45.0, None),
    ("duration-factor", lambda v: screw("screw-10-3", duration=v), 0.5, 1.6),
    ("fastener-penetration", lambda v: screw("screw-10-3", gap=76.2 - 19.05 - v), 6 * 4.826, None),
    ("hinge-apart", lambda v: hinges.pull_on_top_hinge_n(5, 400, v), 1.0, None),
    ("hinge-apart", lambda v: hinges.racking_pull_n(v, 5, 400), 1.0, None),
    ("glue-area", lambda v: adhesive.glue_g(v, 168), 0.0, None),
    ("contents-pressure", lambda v: weights.assumed_contents_kg(600, 280, 3, v), 0.0, None),
    ("fastener-spacing", lambda v: placement.row_factor(v, 6.35), 3 * 6.35, None),
    ("tipping-margin", lambda v: tipping.tipping([tipping.Load(1, 1)], 800, v), 1.0, None),
    ("group-spacing", lambda v: group_action.group_factor(3, v, 0.25, (1e6, 1e6)), 0.0, None),
    ("group-stiffness", lambda v: group_action.group_factor(3, 1, 0.25, (1e6, v)), 1.0, None),
]
# these take whole numbers, so "not a number" cannot reach them
WHOLE = {"fastener-count"}


def _ids():
    return [f"{code}-{k}" for k, (code, *_) in enumerate(BOUNDS)]


@pytest.mark.parametrize(("code", "ask", "low", "high"), BOUNDS, ids=_ids())
def test_both_sides_of_each_bound(code, ask, low, high):
    step = 1.0 if code in WHOLE else 1e-4
    for bound, outward in ((low, -1.0), (high, 1.0)):
        if bound is None:
            continue
        size = step if code in WHOLE else max(abs(bound), 1e-5) * step
        ask(bound - outward * size)
        with pytest.raises(OutsideLimits) as caught:
            ask(bound + outward * size)
        assert caught.value.check_code == code
        assert caught.value.source in SOURCES
        assert str(caught.value)


@pytest.mark.parametrize(("code", "ask", "low", "high"), [b for b in BOUNDS if b[0] not in WHOLE])
def test_not_a_number_is_refused(code, ask, low, high):
    with pytest.raises(OutsideLimits):
        ask(math.nan)


def test_refusal_carries_its_terms():
    with pytest.raises(OutsideLimits) as caught:
        within("some-check", "depth", 12.0, 1.0, 10.0, "mm", "statics")
    problem = caught.value
    assert (problem.check_code, problem.quantity, problem.value) == ("some-check", "depth", 12.0)
    assert (problem.low, problem.high, problem.unit, problem.source) == (1.0, 10.0, "mm", "statics")
    assert str(problem) == "depth is 12 mm; it must be at least 1 mm and at most 10 mm"
    assert str(pickle.loads(pickle.dumps(problem))) == str(problem)


def test_ends_of_a_range_are_inside():
    assert within("some-check", "depth", 1.0, 1.0, 10.0, "mm", "statics") == 1.0
    assert within("some-check", "depth", 10.0, 1.0, 10.0, "mm", "statics") == 10.0


def test_a_bound_gives_one_part_in_a_thousand_million():
    assert within("some-check", "depth", 10.0 * (1 + 1e-10), 1.0, 10.0, "mm", "statics") > 10.0
    for value in (10.0 * (1 + 1e-8), 1.0 - 1e-8):
        with pytest.raises(OutsideLimits):
            within("some-check", "depth", value, 1.0, 10.0, "mm", "statics")


@pytest.mark.parametrize("field", ["pull_n", "shear_n"])
def test_anchor_approval(field):
    from dataclasses import replace

    from casewright.sdk.engineering.hanging import hang
    from casewright.sdk.engineering.hanging_case import Anchor, HangingCase, Strip, Wall

    good = Anchor(800.0, 900.0, "maker's approval")
    strip = Strip(19.05, 120.0, 600.0, 0.0, 600.0, POPLAR)
    case = HangingCase("bevel-cleat", 15, 15, 0, 600, 800, 300, 300, 150, strip, Wall("masonry", anchor=good), None)
    assert "anchor-approval" not in {finding.code for finding in hang(case).findings}
    bad = replace(case, wall=replace(case.wall, anchor=replace(good, **{field: 0.0})))
    assert "anchor-approval" in {finding.code for finding in hang(bad).findings if finding.level == "stop"}
