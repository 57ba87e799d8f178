"""Cuts of many parts at one setting as one operation, so that each setting is visited once."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from casewright.api.engine.work.cut import Cut, Measured
from casewright.api.engine.work.machines import Tools
from casewright.api.engine.work.made import Made
from casewright.sdk.model.operations import Action, Machine, Operation, Setting, Stage, Workpiece
from casewright.sdk.model.parts import Feature, Part, Purpose

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


Rank = tuple[int, int, tuple[tuple[bool, float], ...], tuple[int, int]]
"""Action, machine, sizes of the setting and pass."""


@dataclass(frozen=True, slots=True)
class _Key:
    """What cuts share that are made together: how and on what they are made, and which pass of how many it is."""

    action: Action
    machine: Machine
    setting: Setting
    run: tuple[int, int]

    @property
    def rank(self) -> Rank:
        """Where it comes in the order of work: by action and machine, then by its setting, so that like ones meet."""
        setting = self.setting
        slants = (setting.turn_deg, setting.tilt_deg)
        sizes = (*slants, setting.cutter, setting.height, setting.depth, setting.distance, setting.start)
        return (
            ORDER.index(self.action),
            PLACES[self.machine],
            tuple((size is not None, size or 0) for size in sizes),
            self.run,
        )


PLACES = {machine: place for place, machine in enumerate(Machine)}
"""Machines in the order a day's work goes through them."""
LATE = frozenset({Purpose.HINGE_CUP, Purpose.PULL})
"""What is bored only when its door is glued, or its drawer front fitted."""


def joint_operations(parts: Iterable[Part], tools: Tools, made: Made, stage: Stage = Stage.JOINTS) -> list[Operation]:
    """Return the operations that make the features of parts, unnumbered: one for each setting, in working order.

    What waits for a door or a drawer front is made in another stage than the joints.
    """
    groups: dict[_Key, list[Workpiece]] = {}
    before: dict[_Key, set[_Key]] = {}
    for part in parts:
        now = [feature for feature in part.features if (feature.purpose in LATE) is (stage is not Stage.JOINTS)]
        keyed = list(_keyed(Measured(part, made.sides[part.id]), now, tools, made))
        for (first, _), (later, _) in pairwise(keyed):
            if later.run[0] > 1:
                before.setdefault(later, set()).add(first)
        for key, cut in keyed:
            groups.setdefault(key, []).append(_workpiece(part, cut))
    return [
        Operation(0, stage, key.machine, key.action, key.setting, tuple(dict.fromkeys(pieces)))
        for key, pieces in sorted(groups.items(), key=lambda item: _turn(item[0], before))
    ]


def _keyed(piece: Measured, features: Sequence[Feature], tools: Tools, made: Made) -> Iterator[tuple[_Key, Cut]]:
    """Yield the cuts of a part with what those share that are made together."""
    each = made.cuts.of(piece, tuple(features), tools.cutters, tools.same)
    for feature, cuts in zip(features, each, strict=True):
        advised = made.advice.machines(piece.part, feature)
        for cut in cuts:
            yield _Key(cut.action, tools.chosen(cut, advised), cut.setting, cut.run), cut


def _turn(key: _Key, before: Mapping[_Key, set[_Key]]) -> tuple[Rank, ...]:
    """Return the ranks that order operations: a later pass comes right after the last setting of the pass before it."""
    earlier = [_turn(one, before) for one in before.get(key, ())]
    return (*max(earlier, default=()), key.rank)


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
