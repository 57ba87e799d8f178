"""Schemas of the parts of a job that no method adds to: materials, wall, stock, loose parts, pins, pulls.

A `load_default` is the default; one given beside the mark "practice" is common practice, no source.
"""

from typing import Any

from casewright.api.job import limits
from casewright.api.job.fields import Key, MapOf, MaterialKey, Rows, Shelves
from casewright.api.job.schema.run import CORNERS, Fillers, Obstacle, Reading
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
    stuff = Key(required=True, about="an id listed by /v1/materials")
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
        about="the grain runs on over its fronts, those of bays or tiers in it too, which stand in one row: doors, or "
        "their panels, and drawer fronts are cut in sequence of one sheet or board",
    )


class Space(SpaceLeaf):
    """The whole inside of a cabinet: a leaf, or divided into bays or tiers."""


class SpaceEntry(SpaceLeaf):
    """One bay or tier: sized by `size` (clear inside), or by its `share` of what is left."""

    size = Length(least=mm(10), most=limits.GREATEST_CABINET, about="clear inside size")
    share = Count(least=1, most=limits.SHARE, about="share of what is left; 1 by default")


class Studs(OptionSchema):
    """Studs by the centre lines found, from the wall's left end."""

    at = Rows(
        Length(most=limits.GREATEST_WALL),
        least=1,
        most=limits.STUDS,
        required=True,
        metadata=about("their centre lines from the wall's left end"),
    )
    stuff = Key(required=True, about="an id listed by /v1/materials")
    width = detail(inches("1 1/2"), least=mm(10))
    depth = detail(inches("3 1/2"), least=mm(10))


class Masonry(OptionSchema):
    """A masonry wall by the values its anchor's maker approves for one anchor in this wall."""

    tension_n = Number(least=1, most=1e6, required=True, about="approved pull of one anchor in newtons")
    shear_n = Number(least=1, most=1e6, required=True, about="approved shear of one anchor in newtons")
    approval = Text(least=1, most=limits.TITLE_LENGTH, required=True, about="the approval the values are from")
    anchors = Count(least=1, most=100, load_default=2, about="anchors of a cabinet")
    diameter = Length(
        least=mm(4), most=inches("1"), load_default=inches("1/4"), about="of the anchor where it crosses the strip"
    )
    head = Length(
        least=inches("0.234"),
        most=mm(80),
        load_default=inches("1/2"),
        about="diameter of its head or washer on the strip",
    )
    stand_off = detail(0, about="from the masonry to the strip, as far as the approved shear allows")


class Spot(OptionSchema):
    """Where a cabinet hangs: x to the case's left side, z from the finished floor to the case bottom."""

    x = Length(least=-limits.GREATEST_WALL, most=limits.GREATEST_WALL, required=True)
    z = Length(most=limits.GREATEST_WALL, required=True)
    fillers = fields.Nested(Fillers, metadata=about("strips that close gaps beside it"))


class Wall(OptionSchema):
    """What is known of the wall."""

    studs = fields.Nested(Studs, allow_none=False, load_default=None, metadata=about("a wall of wood studs"))
    masonry = fields.Nested(Masonry, allow_none=False, load_default=None, metadata=about("a masonry wall"))
    lining = detail(inches("1/2"), about="wallboard or plaster over the studs")
    ceiling = Length(
        least=mm(500),
        most=limits.GREATEST_WALL,
        allow_none=False,
        load_default=None,
        about="its height over the floor; left out: not known",
    )
    cabinets_at = MapOf(
        Rows(fields.Nested(Spot), least=1, most=limits.SPOTS),
        most=limits.CABINETS,
        load_default=dict,
        metadata=about("a list of places for each cabinet id; they number its count"),
    )
    length = Length(
        least=mm(100),
        most=limits.GREATEST_WALL,
        allow_none=False,
        load_default=None,
        about="of the wall; left out: not known",
    )
    corners = Choice(*CORNERS, load_default="none", about="ends at which a wall stands square to this one")
    obstacles = Rows(
        fields.Nested(Obstacle), most=limits.OBSTACLES, load_default=list, metadata=about("what stands on the wall")
    )
    readings = Rows(
        fields.Nested(Reading),
        most=limits.READINGS,
        load_default=list,
        metadata=about("what level and plumb line showed; heights are then from the highest point of the floor"),
    )


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
        about="kilograms of a person bearing down on the outermost open front of a standing cabinet; default: "
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


class Milling(OptionSchema):
    """What a part cut from rough board carries until it is planed to size (defaults: common practice, no source)."""

    length = detail(inches("1"), about="added along each part's grain")
    width = detail(inches("1/4"), about="added across each part's grain")
    edge = detail(inches("1/8"), about="off one edge of each board with rough edges, to make it straight")
    thickness = detail(0, about="what a rough board must have over the part's thickness")


class Defect(OptionSchema):
    """A rectangle of a piece of stock that no part may come from."""

    x = Length(most=limits.GREATEST_STOCK, required=True, about="from one end, along the length")
    y = Length(most=limits.GREATEST_STOCK, required=True, about="from one edge, across")
    length = Length(least=1, most=limits.GREATEST_STOCK, required=True)
    width = Length(least=1, most=limits.GREATEST_STOCK, required=True)


class StockPiece(OptionSchema):
    """A sheet or offcut: `copies` null means as many as needed."""

    id = Key(required=True)
    material = MaterialKey("sheet", "board", required=True)
    length = Length(least=mm(10), most=limits.GREATEST_STOCK, required=True)
    width = Length(least=mm(10), most=limits.GREATEST_STOCK, required=True)
    copies = Count(
        least=1,
        most=limits.STOCK_COPIES,
        allow_none=True,
        about="how many; null: as many as needed; default: null, of offcuts 1",
    )
    cost = Number(allow_none=False, load_default=None, about="of one, in the job's money")
    grain = Choice(*GRAINS, load_default="along-length", about="which way the grain runs")
    defects = Rows(
        fields.Nested(Defect), most=limits.DEFECTS, load_default=list, metadata=about("what no part may come from")
    )


class Offcut(StockPiece):
    """An offcut: one is on hand unless `copies` says otherwise."""

    taper = detail(
        0, about="how much less wide one end is than the other: ripped off first, to make the edges parallel"
    )


class RoughBoard(OptionSchema):
    """A board: its thickness is the material's unless given."""

    id = Key(required=True)
    material = MaterialKey("board", required=True)
    thickness = Length(least=mm(1), most=limits.GREATEST_THICKNESS)
    width = Length(least=mm(10), most=DETAIL, required=True)
    length = Length(least=mm(10), most=limits.GREATEST_STOCK, required=True)
    surfaced = Choice(
        "none",
        "two-faces",
        "all-sides",
        about="what is planed as bought: parts of a rough board are cut over size, milled and left to rest; default: "
        "none where it is thicker than its material, else all-sides",
    )
    copies = Count(
        least=1,
        most=limits.STOCK_COPIES,
        allow_none=True,
        load_default=None,
        about="how many; null: as many as needed",
    )
    cost = Number(allow_none=False, load_default=None, about="of one, in the job's money")
    grade = Choice(
        "face",
        "hidden",
        load_default="face",
        about="hidden: no part of a face frame, door or drawer front is cut of it",
    )
    cup = detail(0, about="how far its middle stands off a flat table over its width: lost in making it flat")
    twist = detail(0, about="how far a corner stands off a flat table: lost too")
    taper = detail(0, about="how much less wide one end is than the other: ripped off, to make the edges parallel")
    defects = Rows(
        fields.Nested(Defect), most=limits.DEFECTS, load_default=list, metadata=about("what no part may come from")
    )


class Stock(OptionSchema):
    """What there is to cut from, and how the saw cuts it."""

    sheets = Rows(
        fields.Nested(StockPiece),
        most=limits.STOCK_PIECES,
        load_default=list,
        metadata=about("sheets with factory edges"),
    )
    offcuts = Rows(
        fields.Nested(Offcut), most=limits.STOCK_PIECES, load_default=list, metadata=about("pieces left over")
    )
    boards = Rows(
        fields.Nested(RoughBoard),
        most=limits.STOCK_PIECES,
        load_default=list,
        metadata=about("boards, rough or planed"),
    )
    kerf = Length(most=mm(20), load_default=inches("1/8"), about="width of the saw cut")
    edge_trim = Length(most=mm(100), load_default=0, about="cut off each edge of a sheet")
    order = Choice(
        "by-setting",
        "by-sheet",
        load_default="by-setting",
        about="what is finished first: a setting of the saw, or a sheet or board; the price is in `returns`",
    )
    pieces_at_hand = Count(
        least=1,
        most=limits.STOCK_PIECES,
        allow_none=False,
        load_default=None,
        about="loose pieces still to be cut that there is room for; by setting, fewer sheets are cut together",
    )
    milling = fields.Nested(Milling, metadata=about("what rough board loses"))
    effort = Count(
        least=1,
        most=limits.EFFORT,
        load_default=2,
        about="how long a cheaper cutting is looked for, in counted steps for the whole job: 2 takes a fraction of a "
        "second and seldom misses what more would find, 3 up to a few seconds, 5 well within a request's time",
    )


class LoosePart(OptionSchema):
    """A part that is only cut."""

    id = Key(required=True)
    material = MaterialKey("sheet", "board", required=True)
    length = Length(least=mm(1), most=limits.GREATEST_STOCK, required=True)
    width = Length(least=mm(1), most=limits.GREATEST_STOCK, required=True)
    quantity = Count(least=1, most=limits.LOOSE_QUANTITY, load_default=1, about="how many")
    grain = Choice(*GRAINS, load_default="along-length", about="which way the grain runs")
