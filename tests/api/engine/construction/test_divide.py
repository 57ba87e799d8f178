"""Dividing a length: sizes are kept, shares are alike, nothing is lost."""

import pytest
from casewright.api.engine.construction.divide import divided, left_over
from casewright.sdk.errors import NoGeometryError
from casewright.sdk.model import Space
from casewright.sdk.units import MM
from casewright.sdk.writer import MILLIMETRES
from hypothesis import given
from hypothesis import strategies as st

entries = st.lists(
    st.builds(
        lambda size, share: Space("", size=size, share=share),
        st.none() | st.integers(1, 10**8),
        st.integers(1, 9),
    ),
    min_size=1,
    max_size=6,
)


@given(entries, st.integers(0, 3 * 10**7), st.integers(1, 10**10))
def test_what_is_divided_adds_up(rows, between, clear):
    rows = tuple(rows)
    try:
        sizes = divided(clear, between, rows, "/x", MILLIMETRES)
    except NoGeometryError:
        sized = sum(row.size or 0 for row in rows) + between * (len(rows) - 1)
        everyone = all(row.size is not None for row in rows)
        reject = sized != clear if everyone else sized >= clear
        assert reject
        return
    assert sum(sizes) + between * (len(rows) - 1) == clear
    for row, size in zip(rows, sizes, strict=True):
        assert row.size is None or size == row.size


@given(st.integers(2, 6), st.integers(10**6, 10**10), st.integers(0, 10**5))
def test_equal_shares_differ_by_less_than_their_number(n, clear, between):
    sizes = divided(clear, between, tuple(Space("") for _ in range(n)), "", MILLIMETRES)
    middle = sizes.pop(n // 2)
    assert len(set(sizes)) == 1
    assert 0 <= middle - sizes[0] < n


def test_shares_weigh():
    # 1000 less a part of 100 leaves 900 for shares of 1 and 2
    assert divided(1000, 100, (Space("", share=1), Space("", share=2)), "", MILLIMETRES) == [300, 600]


def test_a_remainder_goes_to_the_middle_one_that_shares():
    assert divided(100, 0, (Space(""), Space(""), Space("", size=33)), "", MILLIMETRES) == [33, 34, 33]
    assert divided(101, 0, (Space(""), Space("", size=33), Space(""), Space("")), "", MILLIMETRES) == [22, 33, 24, 22]


@given(st.integers(2, 10**9), st.integers(0, 10**5), st.lists(st.integers(1, 9), min_size=2, max_size=5))
def test_without_what_is_left_over_sizes_are_in_the_proportion_of_their_shares(clear, between, shares):
    rows = tuple(Space("", share=share) for share in shares)
    clear += between * len(rows) + sum(shares)
    sizes = divided(clear, between, rows, "", MILLIMETRES)
    over = left_over(sizes, rows)
    assert 0 <= sum(over) < sum(shares)
    assert len({(size - more) / share for size, more, share in zip(sizes, over, shares, strict=True)}) == 1


@pytest.mark.parametrize(
    ("sizes", "fix", "followed"),
    [  # by hand, of 100 mm
        ((60, 50), "Make sizes smaller by 10 mm in all, take entries away, or leave one", (50, 50)),
        ((60, 50), "entry without `size` so that it takes what is left.", (60, None)),
        ((40, 50), "Make sizes larger by 10 mm in all, or leave one entry without `size`", (40, 60)),
        ((120, 60), "or leave the largest without `size` so that it takes what is left.", (None, 60)),
        ((150, 120), "Make sizes smaller by 170 mm in all, or take entries away.", (50, 50)),  # either is too large
        ((100, None), "Make sizes smaller by more than 0 mm in all, or take entries away.", (99, None)),
        ((120, None), "Make sizes smaller by more than 20 mm in all", (99, None)),
    ],
)
def test_sizes_that_do_not_fit_are_refused_with_a_way_out_that_works(sizes, fix, followed):
    bad, good = [tuple(Space("", size=size and size * MM) for size in one) for one in (sizes, followed)]
    with pytest.raises(NoGeometryError) as caught:
        divided(100 * MM, 0, bad, "/cabinets/0/space/bays", MILLIMETRES)
    assert fix in caught.value.problems[0].fix
    assert sum(divided(100 * MM, 0, good, "", MILLIMETRES)) == 100 * MM


@pytest.mark.parametrize("width", [600.0, 600.000001, 600.000002, 777.777777, 613.370001])
def test_the_doors_of_a_pair_over_two_shares_and_of_one_over_one_are_alike(planned, width):
    """Inset with gaps of 2 and 4 between a pair: (2u - 2·2 - 4)/2 = u - 2·2, in whichever bay the nm left over is."""
    doors = {"style": "slab", "material": "case", "hang": "inset", "gap": 2, "meeting_gap": 4}
    for pair in (0, 1):
        bays = [{"front": "door"}, {"front": "door"}]
        bays[pair] = {"front": "door-pair", "share": 2}
        plan = planned({"width": width, "space": {"bays": bays}, "doors": doors})
        sizes = {part.width if part.grain == "length" else part.length for part in plan.parts if "door-" in part.id}
        assert len(sizes) == 1
