"""Limits of validity as code: an equation used outside its range refuses by a named check."""

import math

from casewright.sdk.writer import MILLIMETRES, Writer

SLACK = 1e-9


class OutsideLimits(ValueError):  # noqa: N818 - the name says what happened, as the plan's checks do
    """An input lies outside the range an equation is good for.

    `check_code` names the check (stable, kebab-case), `quantity` the input, `low` and `high` the range (None
    where open), `unit` their unit, `source` the code of the document that sets the range.
    """

    def __init__(
        self,
        check_code: str,
        quantity: str,
        value: float,
        low: float | None,
        high: float | None,
        unit: str,
        source: str,
    ) -> None:
        self.check_code, self.quantity, self.value = check_code, quantity, value
        self.low, self.high, self.unit, self.source = low, high, unit, source
        super().__init__(self.message(MILLIMETRES))

    def message(self, write: Writer) -> str:
        """Return what is outside which range, in the units of a job."""
        bounds = []
        if self.low is not None:
            bounds.append(f"at least {write.quantity(self.low, self.unit)}")
        if self.high is not None:
            bounds.append(f"at most {write.quantity(self.high, self.unit)}")
        span = " and ".join(bounds) or "a finite number"
        return f"{self.quantity} is {write.quantity(self.value, self.unit)}; it must be {span}"

    def __reduce__(self) -> tuple[type["OutsideLimits"], tuple[object, ...]]:
        """Rebuild from the structured fields, so the error can cross process borders."""
        return type(self), (
            self.check_code,
            self.quantity,
            self.value,
            self.low,
            self.high,
            self.unit,
            self.source,
        )


def within(
    check_code: str,
    quantity: str,
    value: float,
    low: float | None,
    high: float | None,
    unit: str,
    source: str,
) -> float:
    """Return `value` when low <= value <= high (both ends allowed); otherwise raise `OutsideLimits`.

    A value within one part in 10^9 of a bound is on it, so that inch and metric jobs are judged alike.
    """
    if (low is None or value >= low) and (high is None or value <= high) and value - value == 0.0:
        return value  # the usual case; infinities and NaN give a difference that is not zero
    too_low = low is not None and value < low - SLACK * abs(low)
    too_high = high is not None and value > high + SLACK * abs(high)
    if not math.isfinite(value) or too_low or too_high:
        raise OutsideLimits(check_code, quantity, value, low, high, unit, source)
    return value
