"""What plugins of every family need: hooks, options, lengths, solids, cuts, findings. Part of the public SDK."""

from casewright.sdk.fields import Choice, Count, Flag, Length, Number, OptionSchema, Text
from casewright.sdk.findings import LENGTH, Finding
from casewright.sdk.geometry import Axis, Box, Cylinder, Wedge
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.joinery.checks import COMMON, Bound, check_least, check_most
from casewright.sdk.joinery.layout import chosen
from casewright.sdk.methods.method import CannotError
from casewright.sdk.model.choices import Options
from casewright.sdk.model.operations import Action, Machine
from casewright.sdk.model.parts import Feature, HardwareUse, Purpose, Term, groove, hole, rabbet
from casewright.sdk.units import inches, mm

__all__ = [
    "COMMON", "LENGTH", "Action", "Axis", "Bound", "Box", "CannotError", "Choice", "Count", "Cylinder", "Feature",
    "Finding", "Flag", "HardwareUse", "Length", "Machine", "Number", "OptionSchema", "Options", "Purpose", "Term",
    "Text", "Wedge", "check_least", "check_most", "chosen", "groove", "hole", "hookimpl", "inches", "mm", "rabbet",
]  # fmt: skip
