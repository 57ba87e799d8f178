"""`casewright plugin check`: loads a plugin alone, checks what it registers and tries its contracts."""

import argparse
import json
import sys
from collections.abc import Iterator
from importlib.metadata import entry_points
from importlib.util import find_spec
from typing import TYPE_CHECKING, Any

from casewright.api.command.exits import DONE, FAILED, UNUSABLE
from casewright.api.command.plugins_named import Fetch, NotFoundError, plugins_named
from casewright.sdk.hookspecs import GROUP
from casewright.sdk.loader import OWN_DISTRIBUTION, START_SECONDS, cause_of, load
from casewright.sdk.places import raised_at
from casewright.sdk.waiting import OverdueError, within

if TYPE_CHECKING:
    from casewright.api.command.plugin_report import Tried
    from casewright.sdk.testing.quick import Trial  # with what only authors of plugins install


def check(chosen: argparse.Namespace) -> int:
    """Check what a word names and print what comes of it; returns the exit code."""
    missing = [name for name in ("hypothesis", "pytest") if find_spec(name) is None]
    if missing:
        words = f"contracts need {' and '.join(missing)}; pip install 'casewright[plugin]'"
        print(f"casewright plugin check: {words}", file=sys.stderr)
        return FAILED
    try:
        named = plugins_named(chosen.name)
        again = None if chosen.replay is None else json.loads(chosen.replay.read_text("utf-8"))
        tried = [_tried(name, plugin, chosen, again) for name, plugin in named]
        if again is not None and not any(one.trials or one.wrong for one in tried):
            raise LookupError(f"the plugin registers no {again['family']}/{again['method']}")
    except NotFoundError as error:
        print(f"casewright plugin check: {error}", file=sys.stderr)
        return UNUSABLE
    except (OSError, LookupError, ValueError, TypeError) as error:
        if chosen.replay is None:
            raise
        print(f"casewright plugin check: {chosen.replay} cannot be replayed: {error}", file=sys.stderr)
        return UNUSABLE
    if chosen.report is not None:
        from casewright.api.command.plugin_report import write_report

        print(write_report(chosen.report, chosen.name, [one for one in tried if one.registry is not None]))
    wrong = sum(one.wrong for one in tried)
    if wrong:
        print(f"{wrong} problem{'s' if wrong > 1 else ''}.")
        return UNUSABLE
    if chosen.replay is None:
        print(f"No problem found in {chosen.jobs} jobs for each method and kind of meeting.")
        print("Plugins run with the service's full rights: a check is no proof of good will.")
    return DONE


def _tried(name: str, fetch: Fetch, chosen: argparse.Namespace, again: Any) -> "Tried":
    """Print what one plugin registers and what is wrong with it; `again` is what a report wrote down, to try again."""
    from casewright.api.command.plugin_report import Tried
    from casewright.api.job.schema import job_schemas

    try:
        plugin = within(START_SECONDS, f"the import of {name}", fetch)
    except (Exception, SystemExit) as error:
        at = error.at if isinstance(error, OverdueError) else raised_at(error)
        _print_problem(name, at, "It imports.", cause_of(error), "Mend that line.")
        return Tried(name, unloaded=1)
    if plugin in [
        p.load() for p in entry_points(group=GROUP) if p.dist is not None and p.dist.name == OWN_DISTRIBUTION
    ]:
        print(f"{name}: ships with casewright; its contracts are run by casewright's own tests")
        return Tried(name)
    registry = load(discover="built-in", extra=[(name, plugin)])
    record = registry.plugins[-1]
    if record.status != "loaded":
        fix = "Mend what it says; the page /docs/plugins lists what a hook may answer."
        _print_problem(name, "", "It loads: hooks answer what the service can use.", record.cause, fix)
        return Tried(name, unloaded=1)
    if again is not None and f"{again['family']}/{again['method']}" not in record.methods:
        return Tried(name)
    print(f"{name}: registers {', '.join(record.methods) or 'a catalogue only'}")
    left_out = [words.partition(": ")[2] for words in job_schemas(registry).faults if words.startswith(f"{name}: ")]
    if left_out:
        rule = "No option has the name of a key that all methods of its family share in a job."
        _print_problem(name, "", rule, "; ".join(left_out), "Give the option another name.")
        return Tried(name, unloaded=1)
    return Tried(name, registry, tuple(_contracts(plugin, chosen, again)))


def _print_problem(name: str, at: str, rule: str, got: str, fix: str) -> None:
    print(f"  PROBLEM {name}" + (f" at {at}" if at else ""))
    print(f"    rule: {rule}\n    got:  {got}\n    fix:  {fix}")


def _contracts(plugin: object, chosen: argparse.Namespace, again: Any) -> "Iterator[Trial]":
    """Try the contracts of one plugin, or one promise again, and print what comes of it."""
    from casewright.sdk.testing.quick import Counts, replay, trials

    counts = Counts(chosen.jobs, 2 * chosen.jobs, chosen.seconds)
    for trial in trials(plugin, counts) if again is None else (replay(plugin, again, chosen.seconds),):
        _print_trial(trial)
        yield trial


def _print_trial(trial: "Trial") -> None:
    if not trial.wrong:
        print(f"  ok {trial.method}: {trial.promise}")
        return
    _print_problem(trial.method, trial.at, trial.promise, trial.wrong, trial.fix)
    if trial.drawn:
        print(f"    with {trial.drawn}")
    if trial.untried:
        print(f"    {trial.untried} more promises of {trial.method} are tried once this is mended.")
