"""Lengths as they leave: numbers in job units, and text for the bench rounded to the tape."""

from fractions import Fraction

from casewright.sdk.units import NM_PER_UNIT, Units, tape_text, to_number


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
