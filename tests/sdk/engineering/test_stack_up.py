"""Stack-ups by hand arithmetic and worked examples, and against simulated builds.

Worked examples of ten and four links: read on pages that work through root-sum-square stack-ups; the rest derived.
"""

import math
import random

import pytest
from casewright.sdk.engineering.limits import OutsideLimits
from casewright.sdk.engineering.stack_up import Link, stack_up

DRAWS = 10_000


def chain(*half_widths):
    return [Link(f"cut {number}", half) for number, half in enumerate(half_widths)]


def test_ten_alike():
    # worst case 1.0, root 0.31623, cautious 0.47434 (worked example)
    stack = stack_up(chain(*[0.1] * 10))
    assert (stack.worst, stack.root, stack.cautious) == pytest.approx((1.0, 0.31623, 0.47434), abs=1e-5)


def test_four_unlike():
    # 0.40 and 0.21213 (worked example)
    stack = stack_up(chain(0.1, 0.05, 0.15, 0.1))
    assert (stack.worst, stack.root) == pytest.approx((0.40, 0.21213), abs=1e-5)


def test_a_case_between_its_sides():
    # 2 x 18 + 564 - 2 x 6: 1.3 and sqrt(.04 + .04 + .25 + .04 + .04) = 0.64031; both dadoes at one setting add to .4
    # before the root: sqrt(.04 + .04 + .25 + .16) = 0.70000 (derived)
    sizes = [("left", 0.2), ("right", 0.2), ("between", 0.5)]
    apart = [Link(name, half) for name, half in sizes] + [Link("dado 1", 0.2, -1), Link("dado 2", 0.2, -1)]
    together = [Link(name, half) for name, half in sizes] + [Link("dado", 0.2, -1)] * 2
    assert (stack_up(apart).worst, stack_up(apart).root) == pytest.approx((1.3, 0.64031), abs=1e-5)
    assert (stack_up(together).worst, stack_up(together).root) == pytest.approx((1.3, 0.7), abs=1e-9)


def test_a_pair_of_doors_in_an_opening():
    # 600 +- .8, doors 2 x 297 +- .5: worst 1.8, root sqrt(.64 + .25 + .25) = 1.06771; a gap of 6 under 5 in 0.002479
    # of builds, from the normal distribution (derived)
    stack = stack_up([Link("opening", 0.8), Link("door 1", 0.5, -1), Link("door 2", 0.5, -1)])
    assert (stack.worst, stack.root) == pytest.approx((1.8, 1.06771), abs=1e-5)
    under = 0.5 * math.erfc(1.0 / stack.sigma / math.sqrt(2))
    assert under == pytest.approx(0.002479, abs=1e-5)


def test_a_diagonal():
    # 600 x 800, each +- .8: cosines .6 and .8 give 1.12 and .80 (derived)
    stack = stack_up([Link("width", 0.8, 0.6), Link("height", 0.8, 0.8)])
    assert (stack.worst, stack.root) == pytest.approx((1.12, 0.8), abs=1e-9)


def test_the_cautious_figure_is_never_past_the_worst_case():
    # two of .5: 1.5 x .70711 = 1.06066 is more than can be, 1.0 (derived)
    assert stack_up(chain(0.5, 0.5)).cautious == 1.0


def test_one_set_up_can_cancel():
    # both parts cut at one stop: one between, one taken away, and no error left (derived)
    stack = stack_up([Link("stop", 0.3), Link("stop", 0.3, -1)])
    assert (stack.worst, stack.root, stack.shares) == (0.0, 0.0, ())


def test_largest_first():
    # .3 and .4 make .5: 36 % and 64 % of the variance (derived)
    shares = stack_up([Link("a", 0.3), Link("b", 0.4)]).shares
    assert [(one.set_up, one.half_width) for one in shares] == [("b", 0.4), ("a", 0.3)]
    assert [one.part for one in shares] == pytest.approx([0.64, 0.36])


def test_no_links_no_error():
    assert (stack_up([]).worst, stack_up([]).cautious) == (0.0, 0.0)


@pytest.mark.parametrize("half", [-0.1, math.nan, math.inf])
def test_half_widths_that_cannot_be(half):
    with pytest.raises(OutsideLimits):
        stack_up([Link("cut", half)])


@pytest.mark.parametrize("seed", range(6))
def test_simulated_builds(seed):
    """10,000 draws, normal with 3 σ, cut off there, one error a set-up: the deviation within 3 %, and never past."""
    chance = random.Random(seed)
    links = [Link(f"set-up {chance.randrange(5)}", chance.uniform(0.05, 0.5), chance.choice([1, -1])) for _ in range(8)]
    stack = stack_up(links)
    total = 0.0
    for _ in range(DRAWS):
        errors = {link.set_up: max(-1.0, min(1.0, chance.gauss(0, 1 / 3))) for link in links}
        off = sum(link.factor * link.half_width * errors[link.set_up] for link in links)
        assert abs(off) <= stack.worst + 1e-12
        total += off * off
    assert math.sqrt(total / DRAWS) == pytest.approx(stack.sigma, rel=0.03)


@pytest.mark.parametrize(("times", "covers"), [(1.0, 0.916721), (1.5, 0.992052)])
def test_ten_uniform_errors_are_covered(times, covers):
    # ten uniform +-.1: P(|sum| <= .31623) = 0.916721, P(|sum| <= .47434) = 0.992052 (Irwin-Hall); three standard errors
    stack = stack_up(chain(*[0.1] * 10))
    chance = random.Random(1)
    within = sum(abs(sum(chance.uniform(-0.1, 0.1) for _ in range(10))) <= times * stack.root for _ in range(DRAWS))
    assert within / DRAWS == pytest.approx(covers, abs=3 * math.sqrt(covers * (1 - covers) / DRAWS))
