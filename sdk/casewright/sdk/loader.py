"""Finding plugins and putting their methods in one registry.

Our own loader over entry points: collected, sorted by (distribution, name), duplicates refused loudly, each
import isolated. An outside plugin that fails is listed with its cause and the service starts without it,
unless it is required; a built-in that fails refuses the start.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from importlib.metadata import EntryPoint, entry_points
from typing import Any, Literal

import pluggy
from casewright.sdk import hookspecs
from casewright.sdk.errors import RefusedStartError
from casewright.sdk.hookspecs import GROUP, PROJECT
from casewright.sdk.materials import Catalogue
from casewright.sdk.methods import CureGenerator, DoorStyle, ExtraCheck, HouseStyle, JointMethod, MountingMethod
from casewright.sdk.places import defined_at, raised_at
from casewright.sdk.sources import SOURCES, Source
from casewright.sdk.validation import (
    FaultyPluginError,
    merge_catalogues,
    validate_answer,
    validate_method,
    validate_plugin,
)
from casewright.sdk.versions import MIGRATION
from casewright.sdk.waiting import OverdueError, within

OWN_DISTRIBUTION = "casewright"

SECONDS = 5.0
"""How long one call of an outside plugin may take, unless the registry says otherwise."""

START_SECONDS = 20.0
"""How long importing an outside plugin may take, and one call of a hook of it."""

Status = Literal["loaded", "failed", "blocked"]


@dataclass(frozen=True, slots=True)
class PluginRecord:
    """One plugin as found: where it came from, whether it loaded, and what it registered."""

    name: str
    distribution: str
    version: str
    status: Status
    cause: str = ""
    methods: tuple[str, ...] = ()

    @property
    def built_in(self) -> bool:
        """Whether it ships with casewright itself."""
        return self.distribution == OWN_DISTRIBUTION


@dataclass(frozen=True, slots=True)
class Registry:
    """Every method by family and id, the merged catalogue, and the record of each plugin.

    `outside` holds (family, id) of methods that do not ship with casewright; a call of one may take `seconds`.
    """

    joints: Mapping[str, JointMethod]
    doors: Mapping[str, DoorStyle]
    boxes: Mapping[str, JointMethod]
    mountings: Mapping[str, MountingMethod]
    houses: Mapping[str, HouseStyle]
    checks: Mapping[str, ExtraCheck]
    catalogue: Catalogue
    plugins: tuple[PluginRecord, ...]
    owners: Mapping[tuple[str, str], str] = field(default_factory=dict)
    outside: frozenset[tuple[str, str]] = frozenset()
    seconds: float = SECONDS
    cures: Mapping[str, CureGenerator] = field(default_factory=dict)

    def owner(self, family: str, method: str) -> str:
        """Return the name of the plugin that registered a method."""
        return self.owners.get((family, method), "unknown")

    @property
    def sources(self) -> Mapping[str, Source]:
        """Every source that a number may cite, by code: those of the SDK and those that plugins bring."""
        return {**SOURCES, **{one.code: one for one in self.catalogue.sources}}

    def answers_at(self, family: str, method: str) -> str:
        """Return file and line of a method's `fit`, `build`, `find` or `changes`; empty where it is not known."""
        one = getattr(self, family).get(method)
        name = next((name for name in ("fit", "build", "find", "changes") if hasattr(one, name)), "")
        return defined_at(getattr(one, name)) if name else ""


_FAMILIES: tuple[tuple[str, str, type], ...] = (
    ("joints", "casewright_joint_methods", JointMethod),
    ("doors", "casewright_door_styles", DoorStyle),
    ("boxes", "casewright_box_methods", JointMethod),
    ("mountings", "casewright_mountings", MountingMethod),
    ("houses", "casewright_house_styles", HouseStyle),
    ("checks", "casewright_checks", ExtraCheck),
    ("cures", "casewright_cures", CureGenerator),
)


@dataclass(frozen=True, slots=True)
class _Candidate:
    name: str
    distribution: str
    version: str
    fetch: Callable[[], object]


def load(
    *,
    discover: Literal["all", "built-in", "none"] = "all",
    extra: Iterable[tuple[str, object]] = (),
    required: Iterable[str] = (),
    blocked: Iterable[str] = (),
    validate: Callable[[object], None] | None = None,
    seconds: float = START_SECONDS,
) -> Registry:
    """Build the registry.

    `discover` says which entry points to read; `extra` adds plugin objects by name (for tests); `required`
    names plugins without which the start is refused; `blocked` names plugins not to import; `validate` is given
    everything an outside plugin registers, and what it raises is that plugin's failure. Importing an outside plugin and
    each of its hooks may take `seconds`. Raises `RefusedStartError`.
    """
    blocked_names = frozenset(blocked)
    manager = pluggy.PluginManager(PROJECT)
    manager.add_hookspecs(hookspecs)
    store = _Store(_accept if validate is None else validate, seconds)
    records: list[PluginRecord] = []
    seen: set[str] = set()
    for candidate in [*_discovered(discover), *_given(extra)]:
        record = _take(candidate, manager, store, seen, blocked_names)
        records.append(record)
    _refuse_if_needed(records, frozenset(required))
    return store.registry(tuple(records))


def _discovered(discover: str) -> list[_Candidate]:
    if discover == "none":
        return []
    candidates = [_candidate(point) for point in entry_points(group=GROUP)]
    if discover == "built-in":
        candidates = [c for c in candidates if c.distribution == OWN_DISTRIBUTION]
    return sorted(candidates, key=lambda c: (c.distribution != OWN_DISTRIBUTION, c.distribution, c.name))


def _candidate(point: EntryPoint) -> _Candidate:
    dist = point.dist
    name, version = (dist.name, dist.version) if dist is not None else ("unknown", "unknown")
    return _Candidate(point.name, name, version, point.load)


def _given(extra: Iterable[tuple[str, object]]) -> list[_Candidate]:
    def fetcher(plugin: object) -> Callable[[], object]:
        return lambda: plugin

    return [_Candidate(name, "given", "0", fetcher(plugin)) for name, plugin in extra]


def _take(
    candidate: _Candidate,
    manager: pluggy.PluginManager,
    store: "_Store",
    seen: set[str],
    blocked: frozenset[str],
) -> PluginRecord:
    def record(status: Status, cause: str = "", methods: tuple[str, ...] = ()) -> PluginRecord:
        return PluginRecord(candidate.name, candidate.distribution, candidate.version, status, cause, methods)

    if candidate.name in blocked:
        return record("blocked", "blocked by configuration")
    if candidate.name in seen:
        return record("failed", f"a plugin named {candidate.name!r} is loaded already; rename this one")
    try:
        plugin = store.awaited(candidate, "its import", candidate.fetch)
        validate_plugin(plugin)
        manager.register(plugin, name=candidate.name)
        methods = store.add(candidate, manager, plugin)
    except (Exception, SystemExit) as error:  # whatever a plugin raises must not stop the others
        if manager.has_plugin(candidate.name):
            manager.unregister(name=candidate.name)
        return record("failed", cause_of(error))
    seen.add(candidate.name)
    return record("loaded", methods=methods)


def cause_of(error: BaseException) -> str:
    """Return why a plugin failed; a name that the SDK no longer has points to the page that says what changed."""
    if isinstance(error, FaultyPluginError):
        return str(error)
    if isinstance(error, ImportError) and (error.name or "").startswith("casewright.sdk"):
        at = raised_at(error)
        words = f"{str(error).partition(' (')[0]}. {MIGRATION} says what changed"  # without the file's path
        return f"{at}: {words}" if at else words
    at = raised_at(error)
    return f"{at}: {type(error).__name__}: {error}" if at else f"{type(error).__name__}: {error}"


def _refuse_if_needed(records: list[PluginRecord], required: frozenset[str]) -> None:
    for record in records:
        if record.status == "failed" and (record.built_in or record.name in required):
            kind = "built-in" if record.built_in else "required"
            raise RefusedStartError(f"{kind} plugin {record.name} failed: {record.cause}")
    missing = required - {r.name for r in records if r.status == "loaded"}
    if missing:
        raise RefusedStartError(f"required plugins not loaded: {', '.join(sorted(missing))}")


def _accept(_: object) -> None:
    """Take anything: what ships with casewright is validated by its tests."""


class _Store:
    """Collects what plugins register, refusing anything of the wrong type or with an id already taken."""

    def __init__(self, validate: Callable[[object], None], seconds: float) -> None:
        self.validate, self.seconds = validate, seconds
        self.families: dict[str, dict[str, Any]] = {family: {} for family, _, _ in _FAMILIES}
        self.catalogue = Catalogue()
        self.owners: dict[tuple[str, str], str] = {}

    def answered(self, candidate: "_Candidate", hook: str, ask: Callable[[], Any]) -> Any:
        """Return what a hook of a plugin answers; what it raises is named as the hook's."""
        try:
            return self.awaited(candidate, hook, ask)
        except FaultyPluginError:
            raise
        except (Exception, SystemExit) as error:
            raise FaultyPluginError(f"{hook} raised {type(error).__name__}: {error}", raised_at(error)) from error

    def awaited(self, candidate: "_Candidate", what: str, ask: Callable[[], Any]) -> Any:
        """Return what a plugin's own code answers while the service starts; an outside plugin has only so long."""
        if candidate.distribution == OWN_DISTRIBUTION:
            return ask()
        try:
            return within(self.seconds, f"plugin {candidate.name}, {what}", ask, aloud=True)
        except OverdueError as error:
            raise FaultyPluginError(f"{what} did not end within {self.seconds:g} s", error.at) from None

    def add(self, candidate: "_Candidate", manager: pluggy.PluginManager, plugin: object) -> tuple[str, ...]:
        """Add all one plugin registers, or nothing of it."""
        name = candidate.name
        validate = _accept if candidate.distribution == OWN_DISTRIBUTION else self.validate
        fresh: dict[tuple[str, str], Any] = {}
        for family, hook, kind in _FAMILIES:
            for method in self._answers(candidate, manager, plugin, hook):
                validate_method(method, kind, hook, defined_at(getattr(plugin, hook)))
                validate(method)
                if method.id in self.families[family] or (family, method.id) in fresh:
                    owner = self.owners.get((family, method.id), name)
                    fault = f"{family} id {method.id!r} is taken by plugin {owner}; choose another id"
                    raise FaultyPluginError(fault, defined_at(getattr(plugin, hook)))
                fresh[family, method.id] = method
        catalogue = self.catalogue
        adding = getattr(plugin, "casewright_catalogue", None)
        if adding is not None:
            theirs = self.answered(candidate, "casewright_catalogue", adding)
            catalogue = merge_catalogues(self.catalogue, theirs, defined_at(adding))
            validate(theirs)
        self.catalogue = catalogue
        for (family, method_id), method in fresh.items():
            self.families[family][method_id] = method
            self.owners[family, method_id] = name
        return tuple(f"{family}/{method_id}" for family, method_id in fresh)

    def _answers(self, candidate: "_Candidate", manager: pluggy.PluginManager, plugin: object, hook: str) -> list[Any]:
        if not hasattr(plugin, hook):
            return []
        others = [p for p in manager.get_plugins() if p is not plugin]
        answers = self.answered(candidate, hook, manager.subset_hook_caller(hook, others))
        return [method for answer in answers for method in validate_answer(plugin, hook, answer)]

    def registry(self, records: tuple[PluginRecord, ...]) -> Registry:
        """Return what was collected, each family sorted by id."""
        own = {record.name for record in records if record.built_in}
        by_id = {family: dict(sorted(self.families[family].items())) for family in self.families}
        return Registry(
            joints=by_id["joints"],
            doors=by_id["doors"],
            boxes=by_id["boxes"],
            mountings=by_id["mountings"],
            houses=by_id["houses"],
            checks=by_id["checks"],
            cures=by_id["cures"],
            catalogue=self.catalogue,
            plugins=records,
            owners=dict(self.owners),
            outside=frozenset(key for key, owner in self.owners.items() if owner not in own),
        )
