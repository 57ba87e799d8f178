"""Schemathesis over every view, for as long as asked: `python tests/bench/fuzz.py --minutes 10 --seed 1`.

The app runs in process, with the published OpenAPI document and every check; 422 is a right answer to a document that
matches the schema. The coverage phase draws nothing, so it is run only where asked for (`--coverage`). Each round takes
the next seed and goes over all operations with a few examples of each; a line of JSON is written for each round (seed,
calls, checks, failures), so runs split over a day add up and any of them can be repeated: `--seed S --rounds 1`. The
exit code is 1 where anything failed.
"""

from __future__ import annotations

import argparse
import json
import logging
import sys
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from importlib.metadata import version
from pathlib import Path
from typing import Any

import schemathesis
from casewright.api.web import create_app
from hypothesis import strategies as st
from schemathesis.config import SchemathesisConfig
from schemathesis.engine import events, from_schema

SLOWEST = 20.0
"""Seconds an answer may take: the service's own budget."""


def config(seed: int, examples: int, coverage: bool) -> SchemathesisConfig:
    """Return the settings of one round."""
    return SchemathesisConfig.from_dict(
        {
            "seed": seed,
            "continue-on-failure": True,
            "cache": {"enabled": False},
            "suppress-health-check": ["all"],
            "generation": {"max-examples": examples, "database": "none", "deterministic": False, "mode": "all"},
            "phases": {"coverage": {"enabled": coverage}},
            "checks": {
                "positive_data_acceptance": {"expected-statuses": ["2xx", 422]},
                "max_response_time": SLOWEST,
            },
        }
    )


def tables() -> None:
    """Teach schemathesis what a CSV body looks like: a heading of words and rows of words, most of them no job."""
    words = st.sampled_from(["id", "width", "case.material", "job.units", "a", "mm", "600", "3/4", "", "x,y", '"'])
    lines = st.lists(st.lists(words, min_size=1, max_size=4).map(",".join), max_size=4)
    schemathesis.openapi.media_type("text/csv", lines.map("\r\n".join).map(str.encode))


def failures_of(event: events.ScenarioFinished, checks: Counter[str]) -> Iterator[dict[str, Any]]:
    """Count a scenario's checks and yield those that failed."""
    for case_id, results in event.recorder.checks.items():
        for result in results:
            checks[result.name] += 1
            case = event.recorder.cases[case_id].value
            if result.failure_info is None:
                continue
            free = case.media_type == "text/csv" or case.operation.path == "/v1/from-stock"
            if result.name == "positive_data_acceptance" and free:
                continue  # a schema knows of a table only that it is text, of a job with ranges that it is an object
            response = event.recorder.interactions[case_id].response
            yield {
                "phase": event.phase.name,
                "operation": event.recorder.label,
                "check": result.name,
                "failure": str(result.failure_info.failure)[:500],
                "query": repr(case.query)[:300],
                "headers": repr(case.headers)[:300],
                "body": repr(case.body)[:2000],
                "answer": repr(response.content[:500]) if response is not None else "",
            }


def one_round(app: Any, settings: SchemathesisConfig, until: float, paths: str) -> dict[str, Any]:
    """Run one round, or as much of it as there is time for."""
    document = app.test_client().get("/openapi.json").json
    # A body that schemathesis draws as bytes may have no example that is text.
    del document["components"]["requestBodies"]["Job"]["content"]["text/csv"]["examples"]
    schema = schemathesis.openapi.from_dict(document, config=settings).include(path_regex=paths)
    # In process nothing unpacks gzip, which schemathesis says it takes.
    schema.app = lambda environ, start: app({**environ, "HTTP_ACCEPT_ENCODING": ""}, start)
    calls: Counter[str] = Counter()
    statuses: Counter[str] = Counter()
    checks: Counter[str] = Counter()
    failures: list[dict[str, Any]] = []
    engine = from_schema(schema).execute()
    for event in engine:
        if isinstance(event, (events.NonFatalError, events.FatalError)):
            error = event.info.message if isinstance(event, events.NonFatalError) else repr(event.exception)
            failures.append({"error": error[:2000]})
        if isinstance(event, events.ScenarioFinished):
            calls[event.phase.name] += len(event.recorder.interactions)
            for interaction in event.recorder.interactions.values():
                statuses[str(interaction.response.status_code if interaction.response else "none")] += 1
            failures += failures_of(event, checks)
            if time.monotonic() > until:
                engine.stop()
                break
    finished = time.monotonic() <= until
    return {
        "finished": finished,
        "calls": dict(calls),
        "statuses": dict(sorted(statuses.items())),
        "checks": dict(sorted(checks.items())),
        "failures": failures,
    }


def main(arguments: Sequence[str] | None = None) -> int:
    """Fuzz, writing a line a round."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n", 1)[0])
    parser.add_argument("--minutes", type=float, default=10.0, help="how long in all")
    parser.add_argument("--seed", type=int, default=1, help="of the first round; each round takes the next")
    parser.add_argument("--rounds", type=int, default=10**9, help="rounds at most")
    parser.add_argument("--examples", type=int, default=30, help="examples of each operation a round")
    parser.add_argument("--coverage", action="store_true", help="with the coverage phase, the same every time")
    parser.add_argument("--paths", default="^/", help="which paths, as a regular expression")
    parser.add_argument("--log", type=Path, help="file that the lines are added to")
    chosen = parser.parse_args(arguments)
    logging.disable(logging.CRITICAL)
    tables()
    app = create_app()
    until = time.monotonic() + 60 * chosen.minutes
    bad, calls, seed = 0, 0, chosen.seed
    while time.monotonic() < until and seed < chosen.seed + chosen.rounds:
        settings = config(seed, chosen.examples, chosen.coverage)
        done = {"seed": seed, **one_round(app, settings, until, chosen.paths)}
        done |= {"examples": chosen.examples, "paths": chosen.paths, "schemathesis": version("schemathesis")}
        line = json.dumps(done, ensure_ascii=True)
        print(line, flush=True)
        if chosen.log is not None:
            with chosen.log.open("a", encoding="ascii") as log:
                log.write(line + "\n")
        bad += len(done["failures"])
        calls += sum(done["calls"].values())
        seed += 1
    print(f"{calls} calls, seeds {chosen.seed} to {seed - 1}, {bad} failures", file=sys.stderr)
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
