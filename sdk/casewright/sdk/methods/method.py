"""What every method has, and how it refuses."""

from abc import ABC
from collections.abc import Mapping
from typing import ClassVar

from casewright.sdk.errors import Problem
from casewright.sdk.fields import OptionSchema
from casewright.sdk.model.operations import Action, Machine
from casewright.sdk.versions import SdkRange
from marshmallow import Schema


class CannotError(Exception):
    """Raised by a method that has no answer: the rule, what was got and what would do (a 422).

    `field` is the option at fault, if one is.
    """

    def __init__(self, rule: str, got: str, fix: str, field: str = "") -> None:
        super().__init__(f"{rule} (got {got}). {fix}")
        self.rule, self.got, self.fix, self.field = rule, got, fix, field

    def problem(self, pointer: str) -> Problem:
        """Return it as a problem at `pointer`."""
        return Problem(f"{pointer}/{self.field}" if self.field else pointer, self.rule, self.got, self.fix)


class Method(ABC):
    """What every method has.

    `id` is what a job picks it by, `options` a schema of the strict fields of `casewright.sdk.fields`, `sdk` the
    versions of the SDK it was written for: a breaking version, or a range such as `((2, 0), (3, 0))`. `machines` may
    advise, for an action, the machines to cut with, best first; the usual ones follow. The best that the shop has is
    taken, if it reaches. `supplies` are ids of hardware it asks for that no catalogue lists. `sources` are codes of the
    documents its numbers come from, for its page under `/docs`; a joint method that lists any cites no other.
    """

    id: ClassVar[str]
    title: ClassVar[str]
    options: ClassVar[type[Schema]] = OptionSchema
    sdk: ClassVar[SdkRange] = 2
    machines: ClassVar[Mapping[Action, tuple[Machine, ...]]] = {}
    supplies: ClassVar[frozenset[str]] = frozenset()
    sources: ClassVar[tuple[str, ...]] = ()
