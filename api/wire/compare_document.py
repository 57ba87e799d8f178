"""The body of a comparison (a job and the changes to try) and the schema of its answer."""

from typing import Any

from casewright.api import limits
from casewright.api.compare import Change
from casewright.api.wire.described import Described, line, rows, word
from casewright.api.wire.fields import Rows
from casewright.api.wire.job_schema import job_schemas
from casewright.api.wire.job_schema.cabinets import made
from casewright.api.wire.plan_schema import MadeBy, PlanCheck
from casewright.api.wire.problems import Findings
from casewright.api.wire.reading import UNREAD, LeafReader, unknown
from casewright.sdk.errors import BadDocumentError
from casewright.sdk.fields import OptionSchema, Text
from casewright.sdk.loader import Registry
from marshmallow import Schema, fields

__all__ = ["CompareView", "compare_schema", "read_comparison"]

KEYS = ("job", "changes")
NAME = Text(least=1, most=limits.TITLE_LENGTH)


class ChangeSchema(OptionSchema):
    """A change to try: a JSON Merge Patch (RFC 7396) on the job, in which arrays are wholes."""

    name = Text(least=1, most=limits.TITLE_LENGTH, required=True)
    patch = fields.Dict(required=True)


def compare_schema(registry: Registry) -> type[Schema]:
    """Return the schema of the body for a registry."""
    declared = {
        "job": fields.Nested(job_schemas(registry).job, required=True),
        "changes": Rows(fields.Nested(ChangeSchema), least=1, most=limits.CHANGES, required=True),
    }
    return made("Comparison", declared)


def read_comparison(document: Any) -> tuple[Any, list[Change]]:
    """Return the job document, not yet read, and the changes. Raises `BadDocumentError` naming every fault."""
    findings = Findings()
    changes: list[Change] = []
    if not isinstance(document, dict):
        findings.add("", "an object", document, 'Write {"job": {...}, "changes": [...]}.')
    else:
        for key in document:
            if key not in KEYS:
                unknown(key, KEYS, "", findings)
        for key in KEYS:
            if key not in document:
                findings.missing(f"/{key}", f'Add "{key}".')
        if "changes" in document:
            changes = _changes(document["changes"], findings)
    if findings.schema:
        raise BadDocumentError(*findings.schema)
    return document["job"], changes


def _changes(value: Any, findings: Findings) -> list[Change]:
    if not isinstance(value, list) or not 1 <= len(value) <= limits.CHANGES:
        rule = f"an array of 1 to {limits.CHANGES}"
        findings.add("/changes", rule, value, 'Write [{"name": "...", "patch": {...}}].')
        return []
    out = []
    for i, row in enumerate(value):
        at = f"/changes/{i}"
        if not isinstance(row, dict):
            findings.add(at, "an object", row, 'Write {"name": "...", "patch": {...}}.')
            continue
        for key in row:
            if key not in ("name", "patch"):
                unknown(key, ("name", "patch"), at, findings)
        for key in ("name", "patch"):
            if key not in row:
                findings.missing(f"{at}/{key}", f'Add "{key}".')
        name = LeafReader(NAME).read(row["name"], f"{at}/name", findings) if "name" in row else UNREAD
        if "patch" in row and not isinstance(row["patch"], dict):
            findings.add(f"{at}/patch", "an object", row["patch"], "Write a JSON Merge Patch (RFC 7396) on the job.")
        elif isinstance(name, str) and "patch" in row:
            out.append(Change(name, row["patch"]))
    return out


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
