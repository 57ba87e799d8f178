"""Cures: a plan that says stop in, changes of its job that may clear the stop out, each to be tried by planning."""

from abc import ABC, abstractmethod
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any, ClassVar

from casewright.sdk.findings import Check
from casewright.sdk.materials import Catalogue
from casewright.sdk.methods.doors import DoorStyle
from casewright.sdk.methods.joints import JointMethod
from casewright.sdk.model.cabinet import Cabinet
from casewright.sdk.model.plan import Plan
from casewright.sdk.patching import Patch
from casewright.sdk.versions import SdkRange
from casewright.sdk.writer import Writer, writer


@dataclass(frozen=True, slots=True)
class Choices:
    """What a job may pick from: the catalogue, and methods by id."""

    catalogue: Catalogue
    joints: Mapping[str, JointMethod]
    boxes: Mapping[str, JointMethod]
    doors: Mapping[str, DoorStyle]


@dataclass(frozen=True)
class Stop:
    """A check that says stop, with the plan it is of and the job document as it came.

    `check.subject` is a part, joint or cabinet id, or a JSON Pointer into the job.
    """

    check: Check
    plan: Plan
    document: Mapping[str, Any]
    choices: Choices

    @property
    def write(self) -> Writer:
        """What writes quantities in words, in the job's units."""
        return writer(self.plan.job.units)

    @cached_property
    def cabinet(self) -> Cabinet | None:
        """The cabinet that the check is about, where it is about one."""
        steps = self.check.subject.split("/")
        cabinets = self.plan.job.cabinets
        if steps[0]:
            return next((one for one in cabinets if one.id == steps[0]), None)
        if steps[1:2] == ["cabinets"] and steps[2:]:
            return next((one for one in cabinets if one.pointer == "/".join(steps[:3])), None)
        if steps[1:3] == ["wall", "cabinets_at"] and steps[3:]:
            return next((one for one in cabinets if one.id == steps[3]), None)
        return None

    @property
    def spot(self) -> int | None:
        """The number of the place on the wall that the check is about, from 0, where it is about one."""
        steps = self.check.subject.split("/")
        placed = steps[1:3] == ["wall", "cabinets_at"] and len(steps) > 4 and steps[4].isdecimal()
        return int(steps[4]) if placed else None

    def at(self, *steps: str | int) -> tuple[str | int, ...]:
        """Return a place inside the cabinet that the check is about, as steps from the top of the job document."""
        cabinet = self.cabinet
        assert cabinet is not None
        return ("cabinets", int(cabinet.pointer.rpartition("/")[2]), *steps)


@dataclass(frozen=True, slots=True)
class Change:
    """A change to try: what it does in words, and its patch on the job document (RFC 6902).

    `keeps` is false where it gives up something that the job asks for: a load, an outside size, a front.
    """

    words: str
    patch: Patch
    keeps: bool = True


class CureGenerator(ABC):
    """Proposes changes that may clear the stops of its codes, the smallest first.

    `codes` are those it proposes changes for. `why_none` names codes for which no change of the job would be honest,
    such as a fact to be found out, each with what to do instead. `stopping` are job documents that each stop for one of
    its codes at least: the contract, and `plugin check`, ask it for a cure of each.
    """

    id: ClassVar[str]
    title: ClassVar[str]
    codes: ClassVar[frozenset[str]]
    sdk: ClassVar[SdkRange] = 2
    why_none: ClassVar[Mapping[str, str]] = {}
    stopping: ClassVar[tuple[Mapping[str, Any], ...]] = ()

    @abstractmethod
    def changes(self, stop: Stop) -> Iterable[Change]:
        """Return, or yield one by one, changes to try. Pure; as few as can be, for tries of a job are counted.

        One of more operations than a patch may have (`patch_operations` of the limits) is passed over.
        """
