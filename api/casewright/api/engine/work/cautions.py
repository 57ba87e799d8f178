"""What to mind at a machine in an operation, for its step. The machine's manual and local rules come first.

At saws: HSE, Woodworking Information Sheet 16 (rev 2); California Title 8, section 4296. The rest is common practice,
no source.
"""

from collections.abc import Iterable, Mapping

from casewright.sdk.model import Action, Machine, Operation, Part, Tilts, Workpiece
from casewright.sdk.writer import Writer

__all__ = ["ON_EDGE", "always", "cautions"]

AT: Mapping[Machine, tuple[str, ...]] = {
    Machine.TABLE_SAW: ("Eyes, ears and lungs covered; stand out of the blade's line.",),
    Machine.CROSSCUT_SLED: (
        "Hands clear of the blade's line; the piece at the sled's fence, never the saw's; a long one held up.",
    ),
    Machine.TRACK_SAW: ("Support both halves; clamp the track where it may slip.",),
    Machine.MITRE_SAW: (
        "Hold the piece to the fence, hands a hand's width from the blade; let it stop before lifting.",
    ),
    Machine.JOINTER: ("No piece shorter than the cutter block's maker allows; use push blocks.",),
    Machine.PLANER: ("Feed with the grain; no piece shorter than the rollers are apart.",),
    Machine.ROUTER_TABLE: (
        "Feed against the turning of the cutter; featherboards where there is room; deep cuts in steps.",
    ),
    Machine.ROUTER: (
        "Clamp the piece and the straight edge; move against the turning of the cutter; deep cuts in steps.",
    ),
    Machine.DRILL_PRESS: ("Clamp the piece or hold it against a fence; a block under it where the bit comes through.",),
    Machine.DRILL: ("Clamp the piece; keep the other hand out of the bit's line.",),
    Machine.MORTISER: ("Clamp the piece; clear the chips often.",),
    Machine.LOOSE_TENON_MACHINE: ("Clamp the piece; both hands on the machine.",),
    Machine.BISCUIT_MACHINE: ("Clamp the piece; both hands on the machine.",),
    Machine.JIGSAW: ("Clamp the piece with the cut clear of the bench.",),
    Machine.BAND_SAW: ("Guard down to the piece; thumbs beside the line, never in it.",),
}
PUSH_STICK_MM = 300.0
"""What is left of a rip when the push stick takes over, in mm (HSE WIS 16)."""
UNGUARDED = "No guard fits over this cut: a featherboard or a jig holds the piece (Cal. Title 8 s. 4296)."
ON_END = "Stood on its end: a tall fence or a tenoning jig, the piece clamped to it."
INTO_FENCE = "The cutter runs beside the fence: a face of scrap on the fence."
END_TO_FENCE = (
    "Longer across than along the fence: a mitre gauge, or a push block as wide as the piece, keeps it from turning."
)
TILTED = "Tilt the blade away from the fence where the saw can, so that no offcut is caught under it."
ON_EDGE = "Gloves and eye protection; carry glass on edge, and never over a person."
"""What to mind with a pane in the hands (common practice, no source)."""
SLOTS = (Action.GROOVE, Action.RABBET, Action.TENON, Action.NOTCH, Action.BEVEL)


def always(machine: Machine) -> tuple[str, ...]:
    """Return what to mind at a machine whatever is done there."""
    return AT.get(machine, ())


def cautions(operation: Operation, parts: Mapping[str, Part], write: Writer) -> tuple[str, ...]:
    """Return what to mind in an operation at a machine."""
    return (*always(operation.machine), *_of_cut(operation, parts, write))


def _of_cut(operation: Operation, parts: Mapping[str, Part], write: Writer) -> Iterable[str]:
    if operation.machine is Machine.TABLE_SAW:
        if operation.action is Action.RIP:
            last = write.length_mm(PUSH_STICK_MM, 0)
            yield f"Riving knife and guard stay on; a push stick for the last {last} and for narrow strips."
        elif operation.action in SLOTS:
            yield UNGUARDED
        if operation.action in SLOTS and operation.setting.fence == 0 and operation.setting.tilt_deg is None:
            yield INTO_FENCE
        if operation.setting.tilts is Tilts.NEAR:
            yield TILTED
        if operation.action in SLOTS and any(_turns(one, parts) for one in operation.on):
            yield END_TO_FENCE
    if operation.action is Action.DOVETAIL and operation.setting.fence == 0:
        yield INTO_FENCE
    if operation.machine in (Machine.TABLE_SAW, Machine.ROUTER_TABLE) and any(
        one.down is not None and one.down.axis == 1 for one in operation.on if one.part in parts
    ):
        yield ON_END


def _turns(one: Workpiece, parts: Mapping[str, Part]) -> bool:
    """Return whether a piece that lies on its face or edge is longer across than along the fence."""
    part = parts.get(one.part)
    if part is None or one.down is None or one.against is None or one.down.axis == 1:
        return False
    along = 6 - one.down.axis - one.against.axis
    return part.blank.high(along) < part.blank.high(one.against.axis)
