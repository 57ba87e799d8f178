"""The answer of a comparison as marshmallow schemas. It is written as plain dictionaries; these only describe it."""

from casewright.api.wire.checks_schema import LEVELS, PlanCheck
from casewright.api.wire.described import (
    CABINET,
    Field,
    flag,
    mapping,
    measured,
    number,
    one,
    record,
    rows,
    text,
    whole,
    word,
)
from casewright.api.wire.parts_schema import BenchText
from casewright.api.wire.plan_schema import answer_schema
from casewright.api.wire.problem_schema import ProblemEntry

WasNow = record(
    "WasNow",
    "A figure before and after a change; null where there is none.",
    was=measured("in the job as it came"),
    now=measured("with the change"),
)


def figure(about: str) -> Field:
    """Return a field for a figure as it was and as it is now."""
    return one(WasNow, about)


ComparedPart = record(
    "ComparedPart",
    "A part that only one of the two jobs has.",
    id=text("its id"),
    quantity=whole("pieces"),
    length=number("along the grain, in the job's units"),
    width=number("across the grain, in the job's units"),
    thickness=number("in the job's units"),
    material=text("key of its material"),
    grain=text("which way the grain runs"),
    text=one(BenchText),
)

ChangedPart = record(
    "ChangedPart",
    "A part that is another now.",
    id=text("its id"),
    sizes=mapping(one(WasNow), "what differs, by name; lengths in the job's units"),
    cuts_changed=flag("whether its cuts differ"),
)

PartDifferences = record(
    "PartDifferences",
    "Parts by id.",
    added=rows(ComparedPart, "parts there are now"),
    removed=rows(ComparedPart, "parts there were"),
    changed=rows(ChangedPart, "parts that differ"),
)

HardwareDifference = record(
    "HardwareDifference",
    "How many of one item.",
    was=whole("in the job as it came"),
    now=whole("with the change"),
    item=text("id in the catalogue"),
    name=text("what it is called"),
)

PurchaseDifference = record(
    "PurchaseDifference",
    "How many of one piece of stock are bought.",
    stock=text("id of the stock", allow_none=True),
    material=text("key of its material"),
    was=whole("in the job as it came"),
    now=whole("with the change"),
)

StockDifferences = record(
    "StockDifferences",
    "What is bought, and how well it is used.",
    buy=rows(PurchaseDifference, "purchases that differ"),
    use=figure("share of the area cut that becomes parts"),
    returns=figure("times a setting is gone back to"),
    settings=figure("settings of the saw"),
    pieces=figure("pieces of stock cut"),
    parts_short=figure("parts not cut"),
    cost=figure("decimal text; null where a piece has no cost"),
)

CostLine = record(
    "ComparedCost",
    "A line of cost.",
    quantity=number("in `unit`"),
    unit=text("unit of the quantity"),
    rate=text("money for one", allow_none=True),
    amount=text("money", allow_none=True),
)

CostLineDifference = record(
    "CostLineDifference",
    "A line of cost that differs.",
    kind=text("what it is for"),
    item=text("id of the item, material or work"),
    was=one(CostLine, "null: no such line", allow_none=True),
    now=one(CostLine, "null: no such line", allow_none=True),
)

CostDifferences = record(
    "CostDifferences",
    "Totals by the shop's rates, as decimal text.",
    materials=figure("all materials"),
    work=figure("all work"),
    total=figure("both"),
    hours=figure("hours of work"),
    missing=figure("lines without an amount, in no total"),
    by=text("what the total grows by; null: in two currencies, or one has none", allow_none=True),
    lines=rows(CostLineDifference, "lines that differ"),
)

CabinetWeight = record(
    "CabinetWeight",
    "A cabinet whose mass differs.",
    cabinet=CABINET,
    was_kg=number("mass before", allow_none=True),
    now_kg=number("mass now", allow_none=True),
)

WeightDifferences = record(
    "WeightDifferences",
    "Masses of empty cabinets in kilograms.",
    total_kg=figure("all cabinets"),
    cabinets=rows(CabinetWeight, "cabinets that differ"),
)

_LEVEL = "level of the check "
LevelDifference = record(
    "LevelDifference",
    "A check that is of another level now.",
    code=text("its code"),
    subject=text("its subject"),
    message=text("what it says now"),
    was=word(f"{_LEVEL}before", *LEVELS),
    now=word(f"{_LEVEL}now", *LEVELS),
)

CheckDifferences = record(
    "CheckDifferences",
    "Checks by code and subject.",
    new=rows(PlanCheck, "checks there are now"),
    gone=rows(PlanCheck, "checks there were"),
    level=rows(LevelDifference, "checks of another level"),
    stops=figure("reasons not to cut"),
)

Differences = record(
    "Differences",
    "What a change makes different.",
    parts=one(PartDifferences),
    hardware=rows(HardwareDifference, "items that differ"),
    stock=one(StockDifferences, "null: neither lists stock", allow_none=True),
    costs=one(CostDifferences),
    weight=one(WeightDifferences),
    checks=one(CheckDifferences),
)

ComparedChange = record(
    "ComparedChange",
    "A change as tried.",
    name=text("its name"),
    planned=flag("whether it could be planned"),
    errors=rows(ProblemEntry, "why it could not"),
    differences=one(Differences, "null where it could not", allow_none=True),
)

CompareView = answer_schema(
    "CompareView",
    "What each change makes different from the job as it came; the stops are that job's.",
    changes=rows(ComparedChange, "the changes, as sent"),
)
