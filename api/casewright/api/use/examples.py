"""The example jobs that ship with casewright."""

import json
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from typing import Any

FIRST = "repair-bay"
"""The example that a reader meets first; the others follow by name."""


@dataclass(frozen=True, slots=True)
class Example:
    """An example job: its name and its JSON text."""

    name: str
    text: str

    def job(self) -> dict[str, Any]:
        """Return the job document, anew each time."""
        document: dict[str, Any] = json.loads(self.text)
        return document


@lru_cache(maxsize=1)
def examples() -> tuple[Example, ...]:
    """Return every example, the first to read first."""
    texts = [f for f in files("casewright.openapi").joinpath("examples").iterdir() if f.name.endswith(".json")]
    every = [Example(f.name.removesuffix(".json"), f.read_text("utf-8")) for f in texts]
    return tuple(sorted(every, key=lambda example: (example.name != FIRST, example.name)))


def example_job() -> dict[str, Any]:
    """Return the job document of the first example."""
    return examples()[0].job()
