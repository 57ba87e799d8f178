"""A job handed in by a Python program: JSON values, and numbers of other kinds turned into them exactly.

Integers and floats of any kind (numpy's too), `Decimal` and `Fraction` are read; a fraction that no decimal says is
written as text, `1/3`, as a tape is read. Whatever else there is is a problem with its place.
"""

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from math import isfinite
from typing import Any

from casewright.api.job import limits
from casewright.api.job.problems import Findings
from casewright.sdk.errors import BadDocumentError, Problem, pointer_to

_FIX = "Give text, a number, true, false, None, a list or a mapping."


def json_values(job: object) -> Any:
    """Return a job as JSON values. Raises `BadDocumentError` naming what is none."""
    if not isinstance(job, Mapping):
        problem = Problem("", "a mapping, or JSON text as str or bytes", type(job).__name__, "Give the job document.")
        raise BadDocumentError(problem)
    findings = Findings()
    values = _plain(job, "", 0, findings)
    findings.settle()
    return values


def _plain(value: object, at: str, depth: int, findings: Findings) -> Any:
    if value is None or isinstance(value, bool):
        return value
    if isinstance(value, str):
        return str(value)
    if depth > limits.JSON_DEPTH:
        findings.add(
            at, f"at most {limits.JSON_DEPTH} objects and lists inside one another", "more", "Nest less deeply."
        )
        return None
    if isinstance(value, Mapping):
        return _object(value, at, depth, findings)
    if isinstance(value, (list, tuple)):
        return [_plain(one, f"{at}/{i}", depth + 1, findings) for i, one in enumerate(value)]
    number = _number(value)
    if number is not None:
        return number
    unpacked = getattr(value, "tolist", None)  # numpy's arrays and scalars
    if callable(unpacked):
        return _plain(unpacked(), at, depth + 1, findings)
    findings.add(at, "a JSON value", type(value).__name__, _FIX)
    return None


def _object(value: Mapping[Any, Any], at: str, depth: int, findings: Findings) -> dict[str, Any]:
    out = {}
    for key, inner in value.items():
        if isinstance(key, str):
            out[str(key)] = _plain(inner, at + pointer_to(key), depth + 1, findings)
        else:
            findings.add(at, "keys that are text", repr(key), "Write the key in quotes.")
    return out


def _number(value: object) -> int | float | str | None:
    """Return a number as JSON holds it, or as text where no decimal says it; None for what is no finite number."""
    if isinstance(value, int):
        return int(value)
    if isinstance(value, float):
        return float(value) if isfinite(value) else None
    if isinstance(value, Decimal):
        return _decimal(value) if value.is_finite() else None
    if isinstance(value, Fraction):
        exact = Decimal(value.numerator) / Decimal(value.denominator)
        return _decimal(exact) if Fraction(exact) == value else str(value)
    return None


def _decimal(value: Decimal) -> int | float | str:
    if value == value.to_integral_value():
        return int(value)
    near = float(value)
    return near if Decimal(repr(near)) == value else format(value, "f")
