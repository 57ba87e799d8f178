"""Lengths as whole nanometres, read from job documents and written for the bench.

Both systems are exact in nanometres (1 in = 25 400 000 nm, 1 mm = 1 000 000 nm), so sums close.
No float carries a length: a JSON number is taken to the nearest nanometre as it enters, and a
number in job units is made only as it leaves.
"""

import re
from decimal import ROUND_HALF_EVEN, Decimal, InvalidOperation
from fractions import Fraction
from functools import lru_cache
from math import gcd
from typing import Literal

Units = Literal["in", "mm"]

MM = 1_000_000
INCH = 25_400_000

NM_PER_UNIT: dict[str, int] = {"in": INCH, "mm": MM}
_NM_PER_SUFFIX: dict[str, int] = {
    "mm": MM,
    "cm": 10 * MM,
    "m": 1000 * MM,
    "in": INCH,
    '"': INCH,
    "ft": 12 * INCH,
    "'": 12 * INCH,
}

LONGEST_TEXT = 40
"""Longest length text read, in characters."""

GREATEST = 100_000 * MM
"""Greatest length read either side of zero: 100 m, in nm."""

_LENGTH = re.compile(
    r"""^\s*(?P<sign>[+-])?\s*
    (?:
      (?:(?P<whole>\d{1,9})(?:\s+|-))?(?P<top>\d{1,6})\s*/\s*(?P<under>\d{1,6})
      | (?P<decimal>\d{1,9}(?:\.\d{0,12})?|\.\d{1,12})
    )
    \s*(?P<unit>mm|cm|m|in|ft|"|')?\s*$""",
    re.VERBOSE | re.ASCII,
)

LENGTH_PATTERN = (
    r"^[ \t\n\r\f\v]*[+-]?[ \t\n\r\f\v]*"
    r"(([0-9]{1,9}([ \t\n\r\f\v]+|-))?[0-9]{1,6}[ \t\n\r\f\v]*/[ \t\n\r\f\v]*[0-9]{1,6}"
    r"|[0-9]{1,9}(\.[0-9]{0,12})?|\.[0-9]{1,12})"
    r"[ \t\n\r\f\v]*(mm|cm|m|in|ft|[\x22'])?[ \t\n\r\f\v]*$"
)
"""The same grammar of length text as a pattern that JSON Schema can state."""

TAPES: dict[str, tuple[Fraction, ...]] = {
    "in": tuple(Fraction(1, n) for n in (1, 2, 4, 8, 16, 32, 64, 128)),
    "mm": (Fraction(1), Fraction(1, 2), Fraction(1, 10), Fraction(1, 100)),
}
"""Tape divisions a job may ask for, in job units."""

DEFAULT_TAPE: dict[str, Fraction] = {"in": Fraction(1, 64), "mm": Fraction(1, 10)}


class LengthError(ValueError):
    """A value that is not a length; `why` says what is wrong and `fix` what would do.

    `reads` is true for a value written as a length should be whose size cannot be used.
    """

    def __init__(self, got: object, why: str, fix: str, *, reads: bool = False) -> None:
        super().__init__(f"{why}: {got!r}. {fix}")
        self.got = got
        self.why = why
        self.fix = fix
        self.reads = reads


class TooLongError(LengthError):
    """A length beyond the greatest that is read."""


def mm(value: int | str) -> int:
    """Return whole nanometres for millimetres given as an int or length text, for example `mm("12.5")`.

    Taken to the nearest nanometre. Raises `LengthError` for anything else.
    """
    return parse_length(value, "mm")


def inches(value: int | str) -> int:
    """Return whole nanometres for inches given as an int or length text, for example `inches("-1 1/2")`.

    Taken to the nearest nanometre. Raises `LengthError` for anything else.
    """
    return parse_length(value, "in")


def parse_length(value: object, units: Units) -> int:
    """Read a length in nanometres from a JSON number or text.

    `value` is a number or text in job `units`, or text with its own unit (`"600 mm"`, `"3/4 in"`).
    The result is taken to the nearest nanometre. Raises `LengthError` for anything else.
    """
    if isinstance(value, bool) or value is None or not isinstance(value, (int, float, str)):
        raise LengthError(value, "not a length", _example(units))
    if isinstance(value, str):
        nm = _parse_text(value, units)
    elif isinstance(value, int):
        nm = value * NM_PER_UNIT[units]
    else:
        nm = _parse_float(value, units)
    if not -GREATEST <= nm <= GREATEST:
        most = "100 m" if units == "mm" else f"{GREATEST / NM_PER_UNIT[units]:.7g} in"
        raise TooLongError(value, f"a length beyond {most}", f"Give one of at most {most}.", reads=True)
    return nm


def _parse_float(value: float, units: Units) -> int:
    try:
        exact = Decimal(repr(value)) * NM_PER_UNIT[units]
        return int(exact.to_integral_value(rounding=ROUND_HALF_EVEN))
    except (InvalidOperation, OverflowError, ValueError):
        raise LengthError(value, "not a finite number", _example(units)) from None


@lru_cache(maxsize=1024)
def _parse_text(text: str, units: Units) -> int:
    match = _LENGTH.match(text) if len(text) <= LONGEST_TEXT else None
    if match is None:
        raise LengthError(text[:LONGEST_TEXT], "text that is not a length", _example(units))
    scale = _NM_PER_SUFFIX[match["unit"]] if match["unit"] else NM_PER_UNIT[units]
    if match["decimal"] is not None:
        size = Fraction(Decimal(match["decimal"]))
    else:
        under = int(match["under"])
        if under == 0:
            raise LengthError(text, "a fraction over zero", _example(units), reads=True)
        size = Fraction(int(match["whole"] or 0)) + Fraction(int(match["top"]), under)
    nm = round(size * scale)
    return -nm if match["sign"] == "-" else nm


def _example(units: Units) -> str:
    if units == "in":
        return 'Give a number or text in inches such as 23.625, "23 5/8", "23-5/8", or name a unit: "600 mm".'
    return 'Give a number or text in millimetres such as 600 or "600.5", or name a unit: "23 5/8 in".'


def to_number(nm: int, units: Units) -> float | int:
    """Return a length as a JSON number in job units: an int where it is whole, else the nearest double."""
    per = NM_PER_UNIT[units]
    whole, rest = divmod(nm, per)
    return whole if rest == 0 else nm / per


def exact_text(nm: int) -> str:
    """Return a length to the nanometre, for an author who looks for a single one: `6.000001 mm`, or `4 nm`."""
    if 0 < abs(nm) < 1000:
        return f"{nm} nm"
    text = f"{Decimal(nm) / MM:.6f}"
    return f"{text.rstrip('0').rstrip('.')} mm"


def tape_text(nm: int, units: Units, tape: Fraction) -> str:
    """Return a length as bench text rounded to `tape` (a division of the unit), for example `23 5/8 in`."""
    top, under = tape.as_integer_ratio()
    steps = _steps(nm * under, NM_PER_UNIT[units] * top)
    if units == "mm":
        places = 0 if under == 1 else 2 if under > 10 else 1
        return f"{steps * top / under:.{places}f} mm"
    sign = "-" if steps < 0 else ""
    whole, rest = divmod(abs(steps) * top, under)
    if rest == 0:
        return f"{sign}{whole} in"
    common = gcd(rest, under)
    fraction = f"{rest // common}/{under // common}"
    return f"{sign}{whole} {fraction} in" if whole else f"{sign}{fraction} in"


def bit_text(nm: int, units: Units, tape: Fraction) -> str:
    """Return the width of a bit or cutter as it is sold: in mm where it is a whole half of one and off the tape."""
    metric = nm % (MM // 2) == 0 and not on_tape(nm, units, tape)
    return f"{nm / MM:g} mm" if metric else tape_text(nm, units, tape)


def on_tape(nm: int, units: Units, tape: Fraction) -> bool:
    """Return whether rounding to the tape leaves a length where it is, to the nearest nanometre."""
    top, under = tape.as_integer_ratio()
    step = NM_PER_UNIT[units] * top
    return abs(_steps(nm * under, step) * step - nm * under) < under


def _steps(size: int, step: int) -> int:
    """Return the nearest whole number of steps in a size, halves to the even one."""
    steps, rest = divmod(size, step)
    return steps + (2 * rest > step or (2 * rest == step and steps % 2 == 1))
