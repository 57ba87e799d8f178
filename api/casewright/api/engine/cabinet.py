"""Planning one cabinet: what is built, the solids it comes to, and what is judged of them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import assert_never

from casewright.api.engine.construction.banding import band_fronts
from casewright.api.engine.construction.base import add_base
from casewright.api.engine.construction.case import Shell, add_back, build_case, shell_of
from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.context import Context
from casewright.api.engine.construction.cut_bounds import validate_cuts
from casewright.api.engine.construction.drawers import Drawer, add_drawers
from casewright.api.engine.construction.ends import add_ends
from casewright.api.engine.construction.face_frame import add_face_frame
from casewright.api.engine.construction.frame_layout import Opening
from casewright.api.engine.construction.fronts import PlacedDoor, front_setback, hang_doors
from casewright.api.engine.construction.hinges import HungDoor, fit_door_hardware
from casewright.api.engine.construction.inside import Leaf, add_fixed_shelves, divide_inside, leaves_of
from casewright.api.engine.construction.matching import with_matched
from casewright.api.engine.construction.mount import add_mounting
from casewright.api.engine.construction.pins import add_loose_shelves, clear_of_packing
from casewright.api.engine.judge import hanging, tipping
from casewright.api.engine.judge.door_hardware import door_hardware_checks
from casewright.api.engine.judge.dry_fit import CabinetFit, dry_fit
from casewright.api.engine.judge.plates import plate_checks
from casewright.api.engine.judge.shelf_sag import sag_checks
from casewright.api.engine.judge.supports import support_checks
from casewright.api.engine.judge.swing import check_swings
from casewright.api.engine.judge.wall_fasteners import wall_hardware
from casewright.api.engine.judge.weights import Masses, Weighed, cabinet_weight, door_masses, part_masses, weigh_doors
from casewright.api.engine.judge.wood_movement import movement_checks
from casewright.api.engine.judge.workshop import workshop_of
from casewright.sdk.methods import Hanging, MountDesign
from casewright.sdk.model import Check, DoorLeaf, HardwareLine, HungCabinet, Mounted, Part, Weight, Workshop


@dataclass(frozen=True, slots=True)
class Built:
    """One cabinet as built: its construction, and what of it moves, hangs or is reached by judges."""

    construction: Construction
    leaves: tuple[Leaf, ...]
    openings: tuple[Opening, ...]
    doors: tuple[PlacedDoor, ...]
    hung: tuple[HungDoor, ...]
    drawers: tuple[Drawer, ...]
    mounting: MountDesign | None
    weighed: Mapping[str, Weighed]

    @property
    def mounted(self) -> Mounted | None:
        """The mounting as made, before its places on the wall are judged."""
        mounting = self.construction.cabinet.mounting
        if self.mounting is None or mounting is None:
            return None
        how = self.mounting.hanging
        return Mounted(self.construction.id, mounting.choice.method, how.lift, how.lengths, self.mounting.cautions)


@dataclass(frozen=True, slots=True)
class _Stability:
    """Whether a cabinet stays up: its mounting at each of its places, and what was found there."""

    mounted: tuple[Mounted, ...] = ()
    checks: tuple[Check, ...] = ()
    hung: tuple[HungCabinet, ...] = ()
    on_wall: tuple[HardwareLine, ...] = ()


@dataclass(frozen=True, slots=True)
class CabinetPlan:
    """One cabinet as planned: a value that hangs on its `Context` alone.

    `stays` are the checks of whether it stays up, by what it is fixed with (`fixing`), beside all other `checks`.
    """

    construction: Construction
    openings: tuple[Opening, ...]
    parts: tuple[Part, ...]
    checks: tuple[Check, ...]
    stays: tuple[Check, ...]
    fixing: Hanging | None
    doors: tuple[DoorLeaf, ...]
    mounted: tuple[Mounted, ...]
    hung: tuple[HungCabinet, ...]
    on_wall: tuple[HardwareLine, ...]
    fit: CabinetFit
    weight: Weight
    workshop: Workshop

    @property
    def id(self) -> str:
        """The cabinet's id."""
        return self.construction.id


def plan_cabinet(context: Context) -> CabinetPlan:
    """Plan one cabinet. Raises `NoGeometryError` or `PluginFaultError`."""
    built = build_cabinet(context)
    construction = built.construction
    solids = {f"{context.id}/{key}": draft.solid(context.id) for key, draft in construction.drafts.items()}
    validate_cuts(construction, solids)
    fit = dry_fit(construction, solids, built.drawers)
    masses = part_masses(construction, solids, built.weighed)
    weight = cabinet_weight(construction, masses)
    stability = _stability(built, masses, weight)
    return CabinetPlan(
        construction=construction,
        openings=built.openings,
        parts=_parts(construction),
        checks=(
            *construction.checks,
            *door_hardware_checks(construction, built.hung),
            *plate_checks(construction, built.hung),
            *check_swings(construction, built.doors),
            *fit.checks,
            *sag_checks(construction, masses),
            *support_checks(construction, masses, built.drawers, built.leaves),
            *movement_checks(construction),
        ),
        stays=stability.checks,
        fixing=None if built.mounting is None else built.mounting.hanging,
        doors=tuple([hung.leaf(context.id) for hung in built.hung]),
        mounted=stability.mounted,
        hung=stability.hung,
        on_wall=stability.on_wall,
        fit=fit,
        weight=weight,
        workshop=workshop_of(construction),
    )


def _parts(construction: Construction) -> tuple[Part, ...]:
    """Return the parts as they stand, each with how many of it are cut already."""
    cabinet = construction.cabinet
    made = {key: one.made for key, one in cabinet.built.items()}
    return tuple(
        [draft.finished(cabinet.id, cabinet.count, made.get(key, 0)) for key, draft in construction.drafts.items()]
    )


def build_cabinet(context: Context) -> Built:
    """Build one cabinet from its shell to its hinges; each stage returns what the next builds on."""
    shell = shell_of(context)
    case, tree = divide_inside(build_case(Construction(context), shell), shell)
    leaves = tuple(leaves_of(tree))
    closed = add_back(_with_shelves(case, shell, leaves), shell)
    framed, openings = add_face_frame(add_ends(add_base(closed, shell), shell), shell, tree)
    return _with_fronts(framed, shell, leaves, openings)


def _with_shelves(built: Construction, shell: Shell, leaves: Sequence[Leaf]) -> Construction:
    """Add every leaf's fixed shelves, and then, where those stand, its loose ones."""
    setback = max(front_setback(built.context), shell.front) + built.cabinet.case.shelf_setback
    for leaf in leaves:
        built = add_fixed_shelves(built, shell, leaf, setback)
    for leaf in leaves:
        built = add_loose_shelves(built, shell, leaf, setback)
    return built


def _with_fronts(framed: Construction, shell: Shell, leaves: tuple[Leaf, ...], openings: tuple[Opening, ...]) -> Built:
    """Add doors, the mounting, drawers (which stop before a strip of it) and what doors hang by."""
    with_doors, doors = hang_doors(framed, shell, openings)
    mounted, mounting = add_mounting(with_doors, shell, leaves)
    with_drawers, drawers = add_drawers(mounted, shell, openings)
    matched = with_matched(band_fronts(with_drawers), doors, drawers)
    weighed = weigh_doors(matched)
    construction, hung = fit_door_hardware(matched, shell, doors, door_masses(weighed))
    for leaf in leaves:
        construction = clear_of_packing(construction, leaf)
    return Built(construction, leaves, openings, doors, hung, drawers, mounting, weighed)


def _stability(built: Built, masses: Masses, weight: Weight) -> _Stability:
    """Judge whether a cabinet stays where it is put: a wall cabinet hangs, others stand."""
    form = built.construction.cabinet.form
    match form:
        case "wall":
            return _hanging(built, weight)
        case "base" | "tall":
            return _standing(built, masses, weight)
        case _:
            assert_never(form)


def _hanging(built: Built, weight: Weight) -> _Stability:
    """Judge a wall cabinet at its places; each is one mounting."""
    construction, mounted = built.construction, built.mounted
    if built.mounting is None or mounted is None:
        return _Stability()
    fixing = built.mounting.hanging
    hung = hanging.hang_cabinet(construction, fixing, weight, built.leaves)
    places = tuple([hanging.mounted_at(mounted, one) for one in hung]) if hung else (mounted,)
    on_wall = wall_hardware(construction, fixing, hung)
    return _Stability(places, hanging.hanging_checks(construction, fixing, hung), hung, on_wall)


def _standing(built: Built, masses: Masses, weight: Weight) -> _Stability:
    """Judge a standing cabinet; each place it is fixed at is one mounting."""
    construction, mounted = built.construction, built.mounted
    fixing = built.mounting.hanging if built.mounting is not None else None
    fronts = tipping.Fronts(masses, built.doors, built.drawers, built.leaves)
    balances = tipping.tipping_balances(construction, fixing, fronts)
    tips = tipping.tipping_checks(construction, fixing, balances)
    if fixing is None or mounted is None:
        return _Stability(checks=tips)
    stands, checks = tipping.stand_cabinet(construction, fixing, balances, weight, built.leaves)
    places = tuple([tipping.mounted_at(mounted, one) for one in stands])
    return _Stability(places, (*tips, *checks), on_wall=wall_hardware(construction, fixing, stands))
