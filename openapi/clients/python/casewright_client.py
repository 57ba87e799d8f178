"""A small typed client of the casewright service, with nothing but Python's standard library: copy this file.

    from casewright_client import Client

    client = Client("http://127.0.0.1:8000")
    plan = client.plan(job)

A job is a mapping, sent as JSON, or text, sent as CSV (one cabinet a row). Answers are the service's own documents;
`Plan` and the rest name the keys that are always there, and an answer may hold more. Sizes are in the job's units.

Raises `JobProblemError` where the service answers with a problem (RFC 9457), and `OSError` where it does not answer. A
service that is busy or being started again is asked again: the same job always gives the same answer.
"""

import json
from base64 import b64decode
from collections.abc import Callable, Iterable, Mapping
from http.client import SERVICE_UNAVAILABLE
from time import sleep
from typing import Any, TypedDict, cast
from urllib.error import HTTPError, URLError
from urllib.parse import quote, urlencode
from urllib.request import Request, urlopen

__all__ = ["PATHS", "Client", "JobProblemError"]

Job = Mapping[str, Any] | str
Progress = Callable[[str, int, int], None]
"""Called with a stage, how much of it is done and how much there is."""

PATHS: Mapping[str, str] = {
    "plan": "POST /v1/plan",
    "parts": "POST /v1/parts",
    "hardware": "POST /v1/hardware",
    "steps": "POST /v1/steps",
    "stock": "POST /v1/stock",
    "checks": "POST /v1/checks",
    "fits": "POST /v1/fits",
    "built": "POST /v1/built",
    "mounting": "POST /v1/mounting",
    "costs": "POST /v1/costs",
    "drawing": "POST /v1/drawings/{view}",
    "labels": "POST /v1/labels",
    "outlines": "POST /v1/outlines",
    "booklet": "POST /v1/booklet",
    "workbook": "POST /v1/workbook",
    "model": "POST /v1/model",
    "papers": "POST /v1/papers",
    "compare": "POST /v1/compare",
    "cures": "POST /v1/cures",
    "from_stock": "POST /v1/from-stock",
    "value": "GET /v1/value",
    "examples": "GET /v1/examples",
    "methods": "GET /v1/methods",
    "materials": "GET /v1/materials",
    "sources": "GET /v1/sources",
    "limits": "GET /v1/limits",
    "plugins": "GET /v1/plugins",
    "codes": "GET /v1/checks/codes",
    "alive": "GET /healthz",
    "ready": "GET /readyz",
    "version": "GET /version",
    "description": "GET /openapi.json",
    "problem": "GET /problems/{name}",
}
"""What each method asks for. A test holds this against the OpenAPI document, both ways."""


class Term(TypedDict):
    """One signed term of a size's reason; the terms sum to the size."""

    term: str
    value: float
    text: str


class Why(TypedDict):
    """The reasons of a part's length and width."""

    length: list[Term]
    width: list[Term]


class BenchText(TypedDict):
    """Sizes for the bench, rounded to the tape."""

    length: str
    width: str
    thickness: str


class Match(TypedDict):
    """A part's place in a row of parts cut in sequence of one piece."""

    row: str
    place: int
    of: int


class Part(TypedDict):
    """A part by its finished size."""

    id: str
    cabinet: str
    role: str
    name: str
    quantity: int
    material: str
    length: float
    width: float
    thickness: float
    text: BenchText
    grain: str
    why: Why
    match: Match | None
    no_stock: int
    bought_to_size: bool


class Hardware(TypedDict):
    """A line of hardware."""

    item: str
    name: str
    cabinet: str
    quantity: int


class Check(TypedDict):
    """A finding; level `stop` means do not cut."""

    code: str
    level: str
    subject: str
    message: str
    value: Any
    limit: Any
    unit: str
    source: str


class Step(TypedDict):
    """A step of the work at one setting, in job units; `on` are its pieces, `needs` the steps it waits for."""

    number: int
    stage: str
    machine: str
    action: str
    setting: dict[str, Any]
    on: list[dict[str, Any]]
    do: str
    check: str
    cautions: list[str]
    needs: list[int]


class Plan(TypedDict):
    """The whole plan; see the OpenAPI document for every key."""

    title: str
    units: str
    stops: int
    parts: list[Part]
    hardware: list[Hardware]
    checks: list[Check]
    steps: list[Step]
    summary: list[dict[str, Any]]
    joints: list[dict[str, Any]]
    mounting: list[dict[str, Any]]
    dry_fit: dict[str, Any]
    weights: list[dict[str, Any]]
    stock: dict[str, Any] | None
    made_by: dict[str, Any]
    fingerprint: str


class Cure(TypedDict):
    """A change that was planned and clears its stop; `cost` is decimal text, None where nothing prices it."""

    words: str
    patch: list[dict[str, Any]]
    keeps: bool
    cost: str | None
    unpriced: int
    parts_changed: int
    mass_kg: float
    clears: int
    leaves: list[Check]
    raises: list[Check]


class StopCures(TypedDict):
    """A stop, how many changes were tried for it, its cures, and why there are none."""

    check: Check
    tries: int
    cures: list[Cure]
    why_none: str


class Cures(TypedDict):
    """The cures of a job; a plan holds more than is named here."""

    units: str
    currency: str | None
    tries: int
    most_tries: int
    stops: int
    cures: list[StopCures]


class JobProblemError(Exception):
    """The service's problem: `status`, `kind` (such as `/problems/unusable-job`), and `errors`.

    Each of `errors` names a place (`pointer`, and `row` and `column` for CSV), the `rule`, what was `got`, and what to
    do (`fix`).
    """

    def __init__(self, problem: Mapping[str, Any]) -> None:
        self.status: int = problem.get("status", 0)
        self.kind: str = problem.get("type", "about:blank")
        self.errors: list[dict[str, Any]] = list(problem.get("errors", ()))
        lines = [f"{e.get('pointer')}: {e.get('rule')}; got {e.get('got')}. {e.get('fix')}" for e in self.errors]
        super().__init__("\n".join([str(problem.get("detail") or problem.get("title") or self.status), *lines]))


class Client:
    """Asks one service. It keeps no connection and no state, so threads may share it."""

    def __init__(self, base: str = "http://127.0.0.1:8000", timeout: float = 60.0, tries: int = 5) -> None:
        """Take the service's address, under whatever prefix it is mounted, seconds to wait for an answer, and tries.

        A service that answers 503 is asked again after the seconds of its Retry-After, one that cannot be reached after
        a second, then two, four and so on, as it may be starting.
        """
        self.base, self.timeout, self.tries = base.rstrip("/"), timeout, tries

    def plan(self, job: Job) -> Plan:
        """Return the whole plan."""
        return cast(Plan, self._json("/v1/plan", job))

    def parts(self, job: Job) -> list[Part]:
        """Return the cut list with reasons."""
        return cast(list[Part], self._json("/v1/parts", job)["parts"])

    def hardware(self, job: Job) -> list[Hardware]:
        """Return the hardware list."""
        return cast(list[Hardware], self._json("/v1/hardware", job)["hardware"])

    def checks(self, job: Job) -> list[Check]:
        """Return every check."""
        return cast(list[Check], self._json("/v1/checks", job)["checks"])

    def steps(self, job: Job) -> list[Step]:
        """Return the order of work."""
        return cast(list[Step], self._json("/v1/steps", job)["steps"])

    def fits(self, job: Job) -> list[dict[str, Any]]:
        """Return every fit: how far it may come out wrong, by which cuts, and what follows."""
        return cast(list[dict[str, Any]], self._json("/v1/fits", job)["fits"])

    def built(self, job: Job) -> dict[str, Any] | None:
        """Return what comes out otherwise by what is built; `None` where the job says nothing of it."""
        return cast("dict[str, Any] | None", self._json("/v1/built", job)["built"])

    def mounting(self, job: Job) -> dict[str, Any]:
        """Return how each cabinet hangs."""
        return self._json("/v1/mounting", job)

    def costs(self, job: Job) -> dict[str, Any]:
        """Return what the job takes, and what it costs by the shop's rates; a line without one has no amount."""
        return cast(dict[str, Any], self._json("/v1/costs", job)["costs"])

    def stock(self, job: Job, progress: Progress | None = None) -> dict[str, Any] | None:
        """Return how the parts are cut from stock, or None for a job without stock; `progress` hears how far it is."""
        if progress is None:
            return cast(dict[str, Any] | None, self._json("/v1/stock", job)["stock"])
        return cast(dict[str, Any] | None, self._lines("/v1/stock", job, progress)["stock"])

    def table(self, view: str, job: Job) -> str:
        """Return as CSV `parts`, `hardware`, `checks`, `steps`, `stock` (steps that cut), `mounting` or `costs`.

        Where the plan has stops, the row under the headings says so in its first cell and is empty else; `checks` has
        the stops themselves first.
        """
        return self._post(f"/v1/{view}", job, {"as": "csv"}).decode("utf-8")

    def drawing(
        self,
        job: Job,
        view: str = "elevation",
        form: str = "svg",
        *,
        subject: str | None = None,
        page: int | None = None,
        paper: str | None = None,
    ) -> bytes:
        """Return a drawing: one sheet as `svg`, all of them as `dxf` or `pdf`."""
        return self._post(
            f"/v1/drawings/{quote(view)}", job, {"as": form, "subject": subject, "page": page, "paper": paper}
        )

    def outlines(self, job: Job) -> bytes:
        """Return every part once as DXF: a block each, cuts on layers by kind and depth."""
        return self._post("/v1/outlines", job)

    def labels(self, job: Job, paper: str | None = None) -> bytes:
        """Return part labels as PDF."""
        return self._post("/v1/labels", job, {"paper": paper})

    def booklet(self, job: Job, paper: str | None = None, progress: Progress | None = None) -> bytes:
        """Return the booklet for the bench as PDF; `progress` hears how far it is."""
        if progress is None:
            return self._post("/v1/booklet", job, {"paper": paper})
        return b64decode(self._lines("/v1/booklet", job, progress, {"paper": paper})["base64"])

    def workbook(self, job: Job) -> bytes:
        """Return the workbook as XLSX."""
        return self._post("/v1/workbook", job)

    def model(self, job: Job, *, exploded: bool = False) -> bytes:
        """Return the cabinets as a solid model (binary glTF)."""
        return self._post("/v1/model", job, {"exploded": "true" if exploded else "false"})

    def papers(self, job: Job) -> bytes:
        """Return every paper, and the plan as JSON and tables, as a zip."""
        return self._post("/v1/papers", job)

    def compare(self, job: Mapping[str, Any], changes: Iterable[Mapping[str, Any]]) -> dict[str, Any]:
        """Return what changes (each `name` and `patch`, JSON Patch or JSON Merge Patch) make different."""
        return self._json("/v1/compare", {"job": job, "changes": list(changes)})

    def cures(self, job: Job, progress: Progress | None = None) -> Cures:
        """Return, for each stop, the changes that clear it; `progress` hears how many changes are tried."""
        answer = self._json("/v1/cures", job) if progress is None else self._lines("/v1/cures", job, progress)
        return cast(Cures, answer)

    def from_stock(
        self, job: Mapping[str, Any], aim: str = "largest", answers: int = 3, progress: Progress | None = None
    ) -> dict[str, Any]:
        """Return the best jobs, of a job with ranges, that its stock yields; `progress` hears how far it is."""
        body = {"job": job, "aim": aim, "answers": answers}
        if progress is None:
            return self._json("/v1/from-stock", body)
        return self._lines("/v1/from-stock", body, progress)

    def value(self, field: str, paths: Mapping[str, str | float], **own: str | float) -> float:
        """Return one number: a `field` of a `part`, an `item`, or the cabinet that dotted `paths` describe."""
        query = {"field": field, **own, **paths, "as": "json"}
        return float(json.loads(self._get("/v1/value", query))["value"])

    def examples(self) -> list[dict[str, Any]]:
        """Return the example jobs, each with `name`, `title` and `job`."""
        return cast(list[dict[str, Any]], self._document("/v1/examples")["examples"])

    def methods(self) -> dict[str, Any]:
        """Return the methods with the JSON Schemas of their options."""
        return self._document("/v1/methods")

    def materials(self) -> dict[str, Any]:
        """Return the catalogue."""
        return self._document("/v1/materials")

    def sources(self) -> dict[str, Any]:
        """Return the documents that numbers come from."""
        return self._document("/v1/sources")

    def limits(self) -> dict[str, Any]:
        """Return every limit on a job."""
        return self._document("/v1/limits")

    def plugins(self) -> dict[str, Any]:
        """Return the plugins found, loaded or not."""
        return self._document("/v1/plugins")

    def codes(self) -> dict[str, Any]:
        """Return every code of a check, its levels, what it means and what may cure it."""
        return self._document("/v1/checks/codes")

    def alive(self) -> dict[str, Any]:
        """Return whether the process lives."""
        return self._document("/healthz")

    def ready(self) -> dict[str, Any]:
        """Return whether it can answer."""
        return self._document("/readyz")

    def version(self) -> dict[str, Any]:
        """Return what runs there."""
        return self._document("/version")

    def description(self) -> dict[str, Any]:
        """Return the OpenAPI document."""
        return self._document("/openapi.json")

    def problem(self, name: str) -> dict[str, Any]:
        """Return what a kind of problem means."""
        return self._document(f"/problems/{quote(name)}")

    def _document(self, path: str) -> dict[str, Any]:
        return cast(dict[str, Any], json.loads(self._get(path, {})))

    def _json(self, path: str, job: Job) -> dict[str, Any]:
        return cast(dict[str, Any], json.loads(self._post(path, job, {"as": "json"})))

    def _lines(self, path: str, job: Job, progress: Progress, query: Mapping[str, Any] | None = None) -> dict[str, Any]:
        with self._open(self._request(path, job, {**(query or {}), "as": "ndjson"})) as answer:
            for text in answer:
                line = json.loads(text)
                if "progress" in line:
                    step = line["progress"]
                    progress(step["stage"], step["done"], step["of"])
                elif "problem" in line:
                    raise JobProblemError(line["problem"])
                else:
                    return cast(dict[str, Any], line["result"])
        raise OSError("the answer broke off before its result")

    def _post(self, path: str, job: Job, query: Mapping[str, Any] | None = None) -> bytes:
        with self._open(self._request(path, job, query or {})) as answer:
            return cast(bytes, answer.read())

    def _request(self, path: str, job: Job, query: Mapping[str, Any]) -> Request:
        body, kind = (job, "text/csv") if isinstance(job, str) else (json.dumps(job), "application/json")
        return Request(self._address(path, query), body.encode("utf-8"), {"Content-Type": kind}, method="POST")

    def _get(self, path: str, query: Mapping[str, Any]) -> bytes:
        with self._open(Request(self._address(path, query))) as answer:
            return cast(bytes, answer.read())

    def _address(self, path: str, query: Mapping[str, Any]) -> str:
        given = urlencode({name: value for name, value in query.items() if value is not None})
        return f"{self.base}{path}?{given}" if given else self.base + path

    def _open(self, request: Request) -> Any:
        for left in reversed(range(self.tries)):
            pause = str(2 ** (self.tries - 1 - left))
            try:
                return urlopen(request, timeout=self.timeout)
            except HTTPError as error:
                with error:
                    if error.code != SERVICE_UNAVAILABLE or not left:
                        raise JobProblemError(_problem(error.code, error.read())) from None
                    pause = error.headers.get("Retry-After", pause)
            except (ConnectionError, URLError) as error:
                lost = error if isinstance(error, ConnectionError) else error.reason
                if not isinstance(lost, ConnectionError) or not left:
                    raise
            sleep(float(pause) if pause.isdigit() else 1)
        raise ValueError("tries: from 1")


def _problem(status: int, body: bytes) -> dict[str, Any]:
    try:
        return {"status": status, **json.loads(body)}
    except (TypeError, ValueError):
        return {"status": status, "detail": body.decode("utf-8", "replace")[:300]}
