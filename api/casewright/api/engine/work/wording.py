"""Words for operations at machines, made from their data: what to do, what to measure after it, what to mind."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace

from casewright.sdk.model import Action, Job, Machine, Operation, Part, Setting, Side, Sides, Workpiece
from casewright.sdk.units import tape_text, to_number

__all__ = ["Words", "piece_words"]

NAMED = 4
"""Names that a sentence lists before it says how many more there are."""

VERBS: Mapping[Action, str] = {
    Action.GROOVE: "Groove",
    Action.RABBET: "Rabbet",
    Action.NOTCH: "Notch",
    Action.MORTISE: "Mortise",
    Action.TENON: "Cut tenons on",
    Action.DOVETAIL: "Cut the dovetails of",
    Action.BORE: "Bore",
    Action.POCKET: "Bore pockets in",
    Action.BEVEL: "Bevel",
    Action.PROFILE: "Shape",
    Action.FACE: "Joint one face of",
    Action.EDGE: "Joint one edge of",
    Action.THICKNESS: "Plane",
}
GUARD = "Riving knife and guard stay on; use a push stick for narrow strips; eyes, ears and lungs covered."
CAUTIONS: Mapping[Machine, tuple[str, ...]] = {
    Machine.TABLE_SAW: (GUARD,),
    Machine.CROSSCUT_SLED: ("Hands clear of the blade's line; hold the piece against the sled's fence.",),
    Machine.TRACK_SAW: ("Support both halves; clamp the track where it may slip.",),
    Machine.JOINTER: ("No piece shorter than the cutter block's maker allows; use push blocks.",),
    Machine.PLANER: ("Feed with the grain; no piece shorter than the rollers are apart.",),
}
"""What to mind at each machine (common practice, no source; the machine's manual and local rules come first)."""


@dataclass(slots=True)
class Words:
    """Writes operations in words, for one job and its parts."""

    job: Job
    parts: Mapping[str, Part]
    sides: Mapping[str, Sides]
    texts: dict[int, str] = field(default_factory=dict)

    def text(self, nm: int) -> str:
        """Return a length as bench text; each is written once."""
        text = self.texts.get(nm)
        if text is None:
            text = self.texts[nm] = tape_text(nm, self.job.units, self.job.tape)
        return text

    def exact(self, nm: int) -> str:
        """Return a length as bench text with its number beside it, for a fence or stop."""
        return f"{self.text(nm)} ({to_number(nm, self.job.units):.10g})"

    def worded(self, operation: Operation) -> Operation:
        """Return an operation with what to do, what to check and what to mind."""
        match operation.action:
            case Action.RIP:
                do, check = self._sawn(operation, operation.setting.fence, "Rip"), "the width at both ends"
            case Action.CROSSCUT:
                do, check = self._sawn(operation, operation.setting.stop, "Cross-cut"), "the length, and square"
            case Action.FACE | Action.EDGE | Action.THICKNESS:
                do, check = self._milled(operation), "flat, straight and square"
            case _:
                do, check = self._jointed(operation), "on a scrap of the same wood first"
        return replace(operation, do=do, check=check, cautions=CAUTIONS.get(operation.machine, ()))

    def _sawn(self, operation: Operation, at: int | None, verb: str) -> str:
        made = [one.keeps for one in operation.on if one.keeps]
        what = "fence" if operation.action is Action.RIP else "stop"
        return f"{verb} at {what} {self.exact(at or 0)}: {self._names(made)}"

    def _milled(self, operation: Operation) -> str:
        count = len(operation.on)
        do = f"{VERBS[operation.action]} {count} rough {'piece' if count == 1 else 'pieces'}"
        height = operation.setting.height
        return do if height is None else f"{do} to {self.exact(height)}"

    def _jointed(self, operation: Operation) -> str:
        setting, on = operation.setting, operation.on
        words = [f"{VERBS[operation.action]} {self._names([one.part for one in on])}"]
        words.append(self._side(on, lambda one: one.down, "down"))
        if on[0].at:
            words.append(f"{self.text(setting.cutter or 0)} bit, {self._depth(setting)}, at the centres listed")
        else:
            fence = self._side(on, lambda one: one.against, f"against the fence at {self.exact(setting.fence or 0)}")
            words += [fence, self._cutter(setting)]
        run, runs = on[0].run
        if runs > 1:
            words.append(f"pass {run} of {runs}")
        return ", ".join(words)

    def _depth(self, setting: Setting) -> str:
        return "through" if setting.depth is None else f"{self.text(setting.depth)} deep"

    def _cutter(self, setting: Setting) -> str:
        words = []
        if setting.tilt_deg is not None:
            words.append(f"blade tilted {setting.tilt_deg:.4g} degrees")
        elif setting.cutter:
            words.append(f"{self.text(setting.cutter)} cutter")
        words.append(f"{self.exact(setting.height or 0)} high")
        if setting.end is not None:
            words.append(f"from {self.text(setting.start or 0)} to {self.text(setting.end)}")
        return ", ".join(words)

    def _side(self, on: Iterable[Workpiece], of: Callable[[Workpiece], Side | None], what: str) -> str:
        """Return which side does something, where it is the same for all; else that each line says which."""
        names = {self.sides[one.part][side] for one in on if (side := of(one)) is not None}
        return f"{names.pop()} {what}" if len(names) == 1 else f"the side named {what}"

    def _names(self, ids: Iterable[str]) -> str:
        """Return parts by name and cabinet, and pieces by what they are for, the first few of them."""
        titles = list(dict.fromkeys(self._title(one) for one in ids))
        more = len(titles) - NAMED
        return ", ".join(titles[:NAMED]) + (f" and {more} more" if more > 0 else "")

    def _title(self, name: str) -> str:
        part = self.parts.get(name.removesuffix(", ripped"))
        return name if part is None else f"{part.name} of {part.cabinet}" if part.cabinet else part.name


def piece_words(operation: Operation, sides: Mapping[str, Sides]) -> list[str]:
    """Return a line for each way pieces lie in an operation: the pieces, then how they lie and what is cut."""
    lines: dict[str, list[str]] = {}
    for one in operation.on:
        how = []
        if one.down is not None and one.against is not None:
            names = sides[one.part]
            how = [f"{names[one.down]} down", f"{names[one.against]} to the fence"]
            if one.leads is not None and not one.at:
                how.append(f"measured from the {names[one.leads]}")
        if one.piece:
            how = [f"from {one.piece}"]
        words = ", ".join([*how, *one.cuts])
        name = one.part or one.keeps
        lines.setdefault(words, []).append(f"{name} × {one.count}" if one.count > 1 else name)
    return [f"{', '.join(names)}{': ' + how if how else ''}" for how, names in lines.items()]
