"""What copies that come out alike are called: as they are counted on the wall."""

from dataclasses import replace

import pytest
from casewright.api.engine.as_built.copies import Alike, parted


@pytest.mark.parametrize(
    ("copies", "name"),
    [
        ((1,), "bay 1"),
        ((1, 2, 4, 5), "bay 1, 2, 4 and 5"),
        ((*range(1, 13), *range(14, 41)), "bay 1 to 12 and 14 to 40"),
        ((1, 3, 5, 7, 9, 11, 13, 15), "bay 1, 3, 5, 7, 9, 11 and 2 more"),
    ],
)
def test_copies_are_named_by_their_numbers(planned, copies, name):
    cabinet = replace(planned().job.cabinets[0], count=41)
    kinds = [Alike(copies, {}, as_planned=True), Alike((41,), {}, as_planned=False)]
    first, second = parted(cabinet, kinds)
    assert (first.id, second.id) == (name, "bay 41")
    assert [first.copy_name(number) for number in range(first.count)] == [f"bay {copy}" for copy in copies]
