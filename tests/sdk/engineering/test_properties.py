"""Properties that must hold whatever the numbers: directions of change, and one answer in both unit systems."""

import itertools
import math
import sys
from dataclasses import replace

import pytest
from casewright.plugins.catalogue.plugin import CATALOGUE
from casewright.sdk.engineering import (
    adjust,
    beams,
    bearing,
    hanging_capacity,
    hanging_places,
    hanging_solve,
    movement,
    withdrawal,
    yielding,
)
from casewright.sdk.engineering.hanging import hang
from casewright.sdk.engineering.hanging_case import HangingCase, Strip, Wall
from casewright.sdk.engineering.limits import OutsideLimits
from casewright.sdk.engineering.units import KG_PER_LB, MM_PER_IN, MPA_PER_PSI, N_PER_LBF
from hypothesis import assume, given, settings
from hypothesis import strategies as st

SPF = CATALOGUE.stuff("spruce-pine-fir")
WOODS = [stuff for stuff in CATALOGUE.stuffs if stuff.g_oven_dry is not None]
STUDS = [stuff for stuff in WOODS if stuff.family == "softwood"]
SCREWS = [screw for screw in CATALOGUE.screws if screw.gauge >= 8 and screw.length >= 2 * 25_400_000]
LAGS = [lag for lag in CATALOGUE.lags if lag.diameter <= 3 * 25_400_000 // 8]

# `pytest --full` runs the large count; both are derandomised, so every run tries the same cases.
COUNT, COUNT_FULL = 120, 4000
quick = settings(max_examples=COUNT_FULL if "--full" in sys.argv else COUNT, derandomize=True)


@st.composite
def cases(draw):
    width = draw(st.floats(300, 1200))
    left = draw(st.floats(0, 2000))
    inset = draw(st.floats(0, 30))
    fastener = draw(st.sampled_from([*SCREWS, *LAGS]))
    strip = Strip(
        draw(st.floats(12, 30)), draw(st.floats(90, 180)), width - 2 * inset, left + inset, draw(st.floats(300, 900)),
        draw(st.sampled_from(WOODS)),
    )  # fmt: skip
    spaced = draw(st.sampled_from([406.4, 609.6, 400.0]))
    first = draw(st.floats(0, 600))
    wall = Wall(
        "studs", tuple(first + spaced * k for k in range(8)), draw(st.sampled_from(STUDS)),
        lining_mm=draw(st.integers(0, 260)) / 10,
    )  # fmt: skip
    return HangingCase(
        mounting=draw(st.sampled_from(["bevel-cleat", "screw-strip"])),
        cabinet_kg=draw(st.floats(2, 60)),
        contents_kg=draw(st.floats(0, 90)),
        left_mm=left,
        width_mm=width,
        height_mm=draw(st.floats(400, 1000)),
        depth_mm=300.0,
        centre_x_mm=left + width * draw(st.floats(0.3, 0.7)),
        centre_out_mm=draw(st.floats(60, 300)),
        strip=strip,
        wall=wall,
        fastener=fastener,
        per_stud=draw(st.integers(1, 4)),
        bevel_deg=draw(st.floats(20, 60)),
        friction_deg=draw(st.floats(0, 20)),
    )


def _use(case, columns):
    """Worst use with fasteners in given columns; infinite where it cannot be in balance or is refused."""
    try:
        capacity = hanging_solve_capacity(case)
        return hanging_solve.worst(hanging_solve.uses(case, hanging_solve.load(case), columns, capacity))
    except OutsideLimits:
        return math.inf


def hanging_solve_capacity(case):
    return hanging_solve.fastener_capacity(case)


@quick
@given(cases(), st.floats(0, 60))
def test_more_load_never_lowers_use(case, more):
    columns = hanging_places.caught_studs(case)
    assume(columns)
    assert _use(replace(case, contents_kg=case.contents_kg + more), columns) >= _use(case, columns) * (1 - 1e-12)


@quick
@given(cases(), st.floats(0, 200))
def test_more_depth_never_lowers_use(case, farther):
    columns = hanging_places.caught_studs(case)
    assume(columns)
    assert _use(replace(case, centre_out_mm=case.centre_out_mm + farther), columns) >= _use(case, columns) * (1 - 1e-12)


@quick
@given(cases(), st.floats(0, 20))
def test_more_gap_never_lowers_use(case, wider):
    """A fastener that comes out of the stud's back gains thread by a gap, so studs are taken deep."""
    columns = hanging_places.caught_studs(case)
    assume(columns)
    deep = replace(case, wall=replace(case.wall, stud_depth_mm=200.0))
    far = replace(deep, wall=replace(deep.wall, lining_mm=deep.wall.lining_mm + wider))
    assert _use(far, columns) >= _use(deep, columns) * (1 - 1e-12)


@quick
@given(cases(), st.floats(0, 40))
def test_less_penetration_never_lowers_use(case, less):
    """By a shorter fastener: a shallower stud would change how a row of fasteners shares its load as well (C_g)."""
    columns = hanging_places.caught_studs(case)
    length = case.fastener.length - round(less * 1e6)
    assume(columns and length > 0)
    shallow = replace(case, fastener=replace(case.fastener, length=length))
    assert _use(shallow, columns) >= _use(case, columns) * (1 - 1e-12)


@quick
@given(cases(), st.floats(0, 60), st.floats(0, 20))
def test_more_load_or_gap_never_lowers_the_use_that_is_answered(case, more, wider):
    """In the studs that are chosen: with other loads, others may work least hard."""
    deep = replace(case, wall=replace(case.wall, stud_depth_mm=200.0))
    far = replace(deep, wall=replace(deep.wall, lining_mm=deep.wall.lining_mm + wider))
    light, *heavy = (hang(one).use for one in (deep, replace(deep, contents_kg=deep.contents_kg + more), far))
    assume(light is not None)
    assert all(use is None or use >= light * (1 - 1e-12) for use in heavy)


@quick
@given(cases())
def test_likely_is_never_more_than_the_bound(case):
    answer = hang(case)
    if answer.likely is not None and answer.use is not None:
        assert answer.likely.use <= answer.use * (1 + 1e-12)


@quick
@given(cases(), st.floats(0, 0.49), st.floats(0, 1), st.booleans())
def test_moving_away_from_the_one_stud_never_helps(case, offset, shift, rightward):
    """The stud stays, the cabinet with its cleat moves aside: its middle leaves the stud."""
    length = case.strip.length_mm
    near, far = offset * length * (1 - shift), offset * length
    sign = 1 if rightward else -1

    def moved(by):
        stud = 3000.0
        strip = replace(case.strip, left_mm=stud - length / 2 + sign * by)
        return _use(replace(case, strip=strip, centre_x_mm=stud + sign * by), (stud,))

    assert moved(far) >= moved(near) * (1 - 1e-12)


@quick
@given(cases(), st.floats(0, 150), st.floats(0, 150), st.booleans())
def test_centre_of_gravity_off_the_group_never_helps(case, near, more, rightward):
    """Several studs: the farther the centre of gravity from the fasteners' middle, the harder the worst one works."""
    columns = hanging_places.caught_studs(case)
    assume(len(columns) >= 2)
    middle = sum(columns) / len(columns)
    sign = 1 if rightward else -1
    uses = [_use(replace(case, centre_x_mm=middle + sign * x), columns) for x in (near, near + more)]
    assert uses[1] >= uses[0] * (1 - 1e-12)


@quick
@given(cases(), st.floats(0, 20))
def test_capacity_falls_with_gap(case, wider):
    gap = case.wall.lining_mm
    try:
        narrow = hanging_capacity.capacity(case.fastener, case.strip.stuff, case.strip.thickness_mm, SPF, 88.9, gap)
        wide = hanging_capacity.capacity(
            case.fastener, case.strip.stuff, case.strip.thickness_mm, SPF, 88.9, gap + wider
        )
    except OutsideLimits:
        assume(False)
    assume(narrow.penetration_mm < 88.9)  # a fastener that comes out of the stud's back gains thread by a gap
    assert wide.lateral_n <= narrow.lateral_n * (1 + 1e-12)
    assert wide.pull_n <= narrow.pull_n * (1 + 1e-12)


@quick
@given(
    st.sampled_from(STUDS), st.sampled_from(WOODS), st.floats(0.3125, 1.5), st.floats(0, 1), st.floats(0.6, 3),
    st.floats(0, 2),
)  # fmt: skip
def test_capacity_rises_with_penetration(main, side, thickness, gap, length, more):
    def modes(l_m):
        shear = yielding.Shear(
            0.152, l_m, thickness, bearing.bearing_psi(main.g_oven_dry, 0.19),
            bearing.bearing_psi(side.g_oven_dry, 0.19), 80_000.0, bearing.reduction(0.19, 0.152),
        )  # fmt: skip
        return min(yielding.single_shear_with_gap(shear, gap))

    shallow, deep = modes(length), modes(length + more)
    assert deep >= shallow * (1 - 1e-12)
    per_inch = withdrawal.screw_lb_in(main.g_oven_dry, 0.19)
    assert per_inch * (length + more) >= per_inch * length


@pytest.mark.parametrize("gauge", [8, 10, 12, 14])
def test_longer_screw_never_holds_less(gauge):
    """Catalogue screws of one gauge in one place, by growing length."""
    capacities = []
    for screw in sorted((s for s in SCREWS if s.gauge == gauge), key=lambda s: s.length):
        try:
            capacities.append(
                hanging_capacity.capacity(screw, CATALOGUE.stuff("yellow-poplar"), 19.05, SPF, 88.9, 12.7)
            )
        except OutsideLimits:
            assert not capacities
    assert len(capacities) >= 3
    for short, long in itertools.pairwise(capacities):
        assert long.pull_n >= short.pull_n
        assert long.lateral_n >= short.lateral_n


loads = st.floats(0, 1e4)


@quick
@given(loads, loads, st.floats(0, 1e3), st.floats(1, 1e4), st.floats(1, 1e4))
def test_combined_use_grows_with_either_load(pull, shear, more, lines, side):
    use = adjust.combined_use(pull, shear, lines, side)
    assert adjust.combined_use(pull + more, shear, lines, side) >= use * (1 - 1e-12)
    assert adjust.combined_use(pull, shear + more, lines, side) >= use * (1 - 1e-12)


@quick
@given(cases())
def test_one_answer_in_inches_and_millimetres(case):
    """A job in inch-pound, converted on the way in, gives the same use and forces to 1e-9."""

    def through_inches(value):
        return value / MM_PER_IN * MM_PER_IN

    strip, wall = case.strip, case.wall
    sizes = (strip.thickness_mm, strip.width_mm, strip.length_mm, strip.left_mm, strip.low_mm)
    again = replace(
        case,
        cabinet_kg=case.cabinet_kg / KG_PER_LB * KG_PER_LB,
        contents_kg=case.contents_kg / KG_PER_LB * KG_PER_LB,
        centre_x_mm=through_inches(case.centre_x_mm),
        centre_out_mm=through_inches(case.centre_out_mm),
        strip=Strip(*map(through_inches, sizes), strip.stuff),
        wall=replace(
            wall,
            studs_at_mm=tuple(map(through_inches, wall.studs_at_mm)),
            lining_mm=through_inches(wall.lining_mm),
        ),
    )
    one, two = hang(case), hang(again)
    assert [f.code for f in one.findings] == [f.code for f in two.findings]
    if one.use is not None:
        assert two.use == pytest.approx(one.use, rel=1e-9)
        assert [each.pull_n for each in two.fasteners] == pytest.approx(
            [each.pull_n for each in one.fasteners], rel=1e-9
        )


@quick
@given(st.sampled_from(SCREWS), st.sampled_from(STUDS), st.sampled_from(WOODS), st.floats(12, 30), st.floats(0, 20))
def test_capacity_worked_in_pounds_is_the_same(screw, main, side, thickness, gap):
    """The whole capacity redone in inches, psi and pounds beside the SI one."""
    try:
        ours = hanging_capacity.capacity(screw, side, thickness, main, 88.9, gap, 0.9)
    except OutsideLimits:
        assume(False)
    inch = 25_400_000
    d, root, head, length = (x / inch for x in (screw.diameter, screw.root, screw.head, screw.length))
    deep = min(length - thickness / 25.4 - gap / 25.4, 3.5)
    shear = yielding.Shear(
        root, deep - d, thickness / 25.4, bearing.bearing_psi(main.g_oven_dry, d),
        bearing.bearing_psi(side.g_oven_dry, d), screw.f_yb_mpa / MPA_PER_PSI, bearing.reduction(d, root),
    )  # fmt: skip
    lateral = 0.9 * min(yielding.single_shear_with_gap(shear, gap / 25.4))
    assert ours.lateral_n / N_PER_LBF == pytest.approx(lateral, rel=1e-9)
    through = 0.9 * withdrawal.head_pull_through_lb(side.g_oven_dry, head, min(thickness / 25.4, 1.5))
    assert ours.pull_through_n / N_PER_LBF == pytest.approx(through, rel=1e-9)


@quick
@given(cases())
def test_hang_always_answers(case):
    """No case raises; one that cannot be vouched for says stop; the same case gives the same answer."""
    answer = hang(case)
    assert answer == hang(case)
    if answer.use is None or answer.use > 1.0:
        assert answer.stops
    assert answer.cautions
    if answer.works_between_mm is not None:
        low, high = answer.works_between_mm
        assert _use(case, (low,)) <= 1.0
        assert _use(case, (high,)) <= 1.0
    for group in answer.stud_sets:
        assert _use(case, group) <= 1.0


spans = st.floats(200, 1500)


@quick
@given(
    st.floats(0.01, 2.0), st.floats(100, 500), st.floats(10, 40), st.floats(1000, 15_000),
    st.sampled_from(["uniform", "centre"]), st.sampled_from(sorted(beams.LIMITS)), st.floats(1, 3),
)  # fmt: skip
def test_longest_span_just_passes(load, depth, thick, e, spread, limit, creep):
    stiffness = beams.stiffness_n_mm2(depth, thick, e)
    given_load = load if spread == "uniform" else load * 500
    span = beams.longest_span_mm(given_load, stiffness, spread, beams.LIMITS[limit], creep=creep)
    total = load * span if spread == "uniform" else load * 500
    sag = beams.sag_mm(total, span, stiffness, spread, creep=creep)
    assert sag == pytest.approx(beams.LIMITS[limit].at(span), rel=1e-9)


@quick
@given(spans, st.floats(1, 2000), st.floats(100, 500), st.floats(1000, 15_000), st.floats(0.5, 6))
def test_what_would_pass_passes(span, load, depth, e, limit):
    needed = beams.stiffness_needed_n_mm2(load, span, "uniform", limit)
    thick = beams.thickness_needed_mm(needed, depth, e)
    assert beams.sag_mm(load, span, beams.stiffness_n_mm2(depth, thick, e), "uniform") == pytest.approx(limit, rel=1e-9)
    height = beams.nosing_needed_mm(needed, depth, 18.0, e, 20.0, e)
    if height is not None:
        nosed = beams.stiffness_n_mm2(depth, 18.0, e, beams.Nosing(20.0, height, e))
        assert beams.sag_mm(load, span, nosed, "uniform") <= limit * (1 + 1e-9)


@quick
@given(st.floats(50, 1000), st.floats(0.001, 0.0045), st.floats(6, 14), st.floats(6, 14))
def test_two_movement_rules_meet(width, c, start, end):
    """Inside 6 to 14 % the linear rule and the shrinkage rule differ by less than a tenth of the movement."""
    linear = movement.change_mm(width, c, start, end)
    wide = movement.change_by_shrinkage_mm(width, movement.shrinkage_from_coefficient(c), start, end)
    assert wide == pytest.approx(linear, rel=0.1, abs=1e-9)
