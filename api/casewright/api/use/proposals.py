"""What generators propose to change where a plan has a stop, each proposal looked at before it is tried."""

from collections.abc import Iterable, Iterator
from itertools import islice

import orjson
from casewright.api.engine.construction.allowance import answer_of
from casewright.api.job import limits
from casewright.api.job.json_patch import read_patch
from casewright.api.job.problems import Findings
from casewright.sdk.errors import PluginFaultError
from casewright.sdk.loader import Registry
from casewright.sdk.methods import Change, CureGenerator, Stop


def proposals(registry: Registry, stop: Stop) -> Iterator[Change]:
    """Yield what every generator of the stop's code proposes, the built-in ones first. Raises `PluginFaultError`."""
    every = sorted(registry.cures.values(), key=lambda one: ("cures", one.id) in registry.outside)
    for generator in every:
        if stop.check.code in generator.codes:
            yield from _proposed(registry, generator, stop)


def _proposed(registry: Registry, generator: CureGenerator, stop: Stop) -> Iterator[Change]:
    """Yield what a generator proposes, no more than could be tried. Raises `PluginFaultError`.

    A generator from outside is asked for all of it at once, within its allowance of time.
    """
    owner = registry.owner("cures", generator.id)

    def first() -> Iterable[Change]:
        proposed = islice(generator.changes(stop), limits.CURE_TRIES)
        return tuple(proposed) if ("cures", generator.id) in registry.outside else proposed

    for change in answer_of(registry, "cures", generator.id, first):
        _validate(change, owner, generator.id)
        if len(change.patch) <= limits.PATCH_OPERATIONS:  # else nobody could send it to be tried
            yield change


def _validate(change: object, owner: str, generator: str) -> None:
    """Raise `PluginFaultError` where a generator proposes what is no change."""
    if not isinstance(change, Change) or not isinstance(change.words, str) or not change.words:
        raise PluginFaultError(owner, generator, f"proposed {change!r}, which is no Change with words")
    findings = Findings()
    if not isinstance(change.patch, tuple):
        raise PluginFaultError(owner, generator, "proposed a patch that is not a tuple of operations")
    read_patch(change.patch[: limits.PATCH_OPERATIONS], "", findings)
    try:
        orjson.dumps(change.patch)
    except (TypeError, ValueError) as error:
        raise PluginFaultError(owner, generator, f"proposed a patch that is not JSON: {error}") from error
    for problem in findings.schema:
        fault = f"proposed a patch that is none: {problem.pointer}: {problem.rule}, got {problem.got}"
        raise PluginFaultError(owner, generator, fault)
