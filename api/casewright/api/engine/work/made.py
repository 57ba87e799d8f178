"""What the order of work is made of: parts and how they go together, and what is fixed to them and to the wall."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from casewright.api.engine.work.advice import Advice
from casewright.api.engine.work.machining import KnownCuts
from casewright.api.engine.work.together import Assemblies
from casewright.api.engine.work.waiting import Waiting
from casewright.sdk.engineering.weights import hands
from casewright.sdk.hardware import Hinge, Screw, Slide
from casewright.sdk.model import (
    DoorLeaf,
    HardwareLine,
    HungCabinet,
    Joint,
    Mounted,
    Part,
    Repair,
    Run,
    Sides,
    StandingCabinet,
    Weight,
)

__all__ = ["Made"]


@dataclass(frozen=True)
class Made:
    """What is made of a job, before it is put in order; `sides` by part id, `assemblies` by cabinet and group.

    `advice` is what the methods advise to cut with, `screws` the wood screws of the catalogue by id, `gravities`
    the oven-dry gravities of materials by key, where on record. `waiting` is what is cut only when it is measured for.
    `hinges` and `slides` are those of the catalogue, by id. `cuts` are those worked out before. `repairs` put right
    what went wrong; `weights` are of the cabinets, empty.
    """

    parts: Sequence[Part]
    sides: Mapping[str, Sides]
    assemblies: Assemblies
    hardware: Sequence[HardwareLine] = ()
    doors: Sequence[DoorLeaf] = ()
    mounted: Sequence[Mounted] = ()
    run: Run | None = None
    advice: Advice = field(default_factory=Advice)
    screws: Mapping[str, Screw] = field(default_factory=dict)
    waiting: Waiting = field(default_factory=Waiting)
    gravities: Mapping[str, float] = field(default_factory=dict)
    hinges: Mapping[str, Hinge] = field(default_factory=dict)
    slides: Mapping[str, Slide] = field(default_factory=dict)
    cuts: KnownCuts = field(default_factory=KnownCuts)
    repairs: Sequence[Repair] = ()
    weights: Sequence[Weight] = ()
    joints: Sequence[Joint] = ()

    @cached_property
    def _lines(self) -> Mapping[str, Sequence[HardwareLine]]:
        out: dict[str, list[HardwareLine]] = {}
        for line in self.hardware:
            out.setdefault(line.used_for, []).append(line)
        return out

    @cached_property
    def notes(self) -> Mapping[str, Sequence[str]]:
        """What methods say of closing the joints in which a part is the guest, by its id."""
        out: dict[str, list[str]] = {}
        for joint in self.joints:
            if joint.note:
                out.setdefault(joint.guest, []).append(joint.note)
        return out

    def used(self, what: str) -> Sequence[HardwareLine]:
        """Return the lines of hardware that are used for something."""
        return self._lines.get(what, ())

    def used_on(self, what: str) -> Sequence[tuple[str, HardwareLine]]:
        """Return what of a thing's hardware stands on another part, by that part's key in its cabinet."""
        return self._lines_on.get(what, ())

    @cached_property
    def _lines_on(self) -> Mapping[str, Sequence[tuple[str, HardwareLine]]]:
        out: dict[str, list[tuple[str, HardwareLine]]] = {}
        for what, lines in self._lines.items():
            thing, on, other = what.partition(" on ")
            if on:
                out.setdefault(thing, []).extend((other, line) for line in lines)
        return out

    @cached_property
    def by_id(self) -> Mapping[str, Part]:
        """The parts by id."""
        return {part.id: part for part in self.parts}

    @cached_property
    def by_cabinet(self) -> Mapping[str, Sequence[Part]]:
        """The parts of each cabinet that has any, by its id."""
        out: dict[str, list[Part]] = {}
        for part in self.parts:
            out.setdefault(part.cabinet, []).append(part)
        return out

    @cached_property
    def wall_cleats(self) -> Sequence[Part]:
        """Every cleat on the wall."""
        return [part for part in self.parts if part.role == "wall-cleat"]

    @cached_property
    def _doors(self) -> Mapping[str, Sequence[DoorLeaf]]:
        out: dict[str, list[DoorLeaf]] = {}
        for door in self.doors:
            out.setdefault(door.cabinet, []).append(door)
        return out

    def doors_of(self, cabinet: str) -> Sequence[DoorLeaf]:
        """Return the doors of a cabinet."""
        return self._doors.get(cabinet, ())

    @cached_property
    def _bottoms(self) -> Mapping[str, int]:
        out: dict[str, int] = {}
        for part in self.parts:
            if part.group == "case":
                low = part.place.box(part.blank).z0
                out[part.cabinet] = min(low, out.get(part.cabinet, low))
        return out

    def bottom(self, cabinet: str) -> int:
        """Return how high the bottom of a case stands in its cabinet's frame, which heights are measured from."""
        return self._bottoms.get(cabinet, 0)

    def hands(self, cabinet: str) -> int:
        """Return how many people should lift a cabinet, empty: one where its weight is not known."""
        return max((hands(one.mass_kg) for one in self.weights if one.cabinet == cabinet), default=1)

    def wall_fasteners(self, cabinet: str) -> frozenset[str]:
        """Return the items that hold a cabinet on the wall, as far as its places on it are known."""
        cases = [one.result.case for one in self.mounted if one.cabinet == cabinet and one.result is not None]
        fasteners = [fastener for case in cases if case is not None for fastener in (case.fastener, case.anti_lift)]
        return frozenset(fastener.id for fastener in fasteners if fastener is not None)

    def standing(self, pointer: str) -> StandingCabinet | None:
        """Return the cabinet that stands at a place, by its JSON Pointer, with its fasteners."""
        results = [one.result for one in self.mounted]
        return next((one for one in results if isinstance(one, StandingCabinet) and one.place == pointer), None)

    def hung(self, pointer: str) -> HungCabinet | None:
        """Return the cabinet that hangs at a place, by its JSON Pointer, with its fasteners."""
        results = [one.result for one in self.mounted]
        return next((one for one in results if isinstance(one, HungCabinet) and one.place == pointer), None)
