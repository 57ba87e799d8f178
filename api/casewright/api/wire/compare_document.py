"""The answer of a comparison as marshmallow schemas. It is written as plain dictionaries; these only describe it."""

from casewright.api.wire.described import ANY, OBJECTS, TEXT, TEXT_OR_NULL, one, record, rows
from casewright.api.wire.plan_schema import LEVEL, PlanCheck, answer_schema
from marshmallow import fields

_WAS_NOW = {"was": ANY, "now": ANY}
FIGURE = one(record("WasNow", **_WAS_NOW))
"""A figure as it was and as it is now."""

PartDifferences = record("PartDifferences", added=OBJECTS, removed=OBJECTS, changed=OBJECTS)
"""Parts by id."""

HardwareDifference = record("HardwareDifference", **_WAS_NOW, item=TEXT, name=TEXT)
"""How many of one item."""

StockDifferences = record(
    "StockDifferences",
    buy=OBJECTS,
    use=FIGURE,
    returns=FIGURE,
    settings=FIGURE,
    pieces=FIGURE,
    parts_short=FIGURE,
    cost=FIGURE,
)
"""What is bought, and how well it is used; `cost` is decimal text, null where a piece has no cost."""

CostDifferences = record(
    "CostDifferences",
    materials=FIGURE,
    work=FIGURE,
    total=FIGURE,
    hours=FIGURE,
    missing=FIGURE,
    by=TEXT_OR_NULL,
    lines=OBJECTS,
)
"""Totals by the shop's rates, as decimal text; `by` is what the total grows by."""

WeightDifferences = record("WeightDifferences", total_kg=FIGURE, cabinets=OBJECTS)
"""Masses of empty cabinets in kilograms."""

LevelDifference = record("LevelDifference", code=TEXT, subject=TEXT, message=TEXT, was=LEVEL, now=LEVEL)
"""A check that is of another level now."""

CheckDifferences = record(
    "CheckDifferences", new=rows(PlanCheck), gone=rows(PlanCheck), level=rows(LevelDifference), stops=FIGURE
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
    name=TEXT,
    planned=fields.Boolean(required=True),
    errors=OBJECTS,
    differences=one(Differences, allow_none=True),
)
"""A change as tried; where it cannot be planned, `errors` say why and `differences` is null."""

CompareView = answer_schema("CompareView", changes=rows(Tried))
"""What each change makes different from the job as it came."""
