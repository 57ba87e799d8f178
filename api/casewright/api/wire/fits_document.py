"""Fits as they leave: what is planned, how far it may come out wrong, by which cuts, and what follows."""

from casewright.api.wire.described import CABINET, flag, number, one, record, rows, size, text, texts, whole, word
from casewright.api.wire.lengths import Document, Lengths
from casewright.sdk import model
from casewright.sdk.units import NM_PER_UNIT

_SIZES = {1: "length", 2: "width"}
_AXES = {1: "across", 2: "deep", 3: "up"}

PlanFitLink = record(
    "PlanFitLink",
    "One cut of a fit's chain.",
    part=text("id of the part"),
    action=word("what is done; null for a bought thickness, or a wall", *model.Action, allow_none=True),
    step=whole("the step that makes it", allow_none=True),
    set_up=text("links of one set-up share one error"),
    size=size("from the face before to the face after, along the axis"),
    half_width=size("3 σ of its error"),
    factor=number("1: the fit grows with it; -1: it shrinks; a half where two parts share what they are cut to"),
)

PlanFitShare = record(
    "PlanFitShare",
    "What one set-up brings.",
    set_up=text("the set-up"),
    half_width=size("3 σ of its error"),
    share=number("of the variance, 0 to 1"),
)

PlanMeasurement = record(
    "PlanMeasurement",
    "What is measured on the work and written down.",
    between=texts("two parts, or cabinets of a run"),
    axis=word("the way it is measured", *_AXES.values()),
    where=word("where it is measured", *model.Where),
    take=word("which of several is taken", *model.Take),
    planned=size("what it comes to as planned"),
    copies=texts("measured one by one"),
    dry=texts("parts put together dry to measure it"),
)

PlanFromWork = record(
    "PlanFromWork",
    "A size that is taken from the work.",
    part=text("id of the part"),
    size=word("which size", *_SIZES.values()),
    planned=size("as planned"),
    less=size("the size is what is measured less this, over `among`"),
    among=whole("how many share it"),
    full=size("left on over that, to be planed off to fit"),
)

PlanMeasuring = record(
    "PlanMeasuring",
    "What is taken from the work: measured at a step, and then cut.",
    measurement=one(PlanMeasurement),
    sizes=rows(PlanFromWork, "sizes that it gives"),
    worst=size("worst case of what is still off then, by the reading and by the cuts made to it"),
    root=size("root of the sum of squares of the same"),
    cautious=size("the smaller of 1.5 × that root and that worst case"),
    good=flag("whether it is good so; else the parts are left full and planed to fit"),
    step=whole("the step that measures; null where nothing on hand leaves the parts over size", allow_none=True),
)

PlanFit = record(
    "PlanFit",
    "One fit, good from `least` to `most`; null is open.",
    id=text("its id"),
    kind=word("what it is between", *model.FitKind),
    cabinet=CABINET,
    axis=word("the way it is measured", *_AXES.values()),
    parts=texts("ids of its parts"),
    nominal=size("as planned"),
    text=text("the same for the bench"),
    least=size("least that is good", allow_none=True),
    most=size("most that is good", allow_none=True),
    worst=size("worst case, either way"),
    root=size("root of the sum of squares, either way"),
    cautious=size("the smaller of 1.5 × the root and the worst case"),
    verdict=word("what follows", *model.Verdict),
    adjust=size("how far hinges may shift it"),
    largest=rows(PlanFitShare, "the set-ups that bring most"),
    chain=rows(PlanFitLink, "the cuts it hangs on"),
    measuring=one(PlanMeasuring, "null: nothing is taken from the work", allow_none=True),
)

PlanUnprovedFit = record(
    "PlanUnprovedFit",
    "A fit that matters and of which nothing is proved: it is tried on the work.",
    id=text("its id"),
    kind=word("what it is between", *model.FitKind),
    cabinet=CABINET,
    axis=word("the way it is measured", *_AXES.values()),
    why=word("nothing fixed on both sides of it, or no row of fastened parts between them", *model.WhyUnproved),
)

LARGEST = 3
"""Set-ups listed as the largest contributors."""


def fits_document(plan: model.Plan, lengths: Lengths) -> list[Document]:
    """Return every fit of a plan."""
    return [_fit(fit, lengths) for fit in plan.fits]


def unproved_document(plan: model.Plan, lengths: Lengths) -> list[Document]:
    """Return the fits of a plan of which nothing is proved."""
    return [
        {"id": one.id, "kind": one.kind, "cabinet": one.cabinet, "axis": _AXES[one.axis], "why": one.why}
        for one in plan.unproved
    ]


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
            {"set_up": one.set_up, "half_width": _figure(one.half_width, lengths), "share": round(one.part, 4)}
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
        "measuring": None if fit.measuring is None else _measuring(fit.measuring, lengths),
    }


def _measuring(measuring: model.Measuring, lengths: Lengths) -> Document:
    numbers, stack = lengths.numbers, measuring.stack
    return {
        "measurement": measurement_document(measuring.measurement, lengths),
        "sizes": [
            {
                "part": size.part,
                "size": _SIZES[size.axis],
                "planned": numbers[size.planned],
                "less": numbers[size.less],
                "among": size.among,
                "full": numbers[size.full],
            }
            for size in measuring.sizes
        ],
        "worst": _figure(stack.worst, lengths),
        "root": _figure(stack.root, lengths),
        "cautious": _figure(stack.cautious, lengths),
        "good": measuring.good,
        "step": measuring.step,
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
