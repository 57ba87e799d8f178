"""A shop's own checks over finished parts, as plugins register them.

No job names a check: one that fails breaks no job. It is said in the plan, by name, as a caution.
"""

from casewright.api.engine.construction.allowance import answer_of
from casewright.api.engine.construction.answer_rules import LEVELS
from casewright.sdk.errors import PluginFaultError
from casewright.sdk.loader import Registry
from casewright.sdk.methods import Design
from casewright.sdk.model import Check, Finding

CODE = "check-failed"


def extra_checks(registry: Registry, design: Design) -> tuple[Check, ...]:
    """Ask every registered check, by id, what it finds; of one that fails, a caution that it does."""
    checks: list[Check] = []
    for check_id in registry.checks:
        try:
            checks += _checks(registry, check_id, design)
        except PluginFaultError as error:
            message = f"The check {check_id} of plugin {error.plugin} did not judge this plan: it {error.fault}."
            checks.append(Check("", Finding(CODE, "caution", message)))
    return tuple(checks)


def _checks(registry: Registry, check_id: str, design: Design) -> list[Check]:
    """Return what one check finds. Raises `PluginFaultError`."""
    owner, check = registry.owner("checks", check_id), registry.checks[check_id]
    rows = answer_of(registry, "checks", check_id, lambda: tuple(check.find(design)))
    for row in rows:
        fault = _fault(row)
        if fault:
            raise PluginFaultError(owner, check_id, fault, registry.answers_at("checks", check_id))
    return [Check(*row) for row in rows]


def _fault(row: object) -> str:
    if not (isinstance(row, tuple) and len(row) == 2 and isinstance(row[0], str) and isinstance(row[1], Finding)):
        return f"answered {row!r}, which is not a subject and a Finding"
    finding = row[1]
    if finding.level not in LEVELS:
        return f"answered the finding {finding.code!r} with the level {finding.level!r}; levels are {', '.join(LEVELS)}"
    if not isinstance(finding.message, str) or not finding.message or not finding.code:
        return "answered a finding without code or message"
    return ""
