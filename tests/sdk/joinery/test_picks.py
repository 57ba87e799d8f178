"""Picking hardware by the wood it goes in."""

from casewright.sdk.joinery.picks import nearest, split_depth
from casewright.sdk.units import INCH, MM


def test_a_pin_goes_no_deeper_than_two_thirds_of_its_host() -> None:
    # common practice, no source
    assert split_depth(35 * MM, MM, 18 * MM) == (12 * MM, 25 * MM)
    assert split_depth(40 * MM, MM, 60 * MM) == (21 * MM, 21 * MM)


def test_a_pin_is_let_into_hosts_nearly_alike_equally_deep() -> None:
    # common practice, no source: depths are set by a rule's halves of a mm and 64ths of an inch. Two thirds of 36.0
    # are 24.0 and of 36.1 24.07; half of 2 in and 1/16 is 1 1/16, and two thirds of 1 1/2 in are 1 in.
    inch = (2 * INCH, INCH // 16)
    assert split_depth(50 * MM, MM, 36 * MM) == (24 * MM, 28 * MM)
    assert split_depth(50 * MM, MM, 36 * MM + MM // 10) == (24 * MM, 28 * MM)
    assert split_depth(*inch, 3 * INCH // 2) == (INCH, 9 * INCH // 8)
    assert split_depth(*inch, 3 * INCH // 2 + MM // 10) == (INCH, 9 * INCH // 8)
    assert split_depth(*inch, MM // 2)[0] == MM // 3


def test_the_nearest_is_the_smaller_and_then_the_first_by_id_on_a_tie() -> None:
    class Pin:
        def __init__(self, name: str, size: int) -> None:
            self.id, self.size = name, size

    pins = [Pin("b", 12), Pin("a", 12), Pin("c", 8), Pin("d", 20)]
    assert nearest(pins, lambda p: p.size, 10).id == "c"
    assert nearest(pins, lambda p: p.size, 11).id == "a"
    assert nearest([], lambda p: p.size, 11) is None
