"""The booklet's page to shop by: stock to buy, what is on hand, hardware, band and glue, and what will be left."""

from collections import Counter
from collections.abc import Iterator
from math import fsum

from casewright.api.engine.work.costs import hardware_totals
from casewright.api.engine.work.short_stock import purchase_words
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.setting import BOX, CELL, SMALL, UNDER, WARN, head, para, table
from casewright.api.stock import begun_of
from casewright.sdk.model import SHORT_REASONS, Action, Machine, Purchase
from casewright.sdk.model.stock import MINOR_UNITS
from reportlab.platypus import Flowable


def buying(facts: Facts) -> list[Flowable]:
    """Return what to buy and gather."""
    return [head("Buy and gather"), *_stock(facts), *_hardware(facts), *_left(facts)]


def _stock(facts: Facts) -> list[Flowable]:
    stock, given = facts.plan.stock, facts.job.stock
    if stock is None or given is None:
        return [para("The job gives no stock, so no layouts were planned.")]
    story: list[Flowable] = []
    if stock.buy:
        story.append(para("Sheets and boards to buy", UNDER))
        heads = ("", "Pieces", "Stock", "Material", "Length × width × thickness", "Cost")
        story.append(table(heads, [_bought(facts, row) for row in stock.buy], (4, 9, 20, 20, 35, 12)))
    hand = {piece.id for piece in given.offcuts} - {one.piece.id for one in given.clean}
    used = Counter(one.stock for one in facts.layouts if one.stock in hand)
    used += Counter(one.stock.piece.id for one in begun_of(given, stock, facts.job.shop.keep_offcut))
    if used:
        words = ", ".join(f"{count} × {name}" if count > 1 else name for name, count in used.items())
        story.append(para(f"{BOX} On hand and used: {words}"))
    if stock.short:
        count = sum(row.quantity for row in stock.short)
        story.append(para(f"The stock listed does not yield {count} of these pieces:", WARN))
        rows = [[short.part, short.quantity, short.material, SHORT_REASONS[short.reason]] for short in stock.short]
        story.append(table(("Part", "Pieces", "Material", "Why"), rows, (30, 10, 20, 40)))
        story += [
            para(f"{BOX} {lacking.material}: get {purchase_words(bought, facts.writer)}", CELL)
            for lacking in stock.lacking
            for bought in lacking.buy
        ]
    for bound in stock.bounds:
        if bound.least == bound.bought:
            story.append(para(f"{bound.material}: proved that nothing cheaper would do ({bound.how}).", SMALL))
    return story


def _bought(facts: Facts, row: Purchase) -> list[object]:
    size = " × ".join(facts.bare(nm) for nm in (row.length, row.width, row.thickness))
    cost = "" if row.cost is None else f"{row.cost / MINOR_UNITS:.2f}"
    return [BOX, row.quantity, row.stock, row.material, f"{size} {facts.units}", cost]


def _hardware(facts: Facts) -> list[Flowable]:
    story: list[Flowable] = [para("Hardware", UNDER)]
    rows: list[list[object]] = [[BOX, one.quantity, one.words, one.item] for one in hardware_totals(facts.plan)]
    story.append(table(("", "Pieces", "What", "Catalogue id"), rows, (4, 9, 60, 27)) if rows
                 else para("This job needs no hardware."))  # fmt: skip
    write = facts.writer
    for one in facts.plan.workshop:
        count = facts.cabinets[one.cabinet].count
        name = f"{count} × {one.cabinet}" if count > 1 else one.cabinet
        long = facts.tape(count * one.band_length)
        band = f"; edge band, {long} in all, and some to trim" if one.band_length else ""
        glue = f"glue on {write.small_area_mm2(count * one.glue_area_mm2)}, about {write.mass_g(count * one.glue_g)}"
        story.append(para(f"{BOX} {name}: {glue}{band}."))
    return [*story, *_gather(facts)]


def _gather(facts: Facts) -> Iterator[Flowable]:
    """Yield what is used up or stood by besides: finish, clamps, cutters."""
    area = fsum(facts.cabinets[one.cabinet].count * one.finish_area_mm2 for one in facts.plan.workshop)
    coats = ", then ".join(coat.what for coat in facts.job.shop.finish)
    if area and coats:
        yield para(f"{BOX} Finish for {facts.writer.area_mm2(area)}, every face that air reaches: {coats}.")
    clamps = [sum(one.clamps for one in step.on) for step in facts.plan.steps if step.action is Action.CLAMP]
    if any(clamps):
        yield para(f"{BOX} Clamps: {max(clamps)} at a time, with cauls.")
    turning = [step for step in facts.plan.steps if step.machine not in (Machine.JIGSAW, Machine.BAND_SAW)]
    cutters = sorted({step.setting.cutter for step in turning if step.setting.cutter})
    if cutters:
        sizes = ", ".join(facts.bit(cutter) for cutter in cutters)
        yield para(f"{BOX} Cutters and bits of the machines: {sizes}. Bits for screws: as their steps say.")


def _left(facts: Facts) -> list[Flowable]:
    kept = [left for left in facts.plan.stock.leftovers if left.keep] if facts.plan.stock else []
    if not kept:
        return []
    story: list[Flowable] = [para("Will be left and is worth keeping: write this on each piece", UNDER)]
    return [*story, *(para(f"{BOX} {left.label(facts.tape)}", CELL) for left in kept)]
