"""The plan document as marshmallow schemas. Plans are written as plain dictionaries; these only describe them.

They enter the OpenAPI document and the tests. Fields may be added to a plan, so unknown keys are allowed.
"""

from typing import Any, get_args

from casewright.api.wire.described import Described, line, number, numbers, rows, texts, whole, word
from casewright.api.wire.run_schema import PlanCosts, PlanRun
from casewright.sdk.model import FeatureKind, Way
from marshmallow import Schema, fields, validate


class Item(Described):
    """Something to buy."""

    item = line()
    name = line()
    quantity = whole()


class Summary(Described):
    """One cabinet in a line; `hands` are how many people should lift it."""

    cabinet = line()
    title = line()
    count = whole()
    width = number()
    height = number()
    depth = number()
    text = line()
    mass_kg = fields.Float()
    mass_lb = fields.Float()
    hands = fields.Integer()
    buy = rows(Item)
    stops = texts()


class PlanTerm(Described):
    """One signed term of a size's reason."""

    term = line()
    value = number()
    text = line()


class Why(Described):
    """The reasons of a part's length and width: signed terms that sum to them."""

    length = rows(PlanTerm)
    width = rows(PlanTerm)


class BenchText(Described):
    """Sizes rounded to the tape."""

    length = line()
    width = line()
    thickness = line()


class PlanFeature(Described):
    """A cut, measured from the part's datum corner along length, width and thickness."""

    kind = word(*get_args(FeatureKind))
    used_for = line(data_key="for")
    face = word("end-low", "end-high", "edge-low", "edge-high", "face-low", "face-high")
    joint = fields.String()
    along = fields.String()
    offset = fields.Float()
    width = fields.Float()
    depth = fields.Float()
    diameter = fields.Float()
    angle_deg = fields.Float()
    text = fields.String()
    at = fields.List(fields.List(fields.Float()))
    boxes = fields.List(fields.Dict())
    wedges = fields.List(fields.Dict())


class PartPlace(Described):
    """Where a part stands in its cabinet: its datum corner, and which way its axes run."""

    at = numbers()
    length = line()
    width = line()
    thickness = line()


class EdgeBand(Described):
    """Edging on a part."""

    material = line()
    edge = line()
    length = number()
    thickness = number()


class PlanPart(Described):
    """A part, by its finished size without edging."""

    id = line()
    cabinet = line()
    role = line()
    name = line()
    quantity = whole()
    material = line()
    length = number()
    width = number()
    thickness = number()
    text = fields.Nested(BenchText, required=True)
    grain = word("along-length", "along-width", "free")
    why = fields.Nested(Why, required=True)
    features = rows(PlanFeature)
    place = fields.Nested(PartPlace, required=True)
    edge_band = rows(EdgeBand)
    group = line()


class PlanJoint(Described):
    """A joint: the guest enters the host by `seat`."""

    id = line()
    cabinet = line()
    method = line()
    kind = line()
    host = line()
    guest = line()
    seat = number()
    clearance = number()
    glue_area_mm2 = number("square millimetres")


class PlanDoor(Described):
    """A door as hung; `at` is its lower left front corner in the cabinet frame."""

    id = line()
    cabinet = line()
    at = numbers()
    width = number()
    height = number()
    thickness = number()
    hinge_side = word("left", "right")
    parts = texts()
    hinges = numbers()
    mass_kg = number("kilograms")
    mass_lb = fields.Float()


class PlanHardware(Described):
    """A line of hardware; `at` are points in the cabinet frame."""

    item = line()
    name = line()
    cabinet = line()
    used_for = line(data_key="for")
    quantity = whole()
    at = fields.List(fields.List(fields.Float()), required=True)


class PlanMounting(Described):
    """How a cabinet hangs, with the usual cautions.

    What is not required is what engineering found: of a hung cabinet (`weight_n` to `proofs`) or of one that stands
    (`stands` to `fixing_pull_n`), and of neither where the wall is not given.
    """

    cabinet = line()
    method = line()
    lift = number("rise needed to engage, in job units")
    lengths = fields.Dict(required=True)
    cautions = texts()
    place = fields.String()
    given = fields.Dict()
    fasteners = fields.List(fields.Dict())
    use = fields.Float(allow_none=True)
    weight_n = fields.Float()
    hook = fields.Dict(allow_none=True)
    pull_n = fields.Float()
    capacity = fields.Dict(allow_none=True)
    anti_lift = fields.Dict(allow_none=True)
    caught_studs_mm = fields.List(fields.Float())
    works_between_mm = fields.List(fields.Float(), allow_none=True)
    stud_sets = fields.List(fields.List(fields.Float()))
    extension = fields.Dict(allow_none=True)
    proofs = fields.List(fields.Dict())
    stands = fields.Boolean()
    tipping_n_m = fields.Float()
    holding_n_m = fields.Float()
    fixing_height_mm = fields.Float()
    fixing_pull_n = fields.Float()


class PlanDryFit(Described):
    """The virtual dry fit."""

    pairs_checked = whole()
    seats = fields.List(fields.Dict(), required=True)
    clashes = fields.List(fields.Dict(), required=True)
    outside = fields.List(fields.Dict(), required=True)
    approximations = texts()


class PlanCheck(Described):
    """A finding: `stop` means do not cut."""

    code = line()
    level = word("stop", "caution", "note")
    subject = line()
    message = line()
    value = fields.Raw(required=True, allow_none=True)
    limit = fields.Raw(required=True, allow_none=True)
    unit = line()
    source = line()


class StepSetting(Described):
    """How the machine is set, in job units; only what the operation has."""

    fence = fields.Float()
    stop = fields.Float()
    height = fields.Float()
    cutter = fields.Float()
    kerf = fields.Float()
    start = fields.Float()
    end = fields.Float()
    depth = fields.Float()
    tilt_deg = fields.Float()
    tilts = fields.String()


class StepPiece(Described):
    """A part, or a piece on its way to parts: which side lies down and rides the fence, what is cut, kept and left."""

    part = fields.String()
    piece = fields.String()
    count = whole()
    down = fields.String()
    against = fields.String()
    leads = fields.String()
    at = fields.List(fields.List(fields.Float()))
    cuts = fields.List(fields.String())
    keeps = fields.String()
    leaves = fields.String()
    into = fields.List(fields.String())
    glue = fields.List(fields.String())
    clamps = fields.Integer()


# `pass` is a word of the language, so the field is declared by name.
StepPiece = StepPiece.from_dict({"pass": fields.List(fields.Integer())}, name="StepPiece")  # type: ignore[misc,assignment]


class StepMove(Described):
    """A straight move that sets a part in, by the cabinet's directions; without `by` it comes from the open."""

    towards = word(*[way.value for way in Way])
    by = fields.Float()


class PlanStep(Described):
    """An operation: one machine at one setting, over all pieces; `needs` are operations that must be done first.

    `moves` set pieces in, one after another; `minutes` is how long is waited at least.
    """

    number = whole()
    stage = line()
    machine = line()
    action = line()
    setting = fields.Nested(StepSetting, required=True)
    on = rows(StepPiece)
    do = line()
    lines = texts()
    check = line()
    cautions = texts()
    needs = fields.List(fields.Integer(), required=True)
    moves = fields.List(fields.Nested(StepMove))
    minutes = fields.Integer()


class PlanWeight(Described):
    """An empty cabinet's mass and its centre in the cabinet frame."""

    cabinet = line()
    mass_kg = number("kilograms")
    mass_lb = fields.Float()
    centre = numbers()


class PlanWorkshop(Described):
    """What one copy of a cabinet asks of glue, band and finish."""

    cabinet = line()
    glue_area_mm2 = number("square millimetres")
    glue_g = number("grams")
    band_length = number("in job units")
    finish_area_mm2 = number("square millimetres")


class MadeBy(Described):
    """What made the plan."""

    software = line()
    version = line()
    sdk = line()
    plugins = fields.List(fields.Dict(), required=True)


SECTION_FIELDS: dict[str, fields.Field[Any]] = {
    "summary": rows(Summary),
    "parts": rows(PlanPart),
    "joints": rows(PlanJoint),
    "doors": rows(PlanDoor),
    "hardware": rows(PlanHardware),
    "mounting": rows(PlanMounting),
    "dry_fit": fields.Nested(PlanDryFit, required=True),
    "checks": rows(PlanCheck),
    "steps": rows(PlanStep),
    "weights": rows(PlanWeight),
    "workshop": rows(PlanWorkshop),
    "stock": fields.Dict(required=True, allow_none=True),
    "run": fields.Nested(PlanRun, required=True, allow_none=True),
    "costs": fields.Nested(PlanCosts, required=True, allow_none=True),
    "origins": fields.Dict(
        keys=fields.String(),
        values=fields.String(validate=validate.OneOf(("default", "house", "house-style"))),
        required=True,
        metadata={"description": "Where values came from that a cabinet does not give itself, by JSON Pointer"},
    ),
}


def view_schema(name: str, sections: tuple[str, ...]) -> type[Schema]:
    """Return the schema of a view that shows some sections of the plan."""
    declared: dict[str, Any] = {
        "title": line(),
        "units": word("in", "mm"),
        "tape": line(),
        **{section: SECTION_FIELDS[section] for section in sections},
        "made_by": fields.Nested(MadeBy, required=True),
        "fingerprint": line(),
    }
    return Described.from_dict(declared, name=name)
