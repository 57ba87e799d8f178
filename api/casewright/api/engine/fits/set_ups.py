"""Which step gives a part each of its sizes, and where the faces of its cuts lie."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from casewright.sdk.model import Action, Operation, Part, Side, Workpiece

_SIZING = (Action.RIP, Action.CROSSCUT, Action.TRIM)
_SLABS = (Action.GROOVE, Action.RABBET, Action.NOTCH, Action.TENON, Action.DOVETAIL, Action.PROFILE)


@dataclass(frozen=True, slots=True)
class SetUp:
    """What makes a size: `name` is one for all that share its error; no `action` for a bought thickness."""

    name: str
    action: Action | None
    step: int | None = None


@dataclass(frozen=True, slots=True)
class CutFace:
    """A face that a cut leaves: `at` nm from the part's side `side`."""

    side: Side
    at: int
    set_up: SetUp


@dataclass(frozen=True, slots=True)
class SetUps:
    """The steps of a plan, by the piece they leave and by the part they are done to."""

    leaving: Mapping[str, Sequence[tuple[Operation, Workpiece]]]
    done_to: Mapping[str, Sequence[tuple[Operation, Workpiece]]]

    @classmethod
    def of(cls, steps: Iterable[Operation]) -> "SetUps":
        """Sort the steps of a plan."""
        leaving, done_to = defaultdict(list), defaultdict(list)
        for step in steps:
            for piece in step.on:
                if step.action in (*_SLABS, Action.BORE):
                    done_to[piece.part].append((step, piece))
                elif step.action in (*_SIZING, Action.THICKNESS):
                    leaving[piece.keeps or piece.part].append((step, piece))
        return cls(leaving, done_to)

    def size(self, part: Part, axis: int) -> SetUp:
        """Return what gives a part its length, width or thickness (axis 1, 2, 3).

        It is the last step whose fence, stop or height is that size. A size that no setting makes, such as what a
        last cut leaves over, has an error of its own.
        """
        nm = (part.length, part.width, part.thickness)[axis - 1]
        if axis == 3:
            planed = next(
                (s for s in self._back(part.id) if s.action is Action.THICKNESS and s.setting.height == nm), None
            )
            return SetUp(f"{planed.number}", Action.THICKNESS, planed.number) if planed else SetUp(part.material, None)
        likely = Action.CROSSCUT if axis == 1 else Action.RIP
        steps = [s for s in self._back(part.id) if s.action in _SIZING and nm in (s.setting.fence, s.setting.stop)]
        cut = next((step for step in steps if step.action is likely), steps[0] if steps else None)
        return SetUp(f"{cut.number}", cut.action, cut.number) if cut else SetUp(f"{part.id} {axis}", likely)

    def faces(self, part: str) -> Iterator[CutFace]:
        """Yield the faces that grooves, rabbets, tenons and their like leave in a part."""
        for step, piece in self.done_to.get(part, ()):
            if step.action is Action.BORE:
                continue
            setting, number = step.setting, step.number
            if piece.down is not None and setting.height is not None:
                yield CutFace(piece.down, setting.height, SetUp(f"{number} height", step.action, number))
            if piece.against is not None and setting.fence is not None and not piece.at:
                for at in (setting.fence, setting.fence + (setting.cutter or 0)):
                    yield CutFace(piece.against, at, SetUp(f"{number} fence", step.action, number))

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
