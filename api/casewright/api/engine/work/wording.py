"""Words for operations at machines, made from their data: what to do, what to measure after it, what to mind."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from casewright.api.engine.work.cautions import cautions
from casewright.api.engine.work.from_work import formula, measuring_step
from casewright.api.engine.work.lying import ENTERS, TO_MIDDLE, lies
from casewright.api.engine.work.machine_setting import machine_setting, marked_out, mitred
from casewright.api.engine.work.machine_words import is_to_width, stopped_by, with_machine
from casewright.api.engine.work.naming import NamedParts, joined, part_of, pieces_summed_up, quoted
from casewright.sdk.model import (
    Action,
    CutTo,
    Job,
    Machine,
    Measurement,
    Operation,
    Sides,
    Tilts,
    Workpiece,
)
from casewright.sdk.units import MM, NM_PER_UNIT, bit_text, tape_text, to_number
from casewright.sdk.writer import writer

__all__ = ["Words"]

PLACES: Mapping[str, int] = {"in": 4, "mm": 2}
"""Decimals of a length that lies between two marks of the tape."""
UNSEEN = MM // 200
"""How far a length may lie from a mark of the tape before its number stands beside it."""
NAMED = 2
"""Pieces that are named one by one."""
VERBS: Mapping[Action, str] = {
    Action.RIP: "Rip",
    Action.CROSSCUT: "Crosscut",
    Action.GROOVE: "Groove",
    Action.RABBET: "Rabbet",
    Action.NOTCH: "Notch",
    Action.MORTISE: "Mortise",
    Action.TENON: "Cut tenons on",
    Action.DOVETAIL: "Cut the dovetails of",
    Action.BORE: "Bore",
    Action.POCKET: "Bore screw pockets in",
    Action.BEVEL: "Bevel",
    Action.PROFILE: "Shape",
    Action.FACE: "Flatten one face of",
    Action.EDGE: "Straighten one edge of",
    Action.THICKNESS: "Plane",
}
CHECKS: Mapping[Action, str] = {
    Action.FACE: "flat: no light under a straight edge along, across and corner to corner",
    Action.EDGE: "straight, and square to the flat face",
    Action.NOTCH: "the notch against its lines, square inside",
    Action.MORTISE: "on a scrap, with the tenon, biscuit or loose tenon that goes in",
    Action.TENON: "on a scrap: it goes into its socket by hand and shows no gap",
    Action.DOVETAIL: "on a scrap: it goes together with light taps",
    Action.POCKET: "on a scrap, with its screw",
    Action.BEVEL: "the angle on a scrap, with a bevel gauge",
    Action.PROFILE: "on a scrap of the same wood first",
}


@dataclass(slots=True)
class Words:
    """Writes operations in words, for one job and its parts; `guests` names the guest of each joint, by its id."""

    job: Job
    named: NamedParts
    sides: Mapping[str, Sides]
    guests: Mapping[str, str] = field(default_factory=dict)
    texts: dict[int, str] = field(default_factory=dict)
    exact_texts: dict[int, str] = field(default_factory=dict)

    def text(self, nm: int) -> str:
        """Return a length as bench text; each is written once."""
        text = self.texts.get(nm)
        if text is None:
            text = self.texts[nm] = tape_text(nm, self.job.units, self.job.tape)
        return text

    def exact(self, nm: int) -> str:
        """Return a length as bench text, with its number beside it where it lies between two marks of the tape."""
        text = self.exact_texts.get(nm)
        if text is None:
            text = self.exact_texts[nm] = self._exactly(nm)
        return text

    def _exactly(self, nm: int) -> str:
        step = NM_PER_UNIT[self.job.units] * self.job.tape
        if min(nm % step, -nm % step) <= UNSEEN:
            return self.text(nm)
        number = round(to_number(nm, self.job.units), PLACES[self.job.units])
        return f"{self.text(nm)} ({number:g})"

    def worded(self, operation: Operation) -> Operation:
        """Return an operation with what to do, what to check and what to mind."""
        setting = operation.setting
        match operation.action:
            case _ if operation.do:
                do, check = operation.do, operation.check
            case Action.RIP | Action.CROSSCUT:
                at = setting.distance or 0
                across = operation.action is Action.CROSSCUT or is_to_width(operation)
                do = self._sawn(operation, at)
                end = (
                    "at both ends"
                    if not across
                    else "wide, and square"
                    if is_to_width(operation)
                    else "long, and square"
                )
                check = f"{self.exact(at)} {end}"
                if operation.cut_to is not None:
                    check = f"{'square' if across else 'both ends alike'}, and tried in its place"
                    check += " and planed to fit" if operation.cut_to.full else ""
            case Action.TRIM:
                do, check = self._trimmed(operation), "both straight, and the corner between them square"
            case Action.WAIT:
                do, check = self._rested(operation), "no piece has bowed or twisted"
            case Action.FACE | Action.EDGE | Action.THICKNESS:
                do = self._milled(operation)
                check = self._milled_check(operation)
            case Action.BORE:
                do, check = self._bored(operation), self._bored_check(operation)
            case Action.POCKET:
                do, check = self._pocketed(operation), CHECKS[Action.POCKET]
            case _:
                do, check = self._jointed(operation), self._jointed_check(operation)
        return replace(
            operation,
            do=do,
            check=check,
            cautions=(*operation.cautions, *cautions(operation, self.named.by_id, writer(self.job.units))),
        )

    def _sawn(self, operation: Operation, at: int) -> str:
        made = [one.keeps or one.leaves for one in operation.on if one.keeps or one.leaves]
        what = stopped_by(operation)
        verb, how = ("Cut", " to width") if is_to_width(operation) else (VERBS[operation.action], "")
        do = f"{verb} {self._names(made)}{how} {with_machine(operation.machine)}: {what} at "
        if operation.cut_to is None:
            return f"{do}{self.exact(at)}"
        return f"{do}{self._measured(operation.cut_to, made, at)}"

    def _measured(self, to: CutTo, made: Iterable[str], at: int) -> str:
        """Return what a cut in parts is set to, from what was measured, with the distance that is planned."""
        cabinets = {part.cabinet for name in made if (part := part_of(name, self.named.by_id)) is not None}
        several = any(cabinet.count > 1 for cabinet in self.job.cabinets if cabinet.id in cabinets)
        own = ", of its own cabinet" if several else ""
        return f"{formula(to, self.exact)}{own} (as planned {self.exact(at)})"

    def _slanted_to(self, operation: Operation) -> list[str]:
        """Return how a blade is set for a slant at the other end of what is cut to a measurement."""
        setting, to = operation.setting, operation.cut_to
        assert to is not None
        at = self._measured(to, [one.part for one in operation.on], setting.distance or 0)
        if setting.turn_deg is not None:
            return [f"stop at {at} at the saw's fence", f"saw turned {setting.turn_deg:.4g}°"]
        way = "towards" if setting.tilts is Tilts.NEAR else "away from"
        high = self.exact(setting.height or 0)
        return [f"fence at {at}", f"blade tilted {setting.tilt_deg or 0:.4g}° {way} the fence", f"{high} high"]

    def measuring(self, measurement: Measurement) -> Operation:
        """Return the step that measures on the work, with its words."""
        return measuring_step(measurement, self.named.by_id, self.exact)

    def _trimmed(self, operation: Operation) -> str:
        depth = self.exact(operation.setting.depth or 0)
        sheets = joined([quoted(one.piece) for one in operation.on])
        return f"Trim {depth} off one long edge and one end, blade included, of {sheets}"

    def _rested(self, operation: Operation) -> str:
        count = sum(one.count for one in operation.on)
        return f"Stack {count} milled {'piece' if count == 1 else 'pieces'} with sticks between and leave overnight"

    def _milled(self, operation: Operation) -> str:
        count = sum(one.count for one in operation.on)
        do = f"{VERBS[operation.action]} {count} rough {'piece' if count == 1 else 'pieces'}"
        height, depth = operation.setting.height, operation.setting.depth
        if depth is not None:
            do = f"{do}, {self.exact(depth)} off,"
        elif height is not None:
            do = f"{do} to {self.exact(height)}"
        return f"{do} {with_machine(operation.machine)}"

    def _milled_check(self, operation: Operation) -> str:
        if operation.action is Action.THICKNESS:
            return f"{self.exact(operation.setting.height or 0)} thick at both ends"
        if operation.machine is Machine.TRACK_SAW:
            return "straight from end to end"
        return CHECKS[operation.action]

    def _opening(self, operation: Operation) -> str:
        """Return what is done to which parts by which machine, and what for where all are cut for one thing."""
        fingers = operation.action is Action.TENON and operation.on[0].at
        slot = operation.action is Action.GROOVE and operation.setting.tilt_deg is not None
        slots = operation.machine is Machine.BISCUIT_MACHINE
        verb = "Cut the fingers of" if fingers else "Slot" if slot or slots else VERBS[operation.action]
        verb = verb if operation.setting.turn_deg is None else "Mitre"
        labels = {label for one in operation.on for label in one.cuts}
        names = self._names([one.part for one in operation.on])
        what = f" ({labels.pop()})" if len(labels) == 1 else ""
        template = operation.action is Action.DOVETAIL and operation.on[0].at and operation.machine is Machine.ROUTER
        jig = " and a dovetail template" if template else ""
        return f"{verb} {names}{what} {with_machine(operation.machine)}{jig}"

    def _bored(self, operation: Operation) -> str:
        setting, on = operation.setting, operation.on
        deep = "through" if setting.depth is None else f"{self.exact(setting.depth)} deep"
        places = sum(len(one.at) for one in on)
        where = "at the place listed" if places == 1 else "at the places listed"
        bit = f"{bit_text(setting.cutter or 0, self.job.units, self.job.tape)} bit"
        return f"{self._opening(operation)}: {lies(operation, self.sides)}, {bit}, {deep}, {where}"

    def _pocketed(self, operation: Operation) -> str:
        """Return how pockets are bored; the width of a pocket is its bit's, and lies between `start` and `end`."""
        setting = operation.setting
        bit = bit_text((setting.end or 0) - (setting.start or 0), self.job.units, self.job.tape)
        slant = f"{90 - (setting.tilt_deg or 0):.3g}° to that side"
        return (
            f"{self._opening(operation)} and a pocket jig: {lies(operation, self.sides)}, {bit} stepped bit slanting "
            f"{slant}, the shoulder and the middle of each pocket at the places listed"
        )

    def _bored_check(self, operation: Operation) -> str:
        depth = operation.setting.depth
        deep = "the bit clean through a scrap" if depth is None else f"{self.exact(depth)} deep on a scrap"
        return f"{deep}; the first hole from both sides it is measured from"

    def _jointed(self, operation: Operation) -> str:
        setting, on = operation.setting, operation.on
        enters = operation.machine in ENTERS
        words = [lies(operation, self.sides)]
        if operation.cut_to is not None:
            words += self._slanted_to(operation)
        elif setting.turn_deg is not None:
            words += mitred(setting, self.exact)
        else:
            marked = marked_out(setting, self.exact, operation.machine in TO_MIDDLE)
            words += marked if on[0].at else machine_setting(setting, self.exact, enters)
        if setting.end is not None and not on[0].at:
            words.append(self._stopped(operation))
        run, runs = on[0].run
        if runs > 1:
            words.append(f"pass {run} of {runs}")
        return f"{self._opening(operation)}: {', '.join(words)}"

    def _stopped(self, operation: Operation) -> str:
        """Return where a cut that is not made all along begins and ends."""
        setting, on = operation.setting, operation.on
        start, end = setting.start or 0, setting.end or 0
        names = {self.sides[one.part][one.leads] for one in on if one.leads is not None}
        leads = f"the {names.pop()}" if len(names) == 1 else "the side each line measures from"
        if operation.action not in (Action.GROOVE, Action.RABBET):
            return f"from {self.exact(start)} to {self.exact(end)} from {leads}"
        sizes = {self.named.by_id[one.part].blank.high(one.leads.axis) for one in on if one.leads is not None}
        far = {self.sides[one.part][one.leads.across] for one in on if one.leads is not None}
        if start == 0:
            short = f", {self.exact(min(sizes) - end)} short of the {min(far)}" if len(sizes) == len(far) == 1 else ""
            return f"stopped {self.exact(end)} in from {leads}{short}"
        if sizes == {end}:
            return f"stopped {self.exact(start)} short of {leads}"
        return f"stopped at both ends: from {self.exact(start)} to {self.exact(end)} from {leads}"

    def _jointed_check(self, operation: Operation) -> str:
        setting, on = operation.setting, operation.on
        run, runs = on[0].run
        size = f"{self.exact(setting.height or 0)} deep"
        if operation.action not in (Action.GROOVE, Action.RABBET):
            first = f"{size}, on a scrap" if run < runs else "on a scrap of the same wood first"
            return first if run < runs else CHECKS.get(operation.action, first)
        if setting.tilt_deg is not None:
            return f"{size}; on a scrap, with the spline that goes in"
        if run < runs:
            away = f", {self.exact(setting.fence)} from the side at the fence" if setting.fence else ""
            return f"{size}{away}, on a scrap"
        guests = self._guests(on)
        if operation.action is Action.RABBET or not guests:
            width = self.exact((setting.fence or 0) + (setting.cutter or 0))
            return f"{size}, its far side {width} from the side at the fence"
        after = f"after pass {run}, " if runs > 1 else ""
        return f"{size}; {after}a scrap of {joined(guests)} slides in by hand"

    def _guests(self, on: Iterable[Workpiece]) -> list[str]:
        """Return the materials of the parts that go into cuts."""
        guests: dict[str, None] = {}
        for one in on:
            for feature in self.named.by_id[one.part].features:
                guest = self.named.by_id.get(self.guests.get(feature.joint, ""))
                if feature.label in one.cuts and guest is not None and guest.id != one.part:
                    guests[guest.material] = None
        return [f"{key} ({self.text(self.job.materials[key].thickness)})" for key in guests]

    def _names(self, ids: Iterable[str]) -> str:
        """Return parts summed up, and pieces on their way to parts, one by one where they are few."""
        words, pieces = pieces_summed_up(ids, self.named)
        few = not words and len(pieces) <= NAMED
        more = "the other piece listed" if len(pieces) == 1 else f"the {len(pieces)} pieces listed"
        words += list(map(quoted, pieces)) if few else [more] if pieces else []
        return " and ".join(words) if few or not words else "; and ".join(words)
