"""Door styles: a finished size in, its parts and joints out. Part of the public SDK; see also `kit`."""

from casewright.sdk.methods.doors import DoorDesign, DoorRequest, DoorStyle, Land
from casewright.sdk.model.parts import Assembly, JointSpec, PartSpec

__all__ = ["Assembly", "DoorDesign", "DoorRequest", "DoorStyle", "JointSpec", "Land", "PartSpec"]
