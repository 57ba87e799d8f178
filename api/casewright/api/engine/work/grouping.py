"""Cuts of many parts at one setting as one operation, so that each setting is visited once."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from casewright.api.engine.work.machining import Cut, cuts_of
from casewright.sdk.model.operations import Action, Machine, Operation, Setting, Stage, Workpiece
from casewright.sdk.model.parts import Part, Purpose

__all__ = ["joint_operations"]

ORDER = (
    Action.BEVEL,
    Action.TENON,
    Action.NOTCH,
    Action.DOVETAIL,
    Action.RABBET,
    Action.GROOVE,
    Action.MORTISE,
    Action.POCKET,
    Action.BORE,
    Action.PROFILE,
)
"""Joint cuts in working order: what is cut across the grain before what runs into it, mitres before their splines."""


@dataclass(frozen=True, slots=True)
class _Key:
    """What cuts share that are made together: the action, the setting, and which pass of how many it is."""

    action: Action
    setting: Setting
    run: tuple[int, int]

    @property
    def rank(self) -> tuple[int, tuple[tuple[bool, float], ...], tuple[int, int]]:
        """Where it comes in the order of work: by action, then by how the machine is set, so that like ones meet."""
        setting = self.setting
        sizes = (setting.tilt_deg, setting.cutter, setting.height, setting.depth, setting.fence, setting.start)
        return ORDER.index(self.action), tuple((size is not None, size or 0) for size in sizes), self.run


LATE = frozenset({Purpose.HINGE_CUP, Purpose.PULL})
"""What is bored only when its door is glued, or its drawer front fitted."""

MACHINES: Mapping[Action, Machine] = {
    Action.BEVEL: Machine.TABLE_SAW,
    Action.TENON: Machine.TABLE_SAW,
    Action.NOTCH: Machine.JIGSAW,
    Action.DOVETAIL: Machine.ROUTER_TABLE,
    Action.RABBET: Machine.TABLE_SAW,
    Action.GROOVE: Machine.TABLE_SAW,
    Action.MORTISE: Machine.MORTISER,
    Action.POCKET: Machine.DRILL,
    Action.BORE: Machine.DRILL_PRESS,
    Action.PROFILE: Machine.ROUTER_TABLE,
}


def joint_operations(parts: Iterable[Part], cutters: Sequence[int], stage: Stage = Stage.JOINTS) -> list[Operation]:
    """Return the operations that make the features of parts, unnumbered: one for each setting, in working order.

    What waits for a door or a drawer front is made in another stage than the joints.
    """
    found: dict[_Key, list[Workpiece]] = {}
    for part in parts:
        now = [feature for feature in part.features if (feature.purpose in LATE) is (stage is not Stage.JOINTS)]
        for cut in cuts_of(part, now, cutters):
            found.setdefault(_Key(cut.action, cut.setting, cut.run), []).append(_workpiece(part, cut))
    return [
        Operation(0, stage, _machine(key), key.action, key.setting, tuple(dict.fromkeys(pieces)))
        for key, pieces in sorted(found.items(), key=lambda item: item[0].rank)
    ]


def _machine(key: _Key) -> Machine:
    """Return what a cut is made with: a stopped one by router, as a saw's blade runs out long."""
    stopped = key.setting.end is not None and key.action in (Action.GROOVE, Action.RABBET)
    return Machine.ROUTER if stopped else MACHINES[key.action]


def _workpiece(part: Part, cut: Cut) -> Workpiece:
    return Workpiece(
        part=part.id,
        count=part.quantity,
        down=cut.down,
        against=cut.against,
        leads=cut.leads,
        at=cut.at,
        run=cut.run,
        cuts=(cut.label,),
    )
