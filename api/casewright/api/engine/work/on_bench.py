"""How a sub-assembly lies while it is put together, and where parts come from, as one sees it there.

A frame or a door lies flat, its show face up; all else lies on the outward face of the part that is laid down first.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from casewright.api.engine.work.together import Together
from casewright.sdk.geometry import Axis, Box, opposite
from casewright.sdk.model import Part, Side, Sides

__all__ = ["THIN", "OnBench", "on_bench", "side_towards"]

THIN = 100_000_000
"""What is thinner from front to back than this, in nm, and thinner than it is wide and high, is put together lying."""
FROM: Mapping[Axis, str] = {
    1: "from the left",
    -1: "from the right",
    2: "from the front",
    -2: "from the back",
    3: "from the bottom",
    -3: "from the top",
}
TOWARDS: Mapping[Axis, str] = {
    1: "to the right",
    -1: "to the left",
    2: "to the back",
    -2: "to the front",
    3: "to the top",
    -3: "to the bottom",
}
LYING: Mapping[Axis, str] = {
    1: "lying on its right side",
    -1: "lying on its left side",
    2: "lying on its back",
    -2: "lying on its front",
    3: "upside down",
    -3: "standing upright",
}


@dataclass(frozen=True, slots=True)
class OnBench:
    """How an assembly lies: `down` is the way of the cabinet that looks to the bench; `flat` that it is a frame.

    `over` is how high the part laid down first lies over the bench when the others stand on it, in nm.
    """

    down: Axis
    flat: bool
    over: int = 0

    @property
    def how(self) -> str:
        """How it lies, in words."""
        return "flat on the bench, show face up" if self.flat else LYING[self.down]

    def source(self, way: Axis) -> str:
        """Return where a part comes from that is moved a way."""
        if way == self.down:
            return "from above"
        return "from below" if way == opposite(self.down) else FROM[way]

    def target(self, way: Axis) -> str:
        """Return where a part goes that is moved a way."""
        if way == self.down:
            return "down"
        return "up" if way == opposite(self.down) else TOWARDS[way]

    def laid(self, part: Part, sides: Sides, text: Callable[[int], str]) -> str:
        """Return how the first part lies: which of its sides looks up, and on what; `text` writes a length."""
        up = f"{sides[side_towards(part, opposite(self.down))]} up"
        return f"{up}, on strips {text(self.over)} thick" if self.over else up


def on_bench(together: Together) -> OnBench:
    """Return how a sub-assembly lies while it is put together."""
    whole = Box.union([part.place.box(part.blank) for part in together.parts])
    wide, deep, high = whole.size
    if deep < min(wide, high, THIN):
        return OnBench(2, flat=True)
    first = together.order.first or together.order.locked[0]
    part = next(one for one in together.parts if one.id == first)
    box, axis = part.place.box(part.blank), abs(part.place.z)
    low = box.low(axis) + box.high(axis) <= whole.low(axis) + whole.high(axis)
    down = next(way for way in LYING if abs(way) == axis and (way < 0) == low)
    over = box.low(axis) - whole.low(axis) if low else whole.high(axis) - box.high(axis)
    return OnBench(down, flat=False, over=over)


SIDES = tuple(Side)


def side_towards(part: Part, way: Axis) -> Side:
    """Return the side of a part that looks a way of the cabinet."""
    frame = (part.place.x, part.place.y, part.place.z)
    n = [abs(axis) for axis in frame].index(abs(way))
    return SIDES[2 * n + (frame[n] == way)]
