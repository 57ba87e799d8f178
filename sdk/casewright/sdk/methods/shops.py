"""What a shop adds beside methods: its own defaults and its own checks."""

from abc import ABC, abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, ClassVar

from casewright.sdk.findings import Finding
from casewright.sdk.materials import Catalogue
from casewright.sdk.model.job import Job
from casewright.sdk.model.mounted import Mounted
from casewright.sdk.model.parts import Part
from casewright.sdk.model.plan import DoorLeaf, HardwareLine, Joint, Weight
from casewright.sdk.versions import SdkRange


@dataclass(frozen=True, slots=True)
class HouseStyle:
    """A shop's defaults, merged under every cabinet of a job that names it. `defaults` is job-document JSON.

    `sdk` says which versions of the SDK it was written for.
    """

    id: str
    title: str
    defaults: Mapping[str, Any]
    sdk: SdkRange = 2


@dataclass(frozen=True, slots=True)
class Design:
    """What a check of a shop's own may judge: the job, and all that is made and bought for it.

    Ids name parts and cabinets; lengths in nm. Cabinets of `job.cabinets` carry loads, methods and options.
    """

    job: Job
    parts: tuple[Part, ...]
    joints: tuple[Joint, ...]
    doors: tuple[DoorLeaf, ...]
    hardware: tuple[HardwareLine, ...]
    mounting: tuple[Mounted, ...]
    weights: tuple[Weight, ...]
    catalogue: Catalogue


class ExtraCheck(ABC):
    """A check of a shop's own over a finished design. `sdk` says which versions of the SDK it was written for."""

    id: ClassVar[str]
    title: ClassVar[str]
    sdk: ClassVar[SdkRange] = 2

    @abstractmethod
    def find(self, design: Design) -> tuple[tuple[str, Finding], ...]:
        """Return (subject, finding) pairs; a subject is an id of the design, or a JSON Pointer into the job. Pure."""
