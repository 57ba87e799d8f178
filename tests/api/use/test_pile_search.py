"""Points of a grid: climbing and the bound, against every point looked at, on sets that hold what is smaller."""

from itertools import product
from math import prod

from casewright.api.use.pile_search import Grid, best_points, upper_bound
from hypothesis import given, settings
from hypothesis import strategies as st


def grid_of(sizes, limits):
    """Return a grid whose points yield where each weighted sum of places is within its limit, worth their product."""

    def within(point):
        return all(sum(w * p for w, p in zip(weights, point, strict=True)) <= most for weights, most in limits)

    def worth(point):
        return (prod(p + 5 for p in point),)

    return Grid(tuple(sizes), worth, within, within)


GRIDS = st.integers(1, 3).flatmap(
    lambda n: st.tuples(
        st.lists(st.integers(1, 7), min_size=n, max_size=n),
        st.lists(
            st.tuples(st.lists(st.integers(0, 5), min_size=n, max_size=n), st.integers(0, 40)), min_size=1, max_size=3
        ),
    )
)


@settings(max_examples=150)
@given(GRIDS)
def test_the_best_of_all_points_is_found_and_no_more_than_the_bound(drawn) -> None:
    sizes, limits = drawn
    grid = grid_of(sizes, limits)
    every = [point for point in product(*[range(n) for n in sizes]) if grid.yields(point)]
    points = best_points(grid, 1, lambda: grid.tried < 2_000)
    best = max(grid.worth(point) for point in every)
    assert all(grid.yields(point) for point in points)
    assert grid.worth(points[0]) == best
    assert upper_bound(grid, 10_000) == best
    few = upper_bound(grid, 3)
    assert few is not None
    assert few >= best


def test_a_grid_of_which_nothing_is_possible_has_no_bound() -> None:
    nothing = Grid((3, 3), lambda point: (sum(point),), lambda point: False, lambda point: False)
    assert upper_bound(nothing, 100) is None
    assert best_points(nothing, 1, lambda: True) == []


def test_a_climb_begins_only_while_there_is_more_to_try() -> None:
    grid = grid_of([50, 50, 50], [([1, 1, 1], 60)])
    best_points(grid, 1, lambda: grid.tried < 40)
    # a climb of three ranges of 50 is at most 2 x 6 tries a range, over its ranges once more: some 40 beyond the count
    assert 40 <= grid.tried <= 80


def test_what_a_larger_point_yields_or_a_smaller_one_does_not_is_not_tried() -> None:
    grid = grid_of([10, 10], [([1, 1], 9)])
    assert grid.has((4, 5))
    assert not grid.has((5, 5))
    assert grid.tried == 2
    assert grid.has((3, 5))
    assert not grid.has((6, 5))
    assert grid.tried == 2
    assert grid.has((0, 9))
    assert grid.tried == 3
