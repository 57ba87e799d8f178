"""Trade checks that many methods make, each with value, limit and source. Lengths in whole nm."""

from casewright.sdk.model.parts import LENGTH, Finding
from casewright.sdk.units import INCH, MM

COMMON = "common-practice"
"""Source code of a trade habit that no document was found for."""

PROPORTIONS = "practice-joint-proportions"
"""Source code of the joint proportions taught to joiners."""


def said(nm: int) -> str:
    """Return a length in words in both systems, for messages: `9.53 mm (0.375 in)`."""
    return f"{nm / MM:.2f} mm ({nm / INCH:.3f} in)"


def below(
    code: str, message: str, value: int, caution: int, stop: int | None = None, source: str = COMMON
) -> tuple[Finding, ...]:
    """Return a stop where `value` is under `stop`, a caution where it is under `caution`, else nothing."""
    if stop is not None and value < stop:
        return (Finding(code, "stop", message, value, stop, LENGTH, source),)
    if value < caution:
        return (Finding(code, "caution", message, value, caution, LENGTH, source),)
    return ()


def beyond(
    code: str, message: str, value: int, caution: int, stop: int | None = None, source: str = COMMON
) -> tuple[Finding, ...]:
    """Return a stop where `value` is over `stop`, a caution where it is over `caution`, else nothing."""
    if stop is not None and value > stop:
        return (Finding(code, "stop", message, value, stop, LENGTH, source),)
    if value > caution:
        return (Finding(code, "caution", message, value, caution, LENGTH, source),)
    return ()
