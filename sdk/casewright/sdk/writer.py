"""Quantities as words, in the units of the job: the one place that writes a length, an area, a mass or a force.

Messages, problems and papers use it, so that an inch job never reads millimetres or newtons. Numbers in documents are
written elsewhere (`to_number`); text for the bench, rounded to the tape, by `tape_text`.
"""

from dataclasses import dataclass

from casewright.sdk.units import DEFAULT_TAPE, NM_PER_UNIT, Units, bit_text, on_tape, tape_text

__all__ = ["INCHES", "MILLIMETRES", "Writer", "writer"]

POUND_KG = 0.45359237
"""Exact (international pound, 1959)."""

POUND_FORCE_N = 4.4482216152605
"""Exact: the pound under standard gravity, 9.80665 m/s2."""

FOOT_MM = 304.8
METRE_MM = 1000.0
PLACES = {"mm": 2, "in": 3}
"""Digits after the point of a length in words, where none are asked for; a size under them is written with more."""


_INCH_MM = 25.4
_IN_INCH_JOBS = {
    "mm": ("in", 1.0, _INCH_MM),
    "mm²": ("in²", 1.0, _INCH_MM**2),
    "mm3": ("in3", 1.0, _INCH_MM**3),
    "kg": ("lb", 1.0, POUND_KG),
    "N": ("lbf", 1.0, POUND_FORCE_N),
    "N·mm": ("lbf·in", 1.0, POUND_FORCE_N * _INCH_MM),
    "N·m": ("lbf·ft", METRE_MM, POUND_FORCE_N * FOOT_MM),
    "MPa": ("psi", _INCH_MM**2, POUND_FORCE_N),
    "Pa": ("psf", (FOOT_MM / METRE_MM) ** 2, POUND_FORCE_N),
}
_IN_METRIC_JOBS = {"in": ("mm", _INCH_MM, 1.0)}
"""The unit a quantity is given in there, and what its value is multiplied and divided by."""


@dataclass(frozen=True, slots=True)
class Writer:
    """Writes quantities as words by the units of a job."""

    units: Units

    @property
    def inches(self) -> bool:
        """Whether the job is in inches."""
        return self.units == "in"

    def length(self, nm: float, places: int | None = None) -> str:
        """Return a length given in nm, such as `2.5 in` or `63.5 mm`, without needless zeros."""
        return f"{self.size(nm, places)} {self.units}"

    def size(self, nm: float, places: int | None = None) -> str:
        """Return the number of a length given in nm, for `3 × 5 in`; `places` is most digits after the point."""
        value = nm / NM_PER_UNIT[self.units]
        if places is not None:
            return _trimmed(value, places)
        usual = PLACES[self.units]
        return _trimmed(value, usual if value == 0 or abs(value) >= 10**-usual else 6)

    def cut(self, nm: int) -> str:
        """Return a length to cut or measure: `18 15/16 in` where the tape shows it, else as `length` does."""
        on_it = self.inches and on_tape(nm, self.units, DEFAULT_TAPE[self.units])
        return tape_text(nm, self.units, DEFAULT_TAPE[self.units]) if on_it else self.length(nm)

    def sold(self, nm: int) -> str:
        """Return a size that a thing is sold by: `35 mm` in any job where it is whole in mm and off the tape."""
        sold = bit_text(nm, self.units, DEFAULT_TAPE[self.units])
        return sold if self.inches and sold.endswith("mm") else self.cut(nm)

    def length_mm(self, mm: float, places: int | None = None) -> str:
        """Return a length given in mm, as equations of strength hold it."""
        return self.length(mm * 1e6, places)

    def area_mm2(self, mm2: float) -> str:
        """Return an area given in mm2 in the units areas are bought and spread by: `sq ft` or `m2`."""
        return f"{_trimmed(mm2 / FOOT_MM**2, 2)} sq ft" if self.inches else f"{_trimmed(mm2 / METRE_MM**2, 2)} m2"

    def mass_kg(self, kg: float, places: int = 1) -> str:
        """Return a mass given in kg: `lb` or `kg`."""
        return f"{_trimmed(kg / POUND_KG, places)} lb" if self.inches else f"{_trimmed(kg, places)} kg"

    def mass_g(self, grams: float) -> str:
        """Return a small mass given in grams: `oz` or `g`."""
        return f"{_trimmed(grams / 1000 / POUND_KG * 16, 1)} oz" if self.inches else f"{_trimmed(grams, 0)} g"

    def volume_mm3(self, mm3: float) -> str:
        """Return a small volume given in mm3: `in³` or `mm³`."""
        return f"{mm3 / _INCH_MM**3:.4f} in³" if self.inches else f"{mm3:.1f} mm³"

    def small_area_mm2(self, mm2: float) -> str:
        """Return a small area given in mm2, such as that of glue lines: `in²` or `cm²`."""
        return f"{mm2 / _INCH_MM**2:.0f} in²" if self.inches else f"{mm2 / 100:.0f} cm²"

    def force_n(self, newtons: float, places: int = 0) -> str:
        """Return a force given in newtons: `lbf` or `N`."""
        value, unit = (newtons / POUND_FORCE_N, "lbf") if self.inches else (newtons, "N")
        return f"{_trimmed(value, places)} {unit}"

    def measured(self, value: float, unit: str) -> tuple[float, str]:
        """Return a value and its unit in the job's system; what has no twin there, such as % or degrees, stays."""
        units = _IN_INCH_JOBS if self.inches else _IN_METRIC_JOBS
        unit_here, times, over = units.get(unit, (unit, 1.0, 1.0))
        return value * times / over, unit_here

    def quantity(self, value: float, unit: str) -> str:
        """Return a value in words, to six digits, in the job's system."""
        value, unit = self.measured(value, unit)
        return f"{value:g} {unit}".rstrip()


INCHES, MILLIMETRES = Writer("in"), Writer("mm")


def writer(units: Units) -> Writer:
    """Return the writer of a job's units."""
    return INCHES if units == "in" else MILLIMETRES


def _trimmed(value: float, places: int) -> str:
    text = f"{value:.{places}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text
