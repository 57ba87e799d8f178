"""Picking hardware by the wood it goes in."""

from casewright.sdk.joinery.picks import nearest, split_depth
from casewright.sdk.units import MM


def test_a_pin_goes_no_deeper_than_two_thirds_of_its_host() -> None:
    # common practice, no source
    assert split_depth(35 * MM, MM, 18 * MM) == (12 * MM, 25 * MM)
    assert split_depth(40 * MM, MM, 60 * MM) == (21 * MM, 21 * MM)


def test_the_nearest_is_the_smaller_and_then_the_first_by_id_on_a_tie() -> None:
    class Pin:
        def __init__(self, name: str, size: int) -> None:
            self.id, self.size = name, size

    pins = [Pin("b", 12), Pin("a", 12), Pin("c", 8), Pin("d", 20)]
    assert nearest(pins, lambda p: p.size, 10).id == "c"
    assert nearest(pins, lambda p: p.size, 11).id == "a"
    assert nearest([], lambda p: p.size, 11) is None
