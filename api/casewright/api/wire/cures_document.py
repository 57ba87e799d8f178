"""Cures as they leave: each stop with the changes that clear it, as patches and figures in the job's own units."""

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from casewright.api.job.json_patch import JSON_PATCH
from casewright.api.wire.checks_document import check_document
from casewright.api.wire.described import TEXT, TEXT_OR_NULL, WHOLE, number, one, record, rows
from casewright.api.wire.lengths import Document, Lengths, mass_document
from casewright.api.wire.plan_document import answer_document
from casewright.api.wire.plan_schema import PlanCheck, answer_schema
from casewright.sdk import model
from casewright.sdk.model.cures import Cure, Cures, StopCures
from marshmallow import fields

CureSchema = record(
    "Cure",
    words=TEXT,
    patch=fields.List(fields.Dict(), required=True, metadata={"description": JSON_PATCH["description"]}),
    keeps=fields.Boolean(required=True),
    cost=TEXT_OR_NULL,
    unpriced=WHOLE,
    parts_changed=WHOLE,
    mass_kg=number("what all cabinets then weigh more, empty"),
    clears=WHOLE,
    raises=rows(PlanCheck),
)
"""A change that was planned and clears its stop: `keeps` says whether all that the job asks is kept, `cost` what it
costs more as decimal text, `unpriced` how many of its differences have no price, `clears` how many stops it clears."""

StopCuresSchema = record("StopCures", check=one(PlanCheck), tried=WHOLE, cures=rows(CureSchema), why_none=TEXT)
"""A stop with its cures, the smallest first; `why_none` says why there are none."""

CuresView = answer_schema(
    "CuresView", currency=TEXT_OR_NULL, tries=WHOLE, most_tries=WHOLE, stops=rows(StopCuresSchema)
)
"""The cures of every stop."""


def write_cures(cures: Cures, job: model.Job, made_by: Mapping[str, Any], fingerprint: str) -> Document:
    """Return the cures of a job as JSON values."""
    lengths = Lengths.of(job)
    decimals = job.rates.decimals if job.rates else 2
    answer = {
        "currency": job.rates.currency if job.rates else None,
        "tries": cures.tries,
        "most_tries": cures.most,
        "stops": [_stop(stop, lengths, decimals) for stop in cures.stops],
    }
    return answer_document(job, answer, made_by, fingerprint)


def _stop(stop: StopCures, lengths: Lengths, decimals: int) -> Document:
    return {
        "check": check_document(stop.check, lengths),
        "tried": stop.tried,
        "cures": [_cure(cure, lengths, decimals) for cure in stop.cures],
        "why_none": stop.why_none,
    }


def _cure(cure: Cure, lengths: Lengths, decimals: int) -> Document:
    return {
        "words": cure.words,
        "patch": list(cure.patch),
        "keeps": cure.keeps,
        "cost": money(cure.cost, decimals),
        "unpriced": cure.unpriced,
        "parts_changed": cure.parts,
        **mass_document(cure.mass_kg, lengths.units),
        "clears": cure.clears,
        "raises": [check_document(check, lengths) for check in cure.raises],
    }


def money(cost: Decimal | None, decimals: int) -> str | None:
    """Return an amount as decimal text."""
    return None if cost is None else f"{cost:.{decimals}f}"
