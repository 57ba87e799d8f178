"""What there is to choose from, and what the service says of itself, as marshmallow schemas."""

from collections.abc import Mapping
from typing import Any

from casewright.api.wire.checks_schema import LEVELS
from casewright.api.wire.described import (
    Field,
    anything,
    flag,
    mapping,
    number,
    numbers,
    one,
    record,
    rows,
    text,
    texts,
    whole,
    word,
)
from casewright.api.wire.plan_schema import MadeBy
from marshmallow import Schema
from marshmallow.fields import String

_ENTRY = {"id": text("what a job names it by"), "title": text("what it is")}
_SOURCES = {"sources": mapping(String(), "code of the source of each field; * stands for the others")}
_MASS = {"mass_kg": number("kilograms")}


def _mm(**fields: str) -> dict[str, Field]:
    """Return fields for lengths in millimetres, the unit ending their names."""
    return {f"{name}_mm": number(f"{about}, in millimetres") for name, about in fields.items()}


def _or_null(about: str) -> Field:
    return number(f"{about}; null: not on record", allow_none=True)


SheetThickness = record(
    "SheetThickness",
    "A thickness that a sheet is sold in.",
    **_mm(nominal="what it is called", least="least it measures", most="most it measures"),
    density_kg_m3=_or_null("kilograms per cubic metre"),
    e_along_mpa=_or_null("stiffness along the grain, megapascals"),
    e_across_mpa=_or_null("stiffness across, megapascals"),
    plies=whole("plies", allow_none=True),
)
Stuff = record(
    "Stuff",
    "A wood or panel at about 12 % moisture content.",
    **_ENTRY,
    kind=word("how it is sold", "sheet", "board"),
    density_kg_m3=number("kilograms per cubic metre"),
    e_along_mpa=number("stiffness along the grain, megapascals"),
    e_across_mpa=_or_null("stiffness across, megapascals"),
    g_oven_dry=_or_null("specific gravity, oven-dry"),
    g_12=_or_null("specific gravity at 12 %"),
    c_radial=_or_null("share it moves radially for a percent of moisture"),
    c_tangential=_or_null("the same tangentially"),
    holds_screws=flag("whether a source supports screw withdrawal"),
    family=word("kind of wood", "hardwood", "softwood", "panel"),
    **_SOURCES,
    thicknesses=rows(SheetThickness, "thicknesses it is sold in"),
    note=text("a note"),
    bending_mpa=_or_null("modulus of rupture, megapascals"),
)
HingeGap = record(
    "HingeGap", "The least gap beside a door.", **_mm(door_up_to="thickness of the door, at most", least="the gap")
)
CountByHeight = record(
    "CountByHeight",
    "Hinges by the height of a door.",
    up_to_mm=number("height at most, in millimetres; null: any", allow_none=True),
    count=whole("hinges"),
)
CountByMass = record(
    "CountByMass", "Hinges by the mass of a door.", up_to_kg=number("kilograms at most"), count=whole("hinges")
)
HingeArm = record(
    "HingeArm",
    "A crank a hinge is sold with.",
    title=text("what it is ordered by"),
    **_mm(constant="a door laps by this, plus the bore's edge distance, less the plate's height"),
)
Hinge = record(
    "Hinge",
    "A cup hinge.",
    **_ENTRY,
    **_mm(
        cup_diameter="the cup",
        bore="hole for the cup",
        bore_depth="its depth",
        edge_least="door edge to the hole, least",
        edge_usual="the same, usually",
        edge_most="the same, most",
        screw_spacing="between its screws",
        screw_behind="screws behind the cup's centre",
        plate_setback="plate's first holes from the case front",
        plate_pitch="between its holes",
        from_door_end="outer hinges from the door's ends",
        side_adjustment="sideways adjustment, either way",
        height_adjustment="up or down",
        depth_out="away from the case",
        depth_in="towards the case",
        wide_door_from="width from which a door counts as wide",
    ),
    opening_degrees=whole("how far it opens, in degrees"),
    gaps=rows(HingeGap, "least gaps"),
    count_by_height=rows(CountByHeight, "hinges by height"),
    count_by_mass=rows(CountByMass, "hinges by mass"),
    **_MASS,
    **_SOURCES,
    arms=rows(HingeArm, "cranks it is sold with"),
    plate_heights_mm=numbers("plates it is sold with, in millimetres"),
)
Pull = record(
    "CataloguePull",
    "A pull or knob.",
    **_ENTRY,
    holes=whole("holes in line"),
    **_mm(spacing="between holes", hole_diameter="diameter of a hole", projection="how far it stands out"),
    **_MASS,
    **_SOURCES,
)
_F_YB = {"f_yb_mpa": number("bending yield strength, megapascals")}
Screw = record(
    "Screw",
    "A wood screw.",
    **_ENTRY,
    gauge=whole("its number"),
    **_mm(diameter="diameter", root="root diameter", head="diameter of the head", length="length"),
    **_F_YB,
    **_SOURCES,
)
Lag = record(
    "LagScrew",
    "A lag screw with a washer.",
    **_ENTRY,
    **_mm(diameter="diameter", root="root diameter", washer="washer", tip="tapered tip", length="length"),
    **_F_YB,
    **_SOURCES,
)
Nail = record(
    "Nail",
    "A nail or brad.",
    **_ENTRY,
    **_mm(diameter="diameter", head="diameter of the head", length="length"),
    **_F_YB,
    use=text("what it may be asked to do"),
    **_SOURCES,
)
Pin = record(
    "ShelfPin",
    "A shelf pin and its rows.",
    **_ENTRY,
    **_mm(hole_diameter="hole", hole_depth="its depth", pitch="between holes", setback="from the case front"),
    **_SOURCES,
)
Slide = record(
    "DrawerSlide",
    "A drawer slide.",
    **_ENTRY,
    **_mm(
        side_room="room at each side",
        height="height",
        length="length",
        first_hole="first hole from the front",
        height_adjustment="its slots let the drawer up or down by this",
        depth_adjustment="in or out by this",
    ),
    rated_kg=_or_null("kilograms it carries"),
    **_MASS,
    **_SOURCES,
)
_PRESSURES = {
    f"pressure_{wood}_mpa": numbers(f"least and most for {wood} woods, megapascals")
    for wood in ("light", "medium", "dense")
}
Glue = record("Glue", "A glue.", **_ENTRY, spread_g_m2=number("grams per square metre"), **_PRESSURES, **_SOURCES)
Dowel = record(
    "Dowel",
    "A dowel.",
    **_ENTRY,
    **_mm(diameter="diameter", length="length", slack="hole deeper by this"),
    **_SOURCES,
)
LooseTenon = record(
    "LooseTenon",
    "A loose tenon.",
    **_ENTRY,
    **_mm(thickness="thickness", width="width", length="length", slack="mortise deeper by this"),
    **_SOURCES,
)
Materials = record(
    "MaterialsView",
    "The catalogue.",
    stuffs=rows(Stuff, "woods and panels"),
    hinges=rows(Hinge, "hinges"),
    pulls=rows(Pull, "pulls and knobs"),
    screws=rows(Screw, "wood screws"),
    lags=rows(Lag, "lag screws"),
    nails=rows(Nail, "nails and brads"),
    pins=rows(Pin, "shelf pins"),
    slides=rows(Slide, "drawer slides"),
    glues=rows(Glue, "glues"),
    dowels=rows(Dowel, "dowels"),
    loose_tenons=rows(LooseTenon, "loose tenons"),
)

_FREE: Field = anything("")
MethodEntry = record(
    "MethodEntry",
    "A method.",
    **_ENTRY,
    family=word("its family", "joints", "doors", "boxes", "mountings"),
    does=texts("meetings a joint can make"),
    plugin=text("the plugin it is of"),
    options=mapping(_FREE, "JSON Schema of its options"),
)
HouseStyle = record("HouseStyle", "A house style.", **_ENTRY, defaults=mapping(_FREE, "what a house then has"))
CheckEntry = record("CheckEntry", "A check of a plugin.", **_ENTRY)
CureEntry = record(
    "CureEntry",
    "What proposes changes that may clear stops.",
    **_ENTRY,
    codes=texts("codes of the stops it knows"),
    why_none=mapping(String(), "why a stop has no change, by code"),
)
Methods = record(
    "MethodsView",
    "What methods there are.",
    methods=rows(MethodEntry, "joints, doors, drawer corners and mountings"),
    house_styles=rows(HouseStyle, "house styles"),
    checks=rows(CheckEntry, "checks of plugins"),
    cures=rows(CureEntry, "generators of cures"),
)
SourceEntry = record(
    "SourceEntry",
    "A document that numbers come from.",
    code=text("what checks name it by"),
    title=text("its title"),
    edition=text("its edition"),
    clause=text("table, equation or clause"),
    provenance=word("how it is known", "document read", "from memory", "common practice", "derived"),
    note=text("what was read"),
)
LimitEntry = record(
    "LimitEntry",
    "A limit on a job.",
    name=text("its name"),
    value=whole("the limit"),
    unit=text("its unit; empty for a count"),
    about=text("what it bounds"),
)
PluginEntry = record(
    "PluginEntry",
    "A plugin that was found.",
    name=text("its name"),
    distribution=text("the distribution it came in"),
    version=text("version of that"),
    status=text("loaded, failed or blocked"),
    cause=text("why it is not loaded"),
    methods=texts("what it brings"),
)
CodeEntry = record(
    "CodeEntry",
    "A kind of check. Codes stay what they are; new ones may come.",
    code=text("the code"),
    levels=texts("levels it may have: " + ", ".join(LEVELS)),
    meaning=text("what it says"),
    cures=texts("ids of the generators that know it, by /v1/methods"),
)
Alive = record("Alive", "That the process lives.", status=word("always this", "alive"))
Ready = record(
    "Ready",
    "That it can answer.",
    status=word("always this", "ready"),
    failed_plugins=texts("plugins that could not be loaded"),
)
ProblemKind = record(
    "ProblemKind",
    "A kind of problem explained.",
    type=text("what problems name it by"),
    status=whole("HTTP status"),
    title=text("in a few words"),
    about=text("what to do about it"),
)


def library_schemas(job: type[Schema]) -> Mapping[str, type[Schema]]:
    """Return the schema of each path that answers what there is to choose from, by its name; jobs are of a schema."""
    example = record(
        "ExampleEntry", "An example job.", name=text("its name"), title=text("its title"), job=one(job, "the job")
    )
    return {
        "examples": record("ExamplesView", "Jobs to begin from.", examples=rows(example, "the jobs")),
        "methods": Methods,
        "materials": Materials,
        "sources": record("SourcesView", "Sources.", sources=rows(SourceEntry, "every source")),
        "limits": record("LimitsView", "Limits.", limits=rows(LimitEntry, "every limit")),
        "plugins": record(
            "PluginsView",
            "Plugins found.",
            plugins=rows(PluginEntry, "every plugin"),
            left_out=texts("methods whose options clash with shared ones"),
            note=text("what installing one means"),
        ),
        "checks/codes": record("CodesView", "Codes of checks.", codes=rows(CodeEntry, "every code")),
    }


SERVICE_SCHEMAS: Mapping[str, tuple[type[Schema], Any]] = {
    "/healthz": (Alive, {"status": "alive"}),
    "/readyz": (Ready, {"status": "ready", "failed_plugins": []}),
    "/version": (MadeBy, None),
}
"""Schema and example of what the service says of itself."""
