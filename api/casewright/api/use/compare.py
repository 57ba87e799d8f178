"""What-if: one job, some changes, and what each makes different in parts, stock, cost, weight and checks.

A change is a JSON Merge Patch (RFC 7396) on the job document. Arrays are wholes in such a patch, so a change of one
cabinet gives all of `cabinets`; a change in `house`, `materials`, `wall` or `stock` is shorter. Every change is
compared with the job as it came, never with another change. A change that cannot be planned says why and stops no
other.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from casewright.api.engine import make_plan
from casewright.api.engine.work.cutting import Cutter
from casewright.api.job.comparison import Change
from casewright.api.job.document import read_job
from casewright.api.use.differences import differences
from casewright.api.use.merge_patch import merged
from casewright.api.wire.made_by import fingerprint, made_by
from casewright.api.wire.plan_document import plan_document
from casewright.sdk.errors import PluginFaultError, Problem, ProblemsError
from casewright.sdk.loader import Registry
from casewright.sdk.model import Plan

__all__ = ["compare"]

SECTIONS = ("parts", "hardware", "checks", "weights", "stock", "costs")
"""What is compared of two plans."""


def compare(document: Any, changes: Sequence[Change], registry: Registry) -> dict[str, Any]:
    """Return what each change makes different, in the units of the job as it came.

    Raises what planning the job itself raises. Where a change leaves what is cut and its stock alone, the cutting
    plan is the job's own and is not made again.
    """
    cutter = Cutter()
    base = make_plan(read_job(document, registry), registry, cutter=cutter)
    before = _written(base, base, registry)
    counts = {cabinet.id: cabinet.count for cabinet in base.job.cabinets}
    return {
        "title": base.job.title,
        "units": base.job.units,
        "tape": str(base.job.tape),
        "changes": [_tried(document, change, base, (before, counts), registry, cutter) for change in changes],
        "made_by": made_by(registry),
        "fingerprint": fingerprint([document, [[c.name, c.patch] for c in changes]], registry),
    }


def _tried(
    document: Any,
    change: Change,
    base: Plan,
    before: tuple[Mapping[str, Any], Mapping[str, int]],
    registry: Registry,
    cutter: Cutter,
) -> dict[str, Any]:
    patched = merged(document, change.patch)
    try:
        plan = make_plan(read_job(patched, registry), registry, cutter=cutter)
    except ProblemsError as error:
        problems = [problem.as_dict() for problem in error.problems]
        return {"name": change.name, "planned": False, "errors": problems, "differences": None}
    except PluginFaultError as error:
        rule = f"an answer from method {error.method} of plugin {error.plugin}"
        fault = Problem("", rule, error.fault, "Choose another method, and tell the plugin's author.")
        return {"name": change.name, "planned": False, "errors": [fault.as_dict()], "differences": None}
    counts = {cabinet.id: cabinet.count for cabinet in plan.job.cabinets}
    found = differences(*before, _written(plan, base, registry), counts)
    return {"name": change.name, "planned": True, "errors": [], "differences": found}


def _written(plan: Plan, base: Plan, registry: Registry) -> dict[str, Any]:
    """Return a plan's document in the units and tape of the job as it came."""
    job = replace(plan.job, units=base.job.units, tape=base.job.tape)
    return plan_document(replace(plan, job=job), made_by(registry), "", SECTIONS)
