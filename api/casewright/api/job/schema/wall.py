"""Schemas of the wall: studs or masonry, and where cabinets stand along it."""

from casewright.api.job import limits
from casewright.api.job.fields import MapOf, Rows, StuffKey
from casewright.api.job.schema.pieces import about, detail
from casewright.api.job.schema.run import CORNERS, Fillers, Obstacle, Reading
from casewright.sdk.fields import Choice, Count, Length, Number, OptionSchema, Text
from casewright.sdk.units import inches, mm
from marshmallow import fields


class Studs(OptionSchema):
    """Studs by the centre lines found, from the wall's left end."""

    at = Rows(
        Length(most=limits.GREATEST_WALL),
        least=1,
        most=limits.STUDS,
        required=True,
        metadata=about("their centre lines from the wall's left end"),
    )
    stuff = StuffKey(required=True, about="an id listed by /v1/materials")
    width = detail(inches("1 1/2"), least=mm(10))
    depth = detail(inches("3 1/2"), least=mm(10))


class Masonry(OptionSchema):
    """A masonry wall by the values its anchor's maker approves for one anchor in this wall."""

    tension_n = Number(least=1, most=1e6, required=True, about="approved pull of one anchor")
    shear_n = Number(least=1, most=1e6, required=True, about="approved shear of one anchor")
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
    """Where a cabinet hangs or stands."""

    x = Length(least=-limits.GREATEST_WALL, most=limits.GREATEST_WALL, required=True, about="of its left side")
    z = Length(most=limits.GREATEST_WALL, required=True, about="of its bottom, over the floor")
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
