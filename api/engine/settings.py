"""The setting a cut is made at, so that all cuts that share one are made together."""

from collections.abc import Callable
from dataclasses import dataclass

from casewright.sdk.model import Feature, Part

DATUMS = {1: "end-low", 2: "edge-low", 3: "face-low"}
FACES = {1: "end-high", 2: "edge-high", 3: "face-high", -1: "end-low", -2: "edge-low", -3: "face-low"}
_ORDER = ("tenon", "half-lap", "rabbet", "groove", "mortise", "hole", "bevel", "edge-profile")
DOOR_BORES = ("hinge cups", "pull")


@dataclass(frozen=True, slots=True)
class CutKey:
    """What must be the same for two cuts to share a setting; sizes in nm.

    `offset` is from the part's `datum` face to the near side of the cut; `across` is the cut's width there.
    """

    stage: str
    kind: str
    depth: int
    across: int
    datum: str
    offset: int
    angle_deg: float
    what: str

    @property
    def rank(self) -> tuple[int, int, int, str, int, str]:
        """Where the setting comes in the order of work."""
        kind = _ORDER.index(self.kind) if self.kind in _ORDER else len(_ORDER)
        return (kind, self.depth, self.across, self.datum, self.offset, self.what)


def cut_key(part: Part, feature: Feature) -> CutKey:
    """Return the setting of one cut of a part. Cup bores and pull holes wait until the door is glued."""
    env = feature.envelope()
    entry = abs(feature.entry)
    stage = "doors" if feature.label in DOOR_BORES else "joints"
    depth = env.high(entry) - env.low(entry)
    if feature.holes:
        first = feature.holes[0]
        return CutKey(stage, "hole", first.depth, first.diameter, "", 0, 0.0, feature.label)
    if feature.run is None:
        return CutKey(stage, feature.kind, depth, 0, "", 0, feature.angle_deg or 0.0, feature.label)
    side = 6 - entry - abs(feature.run)
    across = env.high(side) - env.low(side)
    return CutKey(stage, feature.kind, depth, across, DATUMS[side], env.low(side), feature.angle_deg or 0.0, "")


def describe(key: CutKey, text: Callable[[int], str]) -> tuple[str, str]:
    """Return what to do and the setting, in plain words; `text` writes a length."""
    if key.kind == "hole":
        return f"Drill {text(key.across)} holes, {key.what}", f"depth stop {text(key.depth)}"
    if key.kind == "bevel":
        return f"Saw the bevel: {key.what}", f"blade at {key.angle_deg:g} degrees"
    if key.kind in ("groove", "rabbet"):
        return (
            f"Cut {key.kind}s {text(key.across)} wide and {text(key.depth)} deep",
            f"fence {text(key.offset)} from {key.datum}, cutter height {text(key.depth)}",
        )
    return f"Cut each {key.kind.replace('-', ' ')}: {key.what}", f"depth {text(key.depth)}"
