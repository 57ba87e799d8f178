"""Which known words one that is not known was meant to be."""

from collections.abc import Iterable
from difflib import get_close_matches

ALIKE = 0.7
"""How alike two words are, of 1, that one may stand for by mistake: "widht" and "width", not "count" and "cost"."""


def nearest_words(word: str, known: Iterable[str], most: int) -> tuple[str, ...]:
    """Return the known words most like one, the nearest first; capitals and spaces at its ends make no difference."""
    lowered = {one.lower(): one for one in reversed(list(known))}
    return tuple(lowered[near] for near in get_close_matches(word.strip().lower(), lowered, n=most, cutoff=ALIKE))


def nearest_word(word: str, known: Iterable[str]) -> str | None:
    """Return the known word most like one, or None where none is near."""
    return next(iter(nearest_words(word, known, 1)), None)
