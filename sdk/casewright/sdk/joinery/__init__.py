"""What joint, door and mounting methods share: rows of fasteners, glue areas, trade checks and picks.

Nothing here knows a method. What a plugin may use of it stands in `kit` and the modules of the families.
"""

from casewright.sdk.joinery.checks import COMMON, PROPORTIONS, Bound, check_least, check_most
from casewright.sdk.joinery.layout import Spacing, area_mm2, chosen, clear_length, clear_row, mirrored, row, too_narrow
from casewright.sdk.joinery.picks import listed, nearest, pin_depths, pins_meet, screw_within, use_one

__all__ = [
    "COMMON", "PROPORTIONS", "Bound", "Spacing", "area_mm2", "check_least", "check_most", "chosen", "clear_length",
    "clear_row", "listed", "mirrored", "nearest", "pin_depths", "pins_meet", "row", "screw_within", "too_narrow",
    "use_one",
]  # fmt: skip
