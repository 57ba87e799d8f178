"""Searches for a fastening that holds: the first in order, all before it tried and failing, all it says seen again."""

import sys
from dataclasses import replace
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from casewright.plugins.catalogue.plugin import CATALOGUE
from casewright.sdk.engineering.hanging import hang
from casewright.sdk.engineering.hanging_case import HangingCase, Strip, Wall
from fastenings import (
    Choices,
    fastened,
    greatest_contents_kg,
    least_fastening,
    usual_heights_mm,
    ways,
)

IN = 25.4
BIRCH, OAK = CATALOGUE.stuff("birch-plywood"), CATALOGUE.stuff("red-oak")
CASE = HangingCase(
    mounting="bevel-cleat", cabinet_kg=26.0, contents_kg=40.0, left_mm=0.0, width_mm=28 * IN, height_mm=33 * IN,
    depth_mm=11 * IN, centre_x_mm=14 * IN, centre_out_mm=6 * IN,
    strip=Strip(18.0, 3 * IN, 26 * IN, IN, 26 * IN, BIRCH),
    wall=Wall("studs", (5 * IN, 21 * IN), CATALOGUE.stuff("spruce-pine-fir")),
    fastener=CATALOGUE.screw("screw-10-3"), anti_lift=CATALOGUE.screw("screw-10-4"),
)  # fmt: skip
CHOICES = Choices(
    (CATALOGUE.screw("screw-10-3"), CATALOGUE.lag("lag-1-4-3"), CATALOGUE.lag("lag-5-16-3")),
    (1, 2, 3),
    usual_heights_mm(18.0),
    ((BIRCH, 18.0), (OAK, 19.05)),
)


def test_the_first_way_that_holds_is_found():
    least = least_fastening(CASE, CHOICES)
    assert least.fastening is not None
    order = list(ways(CASE, CHOICES))
    place = order.index(least.fastening)
    assert least.tried == place + 1
    assert all(hang(fastened(CASE, way)).stops for way in order[:place])
    again = hang(fastened(CASE, least.fastening))
    assert not again.stops
    assert again == least.result


def test_a_higher_pair_of_cleats_reaches_down_by_both():
    # 3 in to 4 in: each of the two 1 in higher under the same top, so the wall cleat's lower edge is 2 in lower.
    way = next(way for way in ways(CASE, CHOICES) if way.height_mm == 4 * IN)
    assert fastened(CASE, way).strip.low_mm == pytest.approx(24 * IN)
    screwed = replace(CASE, mounting="screw-strip")
    assert fastened(screwed, way).strip.low_mm == pytest.approx(25 * IN)


def test_no_way_is_forced():
    least = least_fastening(replace(CASE, contents_kg=900.0), CHOICES)
    assert (least.fastening, least.result) == (None, None)
    assert least.tried == len(list(ways(CASE, CHOICES)))
    assert least_fastening(replace(CASE, wall=replace(CASE.wall, studs_at_mm=())), CHOICES).tried == 0


def test_tries_are_bounded():
    assert least_fastening(replace(CASE, contents_kg=900.0), CHOICES, most_tries=5).tried == 5


def test_the_greatest_load_just_holds():
    most = greatest_contents_kg(replace(CASE, strip=replace(CASE.strip, stuff=OAK)))
    assert most is not None
    oak = replace(CASE, strip=replace(CASE.strip, stuff=OAK))
    assert not hang(replace(oak, contents_kg=most)).stops
    assert hang(replace(oak, contents_kg=most * (1 + 1e-6))).stops
    assert greatest_contents_kg(replace(CASE, cabinet_kg=900.0)) is None


def test_a_fastener_through_the_studs_back_is_not_offered():
    shallow = replace(CASE, wall=replace(CASE.wall, stud_depth_mm=40.0))
    assert [way.fastener.id for way in ways(shallow, CHOICES)] == []
    assert {way.fastener.id for way in ways(CASE, CHOICES)} == {one.id for one in CHOICES.fasteners}


def test_known_plies_take_their_own_gravity():
    # The mass of the panel, 685 kg/m3 at 9 % moisture, without its water: 0.63; birch itself 0.71 (Table 12.3.3A).
    known = CATALOGUE.stuff("all-birch-plywood").g_oven_dry
    assert known == pytest.approx(685 / 1.09 / 1000, abs=0.005)
    assert BIRCH.g_oven_dry < known < CATALOGUE.stuff("yellow-birch").g_oven_dry
