"""What the hanging answer says in the cases people meet. Expected figures by statics, worked beside each."""

import itertools
import math
from dataclasses import replace

import pytest
from casewright.plugins.catalogue.plugin import CATALOGUE
from casewright.sdk.engineering import hanging_capacity, hanging_forces, hanging_places, hanging_solve
from casewright.sdk.engineering.hanging import hang
from casewright.sdk.engineering.hanging_case import Anchor, HangingCase, Strip, Wall
from casewright.sdk.engineering.hanging_masonry import anchored_strip
from casewright.sdk.sources import SOURCES

SPF, POPLAR = CATALOGUE.stuff("spruce-pine-fir"), CATALOGUE.stuff("yellow-poplar")


def make(**changed):
    """Return a 700 mm wide cabinet whose cleat crosses two studs, 400 mm apart."""
    given = {
        "mounting": "bevel-cleat",
        "cabinet_kg": 18.0,
        "contents_kg": 15.0,
        "left_mm": 1000.0,
        "width_mm": 700.0,
        "height_mm": 800.0,
        "depth_mm": 300.0,
        "centre_x_mm": 1350.0,
        "centre_out_mm": 150.0,
        "strip": Strip(19.0, 120.0, 650.0, 1025.0, 600.0, POPLAR),
        "wall": Wall("studs", (350.0, 750.0, 1150.0, 1550.0, 1950.0, 2350.0), SPF, ceiling_mm=2400.0),
        "fastener": CATALOGUE.screw("screw-10-3"),
        "bottom_mm": 1400.0,
        "anti_lift": CATALOGUE.screw("screw-10-4"),
    }
    return HangingCase(**(given | changed))


def codes(answer, level=None):
    return {finding.code for finding in answer.findings if level in (None, finding.level)}


def test_two_studs_hold():
    answer = hang(make())
    assert answer.caught_studs_mm == (1150.0, 1550.0)
    assert len(answer.fasteners) == 4
    assert not answer.stops
    assert answer.use < 1.0
    assert all(finding.source in SOURCES for finding in answer.findings)
    assert any("licensed" in caution and "local code" in caution for caution in answer.cautions)


def test_overloaded_is_a_stop():
    answer = hang(make(contents_kg=150.0))
    assert answer.use > 1.0
    assert "fastener-use" in codes(answer, "stop")
    assert answer.findings[0].level == "stop"


@pytest.mark.parametrize(
    ("wall", "code", "asks"),
    [
        (Wall(), "wall-unknown", "Find out"),
        (Wall("steel-studs"), "wall-steel-studs", "backing"),
        (Wall("masonry"), "anchor-approval", "approved"),
        (Wall("studs", (), SPF), "studs-unknown", "measure the studs"),
        (Wall("studs", (100.0, 500.0), SPF), "no-stud", "lining alone"),
        (Wall("studs", (1150.0, 1550.0)), "stud-wood", "grade stamp"),
    ],
)
def test_a_wall_not_known_well_enough_is_a_stop(wall, code, asks):
    answer = hang(make(wall=wall))
    assert code in codes(answer, "stop")
    assert asks in next(finding.message for finding in answer.findings if finding.code == code)
    assert answer.use is None
    assert answer.fasteners == ()


def test_no_screw_named_is_a_stop():
    assert "fastener-missing" in codes(hang(make(fastener=None)), "stop")


def test_wood_without_a_published_gravity_is_a_stop():
    strip = replace(make().strip, stuff=CATALOGUE.stuff("black-cherry"))
    answer = hang(make(strip=strip))
    assert "fastener-wood" in codes(answer, "stop")


def test_screws_held_by_plywood_alone_are_a_stop():
    wall = replace(make().wall, stud=CATALOGUE.stuff("birch-plywood"))
    assert "fastener-wood" in codes(hang(make(wall=wall)), "stop")


def test_short_screw_is_a_stop_that_says_how_deep():
    """No. 10 × 1 1/2 in: 38.1 - 19 - 12.7 = 6.4 mm in the stud; 6 D = 28.96 mm (NDS 2018 12.1.5.6)."""
    answer = hang(make(fastener=CATALOGUE.screw("screw-10-1-1-2")))
    finding = next(finding for finding in answer.findings if finding.code == "fastener-penetration")
    assert finding.level == "stop"
    assert finding.value == pytest.approx(6.4, abs=0.01)
    assert finding.limit == pytest.approx(28.956, abs=0.001)


def test_masonry_uses_the_approved_values():
    """Two anchors, load midway: each W/2 down; the pull by prying. Use = pull/allowed + shear/allowed."""
    case = make(wall=Wall("masonry", lining_mm=0.0, anchor=Anchor(600.0, 1200.0, "approval"), anchors=2))
    answer = hang(case)
    weight = 33.0 * 9.80665
    moment = hanging_forces.cleat_moment_n_mm(weight, weight, 120.0, 19.0, 45.0)
    row = 12.7 + (120.0 - 19.0 - 2 * 12.7) / 2
    assert [each.shear_n for each in answer.fasteners] == pytest.approx([weight / 2] * 2)
    assert [each.pull_n for each in answer.fasteners] == pytest.approx([moment / row / 2] * 2)
    assert answer.use == pytest.approx(moment / row / 2 / 600.0 + weight / 2 / 1200.0)
    assert "anchor-approval" not in codes(answer)


def test_hook_that_would_ride_up():
    """Centre of gravity 300 mm out, cleat 150 mm up: W·300/h against W tan 45°; friction only helps, uncounted."""
    strip = replace(make().strip, low_mm=150.0)
    case = make(strip=strip, centre_out_mm=300.0, anti_lift=None)
    answer = hang(case)
    rows = hanging_solve.rows_mm(case)
    demand = 33.0 * 9.80665 * 300.0 / (150.0 + sum(rows) / len(rows))
    sure = 33.0 * 9.80665
    assert answer.hook.rides_up
    assert answer.hook.needed_n == pytest.approx(demand)
    assert answer.hook.shortfall_n == pytest.approx(demand - sure)
    down = 33.0 * 9.80665 + answer.hook.hold_down_n
    assert down == pytest.approx(demand)
    assert answer.hook.with_friction_n == pytest.approx(sure * math.tan(math.radians(61.7)))
    assert "hook-rides-up" in codes(answer, "stop")
    hung = hang(replace(case, anti_lift=CATALOGUE.screw("screw-10-4")))
    assert hung.anti_lift.needed_n == pytest.approx(demand - sure)
    assert hung.anti_lift.use == pytest.approx(hung.anti_lift.needed_n / hung.anti_lift.capacity_n)
    assert "hook-rides-up" not in codes(hung)
    short = hang(replace(case, anti_lift=CATALOGUE.screw("screw-10-2")))
    assert "anti-lift-fastener-penetration" in codes(short, "stop")


def test_friction_never_makes_a_hook_ride_up():
    """Overturning asks W·150/660, 0.23 W; a bevel of 20° holds W tan 20° = 0.364 W without any friction."""
    for friction in (0.0, 16.7, 25.0, 45.0):
        answer = hang(make(bevel_deg=20.0, friction_deg=friction, anti_lift=None))
        assert not answer.hook.rides_up, friction
    free = hang(make(bevel_deg=45.0, friction_deg=45.0))
    assert free.hook.with_friction_n == math.inf


def test_no_anti_lift_is_a_caution():
    assert "anti-lift-missing" in codes(hang(make(anti_lift=None)), "caution")
    assert "anti-lift-missing" not in codes(hang(make()))


def test_bevel_out_of_range_is_a_stop():
    assert "hook-bevel" in codes(hang(make(bevel_deg=75.0)), "stop")


def test_two_screws_one_over_the_other():
    """sqrt((W/2)² + (W x/s)²), W 300 N, x 50 mm, s 80 mm: each 240.1 N."""
    loads = hanging_forces.shear_vectors_n(300.0, 50.0, ((0.0, 0.0), (0.0, 80.0)))
    expected = math.sqrt(150.0**2 + (300.0 * 50.0 / 80.0) ** 2)
    assert [math.hypot(*load) for load in loads] == pytest.approx([expected, expected])
    assert expected == pytest.approx(240.1, abs=0.05)


def test_shear_vectors_balance_the_weight():
    points = ((0.0, 0.0), (0.0, 60.0), (400.0, 0.0), (400.0, 60.0), (800.0, 10.0))
    loads = hanging_forces.shear_vectors_n(500.0, 620.0, points)
    assert sum(down for _, down in loads) == pytest.approx(500.0)
    assert sum(side for side, _ in loads) == pytest.approx(0.0, abs=1e-9)
    mid = 320.0, 26.0
    twist = sum(down * (x - mid[0]) + side * (z - mid[1]) for (side, down), (x, z) in zip(loads, points, strict=True))
    assert twist == pytest.approx(500.0 * (620.0 - 320.0))


def test_one_stud_and_how_much_longer_the_cleat_must_be():
    """Studs at 1350 and 1750; the cleat ends at 1675; 5 D = 24.13 mm must stand beyond the stud: 99.13 mm."""
    wall = replace(make().wall, studs_at_mm=(900.0, 1350.0, 1750.0))
    answer = hang(make(wall=wall, reach_mm=(0.0, 1780.0)))
    assert answer.caught_studs_mm == (1350.0,)
    assert "one-stud" in codes(answer, "caution")
    assert answer.extension.side == "right"
    assert answer.extension.stud_at_mm == 1750.0
    assert answer.extension.by_mm == pytest.approx(1750.0 + 5 * 4.826 - 1675.0)
    longer = make(wall=wall, strip=replace(make().strip, length_mm=650.0 + answer.extension.by_mm))
    assert hang(longer).caught_studs_mm == (1350.0, 1750.0)
    # The cabinet's own side at 1700, or a window there: no cleat reaches the stud at 1750.
    for reach in ((1000.0, 1700.0), None):
        bounded = hang(make(wall=wall, reach_mm=reach))
        assert bounded.extension is None
        (advice,) = [finding.message for finding in bounded.findings if finding.code == "one-stud"]
        assert "longer" not in advice
        assert "hung 99.63 mm farther to the right" in advice  # half a millimetre more than it must
    there = replace(make().strip, left_mm=make().strip.left_mm + 99.63)
    assert hang(make(wall=wall, strip=there)).caught_studs_mm == (1350.0, 1750.0)
    apart = replace(wall, studs_at_mm=(1350.0, 2000.0))  # 650 of strip, and its end distance at both ends
    (advice,) = [one.message for one in hang(make(wall=apart)).findings if one.code == "one-stud"]
    assert advice.endswith("set wood backing in, and give it as a stud.")


def test_where_one_stud_would_do():
    answer = hang(make(cabinet_kg=9.0, contents_kg=5.0))
    low, high = answer.works_between_mm
    assert low < 1350.0 < high
    assert (low + high) / 2 == pytest.approx(1350.0, abs=1e-6)
    edge = make(cabinet_kg=9.0, contents_kg=5.0, wall=replace(make().wall, studs_at_mm=(high - 0.01,)))
    over = make(cabinet_kg=9.0, contents_kg=5.0, wall=replace(make().wall, studs_at_mm=(high + 0.01,)))
    assert hang(edge).use <= 1.0 < hang(over).use


def test_fewest_studs_that_do():
    answer = hang(make())
    assert answer.works_between_mm is None
    assert answer.stud_sets == ((1150.0, 1550.0),)


def test_neighbours_share_a_cleat():
    one = make()
    two = make(
        left_mm=1700.0, centre_x_mm=2050.0, strip=replace(one.strip, left_mm=1725.0),
        wall=one.wall,
    )  # fmt: skip
    most = hang(one).capacity
    shared = hanging_places.share_strip((two, one), most)
    assert shared.works
    assert shared.left_mm == 1025.0
    assert shared.length_mm == 1725.0 + 650.0 - 1025.0
    assert shared.studs_mm == (1150.0, 1550.0, 1950.0, 2350.0)
    heavy = replace(two, contents_kg=400.0)
    assert not hanging_places.share_strip((one, heavy), most).works
    other = replace(two, strip=replace(two.strip, low_mm=580.0))
    refused = hanging_places.share_strip((one, other), most)
    assert not refused.works
    assert "differ" in refused.why_not


def test_lift_below_a_ceiling():
    """19 mm at 45° plus 3 mm: 22 mm; 1400 + 800 + 22 = 2222 mm."""
    answer = hang(make())
    assert answer.lift.rise_mm == pytest.approx(22.0)
    assert answer.lift.ceiling_needed_mm == pytest.approx(2222.0)
    assert answer.lift.fits
    low = hang(make(wall=replace(make().wall, ceiling_mm=2221.0)))
    assert "lift-room" in codes(low, "stop")
    assert hang(make(wall=replace(make().wall, ceiling_mm=None))).lift.fits is None


def test_screw_strip_has_no_hook():
    """Pull by heights above the lowest bearing: rows z1, z2 share W e as z_i/Σz²; no lift is needed."""
    case = make(mounting="screw-strip", behind_strip_mm=6.0, anti_lift=None)
    answer = hang(case)
    assert answer.hook is None
    assert answer.lift.rise_mm == 0.0
    assert answer.capacity.gap_mm == pytest.approx(18.7)
    weight = 33.0 * 9.80665
    low, high = (600.0 + up for up in hanging_solve.rows_mm(case))
    demand = weight * 150.0 * high / (low**2 + high**2) / 2
    assert answer.fasteners[1].pull_n == pytest.approx(max(demand, weight * 150 / ((low + high) / 2) / 4))
    assert "anti-lift-missing" not in codes(answer)


def test_proof_loads_are_a_comparison():
    answer = hang(make())
    assert [round(proof.load_n) for proof in answer.proofs] == [2224, 2669]
    assert answer.proofs[1].use == pytest.approx(answer.use * answer.proofs[1].load_n / answer.weight_n * 0.9)
    note = next(finding for finding in answer.findings if finding.code == "proof-load")
    assert note.level == "note"
    assert "not a load to hang" in note.message


def test_slight_strip_is_a_caution():
    thin = hang(make(strip=replace(make().strip, thickness_mm=12.0)))
    assert "strip-size" in codes(thin, "caution")
    assert "strip-size" not in codes(hang(make()))


def test_fastener_through_the_stud_is_a_caution():
    wall = replace(make().wall, stud_depth_mm=40.0)
    assert "fastener-too-long" in codes(hang(make(wall=wall)), "caution")
    assert "fastener-too-long" not in codes(hang(make()))


def test_assumed_contents_say_so():
    assert "contents-assumed" in codes(hang(make(contents_assumed_pa=718.2)), "caution")


def test_too_many_fasteners_for_the_strip():
    assert "strip-height" in codes(hang(make(per_stud=8)), "stop")


def test_narrow_stud():
    wall = replace(make().wall, stud_width_mm=20.0)
    assert "stud-edge" in codes(hang(make(wall=wall)), "stop")


@pytest.mark.parametrize("number", [1, 2, 3, 4])
def test_rows_keep_their_margins(number):
    rows = hanging_solve.spread_rows_mm(number, 100.0, 10.0, 20.0, 15.0)
    assert len(rows) == number
    assert min(rows) >= 10.0
    assert max(rows) <= 80.0 + 1e-9
    assert all(b - a >= 15.0 for a, b in itertools.pairwise(rows))


def test_lag_screws_work_too():
    answer = hang(make(fastener=CATALOGUE.lag("lag-1-4-3-1-2"), strip=replace(make().strip, width_mm=140.0)))
    assert answer.capacity is not None
    assert answer.use < 1.0
    assert "splitting" not in codes(answer)


def test_columns_share_by_their_distance():
    """Columns at 0 and 400, pull at 300: a lever gives 1/4 and 3/4; beyond the last column the far one is let go."""
    assert hanging_forces.column_shares((0.0, 400.0), 300.0, -50.0, 450.0) == pytest.approx((0.25, 0.75))
    assert hanging_forces.column_shares((0.0, 400.0), 500.0, -50.0, 550.0) == pytest.approx((0.0, 1.25))


def test_lag_capacity_is_the_cross_grain_one():
    """NDS 2018 Table 12J: lag 1/4 in, 1/2 in side, G 0.50, across the grain of both: 82.25 lb (read)."""
    fir = CATALOGUE.stuff("douglas-fir-larch")
    strength = hanging_capacity.capacity(CATALOGUE.lag("lag-1-4-3"), fir, 12.7, fir, 88.9, 0.0, 1.0)
    assert strength.lateral_n / 4.4482216152605 == pytest.approx(82.25, abs=0.01)


def test_a_screw_out_of_the_far_side_counts_only_the_stud():
    """No. 10 × 4 in, 3/4 in cleat, 1/2 in lining, stud 40 mm deep: the thread past the stud's back is not counted."""
    strength = hanging_capacity.capacity(CATALOGUE.screw("screw-10-4"), POPLAR, 19.05, SPF, 40.0, 12.7)
    assert strength.penetration_mm == 40.0
    assert strength.thread_mm == pytest.approx(67.7333333 - (101.6 - 19.05 - 12.7 - 40.0))


def test_design_pull_is_the_greater():
    """The hook's W tan b, or W e/h where that is more."""
    near = hanging_solve.load(make())
    assert near.pull_n == pytest.approx(33.0 * 9.80665)
    tipping = make(strip=replace(make().strip, low_mm=50.0), centre_out_mm=300.0)
    far = hanging_solve.load(tipping)
    assert far.pull_n == pytest.approx(far.hook.needed_n)
    assert far.pull_n > near.pull_n


def test_anti_lift_must_reach_past_cleat_and_lining():
    """No. 10 × 3 in through 18 mm, over the cleat's 19 and the lining's 12.7: 26.5 mm is left, 28.96 mm is asked."""
    answer = hang(make(anti_lift=CATALOGUE.screw("screw-10-3")))
    finding = next(finding for finding in answer.findings if finding.code == "anti-lift-fastener-penetration")
    assert finding.value == pytest.approx(26.5)


def test_shared_cleat_is_judged_in_every_loading():
    one = make()
    two = make(left_mm=1800.0, centre_x_mm=2150.0, strip=replace(one.strip, left_mm=1825.0))
    most = hang(one).capacity
    shared = hanging_places.share_strip((one, two), most)
    strip = replace(one.strip, length_mm=1825.0 + 650.0 - 1025.0)
    alone = replace(one, strip=strip)
    both = replace(alone, cabinet_kg=66.0, contents_kg=0.0, centre_x_mm=1750.0)
    uses = [
        hanging_solve.worst(hanging_solve.uses(case, hanging_solve.load(case), shared.studs_mm, most))
        for case in (alone, both)
    ]
    assert uses[0] > uses[1]
    assert shared.use == pytest.approx(uses[0])
    heavy = replace(two, contents_kg=two.contents_kg * 4)
    over = hanging_places.share_strip((one, heavy), most)
    assert 1.0 < over.use < 3.0
    assert not over.works
    assert "overloaded" in over.why_not


# --- fasteners one over another are one row along load and grain -----------------------------------------------------

DEMO = {"fastener": CATALOGUE.lag("lag-1-4-3"), "per_stud": 4}
"""Four lags of 1/4 in in a cleat 4 in high of 18 mm (0.709 in): 3.291 in full thick, 0.375 and 1.0 in at the edges."""


def inch_strip(height, thickness=0.709, stuff=POPLAR):
    return replace(make().strip, width_mm=height * 25.4, thickness_mm=thickness * 25.4, stuff=stuff)


def test_four_lags_in_a_cleat_four_inches_high_are_too_many():
    """3.291 - 1.375 = 1.916 in of room: four would stand 0.639 in apart, 2.55 D. At 3 D = 0.75 in three fit."""
    case = make(strip=inch_strip(4.0), **DEMO)
    answer = hang(case)
    finding = next(finding for finding in answer.findings if finding.code == "strip-height")
    assert finding.level == "stop"
    assert "takes 3 fasteners" in finding.message
    # Four at 3 D: 1.375 + 3 · 0.75 + the bevel's 0.709.
    assert finding.limit == pytest.approx((1.375 + 2.25 + 0.709) * 25.4)
    assert len(answer.fasteners) == 6
    higher = hang(replace(case, strip=inch_strip(4.34)))
    assert "strip-height" not in codes(higher)
    assert len(higher.fasteners) == 8


def test_lags_in_a_row_take_both_factors():
    """Three lags 0.958 in apart: C_Δ = 0.958/1.0. C_g by NDS 2018 eq. 11.3-1, written out beside the code's.

    Stud 1.5 × 3.5 in of 1.4 Mpsi; cleat of 1.58 Mpsi 0.709 in thick, counted 4 D = 1 in wide across its grain.
    """
    case = make(strip=inch_strip(4.0), fastener=CATALOGUE.lag("lag-1-4-3"), per_stud=3)
    most = hang(case).capacity
    apart = (3.291 - 1.375) / 2
    main, side = 1.4e6 * 1.5 * 3.5, 1.58e6 * 0.709
    u = 1 + 180_000 * 0.25**1.5 * apart / 2 * (1 / main + 1 / side)
    m = u - math.sqrt(u**2 - 1)
    ratio, n = side / main, 3
    group = m * (1 - m ** (2 * n)) / (n * ((1 + ratio * m**n) * (1 + m) - 1 + m ** (2 * n))) * (1 + ratio) / (1 - m)
    assert most.geometry == pytest.approx(apart / 1.0, rel=1e-9)
    assert most.group == pytest.approx(group, rel=1e-9)
    assert most.lateral_n == pytest.approx(min(value for _, value in most.modes_n) * most.geometry * most.group)
    alone = hang(replace(case, per_stud=1)).capacity
    assert (alone.geometry, alone.group) == (1.0, 1.0)


def test_screws_closer_than_is_advised_along_the_grain_are_a_caution():
    """No. 10: 10 D = 1.9 in. A 3 in cleat leaves 2.291 - 0.95 = 1.341 in, a 4 in one 2.341."""
    close = hang(make(strip=inch_strip(3.0)))
    finding = next(finding for finding in close.findings if finding.code == "screw-spacing")
    assert (finding.level, finding.value, finding.limit) == (
        "caution",
        pytest.approx(1.341 * 25.4),
        pytest.approx(48.26),
    )
    assert "screw-spacing" not in codes(hang(make(strip=inch_strip(4.0))))


# --- what interrupts, what is off the wall, what the strip itself carries --------------------------------------------


def test_a_stud_behind_a_divider_is_not_caught():
    """The strip is interrupted from 1140 to 1160, where a divider stands before the stud at 1150."""
    strip = replace(make().strip, breaks_mm=((1140.0, 1160.0),))
    answer = hang(make(mounting="screw-strip", strip=strip, anti_lift=None))
    assert answer.caught_studs_mm == (1550.0,)
    # 5 D = 24.13 mm of end distance from the divider's face: a stud 24 mm from it is not caught, one 25 mm from it is.
    for at, caught in ((1184.0, ()), (1185.0, (1185.0,))):
        wall = replace(make().wall, studs_at_mm=(at,))
        assert hang(make(mounting="screw-strip", strip=strip, wall=wall, anti_lift=None)).caught_studs_mm == caught


def masonry(**anchor):
    given = {"pull_n": 2000.0, "shear_n": 3000.0, "reference": "approval sheet"}
    return Wall("masonry", lining_mm=0.0, anchor=Anchor(**(given | anchor)), anchors=2)


def test_a_masonry_strip_of_board_no_rule_covers_is_a_stop():
    strip = replace(make().strip, stuff=CATALOGUE.stuff("mdf"))
    answer = hang(make(wall=masonry(), strip=strip))
    assert "fastener-wood" in codes(answer, "stop")
    assert answer.use is None


def test_the_anchors_head_may_draw_through_its_strip():
    """Poplar, G 0.43, 19 mm under a 1/2 in head: 690 π 0.5 0.43² (19/25.4) = 149.9 lb, with 0.9 600.1 N."""
    through = 690 * math.pi * 0.5 * 0.43**2 * (19 / 25.4) * 0.9 * 4.4482216152605
    answer = hang(make(wall=masonry(pull_n=1e6, shear_n=1e6)))
    worst = max(answer.fasteners, key=lambda each: each.use)
    assert worst.governs == "head pull-through"
    assert worst.use == pytest.approx(worst.pull_n / through, rel=1e-9)


def test_the_anchors_shank_bears_on_its_strip():
    """Mode I_s across the grain: F_e = 6100 G^1.45/√D = 3588, rounded 3600 psi; 1/4 in shank, 19 mm; over 4 K_θ = 5."""
    strength = anchored_strip(masonry().anchor, make().strip, 0.9)
    assert strength.bearing_n == pytest.approx(3600 * 0.25 * (19 / 25.4) / 5 * 0.9 * 4.4482216152605, rel=1e-9)


def test_a_strip_off_the_masonry_bends_its_anchors():
    off = replace(masonry(), lining_mm=12.7)
    assert "anchor-stand-off" in codes(hang(make(wall=off)), "stop")
    assert "anchor-stand-off" not in codes(hang(make(wall=masonry())))
    approved = replace(off, anchor=replace(off.anchor, stand_off_mm=13.0))
    assert "anchor-stand-off" not in codes(hang(make(wall=approved)))


# --- likely ----------------------------------------------------------------------------------------------------------


def test_the_likely_figure_is_a_note_and_no_verdict():
    answer = hang(make(contents_kg=60.0))
    assert answer.use > 1.0 > answer.likely.use
    assert "fastener-use" in codes(answer, "stop")
    note = next(finding for finding in answer.findings if finding.code == "likely-use")
    assert note.level == "note"
    assert "no verdict" in note.message


def test_contents_taken_in_the_middle_are_said():
    assert "contents-centred" in codes(hang(make(contents_placed=False)), "note")
    assert "contents-centred" not in codes(hang(make()))
