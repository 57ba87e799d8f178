"""Checks as they leave: values and limits in the job's own units, and what the tape rounds."""

from fractions import Fraction

from casewright.api.wire.lengths import Document, Lengths
from casewright.sdk import model
from casewright.sdk.findings import Measured
from casewright.sdk.units import NM_PER_UNIT, Units
from casewright.sdk.writer import writer


def checks_document(plan: model.Plan, lengths: Lengths) -> list[Document]:
    """Return every check, and one for each cabinet whose bench text is rounded."""
    return [check_document(check, lengths) for check in (*plan.checks, *_rounded(plan, lengths))]


def check_document(check: model.Check, lengths: Lengths) -> Document:
    """Return one check."""
    is_length = check.unit == model.LENGTH
    units = lengths.units
    return {
        "code": check.code,
        "level": check.level,
        "subject": check.subject,
        "message": check.message,
        "value": _length(check.value, lengths) if is_length else _measured(check.value, check.unit, units),
        "limit": _length(check.limit, lengths) if is_length else _measured(check.limit, check.unit, units),
        "unit": units if is_length else unit_in(check.unit, units),
        "source": check.source,
    }


def _length(nm: Measured, lengths: Lengths) -> Measured:
    return lengths.numbers[round(nm)] if isinstance(nm, (int, float)) else nm


def unit_in(unit: str, units: Units) -> str:
    """Return the unit that a value given in `unit` has in a job of `units`."""
    return writer(units).measured(0, unit)[1]


def _measured(value: Measured, unit: str, units: Units) -> Measured:
    """Return a value in the job's system; one that has no other unit there stays as it is, whole numbers whole."""
    if not isinstance(value, (int, float)) or unit_in(unit, units) == unit:
        return value
    return writer(units).measured(value, unit)[0]


def _rounded(plan: model.Plan, lengths: Lengths) -> list[model.Check]:
    worst: dict[str, tuple[int, int]] = {}
    for part in plan.parts:
        for nm in (part.length, part.width):
            moved = lengths.texts.moved(nm)
            if moved:
                count, most = worst.get(part.cabinet, (0, 0))
                worst[part.cabinet] = (count + 1, max(most, moved))
    half = round(Fraction(NM_PER_UNIT[plan.job.units]) * plan.job.tape / 2)
    return [
        model.Check(
            cabinet or "loose",
            model.Finding(
                code="rounded-for-the-tape",
                level="caution",
                message=f"{count} sizes are rounded in their bench text to {plan.job.tape} {plan.job.units}; "
                "set stops by the number where the last bit matters, and cut mating parts at one setting",
                value=most,
                limit=half,
                unit=model.LENGTH,
                source="common-practice",
            ),
        )
        for cabinet, (count, most) in worst.items()
    ]
