"""Strict fields for option schemas: what JSON says is what is taken, and nothing is turned into another type.

A method's options are a marshmallow schema made of these. `Length` reads by the units of the job in hand,
so a schema is loaded inside `units_in_force`. Each field carries what OpenAPI needs in its metadata.
"""

import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from typing import Any, TypeVar

from casewright.sdk.spelling import nearest_word
from casewright.sdk.units import GREATEST, MM, NM_PER_UNIT, LengthError, TooLongError, Units, parse_length
from marshmallow import Schema, ValidationError, fields

__all__ = ["Choice", "Count", "Flag", "Flaw", "Length", "Number", "OptionSchema", "Text", "units_in_force"]

_units: ContextVar[Units] = ContextVar("casewright_units", default="mm")

_CONTROL = re.compile(r"[\x00-\x1f\x7f-\x9f\ud800-\udfff]")
"""A control character or half of a surrogate pair."""

LEAST_TEXT, LONGEST_TEXT = 0, 200
WITHIN = "Give one within these bounds."

_T = TypeVar("_T")


@dataclass(frozen=True, slots=True)
class Flaw:
    """What is wrong with one value: the rule it breaks and what to do. Problems are built from these fields.

    `beyond_schema` marks a rule that a published JSON Schema cannot state, such as a bound that depends on
    the job's units: the document reads well but cannot be used.
    """

    rule: str
    fix: str
    beyond_schema: bool = False


def refuse(rule: str, fix: str, *, beyond_schema: bool = False) -> ValidationError:
    """Return the error that carries one flaw."""
    return ValidationError([Flaw(rule, fix, beyond_schema)])


@contextmanager
def units_in_force(units: Units) -> Iterator[None]:
    """Read every `Length` inside the block in these units."""
    token = _units.set(units)
    try:
        yield
    finally:
        _units.reset(token)


def units_now() -> Units:
    """Return the units that lengths are read in."""
    return _units.get()


class OptionSchema(Schema):
    """Base of every method's options. Unknown keys are refused."""


class _Option(fields.Field[_T]):
    """A field of options; `about` is its description, which OpenAPI publishes."""

    def __init__(self, *, about: str = "", **kwargs: Any) -> None:
        if about:
            kwargs["metadata"] = {**kwargs.get("metadata", {}), "description": about}
        super().__init__(**kwargs)


class Length(_Option[int]):
    """A length: a JSON number or text in job units, or text with its own unit. Loads to whole nm.

    `least` and `most` are inclusive bounds in nm. Where `least` is not negative, no minus sign is read.
    """

    def __init__(self, *, least: int = 0, most: int = 20_000_000_000, **kwargs: Any) -> None:
        self.least, self.most = least, most
        super().__init__(**kwargs)

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> int:
        units = _units.get()
        try:
            nm = parse_length(value, units)
        except TooLongError:
            raise self._beyond(value) from None
        except LengthError as error:
            reads = error.reads and not self._out_of_schema(value)
            raise refuse("a length", f"This is {error.why}. {error.fix}", beyond_schema=reads) from None
        if not self.least <= nm <= self.most or (self.least >= 0 and self._has_minus(value)):
            raise self._beyond(value)
        return nm

    def _beyond(self, value: object) -> ValidationError:
        """Return the refusal of a length out of bounds, which are written so that what stands there is within them."""
        units = _units.get()
        low, high = (Decimal(nm) / NM_PER_UNIT[units] for nm in (self.least, self.most))
        rule = f"a length from {_short(low, ROUND_CEILING)} to {_short(high, ROUND_FLOOR)} {units}"
        return refuse(rule, WITHIN, beyond_schema=not self._out_of_schema(value))

    def _out_of_schema(self, value: object) -> bool:
        """Whether the published schema already rules the value out: its sign, or a number above any length."""
        if self.least >= 0 and self._has_minus(value):
            return True
        return not isinstance(value, str) and isinstance(value, (int, float)) and abs(value) > GREATEST // MM

    @staticmethod
    def _has_minus(value: object) -> bool:
        if isinstance(value, str):
            return value.lstrip().startswith("-")
        return isinstance(value, (int, float)) and value < 0


def _short(size: Decimal, rounding: str) -> str:
    text = f"{size.quantize(Decimal('0.0001'), rounding):f}"
    return text.rstrip("0").rstrip(".")


class Count(_Option[int]):
    """A whole JSON number (`3` and `3.0` are the same number); text and fractions are refused."""

    def __init__(self, *, least: int = 0, most: int = 10_000, **kwargs: Any) -> None:
        self.least, self.most = least, most
        super().__init__(**kwargs)

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> int:
        rule = f"a whole number from {self.least} to {self.most}"
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            raise refuse(rule, "Write a whole number without quotes.")
        if isinstance(value, float) and not value.is_integer():
            raise refuse(rule, "Write it without a fraction.")
        if not self.least <= value <= self.most:
            raise refuse(rule, WITHIN)
        return int(value)


class Number(_Option[float]):
    """A finite JSON number within inclusive bounds; text is refused."""

    def __init__(self, *, least: float = 0.0, most: float = 1e9, **kwargs: Any) -> None:
        self.least, self.most = least, most
        super().__init__(**kwargs)

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> float:
        rule = f"a number from {self.least:.10g} to {self.most:.10g}"
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            raise refuse(rule, "Write a number without quotes.")
        if not self.least <= value <= self.most:  # comparing refuses NaN and suits ints past any double
            raise refuse(rule, WITHIN)
        return float(value)


class Flag(_Option[bool]):
    """JSON `true` or `false` and nothing else."""

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> bool:
        if not isinstance(value, bool):
            raise refuse("true or false", "Write true or false without quotes.")
        return value


class Text(_Option[str]):
    """Text of bounded length without control characters or lone surrogates."""

    def __init__(
        self, *, least: int = LEAST_TEXT, most: int = LONGEST_TEXT, pattern: str | None = None, **kwargs: Any
    ) -> None:
        self.least, self.most, self.pattern = least, most, pattern
        self._compiled = None if pattern is None else re.compile(pattern)
        super().__init__(**kwargs)

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> str:
        if not isinstance(value, str):
            raise refuse("text", "Write it in quotes." if isinstance(value, (int, float)) else "Write text in quotes.")
        if not self.least <= len(value) <= self.most:
            fix = "Shorten it." if len(value) > self.most else "Write more." if value else "Write something."
            raise refuse(f"text of {self.least} to {self.most} characters", fix)
        if _CONTROL.search(value):
            raise refuse("text without control characters", "Remove line breaks and control characters.")
        if self._compiled is not None and not self._compiled.search(value):
            raise refuse(f"text that matches {self.pattern}", "Use only the characters this pattern allows.")
        return value


class Choice(_Option[str]):
    """One of a few words."""

    def __init__(self, *words: str, **kwargs: Any) -> None:
        self.words = words
        super().__init__(**kwargs)

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> str:
        if not isinstance(value, str) or value not in self.words:
            near = nearest_word(value, self.words) if isinstance(value, str) else None
            fix = f'Write "{near}".' if near else "Write one of these words."
            raise refuse(f"one of {', '.join(self.words)}", fix)
        return value
