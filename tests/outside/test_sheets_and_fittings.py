"""Published sheet tolerances and the drilling figures that planning pages share."""

import pytest
from casewright.plugins.catalogue.plugin import CATALOGUE
from casewright.sdk.engineering.units import MPA_PER_PSI

MM = 1_000_000


def test_birch_18():
    """Birch plywood data sheet: 18 mm, 13 plies, 17.1-18.1 mm, 685 kg/m3, exact data."""
    row = CATALOGUE.stuff("birch-plywood").sheet(17_700_000)
    assert (row.nominal, row.plies, row.least, row.most) == (18 * MM, 13, 17_100_000, 18_100_000)
    assert CATALOGUE.stuff("birch-plywood").density_at(17_700_000) == 685


@pytest.mark.parametrize(("least", "most", "kg"), [(17_100_000, 18_100_000, 36.7), (11_500_000, 12_500_000, 24.8)])
def test_mass_of_a_birch_sheet(least, most, kg):
    """Printed mass of 1220 × 2440: 36.7 kg at 18 mm, 24.8 kg at 12 mm, at mid thickness to 3 %."""
    middle = (least + most) // 2
    volume_m3 = 2.440 * 1.220 * middle / 1e9
    assert volume_m3 * CATALOGUE.stuff("birch-plywood").density_at(middle) == pytest.approx(kg, rel=0.03)


def test_birch_modulus_sum_rule():
    """Mean bending moduli along and across sum to 17,500 N/mm2 at every thickness (from memory)."""
    rows = [row for row in CATALOGUE.stuff("birch-plywood").thicknesses if row.e_along_mpa is not None]
    assert len(rows) == 5
    assert all(row.e_along_mpa + row.e_across_mpa == 17_500 for row in rows)


def test_32_mm_convention():
    """5 mm holes, 32 mm pitch, 37 mm setback; 608 = 19 pitches, 640 = 20: pages on the 32 mm convention, read."""
    pin = CATALOGUE.pin("pin-5")
    assert (pin.hole_diameter, pin.pitch, pin.setback) == (5 * MM, 32 * MM, 37 * MM)
    assert divmod(608 * MM, pin.pitch) == (19, 0)
    assert divmod(640 * MM, pin.pitch) == (20, 0)
    hinge = CATALOGUE.hinge("cup-35")
    assert (hinge.plate_setback, hinge.plate_pitch) == (37 * MM, 32 * MM)


def test_screw_sizes_of_table_l3():
    """NDS 2018 Table L3 (read): No. 10 shank, root, head in inches; thread 2/3 of 3 in."""
    screw = CATALOGUE.screw("screw-10-3")
    assert [round(x / 25_400_000, 6) for x in (screw.diameter, screw.root, screw.head)] == [0.190, 0.152, 0.363]
    assert screw.thread == 2 * 25_400_000
    assert screw.f_yb_mpa / MPA_PER_PSI == pytest.approx(80_000)
