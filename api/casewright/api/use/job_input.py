"""A job as it is handed in, from JSON or from a table, and how it is read."""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from casewright.api.job.cells import JobTable
from casewright.api.job.document import read_job
from casewright.api.job.marks import GUESSED, Marks
from casewright.api.job.strict_json import read_json
from casewright.api.job.table import read_table
from casewright.api.use.given import json_values
from casewright.api.wire.made_by import fingerprint
from casewright.sdk.errors import ProblemsError
from casewright.sdk.loader import Registry
from casewright.sdk.model import Job


@dataclass(frozen=True)
class JobInput:
    """JSON values that are to be read as a job with a registry, and the table they stand for if they came as one."""

    document: Any
    registry: Registry
    table: JobTable | None = None

    @classmethod
    def from_json(cls, body: bytes, registry: Registry) -> "JobInput":
        """Return the job that JSON text holds. Raises `BadDocumentError`, `UnusableJobError`."""
        return cls(read_json(body), registry)

    @classmethod
    def given(cls, job: Mapping[str, Any] | bytes | str, registry: Registry) -> "JobInput":
        """Return a job given as JSON values, or as JSON text. Raises as `from_json` does."""
        if isinstance(job, str):
            job = job.encode("utf-8", "surrogatepass")
        return cls.from_json(job, registry) if isinstance(job, bytes) else cls(json_values(job), registry)

    @classmethod
    def from_table(cls, body: bytes, registry: Registry, marks: Marks = GUESSED) -> "JobInput":
        """Return the job that CSV text stands for. Raises `BadDocumentError`, of all its faults where it has any."""
        table = read_table(body, registry, marks)
        if not table.problems:
            return cls(table.document, registry, table)
        try:
            read_job(table.document, registry)
        except ProblemsError as error:
            raise table.refuse(error) from error
        raise table.refuse(None)

    @property
    def marks(self) -> Marks:
        """The marks of the table that the job came as, which its answers are written with; none of JSON."""
        return GUESSED if self.table is None else self.table.marks

    @cached_property
    def fingerprint(self) -> str:
        """The SHA-256 of the document, the software and the plugins."""
        return fingerprint(self.document, self.registry)

    def read(self) -> Job:
        """Return the job read. Raises `BadDocumentError`, `UnusableJobError`, `PluginFaultError`."""
        with self.in_cells():
            return read_job(self.document, self.registry)

    @contextmanager
    def in_cells(self) -> Iterator[None]:
        """Let problems raised inside name the table's cells, where the job came as a table."""
        try:
            yield
        except ProblemsError as error:
            if self.table is None:
                raise
            raise self.table.explain(error) from error
