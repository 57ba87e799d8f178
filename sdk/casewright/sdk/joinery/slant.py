"""A slot at 45 degrees as exact waste: the rectangle is divided into boxes and wedges.

In the y-z plane of a joint frame, running along x. Lengths in whole nm; the rectangle's corners are taken to
the nearest nanometre along y and z.
"""

from dataclasses import dataclass
from fractions import Fraction

from casewright.sdk.geometry import Axis, Box, Wedge
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
    """Return the boxes and wedges of a slot whose mouth is centred on (y, z) = `at`.

    `into` gives the signed y and z axes between which it slants into the wood.
    """
    q, p = slot.half, slot.deep
    a: Axis = into[0]
    back_a: Axis = 2 if a < 0 else -2
    b: Axis = into[1]
    back_b: Axis = 3 if b < 0 else -3
    sy, sz = (1 if a > 0 else -1), (1 if b > 0 else -1)

    def box(u0: int, v0: int, u1: int, v1: int) -> Box:
        ys = sorted((at[0] + sy * u0, at[0] + sy * u1))
        zs = sorted((at[1] + sz * v0, at[1] + sz * v1))
        return Box(x[0], ys[0], zs[0], x[1], ys[1], zs[1])

    pieces = (
        (box(-q, -q, q, q), (a, b)),
        (box(q, -q, 3 * q, q), (back_a, b)),
        (box(-q, q, p - 3 * q, p - q), (a, back_b)),
        (box(3 * q, q, p + q, p - q), (back_a, b)),
        (box(p - 3 * q, p - q, p - q, p + q), (a, back_b)),
        (box(p - q, p - q, p + q, p + q), (back_a, back_b)),
    )
    middle = box(p - 3 * q, q, 3 * q, p - q)
    wedges = tuple(Wedge(piece, 1, corner) for piece, corner in pieces if piece.volume)
    return ((middle,) if middle.volume else ()), wedges
