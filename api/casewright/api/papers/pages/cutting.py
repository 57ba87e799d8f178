"""The booklet's cutting pages: the cut list with its reasons, the stock layouts, and the saw settings to tick off."""

from collections.abc import Sequence

from casewright.api.engine.work.lying import piece_words
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.setting import BOX, CELL, HEAD, SMALL, UNDER, drawings, gap, para, table
from casewright.api.papers.views.layout import layout
from casewright.api.papers.views.page import finish
from casewright.sdk.model import MachinePass, MachineSetting, Part, Purchase, Stage, Term
from casewright.sdk.model.stock import MINOR_UNITS
from reportlab.platypus import Flowable

GRAIN = {"along-length": "along length", "along-width": "along width", "free": "free"}
TOOLS = {"fence": "Fence at", "stop": "Stop at", "track": "Track cut at", "groove": "Groove", "rabbet": "Rabbet",
         "hole": "Holes"}  # fmt: skip


def cut_list(facts: Facts) -> list[Flowable]:
    """Return every part with its size and the terms each size comes from."""
    story: list[Flowable] = [para("Cut list", HEAD)]
    if not facts.plan.parts:
        return [*story, para("This job has no parts.")]
    story.append(para("Under each size stands where it comes from: the terms add up to it exactly.", SMALL))
    by_material: dict[str, list[Part]] = {}
    for part in facts.plan.parts:
        by_material.setdefault(part.material, []).append(part)
    for key, parts in by_material.items():
        material = facts.job.materials[key]
        story.append(para(f"{key}: {material.stuff}, {facts.text(material.thickness)} thick", UNDER))
        rows = [_row(facts, part) for part in parts]
        story.append(table(("Part", "No.", "Length × width × thickness", "Grain", "Why"), rows, (25, 6, 30, 13, 45)))
    return story


def _row(facts: Facts, part: Part) -> list[object]:
    why = [para(f"L: {reason(facts, part.why_length)}", CELL), para(f"W: {reason(facts, part.why_width)}", CELL)]
    if part.bands:
        why.append(para("band: " + ", ".join(dict.fromkeys(b.material for b in part.bands)), CELL))
    return [part.id, part.quantity, facts.size(part), GRAIN[part.grain], why]


def reason(facts: Facts, terms: Sequence[Term]) -> str:
    """Return the terms of a size: `inside width 22.5 + groove depth left 0.375`, in numbers that sum."""
    out = []
    for i, term in enumerate(terms):
        sign = "− " if term.nm < 0 else "+ " if i else ""
        out.append(f"{sign}{term.label} {facts.bare(abs(term.nm))}")
    return " ".join(out) or "as given"


def layouts(facts: Facts, paper: str, mark: str) -> list[Flowable]:
    """Return the stock layouts as drawings, with what to buy and what is left."""
    stock = facts.plan.stock
    story: list[Flowable] = [para("Stock", HEAD)]
    if stock is None:
        return [*story, para("The job gives no stock, so no layouts were planned.")]
    if stock.buy:
        story.append(para("To buy", UNDER))
        heads = ("Stock", "Material", "Pieces", "Length × width × thickness", "Cost")
        story.append(table(heads, [_bought(facts, row) for row in stock.buy], (20, 20, 10, 35, 15)))
    if stock.short:
        story.append(para("Not to be had from this stock", UNDER))
        rows = [[short.part, short.quantity, short.reason] for short in stock.short]
        story.append(table(("Part", "Pieces", "Why"), rows, (30, 10, 60)))
    kept = [left for left in stock.leftovers if left.keep]
    if kept:
        story.append(para("Left over and worth keeping: write this on each piece", UNDER))
        story += [para(f"{BOX} {left.label(facts.tape)}", CELL) for left in kept]
    for caution in stock.cautions:
        story.append(para(f"{caution.level.capitalize()}: {caution.message}", SMALL))
    for bound in stock.bounds:
        if bound.least == bound.bought:
            story.append(para(f"{bound.material}: proved that nothing cheaper would do ({bound.how}).", SMALL))
    pages = layout(facts, None, paper)
    return [*story, *drawings(finish(facts, pages, paper, mark))]


def _bought(facts: Facts, row: Purchase) -> list[object]:
    size = " × ".join(facts.bare(nm) for nm in (row.length, row.width, row.thickness))
    cost = "" if row.cost is None else f"{row.cost / MINOR_UNITS:.2f}"
    return [row.stock, row.material, row.quantity, f"{size} {facts.units}", cost]


def settings(facts: Facts) -> list[Flowable]:
    """Return the saw settings in working order, each with a box to tick."""
    story: list[Flowable] = [para("Saw settings in working order", HEAD)]
    story.append(
        para(
            "Set once, make every cut named, tick, go on. Riving knife and guard stay on; eyes, ears and lungs covered."
        )
    )
    stock = facts.plan.stock
    if stock is not None and stock.settings:
        back = stock.returns.count
        story.append(
            para("Every setting is visited once." if not back else f"{back} settings are gone back to.", SMALL)
        )
        rows = [[BOX, one.number, _setting(facts, one), _passes(one.passes)] for one in stock.settings]
        return [*story, table(("", "No.", "Setting", "Cuts and parts"), rows, (4, 6, 30, 60))]
    steps = [
        [BOX, step.number, step.do, "; ".join(piece_words(step, facts.parts, facts.sides, facts.tape))]
        for step in facts.plan.steps
        if step.stage == Stage.CUT
    ]
    if not steps:
        return [*story, para("Nothing is cut.")]
    return [*story, table(("", "Step", "What", "Pieces"), steps, (4, 6, 38, 54)), gap()]


def _setting(facts: Facts, setting: MachineSetting) -> str:
    words = f"{TOOLS[setting.tool]} {facts.text(setting.distance)}"
    if setting.cutter:
        words += f", cutter {facts.bare(setting.cutter)}, {facts.bare(setting.depth)} deep"
    return words


def _passes(passes: Sequence[MachinePass]) -> str:
    cuts = [str(one.cut) for one in passes if one.cut]
    if cuts:
        parts = list(dict.fromkeys(one.part for one in passes if one.part))
        words = "cuts " + ", ".join(cuts)
        return words + (": " + ", ".join(parts) if parts else "")
    grooves = [(one, f" from {one.datum}" if one.datum else "") for one in passes]
    return "; ".join(f"{one.part} ({one.count}), {one.does}{datum}" for one, datum in grooves)
