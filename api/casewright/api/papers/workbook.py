"""The plan as a workbook: the cut list as printed, stock, steps, hardware, costs, checks, fits, parts and leftovers."""

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from datetime import UTC, datetime
from decimal import Decimal
from io import BytesIO
from typing import Any
from zipfile import ZipFile

from casewright.api.engine.work.costs import hardware_totals, unpriced
from casewright.api.engine.work.from_work import formula
from casewright.api.engine.work.lying import piece_words
from casewright.api.engine.work.naming import summed_up
from casewright.api.papers.archive import archive
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.appendix import checked, cited, reason
from casewright.api.papers.pages.cut_list import GRAIN, to_cut
from casewright.api.papers.worksheet import Columns, fill
from casewright.api.stock import begun_of
from casewright.sdk.model import (
    SHORT_REASONS,
    Costs,
    CutTo,
    Fit,
    Operation,
    Plan,
    Stock,
    StockPiece,
    StockPlan,
    WhyUnproved,
)
from casewright.sdk.model.stock import MINOR_UNITS
from casewright.sdk.units import to_number
from openpyxl import Workbook
from openpyxl.worksheet.worksheet import Worksheet

_START = datetime(2000, 1, 1, tzinfo=UTC).replace(tzinfo=None)
_CORE = "docProps/core.xml"
_STAMP = re.compile(rb"(<dcterms:(created|modified)[^>]*>)[^<]*(</dcterms:)")


def workbook(plan: Plan) -> bytes:
    """Return the plan as XLSX. The same plan always gives the same bytes."""
    facts = Facts(plan)
    book = Workbook()
    book.properties.creator = "casewright"
    book.properties.title = facts.title
    book.properties.created = _START
    first = book.active
    assert isinstance(first, Worksheet)
    if facts.stops:
        _stops(first, facts)
        first = book.create_sheet()
    _cut_list(first, facts)
    for write in (_stock, _steps, _hardware, _cost, _checks, _fits, _parts, _leftovers):
        write(book.create_sheet(), facts)
    out = BytesIO()
    book.save(out)
    return _timeless(out.getvalue())


def _timeless(data: bytes) -> bytes:
    """Return a workbook's archive with every date in it set to one moment."""
    with ZipFile(BytesIO(data)) as old:
        files = {name: old.read(name) for name in old.namelist()}
    files[_CORE] = _STAMP.sub(rb"\g<1>2000-01-01T00:00:00Z\g<3>", files[_CORE])
    return archive(files)


def _stops(sheet: Worksheet, facts: Facts) -> None:
    rows = [(facts.about(check), check.message, check.code) for check in facts.stops]
    fill(sheet, facts, "STOP", Columns((facts.stop_words, "Why", "Code"), (36, 70, 24)), rows)


def _cut_list(sheet: Worksheet, facts: Facts) -> None:
    """Write the cut list as the booklet prints it: parts cut alike in one row."""
    units = facts.units
    heads = ("No.", "Parts", "Pieces", "Material", f"Length {units}", f"Width {units}", f"Thickness {units}",
             "Length, tape", "Width, tape", "Grain", "Banded edges", "Cut")  # fmt: skip
    every = facts.named.every
    rows = []
    for like in to_cut(facts):
        part = like.parts[0]
        bands = Counter(band.material for band in part.bands)
        rows.append((
            like.number, summed_up(like.parts, every), like.pieces, part.material, facts.number(part.length),
            facts.number(part.width), facts.number(part.thickness), facts.tape(part.length), facts.tape(part.width),
            GRAIN[part.grain], ", ".join(f"{count} of {name}" for name, count in bands.items()), "",
        ))  # fmt: skip
    columns = Columns(heads, (5, 40, 7, 11, 10, 10, 11, 14, 14, 8, 13, 8), (5, 6, 7))
    fill(sheet, facts, "Cut list", columns, rows)


def _stock(sheet: Worksheet, facts: Facts) -> None:
    """Write what is bought, what is used of what is on hand, and what the stock does not yield."""
    units = facts.units
    heads = ("What", "Pieces", "Stock", "Material", f"Length {units}", f"Width {units}", f"Thickness {units}", "Cost",
             "Note")  # fmt: skip
    rows: list[tuple[Any, ...]] = []
    stock, given = facts.plan.stock, facts.job.stock
    if stock is not None and given is not None:
        rows += [
            ("buy", row.quantity, row.stock, row.material, to_number(row.length, units), to_number(row.width, units),
             to_number(row.thickness, units), None if row.cost is None else row.cost / MINOR_UNITS, "")
            for row in stock.buy
        ]  # fmt: skip
        rows += [
            ("on hand", 1, one.id, one.material, to_number(one.length, units), to_number(one.width, units),
             to_number(one.thickness, units), None, where)
            for one, where in _used(given, stock, facts.job.shop.keep_offcut)
        ]  # fmt: skip
        rows += [
            ("short", row.quantity, row.part, row.material, None, None, None, None, SHORT_REASONS[row.reason])
            for row in stock.short
        ]
    money = {8: _amount(facts.plan.costs)}
    fill(sheet, facts, "Stock", Columns(heads, (9, 7, 26, 16, 11, 11, 12, 10, 40), (5, 6, 7), formats=money), rows)


def _used(given: Stock, stock: StockPlan, keep: tuple[int, int]) -> Iterator[tuple[StockPiece, str]]:
    """Yield the offcuts and the stock with defects that are cut, as they lie there, and what each is cut into."""
    clean = {one.piece.id for one in given.clean}
    offcuts = {piece.id: piece for piece in given.offcuts if piece.id not in clean}
    for layout in stock.layouts:
        if layout.stock in offcuts:
            yield offcuts[layout.stock], f"layout {layout.number}"
    for one in begun_of(given, stock, keep):
        yield one.stock.piece, ", ".join(sorted(one.used))


def _cost(sheet: Worksheet, facts: Facts) -> None:
    """Write each line of cost and their sums, each with how many of its lines have no amount."""
    costs = facts.plan.costs
    money = costs.currency or "money"
    heads = ("Kind", "Item", "What", "Quantity", "Unit", f"Rate, {money}", f"Amount, {money}", "Hours", "Note")
    rows: list[tuple[Any, ...]] = [
        (line.kind, line.item, line.name, float(line.quantity), line.unit, _money(line.rate), _money(line.amount),
         float(line.hours) or None, line.note)
        for line in costs.lines
    ]  # fmt: skip
    work = [line for line in costs.lines if line.kind == "work"]
    bought = [line for line in costs.lines if line.kind != "work"]
    rows += [
        (name, "", "", None, "", None, _money(amount), hours,
         unpriced(sum(line.amount is None for line in lines), len(lines)))
        for name, amount, hours, lines in (
            ("bought", costs.materials, None, bought),
            ("work", costs.work, float(costs.hours) or None, work),
            ("in all", costs.total, None, costs.lines),
        )
        if lines
    ]  # fmt: skip
    amount = _amount(costs)
    columns = Columns(heads, (10, 18, 52, 11, 9, 11, 12, 8, 40), formats={6: amount, 7: amount, 8: "0.00"})
    fill(sheet, facts, "Costs", columns, rows)


def _amount(costs: Costs) -> str:
    """Return the format of an amount of money."""
    return f"0.{'0' * costs.decimals}" if costs.decimals else "0"


def _money(amount: Decimal | None) -> float | None:
    return None if amount is None else float(amount)


def _checks(sheet: Worksheet, facts: Facts) -> None:
    """Write every check, stops first."""
    rows = [
        (check.level, facts.about(check), check.message, *checked(facts, check), cited(facts, check.source))
        for check in facts.checks
    ]
    columns = Columns(("Level", "About", "What", "Is", "Limit", "Source"), (9, 28, 92, 14, 14, 60), printed=5)
    fill(sheet, facts, "Checks", columns, rows)


def _fits(sheet: Worksheet, facts: Facts) -> None:
    """Write every fit with its bounds, how far it may come out wrong, and what follows."""
    units = facts.units
    heads = ("Cabinet", "Fit", "Parts", f"Planned {units}", f"Least {units}", f"Most {units}", f"Cautious ± {units}",
             f"Worst ± {units}", "Verdict", "Measured in step", "Cut to it",
             f"Then ± {units}")  # fmt: skip
    rows = [
        (
            fit.cabinet, fit.kind.replace("-", " "), ", ".join(fit.parts),
            *(None if nm is None else to_number(nm, units) for nm in (fit.nominal, fit.least, fit.most)),
            to_number(round(fit.stack.cautious), units), to_number(round(fit.stack.worst), units),
            fit.verdict.replace("-", " "), fit.measuring.step if fit.measuring else None,
            _from_work(facts, fit),
            to_number(round(fit.measuring.stack.cautious), units) if fit.measuring else None,
        )
        for fit in facts.plan.fits
    ]  # fmt: skip
    rows += [
        (one.cabinet, one.kind.replace("-", " "), one.id, *(None,) * 5, "not proved", None, UNPROVED[one.why], None)
        for one in facts.plan.unproved
    ]
    columns = Columns(heads, (10, 14, 50, 10, 9, 9, 11, 9, 18, 10, 32, 9), (4, 5, 6, 7, 8, 12))
    fill(sheet, facts, "Fits", columns, rows)


UNPROVED: Mapping[WhyUnproved, str] = {
    WhyUnproved.NO_BOUNDS: "nothing fixed stands on both sides of it: try it on the work",
    WhyUnproved.NO_CHAIN: "no row of fastened parts leads from one side to the other: try it on the work",
}


def _from_work(facts: Facts, fit: Fit) -> str:
    """Return the sizes that are taken from the work for a fit, as formulas of the reading."""
    sizes = []
    for size in fit.measuring.sizes if fit.measuring else ():
        words = formula(CutTo(0, size.less, size.among, size.full), facts.bare, measured="measured")
        sizes.append(f"{size.part} {'length' if size.axis == 1 else 'width'} = {words}")
    return "; ".join(sizes)


def _parts(sheet: Worksheet, facts: Facts) -> None:
    units = facts.units
    heads = ("Cabinet", "Part", "Name", "Role", "Pieces", "Material", f"Length {units}", f"Width {units}",
             f"Thickness {units}", "Length, tape", "Width, tape", "Grain", "Edge band", "Why this length",
             "Why this width")  # fmt: skip
    rows = [
        (
            p.cabinet, p.id, p.name, p.role, p.quantity, p.material, facts.number(p.length), facts.number(p.width),
            facts.number(p.thickness), facts.tape(p.length), facts.tape(p.width), p.grain,
            ", ".join(dict.fromkeys(b.material for b in p.bands)), reason(facts, p.why_length),
            reason(facts, p.why_width),
        )
        for p in facts.plan.parts
    ]  # fmt: skip
    widths = (9, 30, 24, 16, 7, 9, 10, 10, 11, 13, 13, 13, 9, 48, 48)
    fill(sheet, facts, "Parts", Columns(heads, widths, (7, 8, 9), 13), rows)


def _hardware(sheet: Worksheet, facts: Facts) -> None:
    """Write how many of each item the job takes, and then each place; a sum of either column is right."""
    rows: list[tuple[Any, ...]] = [
        ("all", one.item, one.words, "", one.quantity, None) for one in hardware_totals(facts.plan)
    ]
    rows += [(h.cabinet, h.item, h.words, h.used_for, None, h.quantity) for h in facts.plan.hardware]
    columns = Columns(("Cabinet", "Item", "What", "For", "In all", "Pieces"), (12, 18, 64, 46, 8, 8))
    fill(sheet, facts, "Hardware", columns, rows)


def _steps(sheet: Worksheet, facts: Facts) -> None:
    units = facts.units
    heads = ("Step", "Stage", "Machine", f"Fence {units}", f"Stop {units}", f"Height {units}", f"Depth {units}",
             f"Cutter {units}", "What", "Check", "Done", "Pieces", "Mind", "After", "Minutes", "Start, min",
             "Finish, min")  # fmt: skip
    rows = [
        (
            step.number, step.stage, step.machine,
            *(None if nm is None else to_number(nm, units) for nm in (
                step.setting.fence, step.setting.stop, step.setting.height, step.setting.depth, step.setting.cutter,
            )),
            step.do, step.check, "done" if step.number in facts.done else "",
            "; ".join(piece_words(step, facts.named, facts.sides, facts.writes)), " ".join(step.cautions),
            " ".join(map(str, step.needs)), *_times(facts, step),
        )
        for step in facts.plan.steps
    ]  # fmt: skip
    columns = Columns(heads, (5, 9, 11, 7.5, 7.5, 7.5, 7.5, 7.5, 68, 24, 6, 60, 40, 12, 9, 9, 9), (4, 5, 6, 7, 8), 11)
    fill(sheet, facts, "Steps", columns, rows)


def _times(facts: Facts, step: Operation) -> tuple[float | None, ...]:
    """Return how long a step takes, its earliest start and finish where it is to do."""
    minutes = None if step.minutes is None else round(float(step.minutes), 2)
    if step.number in facts.done:
        return minutes, None, None
    time = facts.times[step.number]
    return minutes, round(float(time.start), 2), round(float(time.finish), 2)


def _leftovers(sheet: Worksheet, facts: Facts) -> None:
    """Write what falls off, what is kept first: that alone is printed."""
    units = facts.units
    heads = ("Layout", "Stock", "Piece", f"Length {units}", f"Width {units}", "Keep", "Label")
    left_over = sorted(facts.plan.stock.leftovers if facts.plan.stock else (), key=lambda left: not left.keep)
    rows = [
        (
            left.layout, left.stock, left.piece, to_number(left.length, units), to_number(left.width, units),
            "keep" if left.keep else "", left.label(facts.tape),
        )
        for left in left_over
    ]  # fmt: skip
    kept = sum(left.keep for left in left_over)
    fill(sheet, facts, "Leftovers", Columns(heads, (8, 14, 20, 11, 11, 8, 84), (4, 5), rows=kept), rows)
