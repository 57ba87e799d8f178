"""Schemas of what a run along a wall asks beyond places: cabinet ends, fillers, readings, obstacles."""

from casewright.api.job import limits
from casewright.api.job.fields import Key, MaterialKey
from casewright.api.job.schema.pieces import DETAIL, about, detail
from casewright.sdk.fields import Choice, Length, OptionSchema
from casewright.sdk.units import mm
from marshmallow import fields

ENDS = ("hidden", "open", "finished")
CORNERS = ("both", "left", "right", "none")
OBSTACLES = ("window", "outlet", "pipe", "door", "other")
OFF = mm(200)


class Ends(OptionSchema):
    """What a cabinet's ends are: hidden by what stands there, open to view as they are, or finished with a panel."""

    left = Choice(*ENDS, load_default="hidden", about="the left end")
    right = Choice(*ENDS, load_default="hidden", about="the right end")
    material = MaterialKey(
        "sheet",
        "board",
        allow_none=True,
        load_default=None,
        about="of the panel on a finished end; it stands outside the cabinet's width",
    )
    scribe = detail(0, about="wood left at the panel's back edge to be cut to the wall's line")


class Filler(OptionSchema):
    """A strip that closes the gap on one side of a cabinet."""

    material = MaterialKey("sheet", "board", required=True)
    width = Length(
        least=mm(1),
        most=DETAIL,
        allow_none=False,
        load_default=None,
        about="default: the gap, or an even share of it",
    )
    scribe = detail(0, about="wood over the width, to be cut to the line of what it meets")


class Fillers(OptionSchema):
    """The fillers at one place of a cabinet."""

    left = fields.Nested(Filler, allow_none=False, load_default=None, metadata=about("on the left"))
    right = fields.Nested(Filler, allow_none=False, load_default=None, metadata=about("on the right"))


class Reading(OptionSchema):
    """How far the floor or a wall is off at one place."""

    of = Choice("floor", "back", "left", "right", required=True, about="left and right: walls at the ends of this one")
    at = Length(
        most=limits.GREATEST_WALL,
        required=True,
        about="of the floor along the wall from its left end, of walls the height",
    )
    off = Length(
        least=-OFF,
        most=OFF,
        required=True,
        about="how far the floor is over a level line, or a wall out from a plumb one; negative: below, behind",
    )


class Obstacle(OptionSchema):
    """Something on the wall that cabinets must leave free, by its lower left corner."""

    id = Key(required=True)
    kind = Choice(*OBSTACLES, load_default="other", about="what it is")
    x = Length(most=limits.GREATEST_WALL, required=True, about="from the wall's left end")
    z = Length(most=limits.GREATEST_WALL, required=True, about="from the floor")
    width = Length(least=mm(1), most=limits.GREATEST_WALL, required=True)
    height = Length(least=mm(1), most=limits.GREATEST_WALL, required=True)
    keep_clear = detail(0, about="left free all round it")
    out = detail(0, about="how far it stands out from the wall")
