"""The small tree of errors: a bad request, a design without geometry, a faulty plugin.

Problems carry their parts as fields (`pointer`, `rule`, `got`, `fix`); answers are built from the fields,
never by reading message text.
"""

from dataclasses import dataclass, replace
from typing import Self


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong in a job: where (JSON Pointer), the rule, what was got and what to do."""

    pointer: str
    rule: str
    got: str
    fix: str

    def under(self, prefix: str) -> Self:
        """Return the same problem with `prefix` put before its pointer."""
        return replace(self, pointer=prefix + self.pointer)

    def as_dict(self) -> dict[str, str | int]:
        """Return the problem as an entry of `errors` in an answer."""
        return {"pointer": self.pointer, "rule": self.rule, "got": self.got, "fix": self.fix}


def pointer_to(*steps: str | int) -> str:
    """Return the JSON Pointer (RFC 6901) that the steps make: keys of objects and places in arrays."""
    return "".join("/" + str(step).replace("~", "~0").replace("/", "~1") for step in steps)


def steps_of(pointer: str) -> tuple[str, ...]:
    """Return the steps of a JSON Pointer (RFC 6901), places in arrays as text too."""
    return tuple(step.replace("~1", "/").replace("~0", "~") for step in pointer.split("/")[1:])


class CasewrightError(Exception):
    """Base of every error raised on purpose."""


class ProblemsError(CasewrightError):
    """An error made of one or more problems."""

    def __init__(self, *problems: Problem) -> None:
        super().__init__("; ".join(f"{p.pointer}: {p.rule} (got {p.got}). {p.fix}" for p in problems))
        self.problems = problems

    def __reduce__(self) -> tuple[type[Self], tuple[Problem, ...]]:
        """Let it cross from one process to another."""
        return type(self), self.problems


class BadDocumentError(ProblemsError):
    """The document does not match the schema (answered with 400)."""


class UnusableJobError(ProblemsError):
    """The document matches the schema but breaks a rule that no schema can state (answered with 422).

    A material that is not listed, places that do not number `count`, a length beyond its bounds in job units.
    """


class NoGeometryError(ProblemsError):
    """The document reads well but has no geometry at all (answered with 422)."""


class PluginFaultError(CasewrightError):
    """A plugin raised or answered something that cannot be used; names the plugin, the method and where it stands.

    `at` is file and line of the plugin's own code, empty where it has none.
    """

    def __init__(self, plugin: str, method: str, fault: str, at: str = "") -> None:
        self._given = (plugin, method, fault, at)
        self.plugin = plugin
        self.method = method
        self.fault = f"{fault} ({at})" if at else fault
        self.at = at
        super().__init__(f"plugin {plugin}, method {method}: {self.fault}")

    def __reduce__(self) -> tuple[type[Self], tuple[str, ...]]:
        """Let it cross from one process to another."""
        return type(self), self._given


class RefusedStartError(CasewrightError):
    """The service will not start: a built-in or a required plugin failed, or a setting cannot be used."""
