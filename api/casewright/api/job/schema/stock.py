"""Schemas of the stock: sheets, offcuts and boards to cut from, and how the saw cuts them."""

from casewright.api.job import limits
from casewright.api.job.fields import Key, MaterialKey, Rows
from casewright.api.job.schema.pieces import DETAIL, GRAINS, about, detail
from casewright.sdk.fields import Choice, Count, Length, Number, OptionSchema
from casewright.sdk.units import inches, mm
from marshmallow import fields


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
        about="what is planed as bought: parts of a rough board are cut over size, milled and rested; default: "
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
        about="how long a cheaper cutting is sought, in counted steps: 2 a fraction of a second, seldom beaten, "
        "3 up to a few seconds, 5 within a request's time",
    )
