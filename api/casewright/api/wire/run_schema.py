"""Runs and costs of the plan document as marshmallow schemas."""

from casewright.api.wire.described import Described, line, number, numbers, rows, texts, whole, word
from marshmallow import fields


class PlanStanding(Described):
    """A cabinet at its place in the wall frame: x from the wall's left end, y 0 at its back, z from the floor."""

    name = line()
    cabinet = line()
    number = whole()
    pointer = line()
    low = numbers()
    high = numbers()
    studs = numbers()


class PlanGap(Described):
    """The room between two neighbours, less than zero where they overlap."""

    left = line()
    right = line()
    size = number()
    text = line()
    fillers = texts()


class PlanLevel(Described):
    """A height struck level along the wall."""

    of = word("bottoms", "tops", "cleat bottoms", "cleat tops")
    height = number()
    text = line()
    standings = texts()


class PlanSwing(Described):
    """How far a door opens at its place, and what it then meets."""

    door = line()
    standing = line()
    opens_deg = number("degrees")
    full_deg = number("degrees")
    meets = fields.String(required=True, allow_none=True)


class PlanRun(Described):
    """Cabinets along the wall, from left to right."""

    standings = rows(PlanStanding)
    gaps = rows(PlanGap)
    levels = rows(PlanLevel)
    swings = rows(PlanSwing)
    order = texts()
    shared_cleats = fields.List(fields.Dict(), required=True)
    approximations = texts()


class PlanCostLine(Described):
    """A line of cost: quantity times rate; `amount` is null, and `said` says why, where there is no rate."""

    kind = word("stock", "hardware", "band", "glue", "finish", "work")
    item = line()
    name = line()
    quantity = number("in `unit`")
    unit = line()
    rate = fields.String(required=True, allow_none=True)
    amount = fields.String(required=True, allow_none=True)
    amount_minor = fields.Integer(required=True, allow_none=True)
    hours = number("hours")
    said = line()


class PlanCosts(Described):
    """What the job costs by the shop's own rates; `missing` lines are in no total."""

    currency = line()
    decimals = whole()
    lines = rows(PlanCostLine)
    materials = line()
    materials_minor = whole()
    work = line()
    work_minor = whole()
    total = line()
    total_minor = whole()
    hours = number("hours")
    missing = whole()
