"""A plan as text for the bench: masses in the units of the job, problems with their places."""

import pytest
from casewright.api.command.bench_text import problem_lines, summary_lines
from casewright.api.job.cells import CellProblem
from casewright.sdk.errors import Problem

CABINET = {"cabinet": "bay", "count": 2, "text": "600 × 720 × 300", "hands": 1, "stops": []}


@pytest.mark.parametrize(
    ("masses", "written"),
    [
        ({"mass_kg": 10.04}, "10.0 kg"),
        ({"mass_kg": 10.0, "mass_lb": 22.05}, "22 lb"),  # 10 kg / 0.45359237 (the international pound, 1959)
    ],
)
def test_a_mass_is_in_the_units_of_the_job(masses, written):
    line = summary_lines({"summary": [{**CABINET, **masses}]})[-1]
    assert [cell.strip() for cell in line.split("  ") if cell] == [
        "bay", "2", "600 × 720 × 300", written, "1 person", "none",
    ]  # fmt: skip


def test_problems_name_the_place_they_stand_in():
    lines = problem_lines(
        [
            Problem("/width", "a length", "true", "Write 600."),
            Problem("", "needed", "nothing", "Add it."),
            CellProblem("/cabinets/0", "a length", '"wide"', "Write 600.", 2, "width"),
            CellProblem("/cabinets/0", "2 cells", "3 cells", "Give each a heading.", 2, ""),
        ]
    )
    assert lines == [
        "/width: needs a length; got true. Write 600.",
        "the document: is needed. Add it.",
        'row 2, column width: needs a length; got "wide". Write 600.',
        "row 2, column -: needs 2 cells; got 3 cells. Give each a heading.",
    ]
