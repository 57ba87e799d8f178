"""The outside volume of a question's cabinets at any place of its ranges, without reading the job there."""

from __future__ import annotations

from collections.abc import Mapping
from math import prod
from typing import Any

from casewright.api.job.ranges import SIZES, PileQuestion
from casewright.api.use.pile_search import Point
from casewright.sdk.model import Job
from casewright.sdk.units import NM_PER_UNIT

__all__ = ["Outlines"]

KEYS = (*sorted(SIZES), "count")
"""What the volume of cabinets is the product of."""


class Outlines:
    """Widths, heights, depths and counts of cabinets; `job` is the one of the least sizes."""

    def __init__(self, question: PileQuestion, job: Job) -> None:
        per = NM_PER_UNIT[job.units]
        places = {one.path: at for at, one in enumerate(question.ranges)}
        self.values = [
            tuple([round(value * per) if one.path[-1] in SIZES else int(value) for value in one.values])
            for one in question.ranges
        ]
        self.cabinets: list[list[tuple[int, int | None]]] = []
        for i, cabinet in enumerate(job.cabinets):
            own: Mapping[str, Any] = question.document["cabinets"][i]
            row = []
            for key in KEYS:
                shared = None if key in own else places.get(("house", key))
                row.append((getattr(cabinet, key), places.get(("cabinets", i, key), shared)))
            self.cabinets.append(row)

    def volume(self, point: Point) -> int:
        """Return the outside volume of all cabinets at a place in cubic nanometres."""
        return sum(
            prod(least if at is None else self.values[at][point[at]] for least, at in row) for row in self.cabinets
        )
