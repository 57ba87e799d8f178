"""The service as a plugin's tests meet it: a registry with the plugin under test, the real planner, an HTTP client.

The SDK imports nothing of the service. What the tests need of it is found at run time by the entry point group
`casewright.planner`, which the installed casewright declares: `plan` (a job document and a registry to a plan),
`options` (an option schema to JSON Schema) and `app` (a registry to a WSGI app).
"""

from collections.abc import Callable, Mapping
from dataclasses import replace
from importlib.metadata import entry_points
from typing import Any
from warnings import catch_warnings, simplefilter

from casewright.sdk.deprecations import SdkDeprecationWarning
from casewright.sdk.loader import Registry, load
from casewright.sdk.model import Plan
from marshmallow import Schema

GROUP = "casewright.planner"
UNDER_TEST = "plugin-under-test"
PATIENCE = 60.0
"""Seconds a call may take under test: a slow machine is no fault of the plugin."""


def registry_with(*plugins: object, seconds: float = PATIENCE) -> Registry:
    """Return a registry of the built-ins and the plugins given, and of nothing else that is installed.

    The plugins are named `plugin-under-test`, `plugin-under-test-2` and so on. Fails with the loader's cause where
    one does not load, and where one uses something deprecated.
    """
    names = [UNDER_TEST if i == 0 else f"{UNDER_TEST}-{i + 1}" for i in range(len(plugins))]
    with catch_warnings():
        simplefilter("error", SdkDeprecationWarning)
        registry = load(discover="built-in", extra=list(zip(names, plugins, strict=True)))
    failed = [f"{p.name}: {p.cause}" for p in registry.plugins if p.status != "loaded"]
    assert not failed, "the plugin does not load: " + "; ".join(failed)
    return replace(registry, seconds=seconds)


def planned(job: Mapping[str, Any], registry: Registry) -> Plan:
    """Return the plan of a job document, by the installed planner.

    Raises the errors of `casewright.sdk.errors`: `ProblemsError` where the job cannot be made, `PluginFaultError`
    where a method failed or answered something unusable.
    """
    plan: Plan = _entry("plan")(job, registry)
    return plan


def described(options: type[Schema]) -> dict[str, Any]:
    """Return the JSON Schema that the service publishes for a method's options."""
    schema: dict[str, Any] = _entry("options")(options)
    return schema


def client(registry: Registry) -> Any:
    """Return an in-process HTTP client of the service with this registry (Werkzeug's test client)."""
    return _entry("app")(registry).test_client()


def _entry(name: str) -> Callable[..., Any]:
    for point in entry_points(group=GROUP, name=name):
        make_client: Callable[..., Any] = point.load()
        return make_client
    raise LookupError(f"no entry point {name!r} in the group {GROUP!r}: install casewright itself beside the plugin")
