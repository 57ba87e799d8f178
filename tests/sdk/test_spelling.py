"""Slips of the pen are led back to the word that was meant."""

import pytest
from casewright.sdk.spelling import nearest_word, nearest_words

WORDS = ("bevel-cleat", "screw-strip", "SPARES", "dowel")


# By difflib's measure, twice the letters in common over all letters: dowl and dowel 2·4/9 = 0.89; nail and dowel
# 2·1/9 = 0.22.
@pytest.mark.parametrize(
    ("written", "meant"),
    [("dowl", "dowel"), (" Dowel ", "dowel"), ("spares", "SPARES"), ("SCREW STRIP", "screw-strip"), ("nail", None),
     ("", None)],
)  # fmt: skip
def test_the_nearest_word(written: str, meant: str | None) -> None:
    assert nearest_word(written, WORDS) == meant


def test_the_nearest_comes_first_and_no_more_than_asked_for() -> None:
    sizes = ("bar-160", "bar-128", "bar-96", "knob-1")
    assert nearest_words("bar-12", sizes, 3)[0] == "bar-128"
    assert len(nearest_words("bar-12", sizes, 2)) == 2
    assert nearest_words("bar-12", (), 2) == ()
