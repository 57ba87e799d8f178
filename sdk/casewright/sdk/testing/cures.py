"""The contract of what proposes cures: pure, patches that apply, and a cure found for each job that it is given."""

import json
from collections.abc import Mapping, Sequence
from typing import Any, ClassVar

from casewright.sdk.loader import Registry
from casewright.sdk.methods import Change, Choices, CureGenerator, Stop
from casewright.sdk.testing.service import client, planned, registry_with

MOST = 60
"""Changes that may be proposed for one stop: no more are tried for a whole job."""

SHOWN = 3
"""Changes of which it is said what comes of them, where none cures."""


class CureContract:
    """The contract of a generator of cures.

    `plugin` is the module (or object) with the hook; None for one that ships with casewright. `generator` is its id.
    `stopping` are job documents that each stop for one of its codes at least; each must get a cure that this generator
    proposed. None given, they are the generator's own.
    """

    plugin: ClassVar[object] = None
    generator: ClassVar[str]
    stopping: ClassVar[tuple[Mapping[str, Any], ...]] = ()

    @classmethod
    def registry(cls) -> Registry:
        """Return the built-ins and the plugin under test."""
        return registry_with(*([] if cls.plugin is None else [cls.plugin]))

    @classmethod
    def stops(cls, job: Mapping[str, Any], registry: Registry) -> list[Stop]:
        """Return the stops of a job that the generator is for. Fails where there is none."""
        generator = cls.under_test(registry)
        plan = planned(job, registry)
        choices = Choices(registry.catalogue, registry.joints, registry.boxes, registry.doors)
        checks = [check for check in plan.checks if check.level == "stop" and check.code in generator.codes]
        assert checks, f"the job {job.get('title', '')!r} stops for none of: {', '.join(sorted(generator.codes))}"
        return [Stop(check, plan, job, choices) for check in checks]

    @classmethod
    def under_test(cls, registry: Registry) -> CureGenerator:
        """Return the generator. Fails where the plugin registers none of that id."""
        assert cls.generator in registry.cures, f"the plugin registers no {cls.generator!r}"
        return registry.cures[cls.generator]

    @classmethod
    def jobs(cls, registry: Registry) -> tuple[Mapping[str, Any], ...]:
        """Return the jobs that stop. Fails where there are none: nothing would be tried."""
        jobs = cls.stopping or cls.under_test(registry).stopping
        assert jobs, f"{cls.generator} names no job in `stopping`: give one at least that stops for its codes"
        return jobs

    def test_changes_are_the_same_every_time_and_few(self) -> None:
        """Asked twice it proposes the same changes, each with words, and no more than are tried."""
        registry = self.registry()
        generator = self.under_test(registry)
        for job in self.jobs(registry):
            for stop in self.stops(job, registry):
                first, again = tuple(generator.changes(stop)), tuple(generator.changes(stop))
                assert first == again, f"{stop.check.code}: asked twice, it proposed different changes"
                assert len(first) <= MOST, f"{stop.check.code}: {len(first)} changes; at most {MOST} are tried"
                for change in first:
                    assert isinstance(change, Change)
                    assert change.words, f"{stop.check.code}: a change without words"

    def test_every_job_gets_a_cure_of_its_own(self) -> None:
        """The service answers, and one stop of each job at least is cured by a change that this generator proposed."""
        registry = self.registry()
        generator = self.under_test(registry)
        service = client(registry)
        for job in self.jobs(registry):
            proposed = {
                stop.check.subject: [list(change.patch) for change in generator.changes(stop)]
                for stop in self.stops(job, registry)
            }
            answer = service.post("/v1/cures", json=job)
            assert answer.status_code == 200, answer.get_json()
            rows = [row for row in answer.get_json()["cures"] if row["check"]["code"] in generator.codes]
            own = [
                cure["patch"]
                for row in rows
                for cure in row["cures"]
                if cure["patch"] in proposed.get(row["check"]["subject"], [])
            ]
            assert own, _why_not(service, job, rows, proposed)

    def test_every_cure_clears_its_stop_when_it_is_applied(self) -> None:
        """Each cure that is answered, planned anew by itself, is without the stop it is for and without a new one."""
        registry = self.registry()
        service = client(registry)
        for job in self.jobs(registry):
            for row in service.post("/v1/cures", json=job).get_json()["cures"]:
                for cure in row["cures"]:
                    assert_cures(service, job, row["check"], cure["patch"])


def _why_not(
    service: Any, job: Mapping[str, Any], rows: Sequence[Mapping[str, Any]], proposed: Mapping[str, list[Any]]
) -> str:
    """Return in words what comes of the changes that were proposed for the first stop that none of them cured."""
    if not rows:
        return "the service answers no stop of its codes"
    check = rows[0]["check"]
    head = f"no change it proposed cures {check['code']} of {check['subject']!r}"
    patches = proposed.get(check["subject"], [])
    if not patches:
        return f"{head}: it proposed none"
    body = {"job": job, "changes": [{"name": f"{n}", "patch": patch} for n, patch in enumerate(patches[:SHOWN], 1)]}
    outcomes = []
    for patch, change in zip(patches, service.post("/v1/compare", json=body).get_json()["changes"], strict=False):
        if change["planned"]:
            gone = [(one["code"], one["subject"]) for one in change["differences"]["checks"]["gone"]]
            cleared = (check["code"], check["subject"]) in gone
            why = "clears it, but another stop is new or a better cure was found" if cleared else "leaves it standing"
        else:
            why = "; ".join(f"{one['pointer']}: {one['rule']}. {one['fix']}" for one in change["errors"][:1])
        outcomes.append(f"{json.dumps(patch)} {why}")
    return f"{head}: {' | '.join(outcomes)}"


def assert_cures(service: Any, job: Mapping[str, Any], check: Mapping[str, Any], patch: list[Any]) -> None:
    """Assert, by a comparison over HTTP, that a patch clears a stop of a job and adds none."""
    body = {"job": job, "changes": [{"name": "cure", "patch": patch}]}
    (change,) = service.post("/v1/compare", json=body).get_json()["changes"]
    assert change["planned"], change["errors"]
    checks = change["differences"]["checks"]
    gone = [(one["code"], one["subject"]) for one in checks["gone"]]
    gone += [(one["code"], one["subject"]) for one in checks["level"] if one["was"] == "stop"]
    assert (check["code"], check["subject"]) in gone, (check, patch)
    new = [one for one in checks["new"] if one["level"] == "stop"]
    new += [one for one in checks["level"] if one["now"] == "stop"]
    assert not new, (check, patch, new)
