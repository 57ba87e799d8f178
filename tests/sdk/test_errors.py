"""Problems and the pointers they carry, against RFC 6901."""

import pytest
from casewright.sdk.errors import NoGeometryError, Problem, pointer_to, steps_of


@pytest.mark.parametrize(
    ("steps", "pointer"),
    [  # RFC 6901, section 5
        ((), ""),
        (("foo",), "/foo"),
        (("foo", 0), "/foo/0"),
        (("",), "/"),
        (("a/b",), "/a~1b"),
        (("c%d",), "/c%d"),
        (("m~n",), "/m~0n"),
        (("~1",), "/~01"),  # section 4: `~1` in a key is not taken for an escaped slash
    ],
)
def test_a_pointer_is_written_and_read_as_the_rfc_has_it(steps, pointer):
    assert pointer_to(*steps) == pointer
    assert steps_of(pointer) == tuple(map(str, steps))


def test_a_problem_is_an_entry_of_four_fields_and_moves_under_another_place():
    problem = Problem("/width", "a length", "true", "Write 600.")
    assert problem.under("/job").as_dict() == {
        "pointer": "/job/width",
        "rule": "a length",
        "got": "true",
        "fix": "Write 600.",
    }
    assert NoGeometryError(problem).problems == (problem,)
