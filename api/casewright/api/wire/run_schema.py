"""Runs and costs of the plan document as marshmallow schemas."""

from casewright.api.wire.described import number, numbers, objects, record, rows, texts, word
from marshmallow import fields

PlanStanding = record(
    "PlanStanding", texts="name cabinet pointer", counts="number", low=numbers(), high=numbers(), studs=numbers()
)
"""A cabinet at its place in the wall frame: x from the wall's left end, y 0 at its back, z from the floor."""

PlanGap = record("PlanGap", texts="left right text", numbers="size", fillers=texts())
"""The room between two neighbours, less than zero where they overlap."""

PlanLevel = record(
    "PlanLevel",
    texts="text",
    numbers="height",
    of=word("bottoms", "tops", "cleat bottoms", "cleat tops"),
    standings=texts(),
)
"""A height struck level along the wall."""

PlanSwing = record(
    "PlanSwing",
    texts="door standing",
    opens_deg=number("degrees"),
    full_deg=number("degrees"),
    meets=fields.String(required=True, allow_none=True),
)
"""How far a door opens at its place, and what it then meets."""

PlanRun = record(
    "PlanRun",
    standings=rows(PlanStanding),
    gaps=rows(PlanGap),
    levels=rows(PlanLevel),
    swings=rows(PlanSwing),
    order=texts(),
    shared_cleats=objects(),
    approximations=texts(),
)
"""Cabinets along the wall, from left to right."""

PlanCostLine = record(
    "PlanCostLine",
    texts="item name unit said",
    kind=word("stock", "hardware", "band", "glue", "finish", "work"),
    quantity=number("in `unit`"),
    rate=fields.String(required=True, allow_none=True),
    amount=fields.String(required=True, allow_none=True),
    amount_minor=fields.Integer(required=True, allow_none=True),
    hours=number("hours"),
)
"""A line of cost: quantity times rate; `amount` is null, and `said` says why, where there is no rate."""

PlanCosts = record(
    "PlanCosts",
    texts="currency materials work total",
    counts="decimals materials_minor work_minor total_minor missing",
    lines=rows(PlanCostLine),
    hours=number("hours"),
)
"""What the job costs by the shop's own rates; `missing` lines are in no total."""
