"""Which machines can make a cut, best first, and which of them a shop has.

A shop that does not list its machines has every one; what is done by hand needs none.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from casewright.api.engine.work.cut import Cut
from casewright.sdk.model import Action, FeatureKind, Machine, Operation, Setting, Shop, Stock
from casewright.sdk.units import MM

__all__ = ["ACROSS", "STOCK", "Tools", "sawn_at", "ways"]

ACROSS = frozenset({Machine.CROSSCUT_SLED, Machine.MITRE_SAW})
"""Saws with a stop of their own, which cut across whatever lies against it."""

STOCK: Mapping[Action, tuple[Machine, ...]] = {
    Action.TRIM: (Machine.TRACK_SAW, Machine.TABLE_SAW),
    Action.FACE: (Machine.JOINTER, Machine.BY_HAND),
    Action.EDGE: (Machine.JOINTER, Machine.TABLE_SAW, Machine.TRACK_SAW, Machine.BY_HAND),
    Action.THICKNESS: (Machine.PLANER,),
}
"""What trims and mills stock; a straight cut chooses its own saw."""
WAYS: Mapping[FeatureKind, tuple[Machine, ...]] = {
    "groove": (Machine.TABLE_SAW, Machine.ROUTER_TABLE, Machine.ROUTER),
    "spline-slot": (Machine.TABLE_SAW, Machine.ROUTER_TABLE),
    "rabbet": (Machine.TABLE_SAW, Machine.ROUTER_TABLE, Machine.ROUTER),
    "notch": (Machine.JIGSAW, Machine.BAND_SAW, Machine.BY_HAND),
    "mortise": (Machine.MORTISER, Machine.ROUTER, Machine.DRILL_PRESS, Machine.BY_HAND),
    "loose-mortise": (Machine.LOOSE_TENON_MACHINE, Machine.ROUTER, Machine.MORTISER),
    "biscuit-slot": (Machine.BISCUIT_MACHINE,),
    "pocket": (Machine.DRILL,),
    "dovetail": (Machine.ROUTER, Machine.ROUTER_TABLE, Machine.BY_HAND),
    "fingers": (Machine.TABLE_SAW, Machine.ROUTER_TABLE, Machine.BAND_SAW, Machine.BY_HAND),
    "tenon": (Machine.TABLE_SAW, Machine.ROUTER_TABLE, Machine.BAND_SAW, Machine.BY_HAND),
    "hole": (Machine.DRILL_PRESS, Machine.DRILL),
    "bevel": (Machine.TABLE_SAW, Machine.TRACK_SAW, Machine.MITRE_SAW),
    "edge-profile": (Machine.ROUTER_TABLE, Machine.ROUTER),
}
"""What makes each kind of cut, best first (common practice, no source)."""
STOPPED: Mapping[FeatureKind, tuple[Machine, ...]] = {
    "groove": (Machine.ROUTER, Machine.ROUTER_TABLE),
    "rabbet": (Machine.ROUTER, Machine.ROUTER_TABLE),
}
"""What makes a cut that ends within the wood: a saw blade runs out long."""
ROUTER_FENCE = 300 * MM
"""How far a router table's fence reaches (common practice, no source): further in, the router goes to the work."""
STEEPEST = 47.0
"""How far from square a saw blade tilts at most, in degrees (common practice, no source)."""


def sawn_at(machine: Machine, distance: int, kerf: int) -> Setting:
    """Return how a saw is set for a straight cut: by its stop where it has one, else by its fence or track."""
    if machine in ACROSS:
        return Setting(stop=distance, kerf=kerf)
    return Setting(fence=distance, kerf=kerf)


def ways(cut: Cut) -> tuple[Machine, ...]:
    """Return the machines that can make a cut, best first."""
    if cut.setting.end is not None and not cut.at and cut.kind in STOPPED:
        return STOPPED[cut.kind]
    if cut.kind == "dovetail" and cut.down.axis == 1 and not cut.at:
        return (Machine.ROUTER_TABLE, Machine.ROUTER)  # a tail: its part stands on its end
    if cut.kind in ("groove", "tenon") and cut.setting.tilt_deg is not None:
        return (Machine.ROUTER_TABLE, Machine.ROUTER)
    if cut.setting.turn_deg is not None:
        return (Machine.MITRE_SAW, Machine.CROSSCUT_SLED, Machine.TABLE_SAW, Machine.TRACK_SAW)
    if cut.kind == "hole" and cut.down.axis == 1:
        return tuple(reversed(WAYS[cut.kind]))  # into an end, where a long piece does not stand under a drill press
    return WAYS[cut.kind]


@dataclass(frozen=True, slots=True)
class Tools:
    """The machines and cutters of a shop, and how far its saw reaches; `machines` is empty where none are listed."""

    machines: frozenset[Machine] = frozenset()
    cutters: tuple[int, ...] = ()
    same: int = 0
    rip_capacity: int | None = None

    @classmethod
    def of(cls, shop: Shop, stock: Stock | None) -> "Tools":
        """Return the tools of a shop; where cutters are listed, the blade that cuts its stock cuts grooves too."""
        blades = () if stock is None or not shop.groove_cutters else (stock.kerf,)
        cutters = tuple(sorted((*shop.groove_cutters, *blades)))
        return cls(frozenset(shop.machines), cutters, shop.same, shop.rip_capacity)

    def has(self, machine: Machine) -> bool:
        """Return whether the shop has a machine."""
        return not self.machines or machine is Machine.BY_HAND or machine in self.machines

    def chosen(self, cut: Cut, advised: Sequence[Machine] = ()) -> Machine:
        """Return what a cut is made with: the best machine the shop has, or the best there is where it has none.

        What a method has `advised` comes before the usual machines.
        """
        able = tuple(dict.fromkeys((*advised, *ways(cut))))
        best = next((one for one in able if self.has(one) and self._reaches(one, cut)), None)
        if best is not None:
            return best
        fit = [machine for machine in able if self._reaches(machine, cut)] or able
        return next(filter(self.has, fit), fit[0])

    def lacking(self, cuts: Iterable[Cut], advised: Sequence[Machine] = ()) -> frozenset[Machine]:
        """Return the best machine for each cut that nothing the shop has can make."""
        return frozenset(machine for cut in cuts if not self.has(machine := self.chosen(cut, advised)))

    def makes(self, kind: FeatureKind, advised: Sequence[Machine] = ()) -> bool:
        """Return whether the shop has a machine for a kind of cut."""
        return any(map(self.has, (*advised, *WAYS[kind])))

    def placed(self, operation: Operation) -> Operation:
        """Return an operation that trims or mills stock with a machine the shop has, where it has one for it."""
        if self.has(operation.machine):
            return operation
        return replace(operation, machine=next(filter(self.has, STOCK.get(operation.action, ())), operation.machine))

    def _reaches(self, machine: Machine, cut: Cut) -> bool:
        if machine is Machine.ROUTER_TABLE:
            return (cut.setting.fence or 0) <= ROUTER_FENCE
        if machine is not Machine.TABLE_SAW:
            return True
        if cut.setting.tilt_deg is not None and cut.setting.tilt_deg > STEEPEST:
            return False
        return self.rip_capacity is None or (cut.setting.distance or 0) <= self.rip_capacity
