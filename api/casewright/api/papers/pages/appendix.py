"""The booklet's appendix: what sizes come from, where hardware goes, seats of joints, the checks."""

from collections.abc import Sequence

from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.cut_list import likes
from casewright.api.papers.pages.setting import CELL, FINE, SMALL, WARN, head, para, table
from casewright.api.papers.pages.settings import places
from casewright.sdk.findings import LENGTH, Check, Measured
from casewright.sdk.model import Part, Term
from casewright.sdk.sources import SOURCES, cite
from reportlab.platypus import Flowable


def appendix(facts: Facts) -> list[Flowable]:
    """Return the appendix."""
    return [*_reasons(facts), *places(facts), *_seats(facts), *_hardware(facts), *_checks(facts)]


def _reasons(facts: Facts) -> list[Flowable]:
    """Return every part with the terms its sizes sum from; those with the same terms once."""
    if not facts.plan.parts:
        return []
    story: list[Flowable] = [head("Appendix: what each size comes from")]
    story.append(para("No. is the row of the cut list. The terms add up to the size exactly.", SMALL))
    rows: list[list[object]] = []
    for like in likes(facts):
        same: dict[tuple[str, str], list[Part]] = {}
        for part in like.parts:
            same.setdefault((reason(facts, part.why_length), reason(facts, part.why_width)), []).append(part)
        for (length, width), parts in same.items():
            ids = ", ".join(part.id for part in parts)
            why = [para(f"L: {length}", FINE), para(f"W: {width}", FINE)]
            rows.append([like.number, para(ids, FINE), para(facts.size(parts[0]), FINE), why])
    story.append(table(("No.", "Part", "Length × width × thickness", "Why"), rows, (5, 30, 22, 60)))
    return story


def reason(facts: Facts, terms: Sequence[Term]) -> str:
    """Return the terms of a size: `inside width 22.5 + groove depth left 0.375`, in numbers that sum."""
    out = []
    for i, term in enumerate(terms):
        sign = "− " if term.nm < 0 else "+ " if i else ""
        out.append(f"{sign}{term.label} {facts.bare(abs(term.nm))}")
    return " ".join(out) or "as given"


def _seats(facts: Facts) -> list[Flowable]:
    """Return how deep each joint seats, as the dry fit of the planned solids found it; like ones once."""
    plan = facts.plan.dry_fit
    story: list[Flowable] = [head("Appendix: joints and the dry fit")]
    if plan.clashes:
        story.append(para("The planned parts clash: do not cut before this is cured.", WARN))
        story += [
            para(f"{c.first} and {c.second} share {facts.writer.volume_mm3(c.volume_mm3)}") for c in plan.clashes[:20]
        ]
    seats = {seat.joint: seat for seat in plan.seats}
    alike: dict[tuple[str, str, str, str], list[str]] = {}
    for joint in facts.plan.joints:
        seat = seats.get(joint.id)
        depth, room = (seat.seat, seat.clearance) if seat else (joint.seat, joint.clearance)
        fault = "" if seat is None or seat.seated else "DOES NOT SEAT"
        key = (joint.method, facts.bare(depth), facts.bare(room), fault)
        alike.setdefault(key, []).append(f"{joint.guest} into {joint.host}")
    if alike:
        rows = [[*key, para("; ".join(pairs), FINE)] for key, pairs in alike.items()]
        story.append(table(("Joint", "Depth", "Room", "", "Guest into host"), rows, (20, 10, 10, 12, 56)))
    words = f"{plan.pairs_checked} pairs of parts were tried in the plan: " + "; ".join(plan.approximations) + "."
    return [*story, para(words, SMALL)]


def _hardware(facts: Facts) -> list[Flowable]:
    if not facts.plan.hardware:
        return []
    alike: dict[tuple[str, int, str], list[str]] = {}
    for line in facts.plan.hardware:
        alike.setdefault((line.cabinet, line.quantity, line.words), []).append(line.used_for)
    rows: list[list[object]] = [
        [cabinet, f"{count} each" if len(used) > 1 else count, name, para(", ".join(used), FINE)]
        for (cabinet, count, name), used in alike.items()
    ]
    return [head("Appendix: where hardware goes"), table(("Cabinet", "Pieces", "What", "For"), rows, (14, 11, 38, 40))]


def _checks(facts: Facts) -> list[Flowable]:
    """Return every check with its source, stops first; those that say the same in one row."""
    story: list[Flowable] = [head("Appendix: checks and their sources")]
    if not facts.checks:
        return [*story, para("No check had anything to say.")]
    alike: dict[tuple[str, str, str, str], list[str]] = {}
    for check in facts.checks:
        key = (check.level, check.message, _values(facts, check), cited(facts, check.source))
        alike.setdefault(key, []).append(facts.about(check))
    rows: list[list[object]] = [
        [
            para(level.upper() if level == "stop" else level, FINE),
            para(", ".join(dict.fromkeys(subjects)), FINE),
            [para(message, CELL if level == "stop" else FINE), *([para(values, FINE)] if values else [])],
            para(source, FINE),
        ]
        for (level, message, values, source), subjects in alike.items()
    ]
    story.append(table(("Level", "About", "What", "Source"), rows, (9, 24, 50, 30)))
    return story


def _values(facts: Facts, check: Check) -> str:
    named = zip(("is", "limit"), checked(facts, check), strict=True)
    return ", ".join(f"{name} {value}" for name, value in named if value)


def checked(facts: Facts, check: Check) -> tuple[str, str]:
    """Return what a check found and its limit, in the job's units; nothing for what it has not."""
    value, limit = ("" if one is None else _value(facts, one, check.unit) for one in (check.value, check.limit))
    return value, limit


def _value(facts: Facts, value: Measured, unit: str) -> str:
    if unit == LENGTH and isinstance(value, int):
        return facts.text(value)
    if isinstance(value, float):
        value, unit = facts.writer.measured(value, unit)
        return f"{value:.4g} {unit}".strip()
    return f"{value} {unit}".strip()


def cited(facts: Facts, code: str) -> str:
    """Return the document that a code of a source stands for, or the code itself where none is known by it."""
    own = facts.plan.sources
    known = code in SOURCES or any(one.code == code for one in own)
    return cite(code, own) if known else code
