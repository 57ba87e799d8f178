"""The setting a cut is made at, so that all cuts that share one are made together."""

from collections.abc import Callable, Iterable
from typing import NamedTuple, assert_never

from casewright.api.engine.construction.draft import alike
from casewright.sdk.model import Feature, Part, Purpose, Stage

DATUMS = {1: "nearer end", 2: "nearer edge", 3: "nearer face"}
_ORDER = ("tenon", "half-lap", "rabbet", "groove", "mortise", "hole", "bevel", "edge-profile")


class CutKey(NamedTuple):
    """What must be the same for two cuts to share a setting; sizes in nm.

    `offset` is from the part's `datum`, the nearer of its two faces there, to the near side of the cut: cuts as
    far from either end are made at one fence setting, each part turned round. `across` is the cut's width there.
    """

    stage: Stage
    kind: str
    depth: int
    across: int
    datum: str
    offset: int
    angle_deg: float
    what: str

    @property
    def rank(self) -> tuple[int, int, int, str, int, float, str]:
        """Where the setting comes in the order of work."""
        kind = _ORDER.index(self.kind) if self.kind in _ORDER else len(_ORDER)
        return (kind, self.depth, self.across, self.datum, self.offset, self.angle_deg, self.what)


_OFFSET = CutKey._fields.index("offset")


def stage_of(feature: Feature) -> Stage:
    """Return when a cut is made: with the joints, or, as hinge cups and pull holes, in a door that is glued."""
    purpose = feature.purpose
    match purpose:
        case Purpose.HINGE_CUP | Purpose.PULL:
            return Stage.DOORS
        case Purpose.JOINERY | Purpose.SHAPE | Purpose.SHELF_PINS | Purpose.RUNNER:
            return Stage.JOINTS
        case _:
            assert_never(purpose)


def waits_for_door(feature: Feature) -> bool:
    """Return whether a cut waits until its door is glued."""
    return stage_of(feature) is Stage.DOORS


def cut_key(part: Part, feature: Feature) -> CutKey:
    """Return the setting of one cut of a part.

    A step of cuts without a run is written in the words of their label, up to its first comma: which end or which
    neighbour comes after it and changes no setting.
    """
    stage = stage_of(feature)
    angle = feature.angle_deg or 0.0
    if feature.holes:
        first = feature.holes[0]
        return CutKey(stage, "hole", first.depth, first.diameter, "", 0, angle, _words(feature))
    env, entry, run = feature.envelope(), abs(feature.entry), feature.run
    depth = env[entry + 2] - env[entry - 1]
    if feature.kind == "mortise":
        side = min([a for a in (1, 2, 3) if a != entry], key=lambda a: env[a + 2] - env[a - 1])
    elif run is None:
        return CutKey(stage, feature.kind, depth, 0, "", 0, angle, _words(feature))
    else:
        side = 6 - entry - abs(run)
    low, high = env[side - 1], env[side + 2]
    size = part.length if side == 1 else part.width if side == 2 else part.thickness
    return CutKey(stage, feature.kind, depth, high - low, DATUMS[side], min(low, size - high), angle, "")


def _words(feature: Feature) -> str:
    return feature.label.partition(",")[0]


def shared_keys(keys: Iterable[CutKey]) -> dict[CutKey, CutKey]:
    """Return, for each key, the one it is cut with: offsets that one equal division left a nanometre apart are one."""
    families: dict[tuple[object, ...], list[CutKey]] = {}
    for key in dict.fromkeys(keys):
        families.setdefault((*key[:_OFFSET], *key[_OFFSET + 1 :]), []).append(key)
    return {
        key: key if offset == key.offset else key._replace(offset=offset)
        for family in families.values()
        for key, offset in zip(family, alike([k.offset for k in family]), strict=True)
    }


def describe(key: CutKey, text: Callable[[int], str]) -> tuple[str, str]:
    """Return what to do and the setting, in plain words; `text` writes a length."""
    if key.kind == "hole":
        return f"Drill {text(key.across)} holes, {key.what}", f"depth stop {text(key.depth)}"
    if key.kind == "bevel":
        return f"Saw the bevel: {key.what}", f"blade at {key.angle_deg:g} degrees"
    if key.kind in ("groove", "rabbet", "mortise"):
        tool = "depth stop" if key.kind == "mortise" else "cutter height"
        where = " where they are marked" if key.kind == "mortise" else ""
        return (
            f"Cut {key.kind}s {text(key.across)} wide and {text(key.depth)} deep{where}",
            f"fence {text(key.offset)} from the {key.datum}, {tool} {text(key.depth)}",
        )
    return f"Cut each {key.kind.replace('-', ' ')}: {key.what}", f"depth {text(key.depth)}"
