"""Parts, joints, doors, hardware and the dry fit of the plan document as marshmallow schemas."""

from typing import get_args

from casewright.api.wire.described import (
    CABINET,
    MASS_LB,
    flag,
    number,
    one,
    points,
    record,
    rows,
    size,
    sizes,
    text,
    texts,
    whole,
    wholes,
    word,
)
from casewright.api.wire.features import AXES, FACES
from casewright.sdk.model import FeatureKind, Side
from casewright.sdk.model.parts import GrainRule

PlanTerm = record(
    "PlanTerm",
    "One signed term of a size's reason.",
    term=text("what it is"),
    value=size("how much it adds"),
    text=text("the same for the bench"),
)

Why = record(
    "Why",
    "The reasons of a part's length and width: signed terms that sum to them.",
    length=rows(PlanTerm, "terms of the length"),
    width=rows(PlanTerm, "terms of the width"),
)

BenchText = record(
    "BenchText",
    "Sizes rounded to the tape.",
    length=text("along the grain"),
    width=text("across the grain"),
    thickness=text("thickness"),
)

FeatureBox = record(
    "FeatureBox",
    "A box of waste, from the part's datum corner along length, width and thickness.",
    at=sizes("its corner next to the datum"),
    size=sizes("its three sizes"),
)

FeatureWedge = record(
    "FeatureWedge",
    "A wedge of waste: half of a box, cut from edge to edge.",
    at=sizes("the box's corner next to the datum"),
    size=sizes("the box's three sizes"),
    along=word("the axis it runs along", *AXES),
    corner=texts("the two faces between which it is full"),
)

PlanFeature = record(
    "PlanFeature",
    "A cut, measured from the part's datum corner along length, width and thickness.",
    kind=word("what is cut", *get_args(FeatureKind)),
    used_for=text("what it is for", data_key="for"),
    face=word("where the cutter enters", *FACES.values()),
    joint=text("id of its joint", required=False),
    along=word("the axis a groove runs along", *AXES, required=False),
    offset=size("from the datum, across a groove", required=False),
    width=size("across a groove", required=False),
    depth=size("into the face", required=False),
    diameter=size("of holes", required=False),
    angle_deg=number("of a bevel from square, in degrees", required=False),
    text=text("the cut for the bench", required=False),
    at=points("mouths of holes, job units", required=False),
    boxes=rows(FeatureBox, "waste of square cuts", required=False),
    wedges=rows(FeatureWedge, "waste of slanting cuts", required=False),
)

PartPlace = record(
    "PartPlace",
    "Where a part stands in its cabinet: its datum corner, and which way its axes run.",
    at=sizes("the datum corner in the cabinet frame"),
    length=text("which way the length runs"),
    width=text("which way the width runs"),
    thickness=text("which way the thickness runs"),
)

EdgeBand = record(
    "EdgeBand",
    "Edge band on a part.",
    material=text("key of its material"),
    edge=word("where it is", "end-low", "end-high", "edge-low", "edge-high"),
    length=size("how long it is"),
    thickness=size("how thick it is"),
)

PartSides = record(
    "PartSides",
    "What the six sides of a part are called; steps name sides so.",
    **{side.value: text(f"the {side.value} side") for side in Side},
)

PartMatch = record(
    "PartMatch",
    "A part's place in a row of parts that are cut in sequence of one piece.",
    row=text("id of the row"),
    place=whole("its place from the left or from the top, from 1"),
    of=whole("parts in the row"),
)

PlanPart = record(
    "PlanPart",
    "A part, by its finished size without edge band.",
    id=text("its id in the job"),
    cabinet=CABINET,
    role=text("what it is in its cabinet, by id"),
    name=text("its name"),
    quantity=whole("pieces in the whole job"),
    material=text("key of its material"),
    length=size("along the grain"),
    width=size("across the grain"),
    thickness=size("as measured"),
    text=one(BenchText),
    grain=word("which way the grain runs", *get_args(GrainRule)),
    why=one(Why),
    features=rows(PlanFeature, "its cuts"),
    place=one(PartPlace),
    sides=one(PartSides),
    edge_band=rows(EdgeBand, "its edge band"),
    group=text("what it is put together with first"),
    match=one(PartMatch, "what it is made to match; null: nothing", allow_none=True),
    no_stock=whole("pieces that the stock listed does not yield"),
    built=whole("how many of them are cut already"),
    bought_to_size=flag("whether it is ordered at this size, as a pane of glass is, and never sawn"),
    over_size=texts("`length` or `width`, or both, where it is cut over size until a step has measured for it"),
    copies=wholes("for which copies of the cabinet, from 1, where those come out differently"),
)

PlanJoint = record(
    "PlanJoint",
    "A joint: the guest enters the host by `seat`.",
    id=text("its id"),
    cabinet=CABINET,
    method=text("id of its method"),
    kind=text("what meets: corner, tee, panel and so on"),
    host=text("id of the part that is entered"),
    guest=text("id of the part that enters"),
    seat=size("how deep the guest enters"),
    clearance=size("the play between them"),
    glue_area_mm2=number("glued area in square millimetres"),
    note=text("what its method says of closing it", required=False),
)

PlanDoor = record(
    "PlanDoor",
    "A door as hung.",
    id=text("its id"),
    cabinet=CABINET,
    at=sizes("its lower left front corner in the cabinet frame"),
    width=size("its width"),
    height=size("its height"),
    thickness=size("its thickness"),
    hinge_side=word("the side of its hinges", "left", "right"),
    parts=texts("ids of its parts"),
    hinges=sizes("heights of the hinges over its lower edge"),
    mass_kg=number("its mass in kilograms"),
    mass_lb=MASS_LB,
)

PlanHardware = record(
    "PlanHardware",
    "A line of hardware.",
    item=text("id in the catalogue"),
    name=text("what it is called"),
    cabinet=CABINET,
    used_for=text("what it is for", data_key="for"),
    quantity=whole("pieces in the whole job"),
    at=points("places in the cabinet frame, job units"),
)

PlanSeat = record(
    "PlanSeat",
    "A joint brought home.",
    joint=text("id of the joint"),
    seat=size("how deep the guest enters"),
    clearance=size("the play that is left"),
    seated=flag("whether it comes home"),
)

PlanClash = record(
    "PlanClash",
    "Two parts that would both fill a place.",
    first=text("id of a part"),
    second=text("id of the other"),
    volume_mm3=number("what both would fill, in cubic millimetres"),
)

PlanOutside = record(
    "PlanOutside",
    "What a cabinet fills, put together.",
    cabinet=CABINET,
    low=sizes("its lower left front corner"),
    high=sizes("its upper right back corner"),
)

PlanDryFit = record(
    "PlanDryFit",
    "The virtual dry fit.",
    pairs_checked=whole("pairs of parts that were tried"),
    seats=rows(PlanSeat, "every joint"),
    clashes=rows(PlanClash, "parts that overlap"),
    outside=rows(PlanOutside, "every cabinet"),
    approximations=texts("what was simplified"),
)
