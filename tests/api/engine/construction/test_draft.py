"""Drafts: sizes from one equal division are made alike, and a part grown or cut is a new one."""

from casewright.api.engine.construction.draft import ALIKE, Draft, Region, alike
from casewright.sdk.geometry import Box, Cylinder
from casewright.sdk.model import Material, Term, hole
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
    why = ((Term("height", 30),), (Term("depth", 20),))
    wood = Material("m", "sheet", "s", 10)
    draft = Draft("side", "side", "side", wood, Box(5, 6, 7, 15, 26, 37), 3, 2, *why, "case")
    part = draft.finished("bay", 2)
    assert (part.length, part.width, part.thickness) == (30, 20, 10)
    assert part.place.box(part.blank) == draft.box
    assert part.quantity == 2


def test_a_grown_or_cut_part_is_a_new_one():
    draft = Draft(
        "shelf", "shelf", "shelf", Material("m", "sheet", "s", 10), Box(0, 0, 0, 100, 50, 10), 1, 2,
        (Term("width", 100),), (Term("depth", 50),), "case",
    )  # fmt: skip
    grown = draft.grown(-1, 7, (Term("tongue", 7),)).grown(2, 3, (Term("lap", 3),))
    assert grown.box == Box(-7, 0, 0, 100, 53, 10)
    assert (grown.why_length[-1], grown.why_width[-1]) == (Term("tongue", 7), Term("lap", 3))
    drilled = hole("pin", Cylinder((5, 5, 10), -3, 2, 4))
    assert grown.cut(drilled).features == (drilled,)
    assert (draft.box, draft.features) == (Box(0, 0, 0, 100, 50, 10), ())
