"""Which step gives a part each of its sizes, and where the faces of its cuts lie."""

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from casewright.sdk.geometry import Box
from casewright.sdk.model import Action, Operation, Part, Setting, Side, Workpiece

_SIZING = (Action.RIP, Action.CROSSCUT, Action.TRIM)
_SLABS = (Action.GROOVE, Action.RABBET, Action.NOTCH, Action.TENON, Action.DOVETAIL, Action.PROFILE)
_MAKING = (*_SIZING, Action.THICKNESS)
_CUTTING = (*_SLABS, Action.BORE)


class SetUp(NamedTuple):
    """What makes a size: `name` is one for all that share its error; no `action` for a bought thickness."""

    name: str
    action: Action | None
    step: int | None = None


class CutFace(NamedTuple):
    """A face that a cut leaves: `at` nm from the part's side `side`; `waste` is what is cut away, in the cabinet."""

    side: Side
    at: int
    set_up: SetUp
    waste: Box


@dataclass(frozen=True, slots=True)
class SetUps:
    """The steps of a plan, by the piece they leave and by the part they are done to.

    `ordered` are the parts that no step makes, as they are ordered to size.
    """

    leaving: Mapping[str, Sequence[tuple[Operation, Workpiece]]]
    done_to: Mapping[str, Sequence[tuple[Operation, Workpiece]]]
    ordered: Collection[str] = ()

    @classmethod
    def of(cls, steps: Iterable[Operation], ordered: Collection[str] = ()) -> "SetUps":
        """Sort the steps of a plan."""
        leaving, done_to = defaultdict(list), defaultdict(list)
        for step in steps:
            if step.action in _CUTTING:
                for piece in step.on:
                    done_to[piece.part].append((step, piece))
            elif step.action in _MAKING:
                for piece in step.on:
                    leaving[piece.keeps or piece.part].append((step, piece))
        return cls(leaving, done_to, ordered)

    def size(self, part: Part, axis: int) -> SetUp:
        """Return what gives a part its length, width or thickness (axis 1, 2, 3).

        It is the last step whose fence, stop or height is that size. A size that no setting makes, such as what a
        last cut leaves over, has an error of its own; what is ordered to size has that of the reading it is ordered by.
        """
        nm = (part.length, part.width, part.thickness)[axis - 1]
        if axis == 3:
            back = self._back(part.id)
            planed = next((s for s in back if s.action is Action.THICKNESS and s.setting.height == nm), None)
            return SetUp(f"{planed.number}", Action.THICKNESS, planed.number) if planed else SetUp(part.material, None)
        if part.id in self.ordered:
            return SetUp(f"{part.id} {axis}", Action.MEASURE)
        likely = Action.CROSSCUT if axis == 1 else Action.RIP
        steps = [s for s in self._back(part.id) if s.action in _SIZING and nm == s.setting.distance]
        cut = next(iter([step for step in steps if step.action is likely] or steps), None)
        return SetUp(f"{cut.number}", cut.action, cut.number) if cut else SetUp(f"{part.id} {axis}", likely)

    def faces(self, part: Part, axis: int) -> Iterator[CutFace]:
        """Yield the faces that grooves, rabbets, tenons and their like leave in a part, across an axis of its own."""
        for step, piece in self.done_to.get(part.id, ()):
            if step.action is Action.BORE:
                continue
            setting, number = step.setting, step.number
            base = piece.down if setting.turn_deg is None else piece.leads
            if base is not None and base.axis == axis and setting.height is not None:
                waste = part.place.box(_waste(part, setting, piece))
                yield CutFace(base, setting.height, SetUp(f"{number} height", step.action, number), waste)
            against = piece.against
            begins = setting.distance
            if against is not None and against.axis == axis and begins is not None and not piece.at:
                waste = part.place.box(_waste(part, setting, piece))
                for at in (begins, begins + (setting.cutter or 0)):
                    yield CutFace(against, at, SetUp(f"{number} fence", step.action, number), waste)

    def bored(self, parts: Iterable[str], cutter: int) -> int | None:
        """Return the number of the step that bores holes of a width (nm) in one of the parts."""
        steps = (step for part in parts for step, _ in self.done_to.get(part, ()) if step.action is Action.BORE)
        return next((step.number for step in steps if step.setting.cutter == cutter), None)

    def _back(self, name: str) -> Iterator[Operation]:
        """Yield the steps a piece came by, the last first."""
        names, gone = [name], {name}
        while names:
            for step, piece in reversed(self.leaving.get(names.pop(0), ())):
                yield step
                if piece.piece and piece.piece not in gone:
                    gone.add(piece.piece)
                    names.append(piece.piece)


def _waste(part: Part, setting: Setting, piece: Workpiece) -> Box:
    """Return the box that a cut takes of a part, all of it along the ways that the cut does not say."""
    spans = {1: (0, part.length), 2: (0, part.width), 3: (0, part.thickness)}
    begins, turned = setting.distance or 0, setting.turn_deg is not None
    for side, start, end in (
        (piece.leads if turned else piece.down, 0, setting.height),
        (piece.against, begins, None if piece.at or not setting.cutter else begins + setting.cutter),
        (piece.down if turned else piece.leads, setting.start or 0, None if piece.at else setting.end),
    ):
        if side is not None and end is not None:
            high = spans[side.axis][1]
            spans[side.axis] = (high - end, high - start) if side.high else (start, end)
    (x0, x1), (y0, y1), (z0, z1) = spans[1], spans[2], spans[3]
    return Box(x0, y0, z0, x1, y1, z1)
