"""The plan document as marshmallow schemas. Plans are written as plain dictionaries; these only describe them.

They enter the OpenAPI document and the tests. Fields may be added to a plan, so unknown keys are allowed.
"""

from collections.abc import Mapping
from typing import get_args

from casewright.api.wire.built_document import PlanBuilt
from casewright.api.wire.described import (
    ANY,
    NUMBER,
    NUMBERS,
    OBJECTS,
    TEXT,
    TEXTS,
    WHOLE,
    Field,
    number,
    one,
    record,
    rows,
    word,
)
from casewright.api.wire.fits_document import PlanFit, PlanMeasurement
from casewright.api.wire.run_schema import PlanCosts, PlanRun
from casewright.sdk.model import FeatureKind, Level, Side, Way
from marshmallow import Schema, fields, validate

Item = record("Item", item=TEXT, name=TEXT, quantity=WHOLE)
"""Something to buy."""

Summary = record(
    "Summary",
    cabinet=TEXT,
    title=TEXT,
    count=WHOLE,
    width=NUMBER,
    height=NUMBER,
    depth=NUMBER,
    text=TEXT,
    mass_kg=fields.Float(),
    mass_lb=fields.Float(),
    hands=fields.Integer(),
    buy=rows(Item),
    stops=TEXTS,
)
"""One cabinet in a line; `hands` are how many people should lift it."""

PlanTerm = record("PlanTerm", term=TEXT, value=NUMBER, text=TEXT)
"""One signed term of a size's reason."""

Why = record("Why", length=rows(PlanTerm), width=rows(PlanTerm))
"""The reasons of a part's length and width: signed terms that sum to them."""

BenchText = record("BenchText", length=TEXT, width=TEXT, thickness=TEXT)
"""Sizes rounded to the tape."""

PlanFeature = record(
    "PlanFeature",
    kind=word(*get_args(FeatureKind)),
    used_for=fields.String(required=True, data_key="for"),
    face=word("end-low", "end-high", "edge-low", "edge-high", "face-low", "face-high"),
    joint=fields.String(),
    along=fields.String(),
    offset=fields.Float(),
    width=fields.Float(),
    depth=fields.Float(),
    diameter=fields.Float(),
    angle_deg=fields.Float(),
    text=fields.String(),
    at=fields.List(fields.List(fields.Float())),
    boxes=fields.List(fields.Dict()),
    wedges=fields.List(fields.Dict()),
)
"""A cut, measured from the part's datum corner along length, width and thickness."""

PartPlace = record("PartPlace", at=NUMBERS, length=TEXT, width=TEXT, thickness=TEXT)
"""Where a part stands in its cabinet: its datum corner, and which way its axes run."""

EdgeBand = record("EdgeBand", material=TEXT, edge=TEXT, length=NUMBER, thickness=NUMBER)
"""Edging on a part."""

PartSides = record("PartSides", **{side.value: TEXT for side in Side})
"""What the six sides of a part are called; steps name sides so."""

PlanPart = record(
    "PlanPart",
    id=TEXT,
    cabinet=TEXT,
    role=TEXT,
    name=TEXT,
    quantity=WHOLE,
    material=TEXT,
    length=NUMBER,
    width=NUMBER,
    thickness=NUMBER,
    text=one(BenchText),
    grain=word("along-length", "along-width", "free"),
    why=one(Why),
    features=rows(PlanFeature),
    place=one(PartPlace),
    sides=one(PartSides),
    edge_band=rows(EdgeBand),
    group=TEXT,
    no_stock=WHOLE,
    built=fields.Integer(required=True, metadata={"description": "how many of them are cut already"}),
    copies=fields.List(
        fields.Integer(),
        required=True,
        metadata={"description": "for which copies of the cabinet, from 1, where those come out differently"},
    ),
)
"""A part, by its finished size without edging; `no_stock` of its pieces the stock listed does not yield."""

PlanJoint = record(
    "PlanJoint",
    id=TEXT,
    cabinet=TEXT,
    method=TEXT,
    kind=TEXT,
    host=TEXT,
    guest=TEXT,
    seat=NUMBER,
    clearance=NUMBER,
    glue_area_mm2=number("square millimetres"),
)
"""A joint: the guest enters the host by `seat`."""

PlanDoor = record(
    "PlanDoor",
    id=TEXT,
    cabinet=TEXT,
    at=NUMBERS,
    width=NUMBER,
    height=NUMBER,
    thickness=NUMBER,
    hinge_side=word("left", "right"),
    parts=TEXTS,
    hinges=NUMBERS,
    mass_kg=number("kilograms"),
    mass_lb=fields.Float(),
)
"""A door as hung; `at` is its lower left front corner in the cabinet frame."""

PlanHardware = record(
    "PlanHardware",
    item=TEXT,
    name=TEXT,
    cabinet=TEXT,
    used_for=fields.String(required=True, data_key="for"),
    quantity=WHOLE,
    at=fields.List(fields.List(fields.Float()), required=True),
)
"""A line of hardware; `at` are points in the cabinet frame."""

PlanMounting = record(
    "PlanMounting",
    cabinet=TEXT,
    method=TEXT,
    lift=number("rise needed to engage, in job units"),
    lengths=fields.Dict(required=True),
    cautions=TEXTS,
    place=fields.String(),
    one_cleat_with=fields.List(fields.String(), metadata={"description": "places on the same wall cleat"}),
    given=fields.Dict(),
    fasteners=fields.List(fields.Dict()),
    use=fields.Float(allow_none=True),
    weight_n=fields.Float(),
    hook=fields.Dict(allow_none=True),
    pull_n=fields.Float(),
    capacity=fields.Dict(allow_none=True),
    anti_lift=fields.Dict(allow_none=True),
    caught_studs_mm=fields.List(fields.Float()),
    works_between_mm=fields.List(fields.Float(), allow_none=True),
    stud_sets=fields.List(fields.List(fields.Float())),
    extension=fields.Dict(allow_none=True),
    likely=fields.Dict(allow_none=True),
    proofs=fields.List(fields.Dict()),
    stands=fields.Boolean(),
    tipping_n_m=fields.Float(),
    holding_n_m=fields.Float(),
    stands_leaned_on=fields.Boolean(),
    tipping_leaned_on_n_m=fields.Float(),
    tip_margin=fields.Float(),
    fixing_height_mm=fields.Float(),
    fixing_pull_n=fields.Float(),
)
"""How a cabinet hangs, with the usual cautions.

What is not required is what engineering found: of a hung cabinet (`weight_n` to `proofs`) or of one that stands
(`stands` to `fixing_pull_n`), and of neither where the wall is not given.
"""

PlanDryFit = record(
    "PlanDryFit", pairs_checked=WHOLE, seats=OBJECTS, clashes=OBJECTS, outside=OBJECTS, approximations=TEXTS
)
"""The virtual dry fit."""

LEVEL = word(*get_args(Level))
PlanCheck = record(
    "PlanCheck",
    code=TEXT,
    level=LEVEL,
    subject=TEXT,
    message=TEXT,
    value=ANY,
    limit=ANY,
    unit=TEXT,
    source=TEXT,
)
"""A finding: `stop` means do not cut."""

_SIZES = ("fence", "stop", "height", "cutter", "kerf", "start", "end", "depth", "tilt_deg")

StepSetting = record("StepSetting", **{name: fields.Float() for name in _SIZES}, tilts=fields.String())
"""How the machine is set, in job units; only what the operation has."""

StepPiece = record(
    "StepPiece",
    **{name: fields.String() for name in ("part", "piece", "down", "against", "leads", "keeps", "leaves")},
    **{name: fields.List(fields.String()) for name in ("cuts", "into", "glue")},
    **{"pass": fields.List(fields.Integer())},
    count=WHOLE,
    clamps=fields.Integer(),
    at=fields.List(fields.List(fields.Float())),
)
"""A part, or a piece on its way to parts: which side lies down and rides the fence, what is cut, kept and left."""

StepMove = record("StepMove", towards=word(*[way.value for way in Way]), by=fields.Float())
"""A straight move that sets a part in, by the cabinet's directions; without `by` it comes from the open."""

StepCutTo = record("StepCutTo", step=WHOLE, less=NUMBER, among=WHOLE)
"""What a cut is set to in place of the planned distance: what `step` measured, less `less`, over `among`."""

PlanStep = record(
    "PlanStep",
    number=WHOLE,
    stage=TEXT,
    machine=TEXT,
    action=TEXT,
    setting=one(StepSetting),
    on=rows(StepPiece),
    do=TEXT,
    lines=TEXTS,
    check=TEXT,
    cautions=TEXTS,
    needs=fields.List(fields.Integer(), required=True),
    moves=fields.List(fields.Nested(StepMove)),
    minutes=fields.Float(),
    start=fields.Float(),
    finish=fields.Float(),
    done=fields.Boolean(),
    meanwhile=fields.List(fields.Integer()),
    measurement=fields.Nested(PlanMeasurement),
    cut_to=fields.Nested(StepCutTo),
)
"""An operation: one machine at one setting, over all pieces; `needs` are operations that must be done first.

`moves` set pieces in, one after another. `minutes` is how long is waited at least, and how long work takes where the
shop's rates have a time for it; `start` and `finish` are the earliest for one person, in minutes from the start of what
is left. `done` is there where the job marks it, and `meanwhile` are steps that can be done during a wait. A step that
measures on the work has its `measurement`; a cut that waits for one has `cut_to`, and its setting is the planned one.
"""

PlanSchedule = record("PlanSchedule", finish=number("minutes"), hands_on=number("minutes"), left=WHOLE, untimed=WHOLE)
"""What is left of the work for one person: the earliest finish, the work by hand in it, the steps left, and how many of
those have no time by the shop's rates and count as nothing."""

PlanWeight = record("PlanWeight", cabinet=TEXT, mass_kg=number("kilograms"), mass_lb=fields.Float(), centre=NUMBERS)
"""An empty cabinet's mass and its centre in the cabinet frame."""

PlanWorkshop = record(
    "PlanWorkshop",
    cabinet=TEXT,
    glue_area_mm2=number("square millimetres"),
    glue_g=number("grams"),
    band_length=number("in job units"),
    finish_area_mm2=number("square millimetres"),
)
"""What one copy of a cabinet asks of glue, band and finish."""

MadeBy = record("MadeBy", software=TEXT, version=TEXT, sdk=TEXT, plugins=OBJECTS)
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
    "schedule": one(PlanSchedule),
    "weights": rows(PlanWeight),
    "workshop": rows(PlanWorkshop),
    "stock": fields.Dict(required=True, allow_none=True),
    "run": one(PlanRun, allow_none=True),
    "costs": one(PlanCosts, allow_none=True),
    "fits": rows(PlanFit),
    "built": one(PlanBuilt, allow_none=True),
    "origins": fields.Dict(
        keys=fields.String(),
        values=fields.String(validate=validate.OneOf(("default", "house", "house-style"))),
        required=True,
        metadata={"description": "Where values came from that a cabinet does not give itself, by JSON Pointer"},
    ),
}


def view_schema(name: str, sections: tuple[str, ...]) -> type[Schema]:
    """Return the schema of a view that shows some sections of the plan."""
    return answer_schema(name, **{section: SECTION_FIELDS[section] for section in sections})


def answer_schema(name: str, **sections: Field) -> type[Schema]:
    """Return the schema of an answer about a job: whose plan it is, its sections, and what made it."""
    whose = {"title": TEXT, "units": word("in", "mm"), "tape": TEXT}
    return record(name, **whose, **sections, made_by=one(MadeBy), fingerprint=TEXT)
