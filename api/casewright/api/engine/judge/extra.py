"""A shop's own checks over finished parts, as plugins register them."""

from casewright.api.engine.construction.allowance import answer_of
from casewright.sdk.errors import PluginFaultError
from casewright.sdk.loader import Registry
from casewright.sdk.model import Check, Finding, Part


def extra_checks(registry: Registry, parts: tuple[Part, ...]) -> tuple[Check, ...]:
    """Ask every registered check, by id, what it finds. Raises `PluginFaultError` for a faulty one."""
    found: list[Check] = []
    for check_id, check in registry.checks.items():
        owner = registry.owner("checks", check_id)
        try:
            answer = answer_of(registry, "checks", check_id, lambda check=check: tuple(check.find(parts)))  # type: ignore[misc]
        except PluginFaultError:
            raise
        except Exception as error:  # whatever a plugin raises is its fault, by name
            raise PluginFaultError(owner, check_id, f"raised {type(error).__name__}: {error}") from error
        found += [_check(owner, check_id, row) for row in answer]
    return tuple(found)


def _check(owner: str, check_id: str, row: object) -> Check:
    if not (isinstance(row, tuple) and len(row) == 2 and isinstance(row[0], str) and isinstance(row[1], Finding)):
        raise PluginFaultError(owner, check_id, f"answered {row!r}, which is not a subject and a Finding")
    subject, finding = row
    if finding.level not in ("stop", "caution", "note"):
        raise PluginFaultError(owner, check_id, f"finding {finding.code!r} has the level {finding.level!r}")
    return Check(subject, finding)
