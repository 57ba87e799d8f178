"""The engine: one module a stage, from a job to its plan. Pure: same job and registry, same plan."""

from dataclasses import replace

from casewright.api.engine.cabinet import CabinetPlan, plan_cabinet
from casewright.api.engine.construction.context import Context, job_of
from casewright.api.engine.judge.dry_fit import EXACT, ROUND
from casewright.api.engine.judge.extra import extra_checks
from casewright.api.engine.judge.hanging import shared_cleats
from casewright.api.engine.run import plan_run
from casewright.api.engine.work.costs import cost_of
from casewright.api.engine.work.cutting import Cutter
from casewright.api.engine.work.order import order_of_work
from casewright.api.stock import Progress, no_progress
from casewright.sdk.geometry import Place
from casewright.sdk.loader import Registry
from casewright.sdk.model import DryFit, Job, LoosePart, Part, Plan, Term

__all__ = ["Progress", "make_plan"]


def make_plan(
    job: Job,
    registry: Registry,
    *,
    with_stock: bool = True,
    cutter: Cutter | None = None,
    progress: Progress = no_progress,
) -> Plan:
    """Plan a whole job, with how to cut it from stock where the job gives stock and `with_stock` asks for it.

    A `cutter` handed on from plan to plan does not plan the same cutting twice. `progress` is told how far each
    stage is (`cabinets`, `cutting`, `settings`); it never changes the plan.

    Raises `NoGeometryError` for a job that cannot be built at all and `PluginFaultError` for a faulty method.
    A job that can be built but should not be is a plan with `stop` checks.
    """
    planned = []
    for i, cabinet in enumerate(job.cabinets):
        progress("cabinets", i, len(job.cabinets))
        planned.append(plan_cabinet(Context(job_of(job, cabinet), cabinet, registry)))
    progress("cabinets", len(job.cabinets), len(job.cabinets))
    walled = plan_run(job, planned, registry)
    parts = (
        *(part for one in planned for part in one.parts),
        *(walled.parts if walled else ()),
        *(_loose(job, row) for row in job.loose_parts),
    )
    joints = tuple([joint for one in planned for joint in one.construction.joints])
    stock = (cutter or Cutter()).plan(job, parts, progress) if with_stock else None
    plan = Plan(
        job=job,
        parts=parts,
        joints=joints,
        doors=tuple([door for one in planned for door in one.doors]),
        hardware=tuple([line for one in planned for line in one.construction.hardware]),
        mounting=tuple([mounted for one in planned for mounted in one.mounted]),
        dry_fit=_dry_fit(planned),
        checks=(
            *(check for one in planned for check in one.checks),
            *(walled.checks if walled else ()),
            *extra_checks(registry, parts),
        ),
        steps=order_of_work(job, parts, joints, walled.run if walled else None),
        weights=tuple([one.weight for one in planned]),
        workshop=tuple([one.workshop for one in planned]),
        stock=stock,
        shared_cleats=shared_cleats(job, [hung for one in planned for hung in one.hung]),
        run=walled.run if walled else None,
    )
    return replace(plan, costs=cost_of(plan, registry))


def _dry_fit(planned: list[CabinetPlan]) -> DryFit:
    return DryFit(
        pairs_checked=sum(one.fit.pairs for one in planned),
        seats=tuple([seat for one in planned for seat in one.fit.seats]),
        clashes=tuple([clash for one in planned for clash in one.fit.clashes]),
        outside=tuple([(one.id, one.fit.outside[:3], one.fit.outside[3:]) for one in planned]),
        approximations=(EXACT, ROUND),
    )


def _loose(job: Job, row: LoosePart) -> Part:
    """Return a part that is only cut, as the job gives it."""
    return Part(
        id=f"loose/{row.id}",
        cabinet="",
        role="loose",
        name=row.id,
        quantity=row.quantity,
        material=row.material,
        length=row.length,
        width=row.width,
        thickness=job.materials[row.material].thickness,
        grain=row.grain,
        why_length=(Term("given in the job", row.length),),
        why_width=(Term("given in the job", row.width),),
        place=Place((0, 0, 0), 1, 2, 3),
        group="loose-parts",
    )
