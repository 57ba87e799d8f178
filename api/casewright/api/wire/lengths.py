"""Lengths and masses as they leave: numbers in job units, and text for the bench rounded to the tape."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Self

from casewright.sdk.engineering.units import KG_PER_LB
from casewright.sdk.model import Job
from casewright.sdk.units import NM_PER_UNIT, Units, tape_text, to_number

Document = dict[str, Any]
"""A JSON object, ready for the JSON writer."""


class Numbers(dict[int, float | int]):
    """Lengths in nm to numbers in job units, each worked out once."""

    def __init__(self, units: Units) -> None:
        super().__init__()
        self.units = units

    def __missing__(self, nm: int) -> float | int:
        number = self[nm] = to_number(nm, self.units)
        return number


class Texts(dict[int, str]):
    """Lengths in nm to bench text, each worked out once; `moved` says how far rounding shifts a length."""

    def __init__(self, units: Units, tape: Fraction) -> None:
        super().__init__()
        self.units, self.tape = units, tape
        step = NM_PER_UNIT[units] * tape
        self._top, self._under = step.numerator, step.denominator

    def __missing__(self, nm: int) -> str:
        text = self[nm] = tape_text(nm, self.units, self.tape)
        return text

    def moved(self, nm: int) -> int:
        """Return by how many nm (rounded down) the tape text differs from the length."""
        past = nm * self._under % self._top
        return min(past, self._top - past) // self._under


@dataclass(frozen=True, slots=True)
class Lengths:
    """How the lengths of one job leave: as numbers, and as bench text."""

    units: Units
    numbers: Numbers
    texts: Texts

    @classmethod
    def of(cls, job: Job) -> Self:
        """Return the lengths of a job, by its units and its tape."""
        return cls(job.units, Numbers(job.units), Texts(job.units, job.tape))


def mass_document(kg: float, units: Units) -> dict[str, float]:
    """Return a mass in kg, and in lb beside it for a job in inches."""
    return {"mass_kg": round(kg, 3)} | ({"mass_lb": round(kg / KG_PER_LB, 2)} if units == "in" else {})
