"""The last few plans of a process, so that several views of one job are planned once.

A plan is looked up only by the fingerprint of the whole job, the software and every plugin, and by whether stock was
planned: never by part of a job. Nothing a client can notice hangs on it but the time an answer takes. Plans are frozen,
so requests share them as they are; the rows themselves are one tuple that is replaced, never changed, so threads need
no lock and a request broken off leaves no half-made state.
"""

from dataclasses import dataclass

from casewright.sdk.model import Plan

PARTS = 2_000
"""Parts that the plans kept may have in all; a plan of more is not kept."""

Key = tuple[str, bool]


@dataclass(frozen=True, slots=True)
class _Row:
    key: Key
    plan: Plan


class KeptPlans:
    """At most `most` plans, the one used longest ago left out first."""

    __slots__ = ("_most", "_rows")

    def __init__(self, most: int) -> None:
        self._most = most
        self._rows: tuple[_Row, ...] = ()

    def __len__(self) -> int:
        return len(self._rows)

    def find(self, key: Key) -> Plan | None:
        """Return the plan of a job's fingerprint, with stock or without, where it is kept."""
        rows = self._rows
        for row in rows:
            if row.key == key:
                if row is not rows[0]:
                    self._rows = (row, *(other for other in rows if other is not row))
                return row.plan
        return None

    def keep(self, key: Key, plan: Plan) -> None:
        """Keep a plan, and let go of the oldest as far as the limits ask."""
        room = PARTS - len(plan.parts)
        if not self._most or room < 0:
            return
        rows = [_Row(key, plan)]
        for row in self._rows:
            if row.key == key:
                continue
            room -= len(row.plan.parts)
            if len(rows) == self._most or room < 0:
                break
            rows.append(row)
        self._rows = tuple(rows)
