"""How a table is written: what stands between its cells, and before decimals."""

from collections.abc import Mapping
from dataclasses import dataclass

DELIMITERS: Mapping[str, str] = {"comma": ",", "semicolon": ";", "tab": "\t"}
DECIMALS: Mapping[str, str] = {"point": ".", "comma": ","}
"""Marks by the words they are stated in; the first of each is that of answers."""


@dataclass(frozen=True, slots=True)
class Marks:
    """The marks of a table; empty where they are to be guessed."""

    delimiter: str = ""
    decimal: str = ""


GUESSED = Marks()


def marks_named(delimiter: str | None, decimal: str | None) -> Marks:
    """Return the marks that words of `DELIMITERS` and `DECIMALS` name; None: to be guessed."""
    return Marks(DELIMITERS[delimiter] if delimiter else "", DECIMALS[decimal] if decimal else "")
