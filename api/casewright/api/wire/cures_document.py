"""Cures as they leave: each stop with the changes that clear it, as patches and figures in the job's own units."""

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from casewright.api.wire.checks_document import check_document
from casewright.api.wire.checks_schema import PlanCheck
from casewright.api.wire.described import MASS_LB, anything, flag, number, one, record, rows, text, whole, word
from casewright.api.wire.lengths import Document, Lengths, mass_document
from casewright.api.wire.plan_document import answer_document
from casewright.api.wire.plan_schema import answer_schema
from casewright.sdk import model
from casewright.sdk.model.cures import Cure, Cures, StopCures

PatchOperation = record(
    "PatchOperation",
    "An operation of a JSON Patch (RFC 6902).",
    op=word("what to do", "add", "remove", "replace", "move", "copy", "test"),
    path=text("JSON Pointer into the job"),
    value=anything("the value to write", required=False, allow_none=True),
    **{"from": text("JSON Pointer of what is moved or copied", required=False)},
)

CureSchema = record(
    "Cure",
    "A change that was planned and clears its stop.",
    words=text("the change in words"),
    patch=rows(PatchOperation, "the change, on the job"),
    keeps=flag("whether all that the job asks is kept"),
    cost=text("what it costs more, as decimal text", allow_none=True),
    unpriced=whole("differences without price"),
    parts_changed=whole("parts changed"),
    mass_kg=number("what all cabinets then weigh more, empty"),
    mass_lb=MASS_LB,
    clears=whole("stops cleared"),
    leaves=rows(PlanCheck, "stops left there"),
    raises=rows(PlanCheck, "checks it brings"),
)

StopCuresSchema = record(
    "StopCures",
    "A stop and its cures, the least first.",
    check=one(PlanCheck),
    tries=whole("changes tried for it"),
    cures=rows(CureSchema, "what clears it"),
    why_none=text("why there are none"),
)

CuresView = answer_schema(
    "CuresView",
    "The cures of every stop.",
    currency=text("what money is called; null: no rates", allow_none=True),
    tries=whole("changes tried"),
    most_tries=whole("the most it may be"),
    cures=rows(StopCuresSchema, "each stop with its cures"),
)


def write_cures(cures: Cures, job: model.Job, made_by: Mapping[str, Any], fingerprint: str) -> Document:
    """Return the cures of a job as JSON values."""
    lengths = Lengths.of(job)
    decimals = job.rates.decimals if job.rates else 2
    answer = {
        "currency": job.rates.currency if job.rates else None,
        "tries": cures.tries,
        "most_tries": cures.most,
        "cures": [_stop(stop, lengths, decimals) for stop in cures.stops],
    }
    return answer_document(job, len(cures.stops), answer, (made_by, fingerprint))


def _stop(stop: StopCures, lengths: Lengths, decimals: int) -> Document:
    return {
        "check": check_document(stop.check, lengths),
        "tries": stop.tried,
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
        "leaves": [check_document(check, lengths) for check in cure.leaves],
        "raises": [check_document(check, lengths) for check in cure.raises],
    }


def money(cost: Decimal | None, decimals: int) -> str | None:
    """Return an amount as decimal text."""
    return None if cost is None else f"{cost:.{decimals}f}"
