"""What is found about a job, and about what it is found: findings by methods and checks, levels and units."""

from dataclasses import dataclass
from typing import Literal

__all__ = ["LENGTH", "Check", "Finding", "Level", "Measured"]

Level = Literal["stop", "caution", "note"]
Measured = float | int | str | None
"""A value of a finding: a quantity in the finding's unit, a word, or nothing."""

LENGTH = "length"
"""Unit of a finding's value that is a length in nm; answers give it in job units."""


@dataclass(frozen=True, slots=True)
class Finding:
    """What a method or check found; the engine names the subject.

    `unit` `"length"` marks nm; other quantities are in SI units, which answers give in the units of the job.
    """

    code: str
    level: Level
    message: str
    value: Measured = None
    limit: Measured = None
    unit: str = ""
    source: str = ""


@dataclass(frozen=True, slots=True)
class Check:
    """A finding about a subject: a part, joint or cabinet id, or a JSON Pointer into the job."""

    subject: str
    finding: Finding

    @property
    def code(self) -> str:
        """The finding's code."""
        return self.finding.code

    @property
    def level(self) -> Level:
        """The finding's level."""
        return self.finding.level

    @property
    def message(self) -> str:
        """The finding in words, in the job's units."""
        return self.finding.message

    @property
    def value(self) -> Measured:
        """What was found, in the finding's unit."""
        return self.finding.value

    @property
    def limit(self) -> Measured:
        """What it is held against, in the finding's unit."""
        return self.finding.limit

    @property
    def unit(self) -> str:
        """The unit of value and limit; `"length"` marks nm."""
        return self.finding.unit

    @property
    def source(self) -> str:
        """The code of the source the limit comes from."""
        return self.finding.source
