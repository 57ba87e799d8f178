"""Stops of one kind on cabinets that are alike, so that one change may be made to all of these cabinets at once."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import orjson
from casewright.api.job import limits
from casewright.sdk.methods import Change, Stop
from casewright.sdk.model import Check
from casewright.sdk.patching import at_path

__all__ = ["Alike", "alike_of"]

OWN = frozenset({"id", "title", "count"})
"""What tells cabinets apart that are made alike."""


@dataclass(frozen=True, slots=True)
class Alike:
    """Stops of one code on cabinets that are made alike; `first` is the stop that changes are proposed for."""

    first: Stop
    checks: tuple[Check, ...]
    cabinets: tuple[int, ...]

    def together(self, changes: Iterable[Change]) -> Iterator[Change]:
        """Yield each change of the first stop's cabinet alone as one that is made to every cabinet."""
        assert self.first.cabinet is not None
        own = f"{self.first.cabinet.pointer}/"
        for change in changes:
            if not all(one["path"].startswith(own) and "from" not in one for one in change.patch):
                continue
            patch = tuple(
                [
                    {**one, "path": f"/cabinets/{number}/{one['path'].removeprefix(own)}"}
                    for number in self.cabinets
                    for one in change.patch
                ]
            )
            if len(patch) <= limits.PATCH_OPERATIONS:
                yield Change(f"{change.words}; so in all {len(self.cabinets)} cabinets alike", patch, change.keeps)


def alike_of(stops: Sequence[Stop]) -> tuple[Alike, ...]:
    """Return the stops that several cabinets alike have, in the order of the first of each; others are left out."""
    alike: dict[tuple[str, bytes], list[tuple[Stop, int]]] = {}
    for stop in stops:
        number = _number(stop)
        if number is not None:
            alike.setdefault((stop.check.code, _made(stop.document, number)), []).append((stop, number))
    rows = []
    for each in alike.values():
        numbers = tuple(dict.fromkeys(number for _, number in each))
        if len(numbers) > 1:
            rows.append(Alike(each[0][0], tuple([stop.check for stop, _ in each]), numbers))
    return tuple(rows)


def _number(stop: Stop) -> int | None:
    """Return the number of a stop's cabinet in the job document."""
    match stop.cabinet.pointer.split("/") if stop.cabinet else []:
        case ["", "cabinets", number] if number.isdigit():
            return int(number)
    return None


def _made(document: Any, number: int) -> bytes:
    """Return how a cabinet of a document is made, as bytes that are the same for those made alike."""
    cabinet = at_path(document, ("cabinets", number))
    values: Mapping[str, Any] = cabinet if isinstance(cabinet, dict) else {}
    made = {key: value for key, value in values.items() if key not in OWN}
    return orjson.dumps(made, option=orjson.OPT_SORT_KEYS)
