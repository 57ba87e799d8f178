"""What a job takes and what it costs by the shop's own rates: money in decimal to the minor unit.

No rate is guessed: a line without one has its quantity and no amount. Quantities come from the plan: stock bought,
hardware counted, metres of band, and how often each operation is done. Each amount is rounded half up to the minor
unit, and totals are sums of the amounts as shown.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from decimal import ROUND_HALF_UP, Decimal
from math import fsum
from typing import Literal, NamedTuple

from casewright.api.engine.work.operations import counted
from casewright.sdk.loader import Registry
from casewright.sdk.model import SHORT_REASONS, CostLine, Costs, Plan, Rates
from casewright.sdk.model.rates import TIMED_WORK
from casewright.sdk.units import Units

NO_RATE, NO_HOUR, NO_TIME = "no rate given", "no rate given for an hour", "no time given"
NO_STOCK = "no stock given to cut it from"
MINUTES_AN_HOUR = 60
_INCH_JOB = {
    "m": ("ft", Decimal("0.3048")),
    "m2": ("sq ft", Decimal("0.3048") ** 2),
    "kg": ("lb", Decimal("0.45359237")),
}
"""What jobs in inches are counted in, by the unit of a rate: exact (NIST SP 811)."""
HOURS_SHOWN = Decimal("0.0001")

BOUGHT = Literal["stock", "hardware", "band", "glue", "finish"]


def cost_of(plan: Plan, registry: Registry) -> Costs:
    """Return what the job takes and costs; without rates, stock alone has amounts where it has a cost."""
    rates = plan.job.rates or Rates()
    lines = [*_stock(plan, rates), *_hardware(plan, rates), *_used(plan, rates), *_work(plan, rates, registry)]
    minutes = sum((_minutes(line, rates) for line in lines), Decimal(0))
    return Costs(
        currency=rates.currency,
        decimals=rates.decimals,
        lines=tuple([_in_job_units(line, plan.job.units) for line in lines]),
        materials=_sum([line for line in lines if line.kind != "work"]),
        work=_sum([line for line in lines if line.kind == "work"]),
        hours=(minutes / MINUTES_AN_HOUR).quantize(HOURS_SHOWN, ROUND_HALF_UP),
        missing=sum(1 for line in lines if line.amount is None),
    )


def _in_job_units(line: CostLine, units: Units) -> CostLine:
    """Return a line in the job's units; one that a rate counts stays in the unit of its rate."""
    if units != "in" or line.unit not in _INCH_JOB or line.rate is not None or line.hours:
        return line
    unit, each = _INCH_JOB[line.unit]
    return replace(line, quantity=(line.quantity / each).quantize(Decimal("0.0001"), ROUND_HALF_UP), unit=unit)


def rounded(amount: Decimal, decimals: int) -> Decimal:
    """Return an amount of money to the minor unit, halves upward."""
    return amount.quantize(Decimal(1).scaleb(-decimals), ROUND_HALF_UP)


def _sum(lines: Sequence[CostLine]) -> Decimal | None:
    """Return the sum of the amounts there are; `None` where there are lines and no amount."""
    amounts = [line.amount for line in lines if line.amount is not None]
    return sum(amounts, Decimal(0)) if amounts or not lines else None


def unpriced(missing: int, lines: int) -> str:
    """Return in words how many of the lines under a total are not in it, as they have no amount."""
    if not missing:
        return ""
    if missing == lines:
        return "no line has an amount"
    without = "1 line without an amount is" if missing == 1 else f"{missing} lines without an amount are"
    return f"{without} not in it"


class _Bought(NamedTuple):
    """Something bought: its kind, item and name, and how much of it in which unit."""

    kind: BOUGHT
    item: str
    name: str
    quantity: Decimal
    unit: str

    def at(self, rate: Decimal | None, rates: Rates, note: str = NO_RATE) -> CostLine:
        """Return its line at a rate; `note` says why there is none."""
        if rate is None:
            return CostLine(*self, None, None, note=note)
        return CostLine(*self, rate, rounded(self.quantity * rate, rates.decimals))


def _stock(plan: Plan, rates: Rates) -> Iterator[CostLine]:
    """Yield what is bought to cut, or the bare area of each material where the job gives no stock."""
    stock = plan.job.stock
    if stock is None or plan.stock is None:
        areas: dict[str, int] = {}
        for part in plan.parts:
            if plan.job.materials[part.material].to_size:
                continue
            areas[part.material] = areas.get(part.material, 0) + part.length * part.width * part.quantity
        for material, area in sorted(areas.items()):
            square_metres = Decimal(area).scaleb(-18).quantize(Decimal("0.0001"), ROUND_HALF_UP)
            yield _Bought("stock", material, f"{material}, net", square_metres, "m2").at(None, rates, NO_STOCK)
        return
    costs = {piece.id: piece.cost for piece in stock.pieces}
    for bought in plan.stock.buy:
        name = f"{bought.stock}, {bought.material}"
        line = _Bought("stock", bought.stock, name, Decimal(bought.quantity), "pieces")
        yield line.at(costs[bought.stock], rates)
    for short in plan.stock.short:
        line = _Bought("stock", short.part, f"{short.part}, not cut", Decimal(short.quantity), "parts")
        yield line.at(None, rates, SHORT_REASONS[short.reason])


class HardwareTotal(NamedTuple):
    """What is ordered as one: its item, its name with each place it goes, and how many the job takes."""

    item: str
    words: str
    quantity: int


def hardware_totals(plan: Plan) -> list[HardwareTotal]:
    """Return how many the job takes of what has one item and one name: of a hinge, those of one arm."""
    places: dict[tuple[str, str], dict[str, None]] = {}
    counts = Counter[tuple[str, str]]()
    for line in plan.hardware:
        ordered = line.item, line.name
        places.setdefault(ordered, {}).update({line.where: None} if line.where else {})
        counts[ordered] += line.quantity
    return [HardwareTotal(one[0], ", ".join((one[1], *places[one])), counts[one]) for one in sorted(places)]


def _hardware(plan: Plan, rates: Rates) -> Iterator[CostLine]:
    for one in hardware_totals(plan):
        line = _Bought("hardware", one.item, one.words, Decimal(one.quantity), "pieces")
        yield line.at(rates.hardware.get(one.item), rates)


def _used(plan: Plan, rates: Rates) -> Iterator[CostLine]:
    """Yield band by material, glue and finish."""
    for material, length in sorted(band_lengths(plan).items()):
        line = _Bought("band", material, f"{material} band", _metres(length), "m")
        yield line.at(rates.band_per_m.get(material), rates)
    counts = {cabinet.id: cabinet.count for cabinet in plan.job.cabinets}
    grams = fsum(one.glue_g * counts[one.cabinet] for one in plan.workshop)
    if grams > 0:
        yield _Bought("glue", "glue", "glue", _decimal(grams / 1000.0), "kg").at(rates.glue_per_kg, rates)
    area = finish_area_m2(plan)
    if area > 0:
        count = coats_of(plan)
        coats = "1 coat" if count == 1 else f"{count} coats"
        yield _Bought("finish", "finish", f"finish, {coats}", area * count, "m2").at(rates.finish_per_m2, rates)


def _metres(nm: int) -> Decimal:
    return Decimal(nm).scaleb(-9)


def _decimal(value: float) -> Decimal:
    """Return a worked-out quantity to four decimals."""
    return Decimal(repr(value)).quantize(Decimal("0.0001"), ROUND_HALF_UP)


def band_lengths(plan: Plan) -> dict[str, int]:
    """Return the length of band by material, in nm over the whole job."""
    lengths: dict[str, int] = {}
    for part in plan.parts:
        for band in part.bands:
            lengths[band.material] = lengths.get(band.material, 0) + max(band.box.size) * part.quantity
    return lengths


def coats_of(plan: Plan) -> int:
    """Return how many coats of finish there are: the shop's list, or else a number among the rates."""
    rates = plan.job.rates
    return len(plan.job.shop.finish) or (rates.coats if rates else 1)


def finish_area_m2(plan: Plan) -> Decimal:
    """Return the area to be finished over the whole job, in square metres, for one coat."""
    counts = {cabinet.id: cabinet.count for cabinet in plan.job.cabinets}
    cabinets = fsum(one.finish_area_mm2 * counts[one.cabinet] for one in plan.workshop)
    strips = 0
    for part in plan.parts:
        if part.group == "fillers":
            a, b, c = part.length, part.width, part.thickness
            strips += 2 * (a * b + b * c + a * c) * part.quantity
    return _decimal(cabinets / 1e6) + Decimal(strips).scaleb(-18).quantize(Decimal("0.0001"), ROUND_HALF_UP)


def quantities(plan: Plan, registry: Registry) -> dict[str, Decimal]:
    """Return how much there is of each kind of work of the shop's rates, in the unit of `TIMED_WORK`."""
    areas = finish_area_m2(plan) * coats_of(plan)
    band = _metres(sum(band_lengths(plan).values()))
    return {**counted(plan, registry), "band": band, "finish": areas}


def _work(plan: Plan, rates: Rates, registry: Registry) -> Iterator[CostLine]:
    counts = quantities(plan, registry)
    for kind, operation in TIMED_WORK.items():
        quantity = counts.get(kind, Decimal(0))
        if quantity <= 0:
            continue
        minutes = rates.minutes.get(kind)
        if minutes is None:
            yield CostLine("work", kind, operation.title, quantity, operation.unit, None, None, note=NO_TIME)
            continue
        taken = quantity * minutes
        hours = (taken / MINUTES_AN_HOUR).quantize(HOURS_SHOWN, ROUND_HALF_UP)
        rate, amount, note = rates.hour, None, NO_HOUR
        if rate is not None:
            amount, note = rounded(taken * rate / MINUTES_AN_HOUR, rates.decimals), ""
        yield CostLine("work", kind, operation.title, quantity, operation.unit, rate, amount, hours, note)


def _minutes(line: CostLine, rates: Rates) -> Decimal:
    return line.quantity * rates.minutes.get(line.item, Decimal(0)) if line.kind == "work" else Decimal(0)
