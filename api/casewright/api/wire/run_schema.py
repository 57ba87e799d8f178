"""Runs and costs of the plan document as marshmallow schemas."""

from casewright.api.wire.described import (
    NUMBER,
    NUMBERS,
    OBJECTS,
    TEXT,
    TEXT_OR_NULL,
    TEXTS,
    WHOLE,
    number,
    record,
    rows,
    word,
)
from marshmallow import fields

PlanStanding = record(
    "PlanStanding", name=TEXT, cabinet=TEXT, number=WHOLE, pointer=TEXT, low=NUMBERS, high=NUMBERS, studs=NUMBERS
)
"""A cabinet at its place in the wall frame: x from the wall's left end, y 0 at its back, z from the floor."""

PlanGap = record("PlanGap", left=TEXT, right=TEXT, size=NUMBER, text=TEXT, fillers=TEXTS)
"""The room between two neighbours, less than zero where they overlap."""

PlanLevel = record(
    "PlanLevel", of=word("bottoms", "tops", "cleat bottoms", "cleat tops"), height=NUMBER, text=TEXT, standings=TEXTS
)
"""A height struck level along the wall."""

PlanSwing = record(
    "PlanSwing", door=TEXT, standing=TEXT, opens_deg=number("degrees"), full_deg=number("degrees"), meets=TEXT_OR_NULL
)
"""How far a door opens at its place, and what it then meets."""

PlanRun = record(
    "PlanRun",
    standings=rows(PlanStanding),
    gaps=rows(PlanGap),
    levels=rows(PlanLevel),
    swings=rows(PlanSwing),
    order=TEXTS,
    shared_cleats=OBJECTS,
    approximations=TEXTS,
)
"""Cabinets along the wall, from left to right."""

PlanCostLine = record(
    "PlanCostLine",
    kind=word("stock", "hardware", "band", "glue", "finish", "work"),
    item=TEXT,
    name=TEXT,
    quantity=number("in `unit`"),
    unit=TEXT,
    rate=TEXT_OR_NULL,
    amount=TEXT_OR_NULL,
    amount_minor=fields.Integer(required=True, allow_none=True),
    hours=number("hours"),
    said=TEXT,
)
"""A line of cost: quantity times rate; `amount` is null, and `said` says why, where there is no rate."""

PlanCosts = record(
    "PlanCosts",
    currency=TEXT,
    decimals=WHOLE,
    lines=rows(PlanCostLine),
    materials=TEXT,
    materials_minor=WHOLE,
    work=TEXT,
    work_minor=WHOLE,
    total=TEXT,
    total_minor=WHOLE,
    hours=number("hours"),
    missing=WHOLE,
)
"""What the job costs by the shop's own rates; `missing` lines are in no total."""
