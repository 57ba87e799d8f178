"""How far fronts lap the wood round their openings where a job does not say."""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise

from casewright.sdk import model
from casewright.sdk.units import MM, inches

_USUAL = inches("1/2")
_GAP = inches("1/8")
_STEPS = {"mm": MM, "in": inches("1/32")}
"""Common practice, no source: half an inch, 1/8 in left between two fronts, whole steps of a tape."""


@dataclass(frozen=True, slots=True)
class UsualOverlay:
    """Half an inch, or what wood that is narrower leaves.

    It ends at the cabinet's outside, and where two fronts share what stands between them each has half of it, less
    half the gap. `thickness` is of each material of the job, in nm.
    """

    thickness: Mapping[str, int]
    units: str

    def over(self, space: model.Space, case: model.Case, frame: model.FaceFrame | None) -> int:
        """Return the overlay for a space, in nm."""
        side = self.thickness.get(case.material, _USUAL)
        outside = side if frame is None else min(frame.stile, frame.rail)
        between = side if frame is None else min(frame.mid_stile, frame.mid_rail)
        shared = [(between - _GAP) // 2] if _fronts_meet(space) else []
        least = min(_USUAL, outside, *shared)
        return _USUAL if least == _USUAL else max(0, least // _STEPS[self.units] * _STEPS[self.units])


def _closed(space: model.Space) -> bool:
    """Return whether any part of a space has a front."""
    return space.front != "open" or any(_closed(part) for part in space.parts)


def _fronts_meet(space: model.Space) -> bool:
    """Return whether two parts that stand next to one another have fronts."""
    meet = any(_closed(first) and _closed(second) for first, second in pairwise(space.parts))
    return meet or any(_fronts_meet(part) for part in space.parts)
