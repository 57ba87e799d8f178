"""Loading the installed plugins as the environment says.

`CASEWRIGHT_PLUGIN_SECONDS`: how long one call of an outside plugin may take (default 5). `CASEWRIGHT_REQUIRED_PLUGINS`:
names, separated by commas, without which the start is refused. `CASEWRIGHT_BLOCKED_PLUGINS`: names not to import.
"""

import os
from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache

import orjson
from casewright.sdk.errors import RefusedStartError
from casewright.sdk.loader import SECONDS, START_SECONDS, Registry, load
from casewright.sdk.methods import CureGenerator, HouseStyle, Method

LONGEST = 3600.0


@lru_cache(maxsize=1)
def installed() -> Registry:
    """Return the registry of every installed plugin, loaded once. Raises `RefusedStartError`."""
    return load_installed()


def load_installed(environ: Mapping[str, str] = os.environ) -> Registry:
    """Return the registry of every installed plugin. Raises `RefusedStartError`, also for a setting of no use."""
    seconds = _seconds(environ.get("CASEWRIGHT_PLUGIN_SECONDS", ""))
    registry = load(
        required=_names(environ.get("CASEWRIGHT_REQUIRED_PLUGINS", "")),
        blocked=_names(environ.get("CASEWRIGHT_BLOCKED_PLUGINS", "")),
        validate=publishable,
        seconds=max(START_SECONDS, seconds),
    )
    return replace(registry, seconds=seconds)


def publishable(thing: object) -> None:
    """Raise where something an outside plugin registers cannot be written as JSON, as the service does at its start.

    Without this one plugin's odd value (a number past 64 bits, half a character) would stop every start.
    """
    if isinstance(thing, Method):
        try:
            from casewright.api.job.option_schema import option_schema  # only plugins from outside need it here
        except ModuleNotFoundError:  # without the extra `web` nothing is published
            return
        orjson.dumps([thing.title, option_schema(thing.options)])
    elif isinstance(thing, HouseStyle):
        orjson.dumps([thing.title, dict(thing.defaults)])
    elif isinstance(thing, CureGenerator):
        orjson.dumps([thing.title, sorted(thing.codes), dict(thing.why_none)])
    else:
        orjson.dumps(thing, default=lambda check: [check.id, check.title])


def _names(words: str) -> tuple[str, ...]:
    return tuple(name for name in (word.strip() for word in words.split(",")) if name)


def _seconds(words: str) -> float:
    if not words.strip():
        return SECONDS
    try:
        seconds = float(words)
    except ValueError:
        seconds = 0.0
    if not 0 < seconds <= LONGEST:
        raise RefusedStartError(
            f"CASEWRIGHT_PLUGIN_SECONDS is {words!r}; give seconds above 0 and up to {LONGEST:g}, such as 5"
        )
    return seconds
