"""Lighter contracts: door styles, mountings and house styles, each tried in generated jobs by the real planner."""

import json
import re
from collections.abc import Iterator, Mapping
from contextlib import suppress
from copy import deepcopy
from dataclasses import replace
from typing import Any, ClassVar

from casewright.sdk.errors import NoGeometryError, PluginFaultError, ProblemsError
from casewright.sdk.loader import Registry
from casewright.sdk.methods import HouseStyle
from casewright.sdk.model import Plan
from casewright.sdk.testing.contract import MethodContract
from casewright.sdk.testing.drawing import Declined, over
from casewright.sdk.testing.service import client, planned, registry_with
from casewright.sdk.testing.snug import assert_no_raw_sizes
from casewright.sdk.testing.strategies import Document, Using, jobs
from hypothesis import strategies as st

_NUMBER = re.compile(r"-?\d[\d ./-]*")
"""Text that is a number without a unit."""


class _InJobs(MethodContract):
    """A method that is tried in whole jobs only; `group` begins the group of the parts that it makes."""

    group: ClassVar[str]

    @classmethod
    def drawn_jobs(cls) -> st.SearchStrategy[Document]:
        """Return a strategy of whole jobs that use the method."""
        return cls.drawn_options().flatmap(lambda options: jobs(cls.using(options)))

    @classmethod
    def using(cls, options: Mapping[str, Any]) -> Using:
        """Return what every generated job uses."""
        raise NotImplementedError

    def used(self, made: Plan) -> bool:
        """Whether a plan holds anything the method made."""
        raise NotImplementedError

    def stopped(self, made: Plan) -> bool:
        """Whether the method itself said stop: it told the job not to cut, and promises no fit."""
        return False

    def test_generated_jobs_fit_dry(self) -> None:
        """The real planner plans generated jobs with it: nothing overlaps, all sits, all sums, sizes are the spec's."""

        def check(made: Plan) -> None:
            if not self.used(made) or self.stopped(made):
                raise Declined
            assert_no_raw_sizes(part for part in made.parts if part.group.startswith(self.group))
            self.assert_sound(made)

        self.check_jobs(self.drawn_jobs(), check, f"generated jobs with {self.method}")

    def test_same_job_same_plan(self) -> None:
        """Determinism: a job planned twice, and by a registry loaded anew, gives equal parts, joints and checks."""
        first, again = self.registry(), registry_with(*([] if self.plugin is None else [self.plugin]))

        def check(job: Document) -> None:
            try:
                made = planned(deepcopy(job), first)
            except NoGeometryError as error:
                raise Declined(error) from None
            for registry in (first, again):
                other = planned(deepcopy(job), registry)
                for name in ("parts", "joints", "hardware", "checks", "mounting"):
                    assert getattr(made, name) == getattr(other, name), f"{name} differ between two plans of one job"

        over(max(1, self.jobs // 4), f"generated jobs with {self.method}", check, job=self.drawn_jobs())


class DoorContract(_InJobs):
    """What a door style promises."""

    family: ClassVar[str] = "doors"
    component: ClassVar[str] = "Doors"
    group: ClassVar[str] = "door-"

    @classmethod
    def using(cls, options: Mapping[str, Any]) -> Using:
        """Return the style with its options for every door."""
        return Using(doors={"style": cls.method, **options})

    def used(self, made: Plan) -> bool:
        """Whether the plan holds a door."""
        return bool(made.doors)

    def stopped(self, made: Plan) -> bool:
        """Whether the style stopped one of its doors (its findings are about doors, the dry fit's about parts)."""
        doors = {door.id for door in made.doors}
        return any(c.level == "stop" and c.subject in doors and c.source != "dry-fit" for c in made.checks)


class MountingContract(_InJobs):
    """What a mounting promises."""

    family: ClassVar[str] = "mountings"
    component: ClassVar[str] = "Mounting"
    group: ClassVar[str] = "mounting"

    @classmethod
    def using(cls, options: Mapping[str, Any]) -> Using:
        """Return the mounting with its options for every cabinet."""
        return Using(mounting={"method": cls.method, "contents_kg": 20, **options})

    def used(self, made: Plan) -> bool:
        """Whether the plan hangs a cabinet by it."""
        return any(mounted.method == self.method for mounted in made.mounting)


def read_style(registry: Registry, style: str) -> None:
    """Read a house style's defaults as a job without cabinets makes the service do. Raises what the planner raises."""
    stuff = registry.catalogue.stuffs[0]
    job = {
        "units": "mm",
        "materials": {"any": {"kind": stuff.kind, "stuff": stuff.id, "thickness": 18}},
        "house": {"style": style},
        "loose_parts": [{"id": "any", "material": "any", "length": 100, "width": 50}],
    }
    planned(job, registry)


def assert_units(registry: Registry, style: str) -> None:
    """Assert that each length among a style's defaults says its unit: a bare one is another length in an inch job.

    What reads as well with a unit behind it is a length.
    """
    own = registry.houses[style]
    for path, value in _bare(own.defaults, ()):
        changed = deepcopy(dict(own.defaults))
        place = changed
        for step in path[:-1]:
            place = place[step]
        place[path[-1]] = f"{value} mm"
        with suppress(ProblemsError, PluginFaultError):
            read_style(replace(registry, houses={style: replace(own, defaults=changed)}), style)
            where = "".join(f"[{step!r}]" for step in path)
            raise AssertionError(
                f"defaults{where} is {value!r}, a length by the units of each job; write it with its own, as {value} mm"
            )


def _bare(value: Any, path: tuple[Any, ...]) -> Iterator[tuple[tuple[Any, ...], object]]:
    """Yield numbers, and text that is a number, with their place; a list is walked as an object is."""
    rows = value.items() if isinstance(value, Mapping) else enumerate(value) if isinstance(value, list) else ()
    for step, one in rows:
        yield from _bare(one, (*path, step))
    number = isinstance(value, (int, float)) and not isinstance(value, bool)
    if number or (isinstance(value, str) and _NUMBER.fullmatch(value)):
        yield path, value


class HouseStyleContract:
    """What a house style promises.

    `plugin` is the module with the hooks, `style` the id; `job` a job document that names the style in its
    `house` and leaves to it what it should supply.
    """

    plugin: ClassVar[object]
    style: ClassVar[str]
    job: ClassVar[Mapping[str, Any]]

    def _registry(self) -> Registry:
        return registry_with(self.plugin)

    def _style(self, registry: Registry) -> HouseStyle:
        assert self.style in registry.houses, f"the plugin registers no house style {self.style!r}"
        return registry.houses[self.style]

    def test_defaults_are_json(self) -> None:
        """Defaults come through JSON unchanged and are listed by the service."""
        registry = self._registry()
        defaults = dict(self._style(registry).defaults)
        assert json.loads(json.dumps(defaults)) == defaults
        assert_units(registry, self.style)
        listed = client(registry).get("/v1/methods").get_json()["house_styles"]
        assert defaults in [h["defaults"] for h in listed if h["id"] == self.style]

    def test_the_job_is_planned_and_says_what_came_from_the_style(self) -> None:
        """The job fits dry, its plan names values that came from the style, and the style is unchanged."""
        registry = self._registry()
        before = deepcopy(dict(self._style(registry).defaults))
        assert self.job.get("house", {}).get("style") == self.style, (
            f'the job has no "house": {{"style": "{self.style}"}}'
        )
        made = planned(deepcopy(dict(self.job)), registry)
        MethodContract.assert_sound(made)
        assert "house-style" in made.job.origins.values(), "no value of the plan came from the house style"
        assert dict(self._style(registry).defaults) == before, "planning changed the defaults"
