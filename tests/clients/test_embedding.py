"""casewright inside other Python programs: in process, in a pool, in a notebook, mounted in WSGI and in ASGI apps."""

import asyncio
import importlib.util
import json
import multiprocessing
import os
import subprocess
import sys
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from itertools import pairwise
from pathlib import Path
from typing import Any

import casewright.openapi
import pytest
from casewright.api import plan
from casewright.api.use.examples import example_job
from casewright.api.web import create_app
from casewright.sdk.errors import BadDocumentError, NoGeometryError, UnusableJobError
from werkzeug.exceptions import NotFound
from werkzeug.middleware.dispatcher import DispatcherMiddleware
from werkzeug.test import Client

PROGRAM = """
from typing import Any

from casewright.api import plan
from casewright.api.web import create_app
from casewright.sdk.errors import NoGeometryError, ProblemsError

def sizes(job: dict[str, Any]) -> dict[str, float]:
    try:
        answer = plan(job)
    except ProblemsError as error:
        raise SystemExit("; ".join(f"{one.pointer}: {one.fix}" for one in error.problems)) from error
    return {part["id"]: part["length"] for part in answer["parts"]}

app = create_app()
reveal_type(plan)
reveal_type(app.wsgi_app)
"""


@pytest.fixture
def small() -> dict[str, Any]:
    ply = {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}
    cabinet = {"id": "pumps", "width": 600, "height": 700, "depth": 300, "case": {"material": "ply"}}
    return {"units": "mm", "materials": {"ply": ply}, "cabinets": [cabinet]}


def test_plan_is_the_answer_of_the_service() -> None:
    job = example_job()
    answer = create_app().test_client().post("/v1/plan", json=job)
    assert plan(job) == answer.get_json()
    assert plan(json.dumps(job)) == plan(json.dumps(job).encode()) == plan(job)


def test_plan_leaves_the_job_as_it_was() -> None:
    job = example_job()
    plan(job)
    assert job == example_job()


def test_problems_are_raised_with_their_places() -> None:
    with pytest.raises(BadDocumentError) as bad:
        plan({"units": "mm", "unitz": 1})
    assert "/unitz" in [problem.pointer for problem in bad.value.problems]
    job = example_job()
    job["cabinets"][0]["width"] = 3  # two stiles of 1 3/4 in leave no opening in a frame 3 in wide
    with pytest.raises(NoGeometryError) as none:
        plan(job)
    assert none.value.problems[0].pointer.startswith("/cabinets/0/")


def test_a_program_that_embeds_it_passes_the_type_checker(tmp_path: Path) -> None:
    pytest.importorskip("mypy")
    (tmp_path / "program.py").write_text(PROGRAM)
    root = Path(__file__).parents[2]
    command = [sys.executable, "-m", "mypy", "--strict", "--config-file", str(root / "pyproject.toml"), "program.py"]
    environment = {"MYPYPATH": ":".join(str(root / top) for top in ("api", "sdk", "plugins")), "PATH": ""}
    ran = subprocess.run(
        [*command, f"--cache-dir={tmp_path / 'cache'}"],
        cwd=tmp_path, env=environment, capture_output=True, text=True, timeout=240, check=False,
    )  # fmt: skip
    assert ran.returncode == 0, ran.stdout
    assert "TypedDict(casewright.api.documents.PlanView" in ran.stdout, ran.stdout[:2000]


def test_mounted_under_a_prefix() -> None:
    site = Client(DispatcherMiddleware(NotFound(), {"/workshop/cabinets": create_app()}))
    job = example_job()
    mounted = site.post("/workshop/cabinets/v1/plan", json=job)
    assert mounted.get_json() == plan(job)
    direct = create_app().test_client().post("/v1/plan", json=job)
    assert mounted.headers["ETag"] == direct.headers["ETag"]
    assert site.get("/v1/limits").status_code == 404
    assert site.post("/workshop/cabinets/v1/plan", json={"units": 3}).mimetype == "application/problem+json"


def installed(*packages: str) -> None:
    """Skip where a package of the tests is not here; CI installs all of them."""
    lacking = [name for name in packages if importlib.util.find_spec(name) is None]
    if lacking and os.environ.get("CI"):
        pytest.fail(f"{lacking} are not installed; CI installs them")
    if lacking:
        pytest.skip(f"{lacking} are not installed")


def call(app: Callable[..., Any], method: str, path: str, body: bytes) -> tuple[int, dict[str, str], bytes]:
    """Ask an ASGI app once, as a server does (asgi.readthedocs.io, HTTP version 2.3)."""
    sent: list[dict[str, Any]] = []
    length = str(len(body)).encode()
    scope = {
        "type": "http", "asgi": {"version": "3.0", "spec_version": "2.3"}, "http_version": "1.1", "method": method,
        "scheme": "http", "path": path, "raw_path": path.encode(), "query_string": b"", "root_path": "",
        "headers": [(b"host", b"bay"), (b"content-type", b"application/json"), (b"content-length", length)],
        "client": ("127.0.0.1", 50000), "server": ("127.0.0.1", 80),
    }  # fmt: skip
    coming = iter([{"type": "http.request", "body": body, "more_body": False}])

    async def receive() -> dict[str, Any]:
        message = next(coming, None)
        if message is None:
            await asyncio.Event().wait()
        return message or {}

    async def send(message: dict[str, Any]) -> None:
        sent.append(message)

    asyncio.run(asyncio.wait_for(app(scope, receive, send), 60))
    start, *rest = sent
    heads = {name.decode(): value.decode() for name, value in start["headers"]}
    return start["status"], heads, b"".join(message.get("body", b"") for message in rest)


@pytest.mark.filterwarnings("ignore::ResourceWarning")  # the bridge leaves its threads' streams to the collector
def test_in_an_asgi_app_by_a_bridge(small: dict[str, Any]) -> None:
    installed("a2wsgi")
    from a2wsgi import WSGIMiddleware

    app = WSGIMiddleware(create_app())
    status, heads, body = call(app, "POST", "/v1/plan", json.dumps(small).encode())
    assert (status, json.loads(body)) == (200, plan(small))
    assert heads["casewright-stops"] == str(plan(small)["stops"])
    status, heads, body = call(app, "POST", "/v1/plan", b"{}")
    assert (status, heads["content-type"]) == (400, "application/problem+json")


@pytest.mark.parametrize("hides", [False, True])
def test_beside_a_folder_of_its_name(tmp_path: Path, hides: bool) -> None:
    for name in ("api", "sdk", "openapi"):  # as a clone of the repository has them
        (tmp_path / "casewright" / name).mkdir(parents=True)
    if hides:
        (tmp_path / "casewright" / "__init__.py").touch()
    (tmp_path / "script.py").write_text("import casewright.api, casewright.sdk.units\nprint(casewright.api.plan)\n")
    command = [sys.executable, "script.py"]
    ran = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, timeout=60, check=False)
    if hides:  # as README says
        assert "'casewright.api'" in ran.stderr or "'casewright.sdk'" in ran.stderr
    else:
        assert ran.stdout.startswith("<function plan"), ran.stderr


def test_in_a_pool_of_processes(small: dict[str, Any]) -> None:
    jobs = [{**small, "cabinets": [{**small["cabinets"][0], "width": width}]} for width in (500, 600, 3)]
    with ProcessPoolExecutor(2, mp_context=multiprocessing.get_context("spawn")) as pool:
        planned = [pool.submit(plan, job) for job in jobs]
        assert [one.result() for one in planned[:2]] == [plan(job) for job in jobs[:2]]
        with pytest.raises(UnusableJobError) as unusable:
            planned[2].result()
    assert [problem.pointer for problem in unusable.value.problems] == ["/cabinets/0/width"]


def test_the_notebook_runs_headless(tmp_path: Path) -> None:
    installed("nbclient", "ipykernel")
    notebook = Path(next(iter(casewright.openapi.__path__)), "clients", "python", "plan_a_job.ipynb")
    made = tmp_path / notebook.name
    made.write_bytes(notebook.read_bytes())
    command = [sys.executable, "-m", "jupyter", "execute", "--inplace", str(made)]
    ran = subprocess.run(command, capture_output=True, text=True, timeout=240, check=False)
    assert ran.returncode == 0, ran.stderr
    cells = json.loads(made.read_text("utf-8"))["cells"]
    outputs = ["".join(line for one in cell["outputs"] for line in one["text"]) for cell in cells if "outputs" in cell]
    assert outputs[0] == "0 checks say stop\n"
    # Between sides of 18 mm with rabbets half as deep: 600 - 2 × 18 + 2 × 9 = 582.
    assert "1 × pumps/top: 582.0 mm × 300.0 mm, length +600 (cabinet width) -18" in outputs[1]
    weights = [float(line.split()[2]) for line in outputs[2].splitlines()]
    steps = [after - before for before, after in pairwise(weights)]
    # Every 200 mm add the same board: what the top and bottom, two shelves and the back grow by, to a gram of rounding.
    assert len(steps) == 3
    assert max(steps) - min(steps) < 0.01
    assert outputs[3].startswith("STOP: ")
