"""How the parts are cut from stock, of the plan document, as marshmallow schemas."""

from typing import get_args

from casewright.api.wire.described import (
    flag,
    number,
    one,
    record,
    rows,
    size,
    text,
    texts,
    whole,
    wholes,
    word,
)
from casewright.sdk.model import ShortReason
from casewright.sdk.model.parts import GrainRule
from casewright.sdk.model.stock import CutKind, Grade, SawTool, Surfaced
from marshmallow import Schema, fields

_BENCH = "the same for the bench"
_GRAIN = word("which way the grain runs", *get_args(GrainRule))
_KIND = word("how it is cut", *get_args(CutKind))
_MATERIAL = text("key of its material")
_STOCK = text("id of the piece of stock")

_THICKNESS = {"thickness": size("thickness"), "thickness_text": text(_BENCH)}
_LENGTH = {"length": size("along the length"), "length_text": text(_BENCH)}
_WIDTH = {"width": size("across"), "width_text": text(_BENCH)}
_CORNER = {"x": size("its corner along the piece"), "y": size("its corner across")}

PlacedPart = record(
    "PlacedPart",
    "A part on a piece of stock.",
    part=text("id of the part"),
    **_CORNER,
    along_length=size("size along the piece"),
    along_width=size("size across"),
    turned=flag("whether its length lies across"),
)


def _inside() -> type[Schema]:
    return CutPiece


CutPiece = record(
    "CutPiece",
    "A piece on its way, and what cuts make of it.",
    piece=text("what it is called"),
    what=word("what it is", "stock", "piece", "part", "leftover", "waste"),
    **_CORNER,
    length=size("along the stock"),
    width=size("across"),
    part=text("id of the part it is", required=False),
    cuts=wholes("numbers of the cuts that divide it", required=False),
    inside=fields.List(fields.Nested(_inside), metadata={"description": "what they make"}),
)

SawCut = record(
    "SawCut",
    "A cut of the saw, in working order.",
    number=whole("its number on this piece"),
    piece=text("what is cut"),
    makes=text("what is made"),
    leaves=text("what is left", allow_none=True),
    along=word("which way the cut runs", "length", "width"),
    tool=word("what sets it", *get_args(SawTool)),
    fence=size("from fence or stop to the cutter"),
    fence_text=text(_BENCH),
    rides=word("what lies at the fence", "makes", "leaves"),
    kerf=size("width of the cut"),
    step=whole("number of its step"),
)

StockLayout = record(
    "StockLayout",
    "A piece of stock and how it is cut.",
    number=whole("its number"),
    stock=_STOCK,
    kind=_KIND,
    material=_MATERIAL,
    **_THICKNESS,
    **_LENGTH,
    **_WIDTH,
    use=number("share of its area that becomes parts"),
    parts=rows(PlacedPart, "parts from it"),
    tree=one(CutPiece),
    cuts=rows(SawCut, "its cuts"),
)

StockLeftover = record(
    "StockLeftover",
    "What is left of a piece of stock.",
    layout=whole("number of the layout"),
    stock=_STOCK,
    piece=text("what it is called"),
    **_LENGTH,
    **_WIDTH,
    keep=flag("whether it is worth keeping"),
    line=text("what to write on it"),
)

StockPurchase = record(
    "StockPurchase",
    "What to buy.",
    stock=text("id of the stock listed; null: the least size that will do", allow_none=True),
    material=_MATERIAL,
    quantity=whole("how many"),
    **_THICKNESS,
    **_LENGTH,
    **_WIDTH,
    cost=number("in the job's money, of all", allow_none=True),
    grain=_GRAIN,
)

StockBound = record(
    "StockBound",
    "The least that could be bought, beside what is bought.",
    material=_MATERIAL,
    **_THICKNESS,
    kind=_KIND,
    measure=word("what is compared", "area", "cost"),
    least_m2=number("least area in square metres", required=False),
    bought_m2=number("area bought in square metres", required=False),
    least_cost=number("least cost in the job's money", required=False),
    bought_cost=number("cost in the job's money", required=False),
    proved_least=flag("whether nothing less would do"),
    how=text("how the bound is known"),
)

StockShort = record(
    "StockShort",
    "Pieces that the stock listed does not yield.",
    part=text("id of the part"),
    quantity=whole("how many"),
    material=_MATERIAL,
    cause=word("why, by its id", *ShortReason),
    reason=text("why, in words"),
)

StockLacking = record(
    "StockLacking",
    "A material of which there is too little, and what would do.",
    material=_MATERIAL,
    kind=_KIND,
    **_THICKNESS,
    parts=whole("pieces not cut"),
    buy=rows(StockPurchase, "the smallest purchase found"),
    turn=texts("ids of parts that would do with the grain turned"),
    unmatch=texts("ids of parts of a row that would do if they came from wherever they fit"),
)

BoardDistance = record(
    "BoardDistance", "A distance.", distance=size("from the edge or end"), distance_text=text(_BENCH)
)

BoardYield = record(
    "BoardYield",
    "What a board yields.",
    layout=whole("number of the layout"),
    stock=_STOCK,
    rips=rows(BoardDistance, "distances of the rips"),
    crosscuts=rows(BoardDistance, "distances of the crosscuts"),
    board_feet=number("board feet of the board"),
    part_board_feet=number("board feet of its parts"),
    use=number("share of it that becomes parts"),
)

CleanRoom = record(
    "CleanRoom",
    "A clean piece of one with defects.",
    stock=_STOCK,
    piece=text("what it is called"),
    **_CORNER,
    length=size("along the length"),
    width=size("across"),
)

PieceDefect = record(
    "PieceDefect",
    "A rectangle of a piece that no part may come from.",
    **_CORNER,
    length=size("along the length"),
    width=size("across"),
)

PieceAfter = record(
    "PieceAfter",
    "A piece that is left, as the `stock` of a job lists it.",
    id=text("its id"),
    material=_MATERIAL,
    length=size("along the length"),
    width=size("across"),
    copies=whole("how many; null: as many as needed", allow_none=True),
    cost=number("of one, in the job's money, where the stock has one", required=False),
    grain=word("which way the grain runs; of sheets", *get_args(GrainRule), required=False),
    thickness=size("of a board", required=False),
    surfaced=word("what of a board is planed", *get_args(Surfaced), required=False),
    grade=word("whether a board's face may be seen", *get_args(Grade), required=False),
    cup=size("how far a board's middle stands off a table", required=False),
    twist=size("how far its corner does", required=False),
    taper=size("how much less wide one end is", required=False),
    defects=rows(PieceDefect, "what no part may come from", required=False),
)

StockAfter = record(
    "StockAfter",
    "The stock after this job, as the `stock` of the next one lists it.",
    sheets=rows(PieceAfter, "sheets"),
    offcuts=rows(PieceAfter, "offcuts"),
    boards=rows(PieceAfter, "boards"),
)

PlanStock = record(
    "PlanStock",
    "How the parts are cut from stock.",
    layouts=rows(StockLayout, "pieces of stock in the order they are cut"),
    returns=whole("times a setting of the saw is gone back to"),
    returns_proved=flag("whether no order has fewer"),
    returns_bound=whole("fewest returns that any order has"),
    returns_by_setting=whole("returns when finishing each setting first", allow_none=True),
    different_settings=whole("settings of the saw"),
    pieces_at_hand=whole("loose pieces at once, at most"),
    leftovers=rows(StockLeftover, "what is left"),
    buy=rows(StockPurchase, "what to buy"),
    bound=rows(StockBound, "what is proved of the purchase"),
    use=number("share of the area cut that becomes parts"),
    short=rows(StockShort, "parts not cut"),
    lacking=rows(StockLacking, "materials there is too little of"),
    boards=rows(BoardYield, "what boards yield"),
    effort=whole("the effort asked for"),
    steps=whole("steps of search taken"),
    clean=rows(CleanRoom, "clean pieces of stock with defects"),
    after=one(StockAfter),
)
