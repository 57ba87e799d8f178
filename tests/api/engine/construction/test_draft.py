"""Drafts: sizes from one equal division are made alike, and a method's refusal finds its place."""

import pytest
from casewright.api.engine.construction.draft import ALIKE, Draft, Region, alike, ask, require_room
from casewright.sdk.errors import NoGeometryError, PluginFaultError
from casewright.sdk.geometry import Box
from casewright.sdk.methods import CannotError
from casewright.sdk.model import Material, Term
from hypothesis import given
from hypothesis import strategies as st

near = st.lists(st.builds(lambda a, b: a * 10**6 + b, st.integers(1, 9), st.integers(0, ALIKE - 1)), max_size=20)


@given(near)
def test_alike_never_adds_and_never_takes_a_micron(sizes):
    made = alike(sizes)
    assert len(made) == len(sizes)
    for before, after in zip(sizes, made, strict=True):
        assert 0 <= before - after < ALIKE
    assert alike(made) == made


@given(near)
def test_sizes_of_one_division_come_out_equal(sizes):
    made = alike(sizes)
    for a, x in zip(sizes, made, strict=True):
        for b, y in zip(sizes, made, strict=True):
            assert (a // 10**6 == b // 10**6) == (x == y)


def test_alike_keeps_what_differs():
    assert alike([5000, 5999, 6000, 4000]) == [5000, 5000, 6000, 4000]
    assert alike([]) == []


def test_a_region_is_as_large_as_its_smaller_sibling():
    region = Region(0, 1002, 0, 501, "l", "r", "f", "t", slack_x=2, slack_z=1)
    assert (region.width, region.height) == (1000, 500)


def test_a_finished_part_stands_where_its_draft_did():
    why = {3: [Term("height", 30)], 2: [Term("depth", 20)]}
    draft = Draft("side", "side", "side", Material("m", "sheet", "s", 10), Box(5, 6, 7, 15, 26, 37), 3, 2, why, "case")
    part = draft.finished("bay", 2)
    assert (part.length, part.width, part.thickness) == (30, 20, 10)
    assert part.place.box(part.blank) == draft.box
    assert part.quantity == 2


def test_a_refusal_is_a_problem_at_its_place_and_anything_else_the_plugins_fault(working):
    work = working()

    def refuses():
        raise CannotError("a rule", "got", "fix it", "depth")

    with pytest.raises(NoGeometryError) as caught:
        ask(work, "joints", "dowel", "/cabinets/0/case/corner", refuses)
    assert caught.value.problems[0].pointer == "/cabinets/0/case/corner/depth"

    with pytest.raises(PluginFaultError) as fault:
        ask(work, "joints", "dowel", "/x", lambda: 1 // 0)
    assert (fault.value.plugin, fault.value.method) == ("joint-dowel", "dowel")
    assert "ZeroDivisionError" in fault.value.fault


def test_no_room_is_refused_at_zero_too():
    require_room(1, "/x", "room", "fix")
    with pytest.raises(NoGeometryError):
        require_room(0, "/x", "room", "fix")
