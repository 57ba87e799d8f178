"""Trade checks that many methods make: a length against the bound it should keep, with its source."""

from dataclasses import dataclass

from casewright.sdk.findings import LENGTH, Finding, Level

COMMON = "common-practice"
"""Source code of a trade habit that no document was found for."""

PROPORTIONS = "practice-joint-proportions"
"""Source code of the joint proportions taught to joiners."""


@dataclass(frozen=True, slots=True)
class Bound:
    """What a length should keep to, in nm: past `caution` is a caution, past `stop` (if any) a stop."""

    caution: int
    stop: int | None = None
    source: str = COMMON


def check_least(code: str, message: str, value: int, bound: Bound) -> tuple[Finding, ...]:
    """Return a stop where `value` is under `bound.stop`, a caution where it is under `bound.caution`, else nothing."""
    if bound.stop is not None and value < bound.stop:
        return _finding(code, message, value, "stop", bound)
    return _finding(code, message, value, "caution", bound) if value < bound.caution else ()


def check_most(code: str, message: str, value: int, bound: Bound) -> tuple[Finding, ...]:
    """Return a stop where `value` is over `bound.stop`, a caution where it is over `bound.caution`, else nothing."""
    if bound.stop is not None and value > bound.stop:
        return _finding(code, message, value, "stop", bound)
    return _finding(code, message, value, "caution", bound) if value > bound.caution else ()


def _finding(code: str, message: str, value: int, level: Level, bound: Bound) -> tuple[Finding, ...]:
    limit = bound.stop if level == "stop" else bound.caution
    return (Finding(code, level, message, value, limit, LENGTH, bound.source),)
