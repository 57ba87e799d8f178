"""What is cut only when it is measured on the work: which sizes wait for what, and what is left over size until then.

A part is cut when all that is measured for it is, together with those that wait for the same.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from casewright.api.engine.work.panels import OVER, lying, panels_of
from casewright.api.stock import is_milled
from casewright.sdk.model import Fit, FitKind, FromWork, Job, Measurement, Part

__all__ = ["Over", "Waiting", "waiting_of"]

Over = Mapping[str, tuple[int, int]]
"""How much longer and wider than planned parts are cut from stock until they are measured for, by their ids, in nm."""


@dataclass(frozen=True)
class Waiting:
    """The sizes that wait, by part and its own axis (1 length, 2 width), with what each waits for, and what is over."""

    sizes: Mapping[tuple[str, int], tuple[Measurement, FromWork]] = field(default_factory=dict)
    over: Over = field(default_factory=dict)

    @property
    def parts(self) -> frozenset[str]:
        """The parts that wait."""
        return frozenset(part for part, _ in self.sizes)

    def without_over(self) -> "Waiting":
        """Return what still waits where nothing can be cut over size from stock: parts that stock leaves so anyway."""
        return Waiting({key: size for key, size in self.sizes.items() if key[0] not in self.over})

    def measured_for(self, part: str) -> tuple[Measurement, ...]:
        """Return what is measured for a part: parts for which the same is measured are cut together."""
        return tuple(self._measured.get(part, ()))

    @cached_property
    def _measured(self) -> Mapping[str, Mapping[Measurement, None]]:
        out: dict[str, dict[Measurement, None]] = {}
        for (name, _), (of, _) in self.sizes.items():
            out.setdefault(name, {})[of] = None
        return out


def waiting_of(job: Job, parts: Iterable[Part], fits: Iterable[Fit]) -> Waiting:
    """Return what waits of fits that are taken from the work, but for what is built and what is bought to size.

    A panel's own grooves say its size before the opening that its frame is fitted to.
    """
    sizes: dict[tuple[str, int], tuple[Measurement, FromWork]] = {}
    for fit in sorted(fits, key=lambda one: one.kind is not FitKind.PANEL_PLAY):
        if fit.measuring is not None:
            for size in fit.measuring.sizes:
                sizes.setdefault((size.part, size.axis), (fit.measuring.measurement, size))
    by_id = {part.id: part for part in parts}
    bought = {key for key, material in job.materials.items() if material.to_size}
    cut = {name for name, part in by_id.items() if part.built < part.quantity and part.material not in bought}
    sizes = {key: size for key, size in sizes.items() if key[0] in cut}
    glued = {panel.part.id for panel in panels_of(job, by_id.values())}
    over: dict[str, tuple[int, int]] = {}
    for name in dict.fromkeys(part for part, _ in sizes):
        more = tuple([_more(job, by_id[name], axis) if (name, axis) in sizes else 0 for axis in (1, 2)])
        if any(more) and name not in glued:
            over[name] = more[0], more[1]
    return Waiting(sizes, over)


def _more(job: Job, part: Part, axis: int) -> int:
    """Return how much over size a part is cut from stock along an axis: nothing where milling leaves it so anyway."""
    stock = job.stock
    if stock is None:
        return 0
    along = (axis == 1) is (lying(part)[0] == part.length)
    milled = is_milled(part.material, stock.pieces) and bool(stock.mill_length if along else stock.mill_width)
    return 0 if milled else OVER[job.units].width
