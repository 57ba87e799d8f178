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
from casewright.api.engine.construction.inside import add_fixed_shelves, divide_inside, leaves_of
from casewright.api.engine.construction.mount import add_mounting
from casewright.api.engine.construction.pins import add_loose_shelves
from casewright.api.engine.judge.dry_fit import Tried, open_drawers, solid_of, try_fit
from casewright.api.engine.judge.holding import Held, hold
from casewright.api.engine.judge.moving import check_movement
from casewright.api.engine.judge.sagging import check_shelves
from casewright.api.engine.judge.standing import stand
from casewright.api.engine.judge.swing import check_swings
from casewright.api.engine.judge.weights import Scales, cabinet_weight
from casewright.api.engine.judge.workshop import workshop_of
from casewright.sdk.geometry import Box
from casewright.sdk.loader import Registry
from casewright.sdk.model import LENGTH, Cabinet, Finding, Job, Part, Weight, Workshop


@dataclass(frozen=True, slots=True)
class Planned:
    """One cabinet as planned."""

    work: Work
    parts: tuple[Part, ...]
    tried: Tried
    weight: Weight
    workshop: Workshop
    held: tuple[Held, ...]


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
    check_shelves(work, weighed)
    check_movement(work)
    held: list[Held] = []
    if cabinet.form == "wall":
        held = hold(work, hanging, weight, leaves)
    else:
        stand(work, hanging, weight, leaves, weighed, hung, drawers)
    parts = tuple([draft.finished(work.id, cabinet.count) for draft in work.drafts.values()])
    return Planned(work, parts, tried, weight, workshop_of(work), tuple(held))


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
