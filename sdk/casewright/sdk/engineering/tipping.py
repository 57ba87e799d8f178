"""Will a standing cabinet tip forward: moments about the line it stands on. Newtons and millimetres.

Own derivation (statics of a rigid body on a level floor); the load numbers of EN 14749 and EN 16121 were not at
hand and are not used.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum

from casewright.sdk.engineering.limits import within


@dataclass(frozen=True, slots=True)
class Load:
    """A weight in N and how far (mm) behind the line the cabinet stands on it acts; negative means in front."""

    weight_n: float
    behind_mm: float


@dataclass(frozen=True, slots=True)
class Tipping:
    """Moments about the front standing line, N·mm, and the pull at the fixing that holds it, N.

    What holds must be `margin` times what tips.
    """

    holding_n_mm: float
    tipping_n_mm: float
    pull_n: float
    margin: float = 1.0

    @property
    def tips(self) -> bool:
        """Whether it would tip, its margin counted, without a fixing."""
        return self.margin * self.tipping_n_mm > self.holding_n_mm


def tipping(loads: Sequence[Load], fixing_height_mm: float, margin: float = 1.0) -> Tipping:
    """Return the balance of a standing cabinet and the wall pull it needs at `fixing_height_mm` (greater than zero).

    What tips counts `margin` times.
    """
    within("tipping-margin", "margin against tipping", margin, 1.0, None, "", "common-practice")
    height = within("tipping-height", "height of the fixing", fixing_height_mm, 1.0, None, "mm", "statics")
    holding = fsum(load.weight_n * load.behind_mm for load in loads if load.behind_mm > 0)
    over = -fsum(load.weight_n * load.behind_mm for load in loads if load.behind_mm < 0)
    return Tipping(holding, over, max(0.0, margin * over - holding) / height, margin)
