"""The tutorial's plugin as an installed service sees it: listed, described, and fuzzed through its own options.

Run in the tutorial's own environment. schemathesis (pinned) draws the bodies from the options' component of the live
OpenAPI document; each body is put, as raw text, where a job names a joint, and the real app answers.
"""

import json
import sys
from collections import Counter
from collections.abc import Callable, Iterable
from io import BytesIO
from typing import Any

import schemathesis
from casewright.api.web import create_app
from schemathesis.config import SchemathesisConfig
from schemathesis.engine import events, from_schema

PLUGIN, METHOD, STYLE = "bicycle-workshop", "screwed-housing", "bicycle-workshop"
COMPONENT = "JointScrewedHousing"
SEED, EXAMPLES = 20261125, 350
LEAST = 100
"""Plans that must hold the joint at each place: half of the draws are wrong on purpose, and some cannot be built."""
JOB = (
    b'{"units": "mm", "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 17.8}}, '
    b'"cabinets": [{"id": "tools", "width": 700, "height": 800, "depth": 280, "space": {"fixed_shelves": 1}, '
    b'"case": {"material": "ply", "top_inset": 19, "bottom_inset": 19, %s: '
)
PLACES = {"/corner": b'"corner"', "/tee": b'"corner": {"method": "housed-groove"}, "fixed_joint"'}
"""What stands in the job before the options; the default corner, a rabbet, would refuse every inset."""
Start = Callable[..., Any]


class Splice:
    """A WSGI app whose bodies are options: each is put into a job and planned by the real app."""

    def __init__(self) -> None:
        self.real = create_app()
        self.live = self.real.test_client().get("/openapi.json").get_json()
        self.planned = Counter[str]()

    def document(self) -> dict[str, Any]:
        """Return an OpenAPI document of the two places, made of the live one's own components."""
        plan = self.live["paths"]["/v1/plan"]["post"]
        body = {"content": {"application/json": {"schema": {"$ref": f"#/components/schemas/{COMPONENT}"}}}}
        paths = {
            path: {
                "post": {
                    "operationId": path.strip("/"),
                    "requestBody": {"required": True, **body},
                    "responses": plan["responses"],
                }
            }
            for path in PLACES
        }
        return {**self.live, "paths": paths}

    def __call__(self, environ: dict[str, Any], start: Start) -> Iterable[bytes]:
        """Answer a request."""
        path = environ["PATH_INFO"]
        if path == "/openapi.json":
            start("200 OK", [("Content-Type", "application/json")])
            return [json.dumps(self.document()).encode()]
        if path not in PLACES:
            return self.real(environ, start)
        plain = dict(environ, PATH_INFO="/v1/plan", HTTP_ACCEPT_ENCODING="")  # nothing here unpacks gzip
        if environ["REQUEST_METHOD"] == "POST":
            sent = environ["wsgi.input"].read(int(environ.get("CONTENT_LENGTH") or 0))
            whole = JOB % PLACES[path] + sent + b"}}]}"
            plain |= {"wsgi.input": BytesIO(whole), "CONTENT_LENGTH": str(len(whole))}
        answer = b"".join(self.real(plain, start))
        if b'"joints"' in answer and METHOD.encode() in answer:
            self.planned[path] += 1
        return [answer]


def listed(app: Splice) -> None:
    """Check that plugin, method, options and house style are published."""
    client = app.real.test_client()
    rows = {row["name"]: row for row in client.get("/v1/plugins").get_json()["plugins"]}
    assert rows[PLUGIN]["status"] == "loaded", rows[PLUGIN]
    assert rows[PLUGIN]["distribution"] == PLUGIN, rows[PLUGIN]
    methods = client.get("/v1/methods").get_json()
    (method,) = [row for row in methods["methods"] if row["id"] == METHOD]
    assert method["plugin"] == PLUGIN
    assert sorted(method["options"]["properties"]) == ["depth", "gauge"]
    assert STYLE in [row["id"] for row in methods["house_styles"]]
    component = app.live["components"]["schemas"][COMPONENT]
    assert {"depth", "gauge", "method"} <= set(component["properties"])
    assert f"#/components/schemas/{COMPONENT}" in json.dumps(app.live["components"]["schemas"]["CornerJoint"])
    print(f"{PLUGIN} is listed by /v1/plugins and /v1/methods, its options stand in /openapi.json")


def fuzzed(app: Splice) -> int:
    """Fuzz the options; print every failure and return how many."""
    config = SchemathesisConfig.from_dict(
        {
            "seed": SEED,
            "continue-on-failure": True,
            "cache": {"enabled": False},
            "suppress-health-check": ["all"],
            "generation": {"max-examples": EXAMPLES, "database": "none", "mode": "all"},
            "checks": {"positive_data_acceptance": {"expected-statuses": ["2xx", 422]}},
        }
    )
    calls, checks, failures = Counter[str](), Counter[str](), 0
    for event in from_schema(schemathesis.openapi.from_wsgi("/openapi.json", app, config=config)).execute():
        if isinstance(event, (events.NonFatalError, events.FatalError)):
            failures += 1
            print("ERROR", getattr(event, "info", None) or getattr(event, "exception", event))
        if isinstance(event, events.ScenarioFinished):
            calls[event.phase.name] += len(event.recorder.interactions)
            for case_id, results in event.recorder.checks.items():
                for result in results:
                    checks[result.name] += 1
                    if result.failure_info is not None:
                        failures += 1
                        case = event.recorder.cases[case_id].value
                        why = result.failure_info.failure
                        print(f"FAILURE {event.recorder.label} {result.name}: {case.body!r}: {why}")
    print(f"calls {dict(calls)}, plans with the joint {dict(app.planned)}, checks {dict(checks)}, failures {failures}")
    for path in PLACES:
        assert app.planned[path] >= LEAST, f"only {app.planned[path]} plans at {path}: next to nothing was tried"
    for name in ("not_a_server_error", "response_schema_conformance", "negative_data_rejection"):
        assert checks[name], f"{name} was never checked"
    return failures


if __name__ == "__main__":
    spliced = Splice()
    listed(spliced)
    sys.exit(1 if fuzzed(spliced) else 0)
