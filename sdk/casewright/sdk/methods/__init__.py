"""What a method is: typed objects that a plugin registers and a job picks by id."""

from casewright.sdk.materials import Catalogue
from casewright.sdk.methods.cures import Change, Choices, CureGenerator, Stop
from casewright.sdk.methods.doors import DoorDesign, DoorRequest, DoorStyle, Land
from casewright.sdk.methods.joints import Body, Fit, FrameJoint, JointMethod, Meeting, MeetingKind
from casewright.sdk.methods.method import CannotError, Method
from casewright.sdk.methods.mountings import Hanging, MountDesign, MountingMethod, MountRequest
from casewright.sdk.methods.shops import Design, ExtraCheck, HouseStyle
from casewright.sdk.model.parts import Assembly, PartSpec
from casewright.sdk.versions import SDK_VERSION

__all__ = [
    "SDK_VERSION", "Assembly", "Body", "CannotError", "Catalogue", "Change", "Choices",
    "CureGenerator", "Design", "DoorDesign", "DoorRequest", "DoorStyle", "ExtraCheck", "Fit", "FrameJoint", "Hanging",
    "HouseStyle", "JointMethod", "Land", "Meeting", "MeetingKind", "Method", "MountDesign", "MountRequest",
    "MountingMethod", "PartSpec", "Stop",
]  # fmt: skip
