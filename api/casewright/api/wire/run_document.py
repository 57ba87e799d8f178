"""Runs and costs as they leave: places and gaps in job units, money as text to the minor unit."""

from collections.abc import Iterable
from decimal import Decimal

from casewright.api.wire.features import point
from casewright.api.wire.lengths import Document, Lengths
from casewright.api.wire.mounting_document import shared_cleat
from casewright.sdk import model


def run_document(run: model.Run, shared: Iterable[model.SharedCleat], lengths: Lengths) -> Document:
    """Return a run; `shared` says which neighbours may hang on one wall cleat."""
    numbers, texts = lengths.numbers, lengths.texts
    return {
        "standings": [
            {
                "name": s.name,
                "cabinet": s.cabinet,
                "number": s.number,
                "pointer": s.pointer,
                "low": point(s.low, numbers),
                "high": point(s.high, numbers),
                "studs": [numbers[x] for x in s.studs],
            }
            for s in run.standings
        ],
        "gaps": [
            {"left": g.left, "right": g.right, "size": numbers[g.size], "text": texts[g.size], "fillers": g.fillers}
            for g in run.gaps
        ],
        "levels": [
            {"of": line.of, "height": numbers[line.height], "text": texts[line.height], "standings": line.standings}
            for line in run.levels
        ],
        "swings": [
            {
                "door": s.door,
                "standing": s.standing,
                "opens_deg": s.opens_deg,
                "full_deg": s.full_deg,
                "meets": s.meets or None,
            }
            for s in run.swings
        ],
        "order": run.order,
        "high_spot": None if run.high_spot is None else numbers[run.high_spot],
        "packing": [
            {
                "standing": one.standing,
                "left": numbers[one.left],
                "right": numbers[one.right],
                "bottom": numbers[one.bottom],
                "top": numbers[one.top],
            }
            for one in run.packing
        ],
        "shared_cleats": [shared_cleat(one) for one in shared],
        "approximations": run.approximations,
    }


def costs_document(costs: model.Costs) -> Document:
    """Return costs: money as decimal text, and as a whole number of minor units beside it; `None` is no sum."""
    return {
        "currency": costs.currency,
        "decimals": costs.decimals,
        "lines": [_line(line, costs.decimals) for line in costs.lines],
        **_money("materials", costs.materials, costs.decimals),
        **_money("work", costs.work, costs.decimals),
        **_money("total", costs.total, costs.decimals),
        "hours": float(costs.hours),
        "missing": costs.missing,
    }


def _line(line: model.CostLine, decimals: int) -> Document:
    return {
        "kind": line.kind,
        "item": line.item,
        "name": line.name,
        "quantity": float(line.quantity),
        "unit": line.unit,
        "rate": None if line.rate is None else plain_text(line.rate),
        **_money("amount", line.amount, decimals),
        "hours": float(line.hours),
        "note": line.note,
    }


def _money(name: str, amount: Decimal | None, decimals: int) -> Document:
    if amount is None:
        return {name: None, f"{name}_minor": None}
    return {name: f"{amount:.{decimals}f}", f"{name}_minor": int(amount.scaleb(decimals))}


def plain_text(value: Decimal) -> str:
    """Return a decimal in plain digits, without an exponent or zeros that say nothing."""
    text = f"{value:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
