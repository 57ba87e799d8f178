"""Planning one cabinet from its shell to its dry fit."""

from dataclasses import dataclass

from casewright.api.engine.construction.base import add_base
from casewright.api.engine.construction.case import add_back, build_case
from casewright.api.engine.construction.draft import Work
from casewright.api.engine.construction.drawers import add_drawers
from casewright.api.engine.construction.ends import add_ends
from casewright.api.engine.construction.face_frame import openings
from casewright.api.engine.construction.faults import look_over_cuts
from casewright.api.engine.construction.fronts import front_setback, hang_doors
from casewright.api.engine.construction.hinges import fit_door_hardware
from casewright.api.engine.construction.inside import Leaf, add_fixed_shelves, divide_inside, leaves_of
from casewright.api.engine.construction.mount import add_mounting
from casewright.api.engine.construction.pins import add_loose_shelves
from casewright.api.engine.judge import hanging as hang_judge
from casewright.api.engine.judge import tipping as tip_judge
from casewright.api.engine.judge.dry_fit import Tried, open_drawers, solid_of, try_fit
from casewright.api.engine.judge.shelf_sag import sag_checks
from casewright.api.engine.judge.swing import check_swings
from casewright.api.engine.judge.weights import Scales, cabinet_weight
from casewright.api.engine.judge.wood_movement import movement_checks
from casewright.api.engine.judge.workshop import workshop_of
from casewright.sdk.geometry import Box
from casewright.sdk.loader import Registry
from casewright.sdk.methods import Hanging
from casewright.sdk.model import LENGTH, Cabinet, Finding, HungCabinet, Job, Part, Weight, Workshop


@dataclass(frozen=True, slots=True)
class Planned:
    """One cabinet as planned."""

    work: Work
    parts: tuple[Part, ...]
    tried: Tried
    weight: Weight
    workshop: Workshop
    hung: tuple[HungCabinet, ...]


def plan_cabinet(job: Job, cabinet: Cabinet, registry: Registry) -> Planned:
    """Plan one cabinet. Raises `NoGeometryError` or `PluginFaultError`."""
    work = Work(job, cabinet, registry)
    shell = build_case(work)
    tree = divide_inside(work, shell)
    setback = max(front_setback(work), shell.front) + cabinet.case.shelf_setback
    leaves = leaves_of(tree)
    for leaf in leaves:
        add_fixed_shelves(work, shell, leaf, setback)
    for leaf in leaves:
        add_loose_shelves(work, shell, leaf, setback)
    add_back(work, shell)
    add_base(work, shell)
    add_ends(work, shell)
    fronts = openings(work, shell, tree)
    hung = hang_doors(work, shell, fronts)
    hanging = add_mounting(work, shell, leaves)
    drawers = add_drawers(work, shell, fronts)
    scales = Scales(work)
    fit_door_hardware(work, shell, hung, scales.doors())
    check_swings(work, hung)
    solids = {f"{work.id}/{key}": solid_of(work.id, draft) for key, draft in work.drafts.items()}
    look_over_cuts(work, solids)
    tried = try_fit(work, solids)
    open_drawers(work, solids, drawers)
    _check_outside(work, tried.outside)
    weighed = scales.parts(solids)
    weight = cabinet_weight(work, weighed)
    work.checks += sag_checks(work, weighed)
    work.checks += movement_checks(work)
    on_wall: tuple[HungCabinet, ...] = ()
    if cabinet.form == "wall":
        if hanging is not None:
            on_wall = _hang(work, hanging, weight, leaves)
    else:
        _stand(work, hanging, weight, leaves, tip_judge.Fronts(weighed, hung, drawers))
    parts = tuple([draft.finished(work.id, cabinet.count) for draft in work.drafts.values()])
    return Planned(work, parts, tried, weight, workshop_of(work), on_wall)


def _hang(work: Work, fixing: Hanging, weight: Weight, leaves: list[Leaf]) -> tuple[HungCabinet, ...]:
    """Judge a wall cabinet at its places; each is one mounting."""
    hung = hang_judge.hang_cabinet(work, fixing, weight, leaves)
    work.checks += hang_judge.hanging_checks(work, fixing, hung)
    if hung:
        mounted = work.mounted.pop()
        work.mounted += [hang_judge.mounted_at(mounted, one) for one in hung]
    return hung


def _stand(work: Work, fixing: Hanging | None, weight: Weight, leaves: list[Leaf], fronts: tip_judge.Fronts) -> None:
    """Judge a standing cabinet; each place it is fixed at is one mounting."""
    balance = tip_judge.tipping_balance(work, fixing, fronts)
    work.checks.append(tip_judge.tipping_check(work, fixing, balance))
    if fixing is not None:
        stands, checks = tip_judge.stand_cabinet(work, fixing, balance, weight, leaves)
        work.checks += checks
        mounted = work.mounted.pop()
        work.mounted += [tip_judge.mounted_at(mounted, one) for one in stands]


def _check_outside(work: Work, outside: Box) -> None:
    """Compare the assembled outside with the job's sizes, to the nanometre."""
    cabinet = work.cabinet
    spec = (cabinet.width, cabinet.depth, cabinet.height)
    for got, wanted, name in zip(outside.size, spec, ("width", "depth", "height"), strict=True):
        if got != wanted:
            work.find(
                work.id,
                Finding(
                    "outside-size",
                    "stop",
                    f"the assembled {name} is not the one asked for",
                    got,
                    wanted,
                    LENGTH,
                    "dry-fit",
                ),
            )
