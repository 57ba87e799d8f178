"""The published OpenAPI document against the app, by schemathesis (pinned), in process: every check and phase.

A valid document may be answered 2xx or 422 (it reads well, but a rule that no schema can state is broken), so
`positive_data_acceptance` is told so; 400 for a valid document is a failure. The seed is fixed, so a run repeats.
The service keeps nothing, so the stateful phase has only the links it infers between reads. A green run does not
prove that nothing loose is read: `tests/api/job` tests that directly.
"""

import json
from collections import Counter
from collections.abc import Iterator
from itertools import count
from typing import Any

import pytest
import schemathesis
from casewright.api.web import create_app
from hypothesis import strategies as st
from schemathesis.config import SchemathesisConfig
from schemathesis.engine import events, from_schema
from schemathesis.generation.meta import TestPhase

SEED = 20260711
EXAMPLES, EXAMPLES_FULL = 24, 400
COVERAGE, COVERAGE_FULL = 6, 1
"""One in so many of the cases that the coverage phase makes of an operation is sent."""
ONE_VIEW = (
    "^/(v1/(plan|value|examples|methods|materials|sources|limits|plugins|checks/codes)"
    "|healthz|readyz|version|openapi.json|problems)"
)
"""The views of a plan read the same job, so the default run sends it to one of them; the full run to all."""


def config(max_examples: int) -> SchemathesisConfig:
    return SchemathesisConfig.from_dict(
        {
            "seed": SEED,
            "continue-on-failure": True,
            "cache": {"enabled": False},
            "suppress-health-check": ["all"],
            "generation": {
                "max-examples": max_examples,
                "database": "none",
                "deterministic": False,
                "mode": "all",
            },
            "checks": {"positive_data_acceptance": {"expected-statuses": ["2xx", 422]}},
        }
    )


def ran(max_examples: int, one_in: int, paths: str) -> tuple[Counter[str], Counter[str], list[str]]:
    """Return calls by phase, check results by name, and every failure in words."""
    app = create_app()
    document = app.test_client().get("/openapi.json").get_json()
    # schemathesis cannot send an example of a table, whose bodies it makes by the strategy of `tables`.
    del document["components"]["requestBodies"]["Job"]["content"]["text/csv"]["examples"]
    schema = schemathesis.openapi.from_dict(document, config=config(max_examples))
    # In process nothing unpacks gzip, which schemathesis says it takes.
    schema.app = lambda environ, start: app({**environ, "HTTP_ACCEPT_ENCODING": ""}, start)
    schema = schema.include(path_regex=paths)
    made = count()

    @schema.hook
    def filter_case(context: schemathesis.HookContext, case: schemathesis.Case) -> bool:
        coverage = case.meta is not None and case.meta.phase.name is TestPhase.COVERAGE
        return not coverage or next(made) % one_in == 0

    calls: Counter[str] = Counter()
    checks: Counter[str] = Counter()
    failures: list[str] = []
    for event in from_schema(schema).execute():
        if isinstance(event, (events.NonFatalError, events.FatalError)):
            failures.append(repr(getattr(event, "info", None) or getattr(event, "exception", event)))
        if isinstance(event, events.ScenarioFinished):
            calls[event.phase.name] += len(event.recorder.interactions)
            failures += failure_texts(event, checks)
    return calls, checks, failures


def failure_texts(event: events.ScenarioFinished, checks: Counter[str]) -> Iterator[str]:
    for case_id, results in event.recorder.checks.items():
        for result in results:
            checks[result.name] += 1
            case = event.recorder.cases[case_id].value
            free = case.media_type == "text/csv" or case.operation.path == "/v1/from-stock"
            if result.name == "positive_data_acceptance" and free:
                continue  # a schema knows of a table only that it is text, of a job with ranges that it is an object
            if result.failure_info is not None:
                response = event.recorder.interactions[case_id].response
                answered = response.content[:400] if response is not None else b""
                body = repr(case.body)[:600]
                failure = result.failure_info.failure
                place = f"{event.phase.name} {event.recorder.label} {result.name}"
                yield f"{place}: {failure} | {case.headers} {body} -> {answered!r}"


@pytest.fixture(scope="module", autouse=True)
def tables() -> None:
    """Teach schemathesis what a CSV body looks like: a heading of words and rows of words, most of them no job."""
    words = st.sampled_from(["id", "width", "case.material", "job.units", "a", "mm", "600", "3/4", "", "x,y", '"'])
    lines = st.lists(st.lists(words, min_size=1, max_size=4).map(",".join), max_size=4)
    schemathesis.openapi.media_type("text/csv", lines.map("\r\n".join).map(str.encode))


def test_every_check_and_phase_passes(full: bool, record_property: Any) -> None:
    calls, checks, failures = ran(EXAMPLES_FULL, COVERAGE_FULL, "^/") if full else ran(EXAMPLES, COVERAGE, ONE_VIEW)
    record_property("calls", json.dumps(calls))
    record_property("checks", json.dumps(checks))
    assert not failures, f"{len(failures)} failures of {calls}:\n" + "\n\n".join(failures[:20])
    for phase in ("EXAMPLES", "COVERAGE", "FUZZING"):
        assert calls[phase] > 0, calls
    for name in (
        "not_a_server_error",
        "response_schema_conformance",
        "negative_data_rejection",
        "positive_data_acceptance",
    ):
        assert checks[name] > 0, checks
