"""The body of a comparison: a job and the changes to try."""

from dataclasses import dataclass
from typing import Any

from casewright.api.job import limits
from casewright.api.job.fields import Rows
from casewright.api.job.json_patch import AnyPatch, Operation, read_patch
from casewright.api.job.problems import Findings
from casewright.api.job.reading import LeafReader, unknown
from casewright.api.job.schema import job_schemas
from casewright.api.job.schema.cabinets import made
from casewright.sdk.errors import BadDocumentError
from casewright.sdk.fields import OptionSchema, Text
from casewright.sdk.loader import Registry
from marshmallow import Schema, fields

KEYS = ("job", "changes")
NAME = Text(least=1, most=limits.TITLE_LENGTH)


@dataclass(frozen=True, slots=True)
class Change:
    """One thing to try: its name and its patch on the job document, as it was sent.

    `operations` are those of a JSON Patch and `at` its place in the request; `None` for a JSON Merge Patch.
    """

    name: str
    patch: Any
    operations: tuple[Operation, ...] | None = None
    at: str = ""


class ProposedChange(OptionSchema):
    """A change to try: a JSON Patch (RFC 6902) on the job, or a JSON Merge Patch (RFC 7396)."""

    name = Text(least=1, most=limits.TITLE_LENGTH, required=True, about="what the change is called")
    patch = AnyPatch(required=True, metadata={"description": "a JSON Patch, or a JSON Merge Patch"})


def compare_schema(registry: Registry) -> type[Schema]:
    """Return the schema of the body for a registry."""
    declared = {
        "job": fields.Nested(job_schemas(registry).job, required=True, metadata={"description": "the job as it is"}),
        "changes": Rows(
            fields.Nested(ProposedChange),
            least=1,
            most=limits.CHANGES,
            required=True,
            metadata={"description": "what to try"},
        ),
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
                unknown(key, KEYS, document, "", findings)
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
                unknown(key, ("name", "patch"), row, at, findings)
        for key in ("name", "patch"):
            if key not in row:
                findings.missing(f"{at}/{key}", f'Add "{key}".')
        name = LeafReader(NAME).read(row["name"], f"{at}/name", findings) if "name" in row else ""
        if isinstance(row.get("patch"), list):
            operations = read_patch(row["patch"], f"{at}/patch", findings)
            out.append(Change(str(name), row["patch"], operations, f"{at}/patch"))
        elif isinstance(row.get("patch"), dict):
            out.append(Change(str(name), row["patch"]))
        elif "patch" in row:
            fix = "Write a JSON Patch (RFC 6902) or a JSON Merge Patch (RFC 7396) on the job."
            findings.add(f"{at}/patch", "an array or an object", row["patch"], fix)
    return out
