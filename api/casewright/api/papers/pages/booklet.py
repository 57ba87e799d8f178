"""The booklet: everything one person at the bench needs, in the order it is needed."""

from collections.abc import Sequence

from casewright.api.papers import text as metrics
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages import bench, building, cutting, hanging
from casewright.api.papers.pages.setting import BODY, CELL, HEAD, SMALL, UNDER, Picture, gap, para, table, write
from casewright.api.papers.pages.stops import stops
from casewright.api.papers.views.isometric import assembled
from casewright.api.papers.views.page import finish, size_of
from casewright.sdk.engineering import weights
from casewright.sdk.findings import LENGTH, Check, Measured
from casewright.sdk.model import Cabinet, Plan
from casewright.sdk.model.cures import StopCures
from casewright.sdk.sources import SOURCES, cite
from reportlab.platypus import Flowable, KeepTogether, PageBreak

PICTURES = 6
"""Cabinets that are drawn in the booklet; the others are named."""


def booklet(plan: Plan, fingerprint: str, paper: str, cures: Sequence[StopCures] = ()) -> bytes:
    """Return the booklet as PDF. `paper` is one of `views.page.PAPERS`; `fingerprint` is printed on every page.

    `cures` are those of its stops, which stand on the first page.
    """
    facts = Facts(plan)
    mark = metrics.short(fingerprint)
    story: list[Flowable] = [*_what(facts, cures, paper, mark)]
    sections = (
        cutting.cut_list(facts),
        cutting.layouts(facts, paper, mark),
        cutting.steps(facts),
        building.joints(facts),
        building.dry_fit(facts),
        bench.bench(facts),
        building.gates(facts),
        building.hardware(facts),
        building.drilling(facts, paper, mark),
        hanging.hanging(facts, paper, mark),
        _checks(facts),
    )
    for section in sections:
        if section:
            story += [PageBreak(), *section]
    return write(story, facts, mark, paper)


def _what(facts: Facts, cures: Sequence[StopCures], paper: str, mark: str) -> list[Flowable]:
    story: list[Flowable] = [para(facts.title, HEAD)]
    story += stops(facts, cures)
    story.append(para(f"Lengths are in {facts.unit_name}. A length on the tape is written as the tape shows it; "
                      "any other in decimals, for callipers. Sizes are of the wood, without band.", BODY))  # fmt: skip
    rows = [_cabinet_row(facts, cabinet) for cabinet in facts.cabinets.values()]
    if rows:
        heads = ("Cabinet", "To make", "Width × height × depth", "Weight, empty", "Hands to lift")
        story.append(table(heads, rows, (22, 9, 32, 18, 18)))
    if facts.job.loose_parts:
        story.append(para(f"and {len(facts.job.loose_parts)} kinds of loose parts that are only cut."))
    story.append(gap())
    drawn = list(facts.cabinets.values())[:PICTURES]
    room = (size_of(paper, True)[0] - 30) / 25.4 * 72
    for cabinet in drawn:
        sheet = finish(facts, assembled(facts, cabinet, paper), paper)[0]
        inner = [v for v in sheet.views if not v.furniture]
        bare = type(sheet)(sheet.name, sheet.title, sheet.width, sheet.height, sheet.units, tuple(inner))
        width = room * (0.8 if len(drawn) == 1 else 0.55)
        story.append(KeepTogether([para(cabinet.title or cabinet.id, UNDER), Picture(bare, width)]))
    if len(facts.cabinets) > PICTURES:
        story.append(
            para(f"{len(facts.cabinets) - PICTURES} more cabinets are drawn in the isometric drawings.", SMALL)
        )
    if any(metrics.cannot_draw(t) for t in (facts.title, *(c.title for c in facts.cabinets.values()))):
        story.append(
            para(
                "A □ stands for a character that the fonts of this booklet cannot draw; the plan's data has it.", SMALL
            )
        )
    return story


def _cabinet_row(facts: Facts, cabinet: Cabinet) -> list[object]:
    weight = next((w.mass_kg for w in facts.plan.weights if w.cabinet == cabinet.id), None)
    size = " × ".join(facts.bare(n) for n in (cabinet.width, cabinet.height, cabinet.depth))
    return [
        cabinet.id,
        cabinet.count,
        size,
        "" if weight is None else facts.writer.mass_kg(weight),
        "" if weight is None else hands(weight),
    ]


def hands(kg: float) -> str:
    """Return in words how many people should lift a mass overhead."""
    return {1: "one person", 2: "two people"}.get(weights.hands(kg), "three people or a lift")


def _subject(check: Check) -> str:
    return check.subject or "the job"


def _checks(facts: Facts) -> list[Flowable]:
    """Return every check with its source, stops first."""
    order = {"stop": 0, "caution": 1, "note": 2}
    found = sorted(facts.plan.checks, key=lambda c: order[c.level])
    story: list[Flowable] = [para("Checks and their sources", HEAD)]
    if not found:
        return [*story, para("No check had anything to say.")]
    rows = []
    for check in found:
        cell = [para(f"{check.message}", CELL)]
        values = _values(facts, check)
        if values:
            cell.append(para(values, SMALL))
        rows.append(
            [
                check.level.upper() if check.level == "stop" else check.level,
                _subject(check),
                cell,
                _cited(check.source),
            ]
        )
    story.append(table(("Level", "About", "What", "Source"), rows, (11, 26, 45, 30)))
    return story


def _values(facts: Facts, check: Check) -> str:
    named = (("found", check.value), ("limit", check.limit))
    return ", ".join(f"{name} {_value(facts, value, check.unit)}" for name, value in named if value is not None)


def _value(facts: Facts, value: Measured, unit: str) -> str:
    if unit == LENGTH and isinstance(value, int):
        return facts.text(value)
    if isinstance(value, float):
        value, unit = facts.writer.measured(value, unit)
        return f"{value:.4g} {unit}".strip()
    return f"{value} {unit}".strip()


def _cited(code: str) -> str:
    if not code:
        return ""
    return cite(code) if code in SOURCES else code
