"""Rules for entries of `built` that hold whatever the plan is."""

import pytest
from casewright.api.job.document import read_job
from casewright.sdk.errors import ProblemsError
from casewright.sdk.model import BuiltMeasure

SIDE = {"cabinet": "bench", "part": "side-left", "measure": "length", "value": 699}


def test_an_entry_is_read_in_the_units_of_the_job(small, registry):
    small["built"] = [{**SIDE, "value": "27 1/2 in", "packed": "0.5 mm", "copy": 1, "at": "middle"}]
    (size,) = read_job(small, registry).built
    assert (size.measure, size.value, size.packed, size.nm) == (BuiltMeasure.LENGTH, 698_500_000, 500_000, 699_000_000)
    assert (size.pointer, size.copy, size.at, size.count) == ("/built/0", 1, "middle", None)


@pytest.mark.parametrize(
    ("entries", "pointer"),
    [
        ([{**SIDE, "cabinet": "bank"}], "/built/0/cabinet"),
        ([{k: v for k, v in SIDE.items() if k != "part"}], "/built/0/part"),
        ([{**SIDE, "measure": "outside-width"}], "/built/0/part"),
        ([{**SIDE, "copy": 3}], "/built/0/copy"),
        ([{**SIDE, "count": 3}], "/built/0/count"),
        ([{**SIDE, "count": 1, "copy": 1}], "/built/0/count"),
        ([SIDE, {**SIDE, "value": 698}], "/built/1"),
        ([{**SIDE, "copy": 1}, {**SIDE, "copy": 1, "value": 698}], "/built/1"),
        ([{**SIDE, "count": 1}, {**SIDE, "count": 1, "value": 698}, {**SIDE, "count": 1, "value": 697}], "/built/2"),
        ([{**SIDE, "value": 0}], "/built/0/value"),
        ([{**SIDE, "measure": "girth"}], "/built/0/measure"),
    ],
)
def test_what_cannot_be_is_refused_at_its_place(small, registry, entries, pointer):
    small["cabinets"][0]["count"] = 2
    small["built"] = entries
    with pytest.raises(ProblemsError) as refused:
        read_job(small, registry)
    assert [problem.pointer for problem in refused.value.problems] == [pointer]


def test_one_part_may_be_measured_at_several_places(small, registry):
    small["built"] = [{**SIDE, "at": "front"}, {**SIDE, "at": "back", "value": 698}]
    assert len(read_job(small, registry).built) == 2


@pytest.mark.parametrize(
    ("entry", "pointer"),
    [
        ({"cabinet": "bench", "part": "side-left", "value": 5}, "/built/0/measure"),
        ({**SIDE, "mistake": "groove-on-wrong-face"}, "/built/0/measure"),
        ({"cabinet": "bench", "part": "door-1", "mistake": "meets-neighbour"}, "/built/0/value"),
        ({"cabinet": "bench", "part": "side-left", "measure": "length"}, "/built/0/value"),
        ({"cabinet": "bench", "mistake": "panel-forgotten"}, "/built/0/part"),
        ({"cabinet": "bank", "part": "door-1", "mistake": "panel-forgotten"}, "/built/0/cabinet"),
        ({"cabinet": "bench", "part": "door-1", "mistake": "panel-forgotten", "copy": 2}, "/built/0/copy"),
    ],
)
def test_an_entry_is_a_size_or_a_mistake(small, registry, entry, pointer):
    small["built"] = [entry]
    with pytest.raises(ProblemsError) as refused:
        read_job(small, registry)
    assert [problem.pointer for problem in refused.value.problems] == [pointer]
