"""The catalogue as marshmallow schemas: woods, panels and hardware; lengths are millimetres."""

from casewright.api.wire.described import Field, flag, mapping, number, numbers, record, rows, text, whole, word
from marshmallow.fields import String

ENTRY = {"id": text("what a job names it by"), "title": text("what it is")}
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
    **ENTRY,
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
    to_size=flag("whether it is bought at its finished size, as glass is, and never worked in the shop"),
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
    **ENTRY,
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
    **ENTRY,
    holes=whole("holes in line"),
    **_mm(spacing="between holes", hole_diameter="diameter of a hole", projection="how far it stands out"),
    **_MASS,
    **_SOURCES,
)
_F_YB = {"f_yb_mpa": number("bending yield strength, megapascals")}
Screw = record(
    "Screw",
    "A wood screw.",
    **ENTRY,
    gauge=whole("its number"),
    **_mm(diameter="diameter", root="root diameter", head="diameter of the head", length="length"),
    **_F_YB,
    **_SOURCES,
)
Lag = record(
    "LagScrew",
    "A lag screw with a washer.",
    **ENTRY,
    **_mm(diameter="diameter", root="root diameter", washer="washer", tip="tapered tip", length="length"),
    **_F_YB,
    **_SOURCES,
)
Nail = record(
    "Nail",
    "A nail or brad.",
    **ENTRY,
    **_mm(diameter="diameter", head="diameter of the head", length="length"),
    **_F_YB,
    use=text("what it may be asked to do"),
    **_SOURCES,
)
Pin = record(
    "ShelfPin",
    "A shelf pin and its rows.",
    **ENTRY,
    **_mm(hole_diameter="hole", hole_depth="its depth", pitch="between holes", setback="from the case front"),
    **_SOURCES,
)
Slide = record(
    "DrawerSlide",
    "A drawer slide.",
    **ENTRY,
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
Glue = record("Glue", "A glue.", **ENTRY, spread_g_m2=number("grams per square metre"), **_PRESSURES, **_SOURCES)
Dowel = record(
    "Dowel",
    "A dowel.",
    **ENTRY,
    **_mm(diameter="diameter", length="length", slack="hole deeper by this"),
    **_SOURCES,
)
LooseTenon = record(
    "LooseTenon",
    "A loose tenon.",
    **ENTRY,
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
