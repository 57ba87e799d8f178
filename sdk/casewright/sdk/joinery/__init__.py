"""What joint, door and mounting methods share: rows of fasteners, glue areas, trade checks and picks.

Nothing here knows a method. What a plugin may use of it stands in `kit` and the modules of the families.
"""

from casewright.sdk.joinery.checks import COMMON, PROPORTIONS, Bound, check_least, check_most
from casewright.sdk.joinery.layout import Spacing, area_mm2, chosen, clear_length, clear_row, mirrored, row, too_narrow
from casewright.sdk.joinery.picks import nearest, screw_within, split_depth

__all__ = [
    "COMMON", "PROPORTIONS", "Bound", "Spacing", "area_mm2", "check_least", "check_most", "chosen", "clear_length",
    "clear_row", "mirrored", "nearest", "row", "screw_within", "split_depth", "too_narrow",
]  # fmt: skip
