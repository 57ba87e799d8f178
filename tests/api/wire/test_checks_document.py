"""Checks in the units of the job, against exact definitions (NIST SP 811, 2008, appendix B.8).

1 in = 25.4 mm, 1 lb = 0.45359237 kg, and a pound-force is that under standard gravity, 9.80665 m/s2.
"""

from typing import Any

import pytest
from casewright.api.use.planning import plan_job
from casewright.api.wire.checks_document import checks_document, unit_in
from casewright.api.wire.lengths import Lengths, Numbers, Texts
from casewright.sdk.findings import LENGTH, Check, Finding
from casewright.sdk.loader import Registry
from casewright.sdk.units import DEFAULT_TAPE, Units


class _Plan:
    """The parts of a plan that checks are written from."""

    parts = ()

    def __init__(self, check: Check) -> None:
        self.checks = (check,)
        self.job = type("Job", (), {"units": "in", "tape": DEFAULT_TAPE["in"]})()


def written(value: float | int | str, unit: str, units: Units) -> tuple[Any, str]:
    check = Check("bench/top", Finding("code", "note", "words", value, None, unit))
    lengths = Lengths(units, Numbers(units), Texts(units, DEFAULT_TAPE[units]))
    (row,) = checks_document(_Plan(check), lengths)  # type: ignore[arg-type]
    assert row["limit"] is None
    return row["value"], row["unit"]


@pytest.mark.parametrize(
    ("value", "unit", "expected"),
    [
        (45.359237, "kg", (100, "lb")),
        (444.82216152605, "N", (100, "lbf")),
        (254.0, "mm", (10, "in")),
        (16.387064, "mm3", (0.001, "in3")),  # 25.4 cubed is 16387.064
        (1355.8179483314, "N·mm", (12, "lbf·in")),  # a foot-pound is 1.3558179483314 N·m
    ],
)
def test_an_inch_job_has_no_metric_value(value, unit, expected):
    number, name = written(value, unit, "in")
    assert (number, name) == (pytest.approx(expected[0], rel=1e-12), expected[1])
    assert written(value, unit, "mm") == (value, unit)


def test_lengths_are_numbers_in_job_units():
    assert written(25_400_000, LENGTH, "in") == (1, "in")
    assert written(25_400_000, LENGTH, "mm") == (25.4, "mm")


@pytest.mark.parametrize(("value", "unit"), [(2, "hinges"), (90.0, "degrees"), ("birch", "")])
def test_what_has_no_other_unit_stays_as_it_is(value, unit):
    for units in ("in", "mm"):
        number, name = written(value, unit, units)
        assert (number, type(number), name) == (value, type(value), unit)


def test_an_inch_size_of_a_maker_is_metric_in_a_metric_job():
    assert written(2.0, "in", "mm") == (pytest.approx(50.8, rel=1e-12), "mm")
    assert unit_in("in", "in") == "in"


def test_a_size_the_tape_moves_is_a_caution(small: dict[str, Any], registry: Registry) -> None:
    small["tape"] = 1
    small["cabinets"][0] |= {"face_frame": {"material": "oak"}}
    rounded = [c for c in plan_job(small, registry)["checks"] if c["code"] == "rounded-for-the-tape"]
    assert [c["subject"] for c in rounded] == ["bench"]
    assert rounded[0]["unit"] == "mm"
    assert 0 < rounded[0]["value"] <= rounded[0]["limit"] == 0.5
