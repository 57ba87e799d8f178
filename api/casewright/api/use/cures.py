"""Cures: for each stop of a job's plan, changes of the job that were planned and clear it.

Generators propose changes of the job document; each is planned, and is a cure where its stop is gone and no stop is
new. Cabinets made alike that stop alike are first changed all at once. A change is tried once for all stops; one tried
for another cures a stop that has no cure of its own. Where each leaves another stop at the same place, or brings one,
the nearest is tried again with what then clears that one, both as one change. Stops take turns, so that the tries a job
is allowed (`limits.CURE_TRIES`, fewer for a job of many parts) are shared; a stop that has enough cures asks no more. A
stop that a draft shows is tried by drafts, and what clears it there is planned as a whole before it counts. Nothing but
counts decides, so the same job gives the same cures.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import islice
from typing import Any

import orjson
from casewright.api.engine import PlanCache, Progress
from casewright.api.job import limits
from casewright.api.job.json_patch import with_patch
from casewright.api.stock import no_progress
from casewright.api.use.alike import Alike, alike_of
from casewright.api.use.cure_figures import Key, cure_of, key_of, keys_of, rank, stops_left, stops_of
from casewright.api.use.job_input import JobInput
from casewright.api.use.loading import installed
from casewright.api.use.planning import Planner
from casewright.api.use.proposals import proposals
from casewright.api.wire.cures_document import write_cures
from casewright.sdk.errors import PluginFaultError, ProblemsError
from casewright.sdk.loader import Registry
from casewright.sdk.methods import Change, Choices, CureGenerator, Stop
from casewright.sdk.model import Check, Plan
from casewright.sdk.model.cures import Cures, StopCures

ENOUGH = limits.CURES + 1
"""Cures found for a stop after which nothing more is tried for it; the smallest of them are kept."""

TOGETHER = 8
"""Changes tried at most for stops of cabinets that are alike, each made to all of them."""

FOLLOWING, FOLLOWING_LAST = 6, 12
"""Changes tried at most after another that clears a stop and leaves or brings one, both as one change.

The second where nothing else clears the stop: without one it has no cure.
"""

NO_GENERATOR = "No change is known that clears a stop of this kind."
NOTHING_PROPOSED = "Nothing that was weighed for this stop promised to clear it."
OUT_OF_TRIES = "The tries of this job were used up before one was made for this stop."


def cures_document(planner: Planner, job: JobInput, progress: Progress = no_progress) -> dict[str, Any]:
    """Return the cures of a job as JSON values. Raises as `find_cures` does."""
    cures = find_cures(planner, job, progress)
    return write_cures(cures, job.read(), planner.made_by, job.fingerprint)


def cures_of_job(job: Mapping[str, Any] | bytes | str, registry: Registry | None = None) -> dict[str, Any]:
    """Return the cures of a job given as JSON values or text, as JSON values."""
    planner = Planner(installed() if registry is None else registry)
    return cures_document(planner, JobInput.given(job, planner.registry))


def stop_cures(planner: Planner, job: JobInput, plan: Plan, progress: Progress = no_progress) -> tuple[StopCures, ...]:
    """Return the cures of a plan that is made, for its papers; none where it has no stops or a generator fails."""
    if not stops_of(plan):
        return ()
    try:
        return find_cures(planner, job, progress, plan=plan).stops
    except PluginFaultError:
        return ()


def find_cures(planner: Planner, job: JobInput, progress: Progress = no_progress, *, plan: Plan | None = None) -> Cures:
    """Return each stop of a job's plan with its cures, in the order of the checks; `plan` is that plan, if it is made.

    `progress` is told how many changes are tried. Raises what planning the job itself raises, and `PluginFaultError`
    for a generator that fails.
    """
    return _Search(planner, job, progress, plan).cures()


def tries_of(parts: int) -> int:
    """Return how many changes may be tried for a job of so many parts."""
    return min(limits.CURE_TRIES, max(1, limits.CURE_PARTS // max(1, parts)))


@dataclass
class _Row:
    """One stop by its key: what is still to be tried for it, what was, and the changes that clear it.

    `nearest` clears it too and adds other stops, so many, as few as any that was tried.
    """

    check: Check
    key: Key
    proposals: Iterator[Change]
    tried: set[bytes] = field(default_factory=set)
    cleared: dict[bytes, Change] = field(default_factory=dict)
    nearest: tuple[int, Change] | None = None
    done: bool = False


class _Search:
    def __init__(self, planner: Planner, job: JobInput, progress: Progress, plan: Plan | None) -> None:
        self.planner, self.job, self.progress = planner, job, progress
        self.cache = PlanCache()
        self.plans: dict[bytes, Plan | None] = {}
        self.drafts: dict[bytes, frozenset[Key] | None] = {}
        self.changes: dict[bytes, Change] = {}
        self.base = planner.plan(job, cache=self.cache) if plan is None else plan
        self.most = tries_of(len(self.base.parts))
        self.before = keys_of(self.base)
        self.before_draft = keys_of(planner.draft(job, self.cache))
        self.registry = registry = planner.registry
        self.choices = Choices(registry.catalogue, registry.joints, registry.boxes, registry.doors)

    def cures(self) -> Cures:
        """Try changes for every stop in turn, then rank what clears each."""
        stops = [Stop(check, self.base, self.job.document, self.choices) for check in stops_of(self.base)]
        rows = [_Row(stop.check, key_of(self.base, stop.check), proposals(self.registry, stop)) for stop in stops]
        self.progress("cures", 0, self.most)
        for alike in alike_of(stops):
            self._try_together(alike, [row for row in rows if row.check in alike.checks])
        while any(not row.done for row in rows):
            for row in rows:
                self._turn(row)
        for row in rows:
            if not row.cleared:
                row.cleared = {name: change for name, change in self.changes.items() if self._is_cure(row.key, name)}
        for row in rows:
            if all(self._left(row, name) for name in row.cleared):
                self._try_following(row)
        return Cures(tuple(self._answer(row) for row in rows), len(self.changes), self.most)

    def _try_together(self, alike: Alike, rows: Sequence[_Row]) -> None:
        """Try changes of cabinets that are alike, each made to all of them; rows that one clears ask no more."""
        key = rows[0].key
        for change in islice(alike.together(proposals(self.registry, alike.first)), TOGETHER):
            name = orjson.dumps(change.patch)
            if not self._counted(change, name):
                return
            for row in rows:
                row.tried.add(name)
            if self._clears(key, change, name) and all(self._is_cure(row.key, name) for row in rows):
                for row in rows:
                    row.cleared[name] = change
                    row.done = True
            if len(rows[0].cleared) >= ENOUGH:
                return

    def _counted(self, change: Change, name: bytes) -> bool:
        """Return whether a change may be tried: it was already, or there are tries left, of which it takes one."""
        if name not in self.changes:
            if len(self.changes) >= self.most:
                return False
            self.changes[name] = change
            self.progress("cures", len(self.changes), self.most)
        return True

    def _turn(self, row: _Row) -> None:
        """Try the next change for one stop; what was tried for another costs no try of the job's."""
        change = None if row.done or len(row.cleared) >= ENOUGH else next(row.proposals, None)
        if change is None:
            row.done = True
            return
        name = orjson.dumps(change.patch)
        if not change.patch or name in row.tried:
            return
        if not self._counted(change, name):
            return
        row.tried.add(name)
        if self._clears(row.key, change, name):
            row.cleared[name] = change
        elif added := self._added(row.key, name):
            row.nearest = min(row.nearest or (added, change), (added, change), key=lambda one: one[0])

    def _try_following(self, row: _Row) -> None:
        """Try a change that nearly serves a stop with what clears the stop it leaves or brings, both as one change."""
        begun = [(change, self._left(row, name)) for name, change in row.cleared.items()]
        begun.sort(key=lambda one: (not one[0].keeps, len(one[1])))
        if row.nearest is not None:
            begun.append((row.nearest[1], self._brought(row.nearest[1])))
        for change, then in begun[:2]:
            if then and self._follow(row, change, then[0]):
                return

    def _follow(self, row: _Row, change: Change, then: Check) -> bool:
        """Try a change with others that may clear a stop it leaves or brings; return whether to try no more."""
        plan = self._plan(change, orjson.dumps(change.patch))
        if plan is None:
            return False
        stop = Stop(then, plan, self._changed(change).document, self.choices)
        most = FOLLOWING if row.cleared else FOLLOWING_LAST
        for more in islice(proposals(self.registry, stop), most):
            words, patch = f"{change.words}; and {more.words}", (*change.patch, *more.patch)
            both, name = Change(words, patch, change.keeps and more.keeps), orjson.dumps(patch)
            if not more.patch or len(patch) > limits.PATCH_OPERATIONS or name in row.tried:
                continue
            if not self._counted(both, name):
                return True
            row.tried.add(name)
            if self._clears(row.key, both, name) and not self._left(row, name):
                row.cleared[name] = both
                return True
        return False

    def _added(self, key: Key, name: bytes) -> int:
        """Return how many stops a change that was tried adds as it clears one; 0 where it does not clear that."""
        plan, drafted = self.plans.get(name), self.drafts.get(name)
        keys = keys_of(plan) if plan is not None else drafted
        return 0 if keys is None or key in keys else len(keys - (self.before if plan else self.before_draft))

    def _brought(self, change: Change) -> tuple[Check, ...]:
        """Return the stops that a change brings."""
        plan = self._plan(change, orjson.dumps(change.patch))
        return () if plan is None else tuple(one for one in stops_of(plan) if key_of(plan, one) not in self.before)

    def _left(self, row: _Row, name: bytes) -> tuple[Check, ...]:
        """Return the stops that are left of what a row is about, a change of it made."""
        plan = self.plans[name]
        return () if plan is None else stops_left(plan, row.key)

    def _clears(self, key: Key, change: Change, name: bytes) -> bool:
        """Return whether a change leaves a stop out and adds none."""
        if key in self.before_draft:
            stops = self._draft(change, name)
            if stops is None or key in stops or not stops <= self.before_draft:
                return False
        self._plan(change, name)
        return self._is_cure(key, name)

    def _is_cure(self, key: Key, name: bytes) -> bool:
        """Return whether a change was planned, and its plan leaves a stop out and has none that is new."""
        plan = self.plans.get(name)
        return plan is not None and key not in keys_of(plan) and keys_of(plan) <= self.before

    def _answer(self, row: _Row) -> StopCures:
        cures = [
            cure_of(change, row.key, self.base, plan)
            for name, change in row.cleared.items()
            if (plan := self.plans[name])
        ]
        ranked = tuple(sorted(cures, key=rank)[: limits.CURES])
        return StopCures(row.check, len(row.tried), ranked, "" if ranked else self._why_none(row))

    def _why_none(self, row: _Row) -> str:
        code = row.check.code
        why = " ".join(one.why_none[code] for one in self._generators() if code in one.why_none)
        if row.tried:
            count = len(row.tried)
            none = (
                f"None of {count} changes tried clears this." if count > 1 else "The change tried does not clear this."
            )
            if row.nearest is None:
                return f"{none} {why}".rstrip()
            change = row.nearest[1]
            brought = self._brought(change)
            then = f"Nearest: {change.words}; that clears it, but then: {brought[0].message}" if brought else ""
            return " ".join(filter(None, (none, then, why)))
        known = any(code in one.codes for one in self._generators())
        if why or not known:
            return why or NO_GENERATOR
        return OUT_OF_TRIES if len(self.changes) >= self.most else NOTHING_PROPOSED

    def _generators(self) -> tuple[CureGenerator, ...]:
        return tuple(self.registry.cures.values())

    def _changed(self, change: Change) -> JobInput:
        return replace(self.job, document=with_patch(self.job.document, change.patch))

    def _draft(self, change: Change, name: bytes) -> frozenset[Key] | None:
        """Return the stops of the job as changed that a draft shows, `None` where it cannot be planned."""
        if name not in self.drafts:
            try:
                self.drafts[name] = keys_of(self.planner.draft(self._changed(change), self.cache))
            except (ProblemsError, PluginFaultError):
                self.drafts[name] = None
        return self.drafts[name]

    def _plan(self, change: Change, name: bytes) -> Plan | None:
        """Return the plan of the job as changed, `None` where it cannot be planned."""
        if name not in self.plans:
            try:
                self.plans[name] = self.planner.plan(self._changed(change), cache=self.cache)
            except (ProblemsError, PluginFaultError):
                self.plans[name] = None
        return self.plans[name]
