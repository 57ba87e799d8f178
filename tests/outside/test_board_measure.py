"""Board measure against worked examples of the NHLA rule and of the volume form, read on pages about grading lumber."""

import pytest
from casewright.api.stock import board_feet, surface_measure, tally_size, volume_board_feet

INCH = 25_400_000
QUARTER = INCH // 4


@pytest.mark.parametrize(
    ("width", "feet", "expected"),
    [
        # NHLA rule book: width in inches × length in feet / 12, rounded
        (6 * INCH + QUARTER, 8, 4),  # 6-1/4 in x 8 ft -> SM 4
        (6 * INCH + 2 * QUARTER, 8, 4),  # 6-1/2 in x 8 ft -> SM 4
        (8 * INCH, 12, 8),  # 8 in x 12 ft -> SM 8
        (10 * INCH, 13, 11),  # 10 in x 13 ft -> SM 11
    ],
)
def test_surface_measure_is_rounded_to_a_whole_number(width: int, feet: int, expected: int) -> None:
    assert surface_measure(width, feet * 12 * INCH) == expected


def test_board_feet_are_surface_measure_times_thickness() -> None:
    # NHLA: 2 in x 6-1/4 in x 8 ft -> SM 4 -> 8 BF, 8.33 un-rounded
    assert board_feet(2 * INCH, 6 * INCH + QUARTER, 96 * INCH) == 8
    assert volume_board_feet(2 * INCH, 6 * INCH + QUARTER, 96 * INCH) == pytest.approx(8.33, abs=0.005)


def test_lengths_drop_to_whole_feet() -> None:
    # NHLA: 5-1/4 in x 8-1/2 ft is tallied 5 x 8
    assert tally_size(5 * INCH + QUARTER, 102 * INCH) == (5, 8)
    assert surface_measure(8 * INCH, 12 * 12 * INCH + 11 * INCH) == surface_measure(8 * INCH, 144 * INCH)


def test_volume_form() -> None:
    # The volume form: T x W x L / 144 in inches: 1 x 9 x 96 -> 6; 1.5 x 9 x 96 -> 9
    assert volume_board_feet(INCH, 9 * INCH, 96 * INCH) == pytest.approx(6, rel=1e-12)
    assert volume_board_feet(INCH * 3 // 2, 9 * INCH, 96 * INCH) == pytest.approx(9, rel=1e-12)
