"""What-if: one job, some changes, and what each makes different in parts, stock, cost, weight and checks.

A change is a patch on the job document: a JSON Patch (RFC 6902), which names each place it changes, or a JSON Merge
Patch (RFC 7396), in which arrays are wholes. Every change is compared with the job as it came, never with another
change. A change that cannot be applied or planned says why and stops no other.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from casewright.api.engine import PlanCache
from casewright.api.job.comparison import Change
from casewright.api.job.json_patch import patched
from casewright.api.use.differences import Compared, differences
from casewright.api.use.job_input import JobInput
from casewright.api.use.merge_patch import merged
from casewright.api.use.planning import Planner
from casewright.api.wire.made_by import fingerprint
from casewright.api.wire.plan_document import answer_document, stop_count
from casewright.sdk.errors import PluginFaultError, Problem, ProblemsError
from casewright.sdk.loader import Registry
from casewright.sdk.model import Plan

SECTIONS = ("parts", "hardware", "checks", "weights", "stock", "costs")
"""What is compared of two plans."""


def compare(document: Any, changes: Sequence[Change], registry: Registry) -> dict[str, Any]:
    """Return what each change makes different, in the units of the job as it came.

    Raises what planning the job itself raises. Cabinets that a change leaves alone are not planned again, nor
    is the cutting where it leaves what is cut and its stock alone.
    """
    study = _Study(document, Planner(registry))
    answer = {"changes": [study.outcome(change) for change in changes]}
    question = [document, [[change.name, change.patch] for change in changes]]
    stops = stop_count(study.base.checks)
    return answer_document(study.base.job, stops, answer, (study.planner.made_by, fingerprint(question, registry)))


@dataclass
class _Study:
    """The job as it came, planned, to compare changes of it with."""

    document: Any
    planner: Planner
    cache: PlanCache = field(default_factory=PlanCache)

    def __post_init__(self) -> None:
        self.base = self._plan(self.document)
        self.before = self._compared(self.base)

    def outcome(self, change: Change) -> dict[str, Any]:
        """Return the name of a change, whether it could be planned, why not, and what it makes different."""
        try:
            plan = self._plan(self._changed(change))
        except ProblemsError as error:
            return _unplanned(change, error.problems)
        except PluginFaultError as error:
            rule = f"an answer from method {error.method} of plugin {error.plugin}"
            fix = "Choose another method, and tell the plugin's author."
            return _unplanned(change, [Problem("", rule, error.fault, fix)])
        different = differences(self.before, self._compared(plan))
        return {"name": change.name, "planned": True, "errors": [], "differences": different}

    def _changed(self, change: Change) -> Any:
        if change.operations is None:
            return merged(self.document, change.patch)
        return patched(self.document, change.operations, change.at)

    def _plan(self, document: Any) -> Plan:
        return self.planner.plan(JobInput(document, self.planner.registry), cache=self.cache)

    def _compared(self, plan: Plan) -> Compared:
        """Return what is compared of a plan, in the units and tape of the job as it came."""
        job = replace(plan.job, units=self.base.job.units, tape=self.base.job.tape)
        document = self.planner.write(replace(plan, job=job), "", SECTIONS)
        return Compared(document, {cabinet.id: cabinet.count for cabinet in job.cabinets})


def _unplanned(change: Change, problems: Sequence[Problem]) -> dict[str, Any]:
    errors = [problem.as_dict() for problem in problems]
    return {"name": change.name, "planned": False, "errors": errors, "differences": None}
