"""What the sides of parts are called: the trade's words, common practice, no source."""

import pytest
from casewright.api.engine import make_plan
from casewright.api.engine.work.sides import sides_by_part
from casewright.api.job.document import read_job
from casewright.api.use.examples import example_job
from casewright.sdk.model import Side


@pytest.fixture(scope="module")
def sides(registry):
    made = make_plan(read_job(example_job(), registry), registry, with_stock=False)
    return sides_by_part(made.parts)


@pytest.mark.parametrize(
    ("part", "names"),
    [
        ("tools/side-left", {"bottom end", "top end", "front edge", "back edge", "inside face", "outside face"}),
        ("tools/shelf-1", {"left end", "right end", "front edge", "back edge", "bottom face", "top face"}),
        ("tools/frame-stile-left", {"bottom end", "top end", "inner edge", "outer edge", "show face", "back face"}),
        ("tools/frame-mid-rail-1", {"left end", "right end", "bottom edge", "top edge", "show face", "back face"}),
        ("tools/door-1/rail-top", {"left end", "right end", "inner edge", "outer edge", "show face", "back face"}),
    ],
)
def test_the_trades_words(sides, part, names):
    assert {sides[part][side] for side in Side} == names


def test_six_names_each_and_back_again(sides):
    for names in sides.values():
        assert len({names[side] for side in Side}) == 6
        assert all(names.side(names[side]) is side for side in Side)


def test_a_mirrored_pair_is_called_alike(sides):
    """The faces change places, for the sides are mirrored; ends and edges do not."""
    left, right = sides["tools/side-left"], sides["tools/side-right"]
    swapped = {side for side in Side if left[side] != right[side]}
    assert swapped == {Side.FACE_LOW, Side.FACE_HIGH}
