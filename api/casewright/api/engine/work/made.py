"""What the order of work is made of: parts and how they go together, and what is fixed to them and to the wall."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from casewright.api.engine.work.together import Assemblies
from casewright.sdk.model import DoorLeaf, HardwareLine, HungCabinet, Mounted, Part, Run, Sides

__all__ = ["Made"]


@dataclass(frozen=True)
class Made:
    """What is made of a job, before it is put in order; `sides` by part id, `assemblies` by cabinet and group."""

    parts: Sequence[Part]
    sides: Mapping[str, Sides]
    assemblies: Assemblies
    hardware: Sequence[HardwareLine] = ()
    doors: Sequence[DoorLeaf] = ()
    mounted: Sequence[Mounted] = ()
    run: Run | None = None

    @cached_property
    def _lines(self) -> Mapping[str, Sequence[HardwareLine]]:
        out: dict[str, list[HardwareLine]] = {}
        for line in self.hardware:
            out.setdefault(line.used_for, []).append(line)
        return out

    def used(self, what: str) -> Sequence[HardwareLine]:
        """Return the lines of hardware that are used for something."""
        return self._lines.get(what, ())

    def used_on(self, what: str) -> Sequence[tuple[str, HardwareLine]]:
        """Return what of a thing's hardware stands on another part, by that part's key in its cabinet."""
        begins = f"{what} on "
        return [
            (what.removeprefix(begins), line)
            for what, lines in self._lines.items()
            if what.startswith(begins)
            for line in lines
        ]

    def hung(self, pointer: str) -> HungCabinet | None:
        """Return the cabinet that hangs at a place, by its JSON Pointer, with its fasteners."""
        results = [one.result for one in self.mounted]
        return next((one for one in results if isinstance(one, HungCabinet) and one.place == pointer), None)
