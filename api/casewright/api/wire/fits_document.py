"""Fits as they leave: what is planned, how far it may come out wrong, by which cuts, and what follows."""

from casewright.api.wire.described import NUMBER, TEXT, TEXTS, number, one, record, rows, word
from casewright.api.wire.lengths import Document, Lengths
from casewright.sdk import model
from casewright.sdk.units import NM_PER_UNIT
from marshmallow import fields

_SIZES = {1: "length", 2: "width"}
_AXES = {1: "across", 2: "deep", 3: "up"}
_NUMBER_OR_NULL = fields.Float(required=True, allow_none=True)
_STEP = fields.Integer(required=True, allow_none=True, metadata={"description": "the step that makes it"})

PlanFitLink = record(
    "PlanFitLink",
    part=TEXT,
    action=fields.String(required=True, allow_none=True, metadata={"description": "null for a bought thickness"}),
    step=_STEP,
    set_up=fields.String(required=True, metadata={"description": "links of one set-up share one error"}),
    size=number("from the face before to the face after, along the axis"),
    half_width=number("3 σ of its error"),
    factor=fields.Integer(required=True, metadata={"description": "1: the fit grows with it; -1: it shrinks"}),
)
"""One cut of a fit's chain."""

PlanFitShare = record("PlanFitShare", set_up=TEXT, half_width=NUMBER, part=number("of the variance, 0 to 1"))
"""What one set-up brings."""

PlanMeasurement = record(
    "PlanMeasurement",
    between=fields.List(fields.String(), required=True, metadata={"description": "two parts, or cabinets of a run"}),
    axis=word(*_AXES.values()),
    where=word(*model.Where),
    take=word(*model.Take),
    planned=number("what it comes to as planned"),
    copies=fields.List(fields.String(), required=True, metadata={"description": "measured one by one"}),
    dry=fields.List(fields.String(), required=True, metadata={"description": "parts put together dry to measure it"}),
)
"""What is measured on the work and written down."""

PlanFromWork = record(
    "PlanFromWork",
    part=TEXT,
    size=word(*_SIZES.values()),
    planned=NUMBER,
    less=number("the size is what is measured less this, over `among`"),
    among=fields.Integer(required=True),
)
"""A size that is taken from the work."""

PlanMeasuring = record(
    "PlanMeasuring",
    measurement=one(PlanMeasurement),
    sizes=rows(PlanFromWork),
    step=fields.Integer(
        required=True,
        allow_none=True,
        metadata={"description": "the step that measures; null where nothing on hand leaves the parts over size"},
    ),
)
"""What is taken from the work: measured at a step, and then cut."""

PlanFit = record(
    "PlanFit",
    id=TEXT,
    kind=word(*model.FitKind),
    cabinet=TEXT,
    axis=word(*_AXES.values()),
    parts=TEXTS,
    nominal=NUMBER,
    text=TEXT,
    least=_NUMBER_OR_NULL,
    most=_NUMBER_OR_NULL,
    worst=number("worst case, either way"),
    root=number("root of the sum of squares, either way"),
    cautious=number("the smaller of 1.5 × the root and the worst case"),
    verdict=word(*model.Verdict),
    adjust=number("how far hinges may shift it"),
    largest=rows(PlanFitShare),
    chain=rows(PlanFitLink),
    measuring=one(PlanMeasuring, allow_none=True),
)
"""One fit, good from `least` to `most`; null is open."""

LARGEST = 3
"""Set-ups listed as the largest contributors."""


def fits_document(plan: model.Plan, lengths: Lengths) -> list[Document]:
    """Return every fit of a plan."""
    return [_fit(fit, lengths) for fit in plan.fits]


def _fit(fit: model.Fit, lengths: Lengths) -> Document:
    numbers, stack = lengths.numbers, fit.stack
    return {
        "id": fit.id,
        "kind": fit.kind,
        "cabinet": fit.cabinet,
        "axis": _AXES[fit.axis],
        "parts": fit.parts,
        "nominal": numbers[fit.nominal],
        "text": lengths.texts[fit.nominal],
        "least": None if fit.least is None else numbers[fit.least],
        "most": None if fit.most is None else numbers[fit.most],
        "worst": _figure(stack.worst, lengths),
        "root": _figure(stack.root, lengths),
        "cautious": _figure(stack.cautious, lengths),
        "verdict": fit.verdict,
        "adjust": numbers[fit.adjust],
        "largest": [
            {"set_up": one.set_up, "half_width": _figure(one.half_width, lengths), "part": round(one.part, 4)}
            for one in stack.shares[:LARGEST]
        ],
        "chain": [
            {
                "part": link.part,
                "action": link.action,
                "step": link.step,
                "set_up": link.set_up,
                "size": numbers[link.nm],
                "half_width": numbers[link.half_width],
                "factor": link.factor,
            }
            for link in fit.links
        ],
        "measuring": None
        if fit.measuring is None
        else {
            "measurement": measurement_document(fit.measuring.measurement, lengths),
            "sizes": [
                {
                    "part": size.part,
                    "size": _SIZES[size.axis],
                    "planned": numbers[size.planned],
                    "less": numbers[size.less],
                    "among": size.among,
                }
                for size in fit.measuring.sizes
            ],
            "step": fit.measuring.step,
        },
    }


def measurement_document(measurement: model.Measurement, lengths: Lengths) -> Document:
    """Return what is measured on the work."""
    return {
        "between": measurement.between,
        "axis": _AXES[measurement.axis],
        "where": measurement.where,
        "take": measurement.take,
        "planned": lengths.numbers[measurement.planned],
        "copies": measurement.copies,
        "dry": measurement.dry,
    }


def _figure(nm: float, lengths: Lengths) -> float:
    """Return a statistical length in job units, to six digits after the point."""
    return round(nm / NM_PER_UNIT[lengths.units], 6)
