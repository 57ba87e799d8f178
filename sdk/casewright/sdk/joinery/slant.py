"""A slot at 45 degrees as exact waste: the rectangle is divided into boxes and wedges.

In the y-z plane of a joint frame, running along x. Lengths in whole nm; the rectangle's corners are taken to
the nearest nanometre along y and z.
"""

from dataclasses import dataclass
from fractions import Fraction

from casewright.sdk.geometry import Axis, Box, Wedge, opposite
from casewright.sdk.methods import CannotError
from casewright.sdk.writer import Writer

_ROOT_HALF = Fraction(7071067811865475, 10**16)


@dataclass(frozen=True, slots=True)
class Slanted:
    """A slot's cross section: `half` is half its thickness along each axis, `deep` its depth along each axis."""

    half: int
    deep: int

    @property
    def reach(self) -> int:
        """How far the slot goes from its centre along each axis."""
        return self.half + self.deep

    @classmethod
    def of(cls, thickness: int, depth: int, write: Writer) -> "Slanted":
        """Return the section of a slot `thickness` by `depth`, from one to three times as deep as thick."""
        half, deep = round(thickness * _ROOT_HALF / 2), round(depth * _ROOT_HALF)
        if not 2 * half <= deep <= 6 * half:
            rule = "a spline's slot is one to three times as deep as it is thick"
            fix = "Change the spline's thickness or the slot's depth."
            raise CannotError(rule, f"{write.length(depth)} deep, {write.length(thickness)} thick", fix, "slot_depth")
        return cls(half, deep)


def slanted_slot(
    slot: Slanted, x: tuple[int, int], at: tuple[int, int], into: tuple[Axis, Axis]
) -> tuple[tuple[Box, ...], tuple[Wedge, ...]]:
    """Return the boxes and wedges of a slot along x whose mouth is centred on `at`.

    `into` gives the two signed axes between which it slants into the wood, y and z or z and y, and `at` the centre
    along them in that order. Where the part's length comes first, a saw makes the slot in one pass.
    """
    q, p = slot.half, slot.deep
    first, second = into
    back_first, back_second = opposite(first), opposite(second)

    def box(u0: int, v0: int, u1: int, v1: int) -> Box:
        low, high = [x[0], 0, 0], [x[1], 0, 0]
        for axis, centre, ends in ((first, at[0], (u0, u1)), (second, at[1], (v0, v1))):
            way = 1 if axis > 0 else -1
            low[abs(axis) - 1], high[abs(axis) - 1] = sorted(centre + way * end for end in ends)
        return Box(*low, *high)

    pieces = (
        (box(-q, -q, q, q), (first, second)),
        (box(q, -q, 3 * q, q), (back_first, second)),
        (box(-q, q, p - 3 * q, p - q), (first, back_second)),
        (box(3 * q, q, p + q, p - q), (back_first, second)),
        (box(p - 3 * q, p - q, p - q, p + q), (first, back_second)),
        (box(p - q, p - q, p + q, p + q), (back_first, back_second)),
    )
    middle = box(p - 3 * q, q, 3 * q, p - q)
    wedges = tuple(Wedge(piece, 1, corner) for piece, corner in pieces if piece.volume)
    return ((middle,) if middle.volume else ()), wedges
