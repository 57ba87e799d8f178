"""What a shop adds beside methods: its own defaults and its own checks."""

from abc import ABC, abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, ClassVar

from casewright.sdk.findings import Finding
from casewright.sdk.model.parts import Part


@dataclass(frozen=True, slots=True)
class HouseStyle:
    """A shop's defaults, merged under every cabinet of a job that names it. `defaults` is job-document JSON."""

    id: str
    title: str
    defaults: Mapping[str, Any]


class ExtraCheck(ABC):
    """A check of a shop's own over finished parts."""

    id: ClassVar[str]
    title: ClassVar[str]

    @abstractmethod
    def find(self, parts: tuple[Part, ...]) -> tuple[tuple[str, Finding], ...]:
        """Return (subject, finding) pairs over the plan's parts (`model.Part`). Pure."""
