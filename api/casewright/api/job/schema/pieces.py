"""Schemas of the parts of a job that no method adds to: materials, pins, pulls, spaces, climate, loading, loose parts.

A `load_default` is the default; one given beside the mark "practice" is common practice, no source.
"""

from typing import Any

from casewright.api.job import limits
from casewright.api.job.fields import Key, MaterialKey, Rows, Shelves, StuffKey
from casewright.sdk.engineering import beams
from casewright.sdk.fields import Choice, Count, Flag, Length, Number, OptionSchema, Text
from casewright.sdk.units import inches, mm
from marshmallow import fields

SAG_LIMITS = tuple(beams.LIMITS)
DETAIL = limits.GREATEST_DETAIL
GRAINS = ("along-length", "along-width", "free")


def detail(default: int | None = None, *, least: int = 0, about: str = "", **kwargs: Any) -> Length:
    """Return a field for a length of a detail, up to a metre, with its default in nm."""
    if default is not None:
        kwargs["load_default"] = default
    return Length(least=least, most=DETAIL, about=about, **kwargs)


def about(text: str) -> dict[str, Any]:
    """Return metadata with a description, for fields that take no `about`: lists and maps."""
    return {"description": text}


class Material(OptionSchema):
    """A material on hand, by its thickness as measured."""

    kind = Choice("sheet", "board", "band", required=True, about="what it is sold as")
    stuff = StuffKey(required=True, about="an id listed by /v1/materials")
    thickness = Length(
        least=limits.LEAST_THICKNESS,
        most=limits.GREATEST_THICKNESS,
        required=True,
        about="as measured",
    )
    nominal = Text(most=40, load_default="", about="what it is sold as, for reading only")
    widest = Length(
        least=mm(25),
        most=DETAIL,
        allow_none=False,
        load_default=None,
        about="the widest board to be had where `stock` lists none; wider parts are glued up of strips",
    )


class Pins(OptionSchema):
    """Rows of shelf pin holes; the 32 mm convention by default."""

    diameter = detail(mm(5), least=mm(1))
    pitch = detail(mm(32), least=mm(5))
    depth = Length(
        least=mm(1),
        most=DETAIL,
        allow_none=True,
        load_default=None,
        about="default: 10 mm, or a third of the wood where that is less",
    )
    from_front = detail(mm(37), about="from the case front to the hole centres")
    from_back = detail(mm(37), about="from the back panel to the hole centres")
    clear_ends = detail(mm(64), about="no hole nearer than this to the floor and the top of the space")
    shelf_play = detail(mm(2), about="how much shorter a loose shelf is than its space")


class Pull(OptionSchema):
    """A pull and where its holes stand."""

    item = Key(required=True, about="an id listed by /v1/materials")
    from_edge = Length(
        most=DETAIL,
        allow_none=True,
        load_default=None,
        about="from the meeting edge to the hole centres; null: the middle of the wood there",
    )
    from_end = detail(inches("2 1/2"), about="from the end to the nearest hole's centre")
    at_end = Choice(
        "lower",
        "upper",
        about="default: lower on wall cabinets, upper on base ones, on tall ones the end nearer to a hand at 1 m",
    )
    direction = Choice("upright", "level", load_default="upright", about="how its holes stand")


class Overlays(OptionSchema):
    """How far the doors of one space lap at each edge of their opening, where that is not as all others do."""

    left = Length(most=DETAIL, about="at the left edge; default: as the doors")
    right = Length(most=DETAIL, about="at the right edge; default: as the doors")
    top = Length(most=DETAIL, about="at the top edge; default: as the doors")
    bottom = Length(most=DETAIL, about="at the bottom edge; default: as the doors")


class SpaceLeaf(OptionSchema):
    """What every space may hold."""

    bays = Rows(
        fields.Nested(lambda: SpaceEntry),
        least=1,
        most=limits.SPACE_ENTRIES,
        metadata=about("side by side, left to right"),
    )
    tiers = Rows(
        fields.Nested(lambda: SpaceEntry),
        least=1,
        most=limits.SPACE_ENTRIES,
        metadata=about("one over another, top to bottom"),
    )
    front = Choice("open", "door", "door-pair", "drawer", load_default="open", about="what closes it")
    hinge_side = Choice("left", "right", load_default="left", about="of a single door")
    overlays = fields.Nested(Overlays, metadata=about("edges at which its doors lap otherwise than `doors.overlay`"))
    fixed_shelves = Shelves(
        load_default=0,
        metadata=about("how many, spread evenly, or heights of their undersides over the floor of the space"),
    )
    loose_shelves = Count(most=limits.SHELVES, load_default=0, about="shelves on pins")
    drawers = Count(least=1, most=limits.DRAWERS, load_default=1, about="drawers one over another")
    drawer_heights = Rows(
        Length(least=mm(20), most=limits.GREATEST_CABINET, allow_none=True),
        least=1,
        most=limits.DRAWERS,
        metadata=about("heights of the fronts from the top, instead of `drawers`; one null takes what is left"),
    )
    drawer_rule = Choice("equal", "graduated", load_default="equal", about="how heights of drawers follow")
    match = Flag(
        load_default=False,
        about="the grain runs on over its fronts, those of bays or tiers too: doors, or their panels, and drawer "
        "fronts are cut in sequence of one sheet or board",
    )


class Space(SpaceLeaf):
    """The whole inside of a cabinet: a leaf, or divided into bays or tiers."""


class SpaceEntry(SpaceLeaf):
    """One bay or tier: sized by `size` (clear inside), or by its `share` of what is left."""

    size = Length(least=mm(10), most=limits.GREATEST_CABINET, about="clear inside size")
    share = Count(least=1, most=limits.SHARE, about="share of what is left; 1 by default")


class Climate(OptionSchema):
    """Air that wood is worked in and will live in (defaults: common practice for heated rooms)."""

    shop_c = Number(least=0, most=50, load_default=20.0, about="degrees Celsius in the shop")
    shop_humidity = Number(least=5, most=95, load_default=45.0, about="relative humidity there, percent")
    room_c = Number(least=0, most=50, load_default=21.0, about="degrees Celsius in the room")
    room_driest = Number(least=5, most=95, load_default=30.0, about="its least relative humidity, percent")
    room_dampest = Number(least=5, most=95, load_default=60.0, about="its greatest, percent")


class Loading(OptionSchema):
    """What shelves carry and how far they may sag."""

    shelf_pa = Number(most=20_000, about="pascals on shelves and bottom; default: 718.2, which is 15 psf")
    shelf_psf = Number(most=400, about="the same in pounds-force per square foot")
    spread = Choice("uniform", "centre", load_default="uniform", about="how it lies on a shelf")
    limit = Choice(*SAG_LIMITS, load_default="sixteenth-per-foot", about="sag allowed")
    lean_kg = Number(
        most=500,
        about="kilograms of a person bearing on the outermost open front of a standing cabinet; default: "
        "27.2155, which is 60 lb (ASTM F2057-23, from memory); 0 for none",
    )
    lean_lb = Number(most=1100, about="the same in pounds")
    tip_margin = Number(
        least=1,
        most=5,
        load_default=1.5,
        about="what keeps a standing cabinet up, over what tips it (common practice, no source)",
    )


class Base(OptionSchema):
    """What a base or tall cabinet stands on."""

    kind = Choice("toe-recess", "plinth", "feet", required=True, about="what it is")
    height = Length(least=mm(20), most=DETAIL, required=True, about="from the floor to the case")
    setback = detail(inches("3"), about="from the case front to the toe board")
    material = MaterialKey("sheet", "board", about="default: the case's")


class Counter(OptionSchema):
    """A counter laid on the case; it is no part of the cabinet's own size."""

    material = MaterialKey("sheet", "board", required=True)
    front = detail(inches("1"), about="how far it stands out at the front")
    left = detail(0, about="how far it stands out at the left end")
    right = detail(0, about="how far it stands out at the right end")


class LoosePart(OptionSchema):
    """A part that is only cut."""

    id = Key(required=True)
    material = MaterialKey("sheet", "board", required=True)
    length = Length(least=mm(1), most=limits.GREATEST_STOCK, required=True)
    width = Length(least=mm(1), most=limits.GREATEST_STOCK, required=True)
    quantity = Count(least=1, most=limits.LOOSE_QUANTITY, load_default=1, about="how many")
    grain = Choice(*GRAINS, load_default="along-length", about="which way the grain runs")
