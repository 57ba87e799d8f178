"""casewright inside another Python program: in process, and mounted in another WSGI app."""

import json
import subprocess
import sys
from pathlib import Path

import pytest
from casewright.api import plan
from casewright.api.use.examples import example_job
from casewright.api.web import create_app
from casewright.sdk.errors import BadDocumentError, NoGeometryError
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
