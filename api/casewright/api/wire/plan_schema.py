"""The plan document as marshmallow schemas. Plans are written as plain dictionaries; these only describe them.

They enter the OpenAPI document and the tests. Fields may be added to a plan, so unknown keys are allowed.
"""

from collections.abc import Mapping
from typing import Any

from casewright.api.wire.described import (
    Field,
    number,
    numbers,
    objects,
    one,
    record,
    rows,
    texts,
    word,
)
from casewright.api.wire.run_schema import PlanCosts, PlanRun
from marshmallow import Schema, fields, validate

Item = record("Item", texts="item name", counts="quantity")
"""Something to buy."""

Summary = record(
    "Summary",
    texts="cabinet title text",
    counts="count",
    numbers="width height depth",
    at_times="mass_kg mass_lb",
    hands=fields.Integer(),
    buy=rows(Item),
    stops=texts(),
)
"""One cabinet in a line; `hands` are how many people should lift it."""

PlanTerm = record("PlanTerm", texts="term text", numbers="value")
"""One signed term of a size's reason."""

Why = record("Why", length=rows(PlanTerm), width=rows(PlanTerm))
"""The reasons of a part's length and width: signed terms that sum to them."""

BenchText = record("BenchText", texts="length width thickness")
"""Sizes rounded to the tape."""

PlanFeature = record(
    "PlanFeature",
    texts="for",
    at_times="offset width depth diameter angle_deg",
    kind=word("groove", "rabbet", "hole", "mortise", "tenon", "bevel", "edge-profile"),
    face=word("end-low", "end-high", "edge-low", "edge-high", "face-low", "face-high"),
    joint=fields.String(),
    along=fields.String(),
    text=fields.String(),
    at=fields.List(fields.List(fields.Float())),
    boxes=fields.List(fields.Dict()),
    wedges=fields.List(fields.Dict()),
)
"""A cut, measured from the part's datum corner along length, width and thickness."""

PartPlace = record("PartPlace", texts="length width thickness", at=numbers())
"""Where a part stands in its cabinet: its datum corner, and which way its axes run."""

EdgeBand = record("EdgeBand", texts="material edge", numbers="length thickness")
"""Edging on a part."""

PlanPart = record(
    "PlanPart",
    texts="id cabinet role name material group",
    counts="quantity",
    numbers="length width thickness",
    text=one(BenchText),
    grain=word("along-length", "along-width", "free"),
    why=one(Why),
    features=rows(PlanFeature),
    place=one(PartPlace),
    edge_band=rows(EdgeBand),
)
"""A part, by its finished size without edging."""

PlanJoint = record(
    "PlanJoint",
    texts="id cabinet method kind host guest",
    numbers="seat clearance",
    glue_area_mm2=number("square millimetres"),
)
"""A joint: the guest enters the host by `seat`."""

PlanDoor = record(
    "PlanDoor",
    texts="id cabinet",
    numbers="width height thickness",
    at_times="mass_lb",
    at=numbers(),
    hinge_side=word("left", "right"),
    parts=texts(),
    hinges=numbers(),
    mass_kg=number("kilograms"),
)
"""A door as hung; `at` is its lower left front corner in the cabinet frame."""

PlanHardware = record(
    "PlanHardware",
    texts="item name cabinet for",
    counts="quantity",
    at=fields.List(fields.List(fields.Float()), required=True),
)
"""A line of hardware; `at` are points in the cabinet frame."""

PlanMounting = record(
    "PlanMounting",
    texts="cabinet method",
    at_times="weight_n pull_n tipping_n_m holding_n_m fixing_height_mm fixing_pull_n",
    lift=number("rise needed to engage, in job units"),
    lengths=fields.Dict(required=True),
    cautions=texts(),
    place=fields.String(),
    given=fields.Dict(),
    fasteners=fields.List(fields.Dict()),
    use=fields.Float(allow_none=True),
    hook=fields.Dict(allow_none=True),
    capacity=fields.Dict(allow_none=True),
    anti_lift=fields.Dict(allow_none=True),
    caught_studs_mm=fields.List(fields.Float()),
    works_between_mm=fields.List(fields.Float(), allow_none=True),
    stud_sets=fields.List(fields.List(fields.Float())),
    extension=fields.Dict(allow_none=True),
    proofs=fields.List(fields.Dict()),
    stands=fields.Boolean(),
)
"""How a cabinet hangs, with the usual cautions.

What is not required is what engineering found: of a hung cabinet (`weight_n` to `proofs`) or of one that stands
(`stands`, and what tips, holds and fixes it), and of neither where the wall is not given.
"""

PlanDryFit = record(
    "PlanDryFit", counts="pairs_checked", seats=objects(), clashes=objects(), outside=objects(), approximations=texts()
)
"""The virtual dry fit."""

PlanCheck = record(
    "PlanCheck",
    texts="code subject message unit source",
    level=word("stop", "caution", "note"),
    value=fields.Raw(required=True, allow_none=True),
    limit=fields.Raw(required=True, allow_none=True),
)
"""A finding: `stop` means do not cut."""

PlanStep = record(
    "PlanStep",
    texts="stage do setting",
    counts="number",
    parts=texts(),
    needs=fields.List(fields.Integer(), required=True),
)
"""A step of the work; `needs` are steps that must be done first."""

PlanWeight = record("PlanWeight", texts="cabinet", at_times="mass_lb", mass_kg=number("kilograms"), centre=numbers())
"""An empty cabinet's mass and its centre in the cabinet frame."""

PlanWorkshop = record(
    "PlanWorkshop",
    texts="cabinet",
    glue_area_mm2=number("square millimetres"),
    glue_g=number("grams"),
    clamp_least_n=number("newtons over the case's joints"),
    clamp_most_n=number("newtons over the case's joints"),
    band_length=number("in job units"),
    finish_area_mm2=number("square millimetres"),
)
"""What one copy of a cabinet asks of glue, clamps, band and finish."""

MadeBy = record("MadeBy", texts="software version sdk", plugins=objects())
"""What made the plan."""

SECTION_FIELDS: Mapping[str, Field] = {
    "summary": rows(Summary),
    "parts": rows(PlanPart),
    "joints": rows(PlanJoint),
    "doors": rows(PlanDoor),
    "hardware": rows(PlanHardware),
    "mounting": rows(PlanMounting),
    "dry_fit": one(PlanDryFit),
    "checks": rows(PlanCheck),
    "steps": rows(PlanStep),
    "weights": rows(PlanWeight),
    "workshop": rows(PlanWorkshop),
    "stock": fields.Dict(required=True, allow_none=True),
    "run": one(PlanRun, allow_none=True),
    "costs": one(PlanCosts, allow_none=True),
    "origins": fields.Dict(
        keys=fields.String(),
        values=fields.String(validate=validate.OneOf(("default", "house", "house-style"))),
        required=True,
        metadata={"description": "Where values came from that a cabinet does not give itself, by JSON Pointer"},
    ),
}


def view_schema(name: str, sections: tuple[str, ...]) -> type[Schema]:
    """Return the schema of a view that shows some sections of the plan."""
    shown: dict[str, Any] = {section: SECTION_FIELDS[section] for section in sections}
    return answer_schema(name, **shown)


def answer_schema(name: str, **sections: Any) -> type[Schema]:
    """Return the schema of an answer about a job: whose plan it is, its sections, and what made it."""
    return record(name, texts="title tape fingerprint", units=word("in", "mm"), made_by=one(MadeBy), **sections)
