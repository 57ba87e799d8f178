"""The answer of a comparison as marshmallow schemas. It is written as plain dictionaries; these only describe it."""

from typing import Any

from casewright.api.wire.described import objects, one, record, rows, word
from casewright.api.wire.plan_schema import PlanCheck, answer_schema
from marshmallow import fields

_WAS_NOW: dict[str, Any] = {key: fields.Raw(required=True, allow_none=True) for key in ("was", "now")}
WasNow = record("WasNow", **_WAS_NOW)
"""A figure as it was and as it is now."""


def _figures(names: str) -> dict[str, Any]:
    return {name: one(WasNow) for name in names.split()}


PartDifferences = record("PartDifferences", added=objects(), removed=objects(), changed=objects())
"""Parts by id."""

HardwareDifference = record("HardwareDifference", texts="item name", **_WAS_NOW)
"""How many of one item."""

StockDifferences = record("StockDifferences", buy=objects(), **_figures("use returns settings pieces parts_short cost"))
"""What is bought, and how well it is used; `cost` is decimal text, null where a piece has no cost."""

CostDifferences = record(
    "CostDifferences",
    by=fields.String(required=True, allow_none=True),
    lines=objects(),
    **_figures("materials work total hours missing"),
)
"""Totals by the shop's rates, as decimal text; `by` is what the total grows by."""

WeightDifferences = record("WeightDifferences", cabinets=objects(), **_figures("total_kg"))
"""Masses of empty cabinets in kilograms."""

_LEVEL = word("stop", "caution", "note")
LevelDifference = record("LevelDifference", texts="code subject message", was=_LEVEL, now=_LEVEL)
"""A check that is of another level now."""

CheckDifferences = record(
    "CheckDifferences", new=rows(PlanCheck), gone=rows(PlanCheck), level=rows(LevelDifference), **_figures("stops")
)
"""Checks by code and subject; `stops` counts reasons not to cut."""

Differences = record(
    "Differences",
    parts=one(PartDifferences),
    hardware=rows(HardwareDifference),
    stock=one(StockDifferences, allow_none=True),
    costs=one(CostDifferences, allow_none=True),
    weight=one(WeightDifferences),
    checks=one(CheckDifferences),
)
"""What a change makes different."""

Tried = record(
    "Tried",
    texts="name",
    planned=fields.Boolean(required=True),
    errors=objects(),
    differences=one(Differences, allow_none=True),
)
"""A change as tried; where it cannot be planned, `errors` say why and `differences` is null."""

CompareView = answer_schema("CompareView", changes=rows(Tried))
"""What each change makes different from the job as it came."""
