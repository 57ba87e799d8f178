"""Runs and costs of the plan document as marshmallow schemas."""

from casewright.api.wire.described import (
    CABINET,
    number,
    record,
    rows,
    size,
    sizes,
    text,
    texts,
    whole,
    word,
)
from casewright.api.wire.mounting_schema import SharedCleat

PlanStanding = record(
    "PlanStanding",
    "A cabinet at its place: x from the wall's left end, y 0 at its back, z from the floor.",
    name=text("what it is called"),
    cabinet=CABINET,
    number=whole("which of its copies, from 1"),
    pointer=text("JSON Pointer of its place"),
    low=sizes("its lower left front corner"),
    high=sizes("its upper right back corner"),
    studs=sizes("studs behind it, from the wall's left end"),
)

PlanGap = record(
    "PlanGap",
    "The room between two neighbours, less than zero where they overlap.",
    left=text("what is left of it"),
    right=text("what is right of it"),
    size=size("its width"),
    text=text("the same for the bench"),
    fillers=texts("ids of the fillers that close it"),
)

PlanLevel = record(
    "PlanLevel",
    "A height struck level along the wall.",
    of=word("what stands at it", "bottoms", "tops", "cleat-bottoms", "cleat-tops"),
    height=size("over the floor"),
    text=text("the same for the bench"),
    standings=texts("cabinets that stand at it"),
)

PlanSwing = record(
    "PlanSwing",
    "How far a door opens at its place.",
    door=text("id of the door"),
    standing=text("the cabinet at its place"),
    opens_deg=number("how far it opens, in degrees"),
    full_deg=number("how far its hinges open, in degrees"),
    meets=text("what it then meets", allow_none=True),
)

PlanPacking = record(
    "PlanPacking",
    "What is packed at a standing by the readings of floor and wall.",
    standing=text("the cabinet at its place"),
    left=size("under its left end"),
    right=size("under its right end"),
    bottom=size("behind its bottom"),
    top=size("behind its top"),
)

PlanRun = record(
    "PlanRun",
    "Cabinets along the wall, from left to right.",
    standings=rows(PlanStanding, "every cabinet at its place"),
    gaps=rows(PlanGap, "gaps between neighbours"),
    levels=rows(PlanLevel, "level lines"),
    swings=rows(PlanSwing, "doors as they open"),
    order=texts("cabinets in the order they are set"),
    high_spot=size("where the floor is highest, from the wall's left end; null without readings", allow_none=True),
    packing=rows(PlanPacking, "what is packed, by readings of floor and wall"),
    shared_cleats=rows(SharedCleat, "neighbours that may share a wall cleat"),
    approximations=texts("what was simplified"),
)

PlanCostLine = record(
    "PlanCostLine",
    "A line of cost: quantity times rate.",
    kind=word("what it is for", "stock", "hardware", "band", "glue", "finish", "work"),
    item=text("id of the item, material or work"),
    name=text("what it is called"),
    quantity=number("in `unit`"),
    unit=text("unit of the quantity"),
    rate=text("money for one, as decimal text; null: no rate", allow_none=True),
    amount=text("money, as decimal text", allow_none=True),
    amount_minor=whole("the same in the least unit of money", allow_none=True),
    hours=number("hours of work"),
    note=text("why there is no amount"),
)

_SUM = "as decimal text; null: none of its lines has an amount"
_MINOR = "the same in the least unit of money"

PlanCosts = record(
    "PlanCosts",
    "What the job takes, and what that costs by the shop's own rates.",
    currency=text("what the money is called"),
    decimals=whole("digits after its point"),
    lines=rows(PlanCostLine, "every line"),
    materials=text(f"all materials, {_SUM}", allow_none=True),
    materials_minor=whole(_MINOR, allow_none=True),
    work=text(f"all work, {_SUM}", allow_none=True),
    work_minor=whole(_MINOR, allow_none=True),
    total=text(f"both, {_SUM}", allow_none=True),
    total_minor=whole(_MINOR, allow_none=True),
    hours=number("hours of work"),
    missing=whole("lines without an amount, in no total"),
)
