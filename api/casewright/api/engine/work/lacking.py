"""What a shop that lists its machines cannot cut: a stop for each joint or part, with the methods it could use."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from casewright.api.engine.work.advice import advice_of
from casewright.api.engine.work.cut import ACTIONS, Measured
from casewright.api.engine.work.machines import Tools
from casewright.api.engine.work.machining import cuts_of
from casewright.sdk.loader import Registry
from casewright.sdk.methods import JointMethod
from casewright.sdk.model import Check, Finding, Job, Joint, Machine, Operation, Part

__all__ = ["machine_checks"]


def machine_checks(
    job: Job, registry: Registry, parts: Sequence[Part], joints: Sequence[Joint], steps: Iterable[Operation]
) -> tuple[Check, ...]:
    """Return a stop for what no machine of the shop can make; none where the shop lists no machines."""
    tools = Tools.of(job.shop, job.stock)
    if not tools.machines:
        return ()
    by_id = {joint.id: joint for joint in joints}
    advice = advice_of(job, registry, joints)
    checks: dict[str, Check] = {}
    for part in parts:
        for feature in part.features:
            cuts = cuts_of(Measured(part), (feature,), tools.cutters, tools.same)
            lacking = sorted(tools.lacking(cuts, advice.machines(part, feature)))
            if lacking:
                joint = by_id.get(feature.joint)
                others = list(_others(joint, registry, tools)) if joint else []
                subject = joint.id if joint else part.id
                checks.setdefault(subject, _check(subject, feature.kind.replace("-", " "), lacking, others))
    for step in steps:
        if step.stage in ("cut", "mill") and not tools.has(step.machine):
            what = f"{step.action} in operation {step.number}"
            checks.setdefault(f"{step.machine}", _check("/shop/machines", what, [step.machine], []))
    return tuple(checks.values())


def _others(joint: Joint, registry: Registry, tools: Tools) -> Iterator[str]:
    """Yield the methods for a joint's kind of meeting whose cuts the shop can make, by id."""
    family: Mapping[str, JointMethod] = registry.boxes if joint.kind == "box" else registry.joints
    for name, method in sorted(family.items()):
        if name == joint.method or joint.kind not in method.does or not method.cuts:
            continue
        if all(tools.makes(kind, method.machines.get(ACTIONS[kind], ())) for kind in method.cuts):
            yield name


def _check(subject: str, what: str, lacking: Sequence[Machine], others: Sequence[str]) -> Check:
    machines = " and ".join(f"a {machine.replace('-', ' ')}" for machine in lacking)
    cure = f", or one of the methods this shop can make: {', '.join(others)}" if others else ""
    message = f"No machine of the shop makes this cut ({what}). Use {machines}{cure}."
    return Check(subject, Finding("no-machine", "stop", message))
