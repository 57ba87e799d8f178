"""Stock: the pieces there are to cut from, and how the saw cuts them. All lengths are whole nm.

A piece of stock has its `length` along x and its `width` along y; grain `along-length` runs along x.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from casewright.sdk.model.parts import GrainRule

StockKind = Literal["sheet", "offcut", "board"]
Grade = Literal["face", "hidden"]
"""Whether a board's face is good enough to be seen."""
Surfaced = Literal["none", "two-faces", "all-sides"]
"""What of a board is planed as it is bought: nothing of a rough one, its faces, or its edges too."""
CutKind = Literal["sheet", "board"]
"""How a piece is cut: as a sheet, by any straight cut, or as a rough board, ripped and then crosscut."""

CutOrder = Literal["by-setting", "by-sheet"]
"""What is finished before the next begins: a setting, for all pieces of stock, or a piece of stock, at all settings."""

FirstCutFor = Literal["edge", "taper", "defect"]
"""What a first cut takes off: a rough edge of a full sheet, a taper, or a defect."""

SawTool = Literal["fence", "stop", "track"]

MINOR_UNITS = 100
"""What is bought is compared in hundredths of the job's money, whole ones."""


@dataclass(frozen=True, slots=True)
class Defect:
    """A rectangle of a piece of stock that no part may come from: its lower left corner and its size."""

    x: int
    y: int
    length: int
    width: int


@dataclass(frozen=True, slots=True)
class StockPiece:
    """A sheet, an offcut or a rough board, on hand (`copies` a number) or bought as needed (`copies` `None`).

    `thickness` of a board is as bought, and `surfaced` what of it is planed; an offcut's edges are not trimmed. `cost`
    is whole money for one piece. Of a board, `cup` and `twist` are how far it stands off a flat table over its width
    and at a corner, and `grade` whether its face may be seen; `taper` of a board or an offcut is how much less wide one
    end is than the other.
    """

    id: str
    material: str
    thickness: int
    length: int
    width: int
    copies: int | None = None
    cost: Decimal | None = None
    grain: GrainRule = "along-length"
    kind: StockKind = "sheet"
    surfaced: Surfaced = "none"
    grade: Grade = "face"
    cup: int = 0
    twist: int = 0
    taper: int = 0
    defects: tuple[Defect, ...] = ()

    @property
    def rough(self) -> bool:
        """Whether its parts are milled: a board of which nothing is planed."""
        return self.kind == "board" and self.surfaced == "none"

    @property
    def crooked(self) -> int:
        """How much of a board's thickness is lost in making it flat."""
        return self.cup + self.twist


@dataclass(frozen=True, slots=True)
class CleanPiece:
    """A clean piece of stock with defects or a taper: the id of that, where its corner lies on it, and itself."""

    stock: str
    x: int
    y: int
    piece: StockPiece


@dataclass(frozen=True, slots=True)
class FirstCut:
    """One straight cut that parts stock with defects or a taper into its clean pieces, before all other cuts.

    A `piece` is parted at `fence`, in nm from one of its sides: what lies that side of the blade is what the cut
    `keeps`, what lies beyond is what it `leaves`. Each is a clean piece by its id, a piece that is cut on, or waste
    (""). `along` is "length" when the kerf, `run` long, runs along the stock's length; `across` is the piece's size
    square to it. A cut along a defect keeps its blade on the defect's side.
    """

    piece: str
    along: Literal["length", "width"]
    fence: int
    keeps: str
    leaves: str
    run: int
    across: int
    purpose: FirstCutFor = "defect"


@dataclass(frozen=True, slots=True)
class ClearedStock:
    """Stock with defects or a taper as it is on hand, and the cuts that part it into its clean pieces, in order."""

    piece: StockPiece
    cuts: tuple[FirstCut, ...]


@dataclass(frozen=True, slots=True)
class Stock:
    """What there is to cut from, and how the saw cuts it.

    `mill_*` is what a part cut from rough board carries until it is planed (thickness: what the board must have
    over the part); `clean` are the pieces that stock with defects or a taper is cut into first, which are listed in
    its place, and `cleared` is that stock with the cuts that do it; `mill_edge` comes off one edge of every board whose
    edges are rough, so that it may ride a fence.
    `pieces_at_hand` is how many loose pieces that are still to be cut there is room for; `None` is any number.
    """

    sheets: tuple[StockPiece, ...]
    offcuts: tuple[StockPiece, ...]
    boards: tuple[StockPiece, ...]
    kerf: int
    edge_trim: int
    effort: int
    mill_length: int = 0
    mill_width: int = 0
    mill_thickness: int = 0
    mill_edge: int = 0
    clean: tuple[CleanPiece, ...] = ()
    cleared: tuple[ClearedStock, ...] = ()
    order: CutOrder = "by-setting"
    pieces_at_hand: int | None = None

    @property
    def pieces(self) -> tuple[StockPiece, ...]:
        """Every piece, of all three kinds."""
        return (*self.sheets, *self.offcuts, *self.boards)
