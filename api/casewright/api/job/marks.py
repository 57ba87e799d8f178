"""How a table is written: what stands between its cells, and before decimals."""

import re
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

DELIMITERS: Mapping[str, str] = {"comma": ",", "semicolon": ";", "tab": "\t"}
DECIMALS: Mapping[str, str] = {"point": ".", "comma": ","}
"""Marks by the words they are stated in; the first of each is that of answers."""

_UNIT = r"""(\s*(?:mm|cm|m|in|ft|["'])?)"""
_NUMBER = re.compile(rf"(-?[0-9]{{1,9}})([.,])([0-9]{{1,15}}){_UNIT}", re.ASCII)
_GROUPED = re.compile(r"(-?[0-9]{1,3}(?:[.,' ][0-9]{3})+)(?:([.,])([0-9]{1,15}))?" + _UNIT, re.ASCII)
_MARKED = re.compile(r"-?[0-9.,]*[.,][0-9.,]*" + _UNIT, re.ASCII)
_IN_WORDS = re.compile(r"(?<![\w.])([0-9]+)\.([0-9]+)(?!\.?[0-9])", re.ASCII)
_TYPESET = str.maketrans({"\u2044": "/", "\u2212": "-", "\u2032": "'", "\u2019": "'", "\u2033": '"', "\u201d": '"'})
_FRACTION = re.compile("([0-9]?) ?([\u00bc-\u00be\u2150-\u215e])")
_THOUSAND = 3


@dataclass(frozen=True, slots=True)
class Marks:
    """The marks of a table; empty where they are to be guessed."""

    delimiter: str = ""
    decimal: str = ""


GUESSED = Marks()


@dataclass(frozen=True, slots=True)
class Miswritten:
    """What is wrong with the marks in a number, and what to do."""

    rule: str
    fix: str


def marks_named(delimiter: str | None, decimal: str | None) -> Marks:
    """Return the marks that words of `DELIMITERS` and `DECIMALS` name; None: to be guessed."""
    return Marks(DELIMITERS[delimiter] if delimiter else "", DECIMALS[decimal] if decimal else "")


def usual_decimal(cells: Iterable[str]) -> str:
    """Return the decimal mark of most of the numbers among some cells; the comma where that settles nothing."""
    marks = [number[2] for cell in cells if (number := _NUMBER.fullmatch(cell))]
    return "." if marks.count(".") > marks.count(",") else ","


def quoted_decimals(cells: Iterable[str]) -> bool:
    """Return whether the commas in some cells can only be decimal marks: no three digits follow any."""
    places = [number[3] for cell in cells if (number := _NUMBER.fullmatch(cell)) and number[2] == ","]
    return bool(places) and not any(len(digits) == _THOUSAND for digits in places)


def typed(cell: str) -> str:
    """Return a cell as it was typed, before the spreadsheet made one letter of a fraction, or a mark typographic.

    Every space of Unicode (thin ones, ones that no line is broken at) is a plain one.
    """
    plain = re.sub(r"\s", " ", cell.translate(_TYPESET))

    def spelt(number: re.Match[str]) -> str:
        fraction = unicodedata.normalize("NFKC", number[2]).replace("\u2044", "/")
        return f"{number[1]} {fraction}" if number[1] else fraction

    return _FRACTION.sub(spelt, plain)


def with_point(cell: str, decimal: str) -> str | Miswritten:
    """Return a cell with a decimal point, where it is a number with that mark; what is no number stays as it is."""
    number = _NUMBER.fullmatch(cell)
    if number is not None:
        whole, mark, places, unit = number.groups()
        if mark == decimal:
            return f"{whole}.{places}{unit}"
        fix = f"Write {whole}{decimal}{places}{unit}."
        if len(places) == _THOUSAND:
            fix = f"Write {whole}{places}{unit}, or with decimals {whole}{decimal}{places}{unit}."
        return Miswritten(f"one decimal mark in a table, here {decimal!r}", fix)
    grouped_number = _GROUPED.fullmatch(cell)
    if grouped_number is not None:
        whole = re.sub("[^0-9-]", "", grouped_number[1])
        places = f"{decimal}{grouped_number[3]}" if grouped_number[3] else ""
        return Miswritten("a number with nothing between its thousands", f"Write {whole}{places}{grouped_number[4]}.")
    if _MARKED.fullmatch(cell):
        return Miswritten(f"a number with at most one mark, here {decimal!r}", f"Write it as 600{decimal}5 is written.")
    return cell


def with_mark(words: str, decimal: str) -> str:
    """Return words in which each number with decimals has that mark; the point where the mark is not known."""
    return words if decimal in ("", ".") else _IN_WORDS.sub(rf"\1{decimal}\2", words)
