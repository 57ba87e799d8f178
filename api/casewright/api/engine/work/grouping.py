"""Cuts of many parts at one setting as one operation, so that each setting is visited once."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from casewright.api.engine.work.machining import Cut, cuts_of
from casewright.sdk.model.operations import Action, Machine, Operation, Setting, Workpiece
from casewright.sdk.model.parts import Part

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


def joint_operations(parts: Iterable[Part], cutters: Sequence[int] = ()) -> list[Operation]:
    """Return the operations that make the features of parts, unnumbered: one for each setting, in working order."""
    found: dict[_Key, list[Workpiece]] = {}
    for part in parts:
        for cut in cuts_of(part, cutters):
            found.setdefault(_Key(cut.action, cut.setting, cut.run), []).append(_workpiece(part, cut))
    return [
        Operation(0, "joints", Machine.TABLE_SAW, key.action, key.setting, tuple(_merged(pieces)))
        for key, pieces in sorted(found.items(), key=lambda item: item[0].rank)
    ]


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


def _merged(pieces: Iterable[Workpiece]) -> Iterable[Workpiece]:
    """Yield pieces, a part once where it is cut more than once the same way at one setting."""
    seen: set[Workpiece] = set()
    for piece in pieces:
        if piece not in seen:
            seen.add(piece)
            yield piece
