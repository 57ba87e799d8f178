"""Which studs a strip's fasteners stand in: NDS 2018 12.5.1 (read in a page-cited second-hand copy), worked by hand.

A lag of 1/4 in loaded across the strip's grain keeps 4 D = 1 in from its end for full value (C_Δ 1) and never less than
half of that; between, C_Δ is the distance over 1 in, and the least of any fastener is that of all (12.5.1.2).
"""

from dataclasses import replace

import pytest
from casewright.plugins.catalogue.plugin import CATALOGUE
from casewright.sdk.engineering import hanging_places, hanging_solve
from casewright.sdk.engineering.hanging import hang
from casewright.sdk.engineering.hanging_case import HangingCase, Strip, Wall

IN = 25.4
SPF, OAK = CATALOGUE.stuff("spruce-pine-fir"), CATALOGUE.stuff("red-oak")
LAG, SCREW = CATALOGUE.lag("lag-1-4-3"), CATALOGUE.screw("screw-10-3")


def strip(*studs_in, fastener=LAG, contents_kg=10.0, centre_in=12.0, **more):
    """Return a cabinet 24 in wide on a cleat of its own width, studs at these places in inches from its left end."""
    return HangingCase(
        mounting="bevel-cleat", cabinet_kg=10.0, contents_kg=contents_kg, left_mm=0.0, width_mm=24 * IN,
        height_mm=700.0, depth_mm=300.0, centre_x_mm=centre_in * IN, centre_out_mm=150.0,
        strip=Strip(19.05, 4 * IN, 24 * IN, 0.0, 500.0, OAK),
        wall=Wall("studs", tuple(at * IN for at in studs_in), SPF), fastener=fastener, **more,
    )  # fmt: skip


def sets(case):
    return [(tuple(round(x / IN, 6) for x in one.at_mm), one.end_factor) for one in hanging_places.column_sets(case)]


@pytest.mark.parametrize(
    ("end", "factor"), [(0.49, None), (0.5, 0.5), (0.75, 0.75), (1.0, 1.0), (5.0, 1.0), (23.25, 0.75), (23.51, None)]
)
def test_a_stud_near_the_end_is_caught_at_part_of_its_value(end, factor):
    studs = sets(strip(end))
    assert studs == ([] if factor is None else [((end,), pytest.approx(factor))])
    assert ("no-stud" in {one.code for one in hang(strip(end)).findings}) is (factor is None)


def test_a_thin_screw_keeps_its_advised_distance():
    # Under 1/4 in there is no half value: 5 D of 0.19 in is advised.
    assert sets(strip(0.94, fastener=SCREW)) == []
    assert sets(strip(0.96, fastener=SCREW)) == [((0.96,), 1.0)]


def test_the_least_factor_is_that_of_all_fasteners():
    studs = sets(strip(0.6, 12, 23.2))
    assert studs == [
        ((12,), 1.0), ((12, 23.2), pytest.approx(0.8)), ((0.6, 12), pytest.approx(0.6)),
        ((0.6, 12, 23.2), pytest.approx(0.6)),
    ]  # fmt: skip
    case = strip(0.6, 12, 23.2)
    alone = hanging_solve.fastener_capacity(replace(case, per_stud=1))
    less = hanging_solve.fastener_capacity(replace(case, per_stud=1), end_factor=0.6)
    assert less.lateral_n == pytest.approx(0.6 * alone.lateral_n)
    assert (less.pull_n, less.geometry) == (alone.pull_n, 0.6)


def test_the_row_and_the_end_do_not_multiply():
    # Three lags in a zone of 4 in less the bevel's 3/4 and edges of 3/8 and 1 in: 0.9375 in apart, C_Δ 0.9375 in a row.
    case = strip(12, per_stud=3)
    rows = hanging_solve.rows_mm(case)
    assert rows[1] - rows[0] == pytest.approx(0.9375 * IN)
    assert hanging_solve.fastener_capacity(case).geometry == pytest.approx(0.9375)
    assert hanging_solve.fastener_capacity(case, end_factor=0.8).geometry == 0.8
    assert hanging_solve.fastener_capacity(case, end_factor=0.97).geometry == pytest.approx(0.9375)


def test_the_studs_that_work_least_hard_are_taken():
    # Centred over the one stud of full value, at 12 in; that at 23.2 would share the load but take 0.8 of all.
    one, two = (hang(strip(*studs)) for studs in ((12,), (12, 23.2)))
    assert two.use <= one.use
    # Off to the right: both are needed, and the note says that one of them stands near the end.
    lone, both = (hang(strip(*studs, centre_in=18.0)) for studs in ((12,), (12, 23.2)))
    assert both.use < lone.use
    assert both.caught_studs_mm == (12 * IN, 23.2 * IN)
    assert both.capacity.geometry == pytest.approx(0.8)
    (note,) = [one for one in both.findings if one.code == "end-distance"]
    assert (note.level, note.value, note.limit) == ("note", pytest.approx(0.8 * IN), pytest.approx(IN))
    assert not [one for one in lone.findings if one.code == "end-distance"]


def test_a_bolt_against_lifting_goes_into_the_caught_stud_nearest_the_middle():
    assert hanging_places.anti_lift_stud(strip(4, 20)) == 4 * IN
    assert hanging_places.anti_lift_stud(strip(4, 20, centre_in=13.0)) == 20 * IN
    assert hanging_places.anti_lift_stud(strip(0.6)) == pytest.approx(0.6 * IN)
    assert hanging_places.anti_lift_stud(strip(0.4)) is None
