"""One number for one cell: sizes worked by hand for a case of butted sides."""

import pytest
from casewright.api.use.one_value import FIELDS, CellValue, Question
from casewright.api.use.planning import Planner
from casewright.sdk.errors import UnusableJobError
from casewright.sdk.loader import Registry

PATHS = {"width": "600", "height": "720", "depth": "300", "case.corner.method": "dowel"}


def ask(registry: Registry, question: Question, **paths: str) -> CellValue:
    return question.answer(question.job({**PATHS, **paths}, registry), Planner(registry))


def test_a_size_of_a_part(registry: Registry) -> None:
    # The top stands between two sides of 18 mm: 600 - 2 × 18 = 564 mm.
    answer = ask(registry, Question("length", part="top", thickness="18"))
    assert (answer.value, answer.units, answer.text) == (564, "mm", "564.0 mm")
    assert answer.as_dict() == {
        "value": 564, "units": "mm", "field": "length", "stops": answer.stops, "part": "top", "text": "564.0 mm",
    }  # fmt: skip


def test_counts_have_no_unit(registry: Registry) -> None:
    answer = ask(registry, Question("quantity", part="side-left", thickness="18"), count="3")
    assert (answer.value, answer.units) == (3, "")
    assert "item" not in answer.as_dict()


def test_mass_is_in_kilograms_whatever_the_units(registry: Registry) -> None:
    metric = ask(registry, Question("mass_kg", thickness="18"))
    paths = {"width": "600 mm", "height": "720 mm", "depth": "300 mm"}
    inch = ask(registry, Question("mass_kg", units="in", thickness="18 mm"), **paths)
    assert (metric.value, metric.units) == (inch.value, inch.units)
    assert metric.units == "kg"


@pytest.mark.parametrize(
    ("field", "part", "item", "pointer"),
    [
        ("mass_kg", "top", None, "?field"),
        ("length", None, None, "?field"),
        ("length", "top", "cup-35", "?item"),
    ],
)
def test_a_question_that_does_not_fit_is_refused(field: str, part: str | None, item: str | None, pointer: str) -> None:
    with pytest.raises(UnusableJobError) as caught:
        Question(field, part=part, item=item)
    assert [problem.pointer for problem in caught.value.problems] == [pointer]


@pytest.mark.parametrize(
    ("question", "paths", "pointer"),
    [
        (Question("length", part="topp", thickness="18"), {}, "?part"),
        (Question("quantity", item="cup-36", thickness="18"), {}, "?item"),
        (Question("length", part="top", thickness="thick"), {}, "?thickness"),
        (Question("length", part="top", thickness="18", units="feet"), {}, "?units"),
        (Question("length", part="top", thickness="18", units="mm"), {"job.units": "in"}, "?job.units"),
        (Question("length", part="top", thickness="18"), {"widht": "600"}, "?widht"),
    ],
)
def test_problems_name_the_parameter(registry: Registry, question: Question, paths: dict, pointer: str) -> None:
    with pytest.raises(UnusableJobError) as caught:
        ask(registry, question, **paths)
    assert pointer in [problem.pointer for problem in caught.value.problems]


def test_every_subject_has_fields() -> None:
    assert set(FIELDS) == {"part", "item", "cabinet"}
