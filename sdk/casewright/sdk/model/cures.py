"""Cures as tried: what changes of a job clear its stops, and what each costs."""

from dataclasses import dataclass
from decimal import Decimal

from casewright.sdk.findings import Check
from casewright.sdk.patching import Patch


@dataclass(frozen=True, slots=True)
class Cure:
    """A change that was planned and seen to clear its stop with no new one.

    `cost` is what the job then costs more by its rates, or by its stock alone where it has no rates; `None` where
    neither prices it. `unpriced` counts what it changes and no rate prices. `parts` counts parts made otherwise, new or
    left out; `mass_kg` is what all cabinets then weigh more. `clears` counts stops cleared, this one too; `leaves` are
    stops about the same thing that it does not clear, and `raises` its new cautions.
    """

    words: str
    patch: Patch
    keeps: bool
    cost: Decimal | None
    unpriced: int
    parts: int
    mass_kg: float
    clears: int
    leaves: tuple[Check, ...]
    raises: tuple[Check, ...]


@dataclass(frozen=True, slots=True)
class StopCures:
    """A stop, how many changes were tried for it, and the smallest that cure it; `why_none` where none can."""

    check: Check
    tried: int
    cures: tuple[Cure, ...]
    why_none: str = ""


@dataclass(frozen=True, slots=True)
class Cures:
    """All stops of a plan with their cures, how many changes were tried for them, and how many might have been."""

    stops: tuple[StopCures, ...]
    tries: int
    most: int
