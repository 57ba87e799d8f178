"""The booklet's cutting pages: the cut list with its reasons, the stock layouts, and the steps to tick off."""

from collections.abc import Sequence

from casewright.api.engine.work.lying import piece_words
from casewright.api.engine.work.short_stock import purchase_words
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.bench import box
from casewright.api.papers.pages.setting import BOX, CELL, HEAD, SMALL, UNDER, WARN, drawings, gap, para, table
from casewright.api.papers.views.layout import layout
from casewright.api.papers.views.page import finish
from casewright.sdk.model import SHORT_REASONS, Part, Purchase, Stage, Term
from casewright.sdk.model.stock import MINOR_UNITS
from reportlab.platypus import Flowable

GRAIN = {"along-length": "along length", "along-width": "along width", "free": "free"}


def cut_list(facts: Facts) -> list[Flowable]:
    """Return every part with its size and the terms each size comes from."""
    story: list[Flowable] = [para("Cut list", HEAD)]
    if not facts.plan.parts:
        return [*story, para("This job has no parts.")]
    short = facts.plan.stock.short if facts.plan.stock else ()
    if short:
        count = sum(row.quantity for row in short)
        story.append(para(f"The stock listed does not yield {count} of these pieces: see Stock.", WARN))
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
        rows = [[short.part, short.quantity, short.material, SHORT_REASONS[short.reason]] for short in stock.short]
        story.append(table(("Part", "Pieces", "Material", "Why"), rows, (30, 10, 20, 40)))
        story += [
            para(f"{BOX} {lacking.material}: get {purchase_words(bought, facts.writer)}", CELL)
            for lacking in stock.lacking
            for bought in lacking.buy
        ]
    kept = [left for left in stock.leftovers if left.keep]
    if kept:
        story.append(para("Left over and worth keeping: write this on each piece", UNDER))
        story += [para(f"{BOX} {left.label(facts.tape)}", CELL) for left in kept]
    for bound in stock.bounds:
        if bound.least == bound.bought:
            story.append(para(f"{bound.material}: proved that nothing cheaper would do ({bound.how}).", SMALL))
    pages = layout(facts, None, paper)
    return [*story, *drawings(finish(facts, pages, paper, mark))]


def _bought(facts: Facts, row: Purchase) -> list[object]:
    size = " × ".join(facts.bare(nm) for nm in (row.length, row.width, row.thickness))
    cost = "" if row.cost is None else f"{row.cost / MINOR_UNITS:.2f}"
    return [row.stock, row.material, row.quantity, f"{size} {facts.units}", cost]


def steps(facts: Facts) -> list[Flowable]:
    """Return the steps that cut and mill parts, each with a box to tick."""
    story: list[Flowable] = [para("Cutting, step by step", HEAD)]
    words = "Set once, make every cut named, tick, go on. The numbers are those of the order of work and the layouts."
    story.append(para(words, SMALL))
    rows = [
        [
            box(facts, step),
            step.number,
            [para(line, CELL) for line in (step.do, *step.cautions)],
            "; ".join(piece_words(step, facts.parts, facts.sides, facts.tape)),
        ]
        for step in facts.plan.steps
        if step.stage in (Stage.CUT, Stage.MILL)
    ]
    if not rows:
        return [*story, para("Nothing is cut.")]
    return [*story, table(("", "Step", "What", "Pieces"), rows, (4, 6, 45, 45)), gap()]
