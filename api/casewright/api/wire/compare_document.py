"""The answer of a comparison as marshmallow schemas. It is written as plain dictionaries; these only describe it."""

from casewright.api.wire.described import Described, line, rows, word
from casewright.api.wire.plan_schema import MadeBy, PlanCheck
from marshmallow import fields

__all__ = ["CompareView"]


class WasNow(Described):
    """A figure as it was and as it is now."""

    was = fields.Raw(required=True, allow_none=True)
    now = fields.Raw(required=True, allow_none=True)


class PartDifferences(Described):
    """Parts by id."""

    added = fields.List(fields.Dict(), required=True)
    removed = fields.List(fields.Dict(), required=True)
    changed = fields.List(fields.Dict(), required=True)


class HardwareDifference(WasNow):
    """How many of one item."""

    item = line()
    name = line()


class StockDifferences(Described):
    """What is bought, and how well it is used; `cost` is decimal text, null where a piece has no cost."""

    buy = fields.List(fields.Dict(), required=True)
    use = fields.Nested(WasNow, required=True)
    returns = fields.Nested(WasNow, required=True)
    settings = fields.Nested(WasNow, required=True)
    pieces = fields.Nested(WasNow, required=True)
    parts_short = fields.Nested(WasNow, required=True)
    cost = fields.Nested(WasNow, required=True)


class CostDifferences(Described):
    """Totals by the shop's rates, as decimal text; `by` is what the total grows by."""

    materials = fields.Nested(WasNow, required=True)
    work = fields.Nested(WasNow, required=True)
    total = fields.Nested(WasNow, required=True)
    hours = fields.Nested(WasNow, required=True)
    missing = fields.Nested(WasNow, required=True)
    by = fields.String(required=True, allow_none=True)
    lines = fields.List(fields.Dict(), required=True)


class WeightDifferences(Described):
    """Masses of empty cabinets in kilograms."""

    total_kg = fields.Nested(WasNow, required=True)
    cabinets = fields.List(fields.Dict(), required=True)


class LevelDifference(Described):
    """A check that is of another level now."""

    code = line()
    subject = line()
    message = line()
    was = word("stop", "caution", "note")
    now = word("stop", "caution", "note")


class CheckDifferences(Described):
    """Checks by code and subject; `stops` counts reasons not to cut."""

    new = rows(PlanCheck)
    gone = rows(PlanCheck)
    level = rows(LevelDifference)
    stops = fields.Nested(WasNow, required=True)


class Differences(Described):
    """What a change makes different."""

    parts = fields.Nested(PartDifferences, required=True)
    hardware = rows(HardwareDifference)
    stock = fields.Nested(StockDifferences, required=True, allow_none=True)
    costs = fields.Nested(CostDifferences, required=True, allow_none=True)
    weight = fields.Nested(WeightDifferences, required=True)
    checks = fields.Nested(CheckDifferences, required=True)


class Tried(Described):
    """A change as tried; where it cannot be planned, `errors` say why and `differences` is null."""

    name = line()
    planned = fields.Boolean(required=True)
    errors = fields.List(fields.Dict(), required=True)
    differences = fields.Nested(Differences, required=True, allow_none=True)


class CompareView(Described):
    """What each change makes different from the job as it came."""

    title = line()
    units = word("in", "mm")
    tape = line()
    changes = rows(Tried)
    made_by = fields.Nested(MadeBy, required=True)
    fingerprint = line()
