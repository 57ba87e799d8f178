"""Machines that methods advise for what is cut for them, found by the joint or the group of parts a cut is for."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from casewright.api.engine.work.cut import ACTIONS
from casewright.sdk.loader import Registry
from casewright.sdk.methods import Method
from casewright.sdk.model import Feature, Job, Joint, Machine, Part

__all__ = ["Advice", "advice_of"]

DOOR = "door-"
MOUNTING = "mounting"


@dataclass(frozen=True, slots=True)
class Advice:
    """Methods that advise machines: by the joint, the cabinet's doors and the cabinet's mounting they make."""

    joints: Mapping[str, Method] = field(default_factory=dict)
    doors: Mapping[str, Method] = field(default_factory=dict)
    mountings: Mapping[str, Method] = field(default_factory=dict)

    def machines(self, part: Part, feature: Feature) -> tuple[Machine, ...]:
        """Return the machines advised for a cut of a part, best first; none where nothing is advised."""
        method = self.joints.get(feature.joint)
        if method is None and part.group.startswith(DOOR):
            method = self.doors.get(part.cabinet)
        elif method is None and part.group == MOUNTING:
            method = self.mountings.get(part.cabinet)
        return () if method is None else tuple(method.machines.get(ACTIONS[feature.kind], ()))


def advice_of(job: Job, registry: Registry, joints: Iterable[Joint]) -> Advice:
    """Return what the methods of a job advise."""
    by_joint = {}
    for joint in joints:
        family: Mapping[str, Method] = registry.boxes if joint.kind == "box" else registry.joints
        method = family.get(joint.method)
        if method is not None and method.machines:
            by_joint[joint.id] = method
    doors = {one.id: registry.doors[one.doors.style] for one in job.cabinets if one.doors}
    mountings = {one.id: registry.mountings[one.mounting.choice.method] for one in job.cabinets if one.mounting}
    return Advice(by_joint, doors, mountings)
