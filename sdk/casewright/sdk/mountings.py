"""Mountings: the back of a case in, strips and what hanging turns on out. Part of the public SDK; see also `kit`."""

from casewright.sdk.joinery.hanging import CAUTIONS, HangingOptions, board_of, cabinet_screws, fixed_on, wall_fastener
from casewright.sdk.methods.mountings import Hanging, MountDesign, MountingMethod, MountRequest
from casewright.sdk.model.parts import Assembly, JointSpec, PartSpec

__all__ = [
    "CAUTIONS", "Assembly", "Hanging", "HangingOptions", "JointSpec", "MountDesign", "MountRequest", "MountingMethod",
    "PartSpec", "board_of", "cabinet_screws", "fixed_on", "wall_fastener",
]  # fmt: skip
