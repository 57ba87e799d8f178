"""casewright as a Python library: typed answers, a builder, numbers of other kinds, errors that cross processes."""

import json
import pickle
import subprocess
import sys
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from typing import Any

import casewright.api as library
import numpy as np
import pytest
from casewright.api import (
    BadDocumentError,
    JobBuilder,
    NoGeometryError,
    PluginFaultError,
    UnusableJobError,
    built,
    cures,
    fits,
    from_stock,
    parts,
    plan,
    steps,
)
from casewright.api.use.examples import example_job
from casewright.api.web.openapi import openapi_text
from casewright.api.wire.typed import typed_source
from casewright.sdk.errors import Problem
from casewright.sdk.loader import Registry
from casewright.sdk.materials import UnknownItemError
from flask.testing import FlaskClient

HEAVY = (
    "apispec", "ezdxf", "flask", "gunicorn", "manifold3d", "markdown_it", "numpy", "openpyxl", "reportlab", "segno",
    "trimesh",
)  # fmt: skip
BARE = f"""
import json, sys

class Without:
    def find_spec(self, name, path=None, target=None):
        if name.partition(".")[0] in {HEAVY!r}:
            raise ModuleNotFoundError(f"No module named {{name!r}}", name=name)

sys.meta_path.insert(0, Without())
"""


def test_the_types_have_not_drifted(registry: Registry) -> None:
    written = (next(iter(library.__path__)) + "/documents.py").replace("//", "/")
    with open(written, encoding="utf-8") as file:
        assert file.read() == typed_source(json.loads(openapi_text(registry))), "run: casewright openapi --types FILE"


def test_each_view_is_what_the_service_answers(client: FlaskClient, small: dict[str, Any]) -> None:
    small["built"] = [{"cabinet": small["cabinets"][0]["id"], "part": "side-left", "measure": "length", "value": 698}]
    views = (("plan", plan), ("parts", parts), ("steps", steps), ("fits", fits), ("built", built), ("cures", cures))
    for name, view in views:
        answer: Any = view(small)  # type: ignore[operator]
        assert answer == client.post(f"/v1/{name}", json=small).get_json(), name


def test_from_stock_is_what_the_service_answers(client: FlaskClient, small: dict[str, Any]) -> None:
    small["cabinets"][0]["width"] = {"least": 500, "most": 700, "step": 100}
    small["stock"] = {"offcuts": [{"id": "rest", "material": "ply", "length": 2000, "width": 1200}]}
    question = {"job": small, "aim": "largest", "answers": 1}
    assert from_stock(small, answers=1) == client.post("/v1/from-stock", json=question).get_json()


def test_a_job_built_call_by_call(small: dict[str, Any]) -> None:
    job = JobBuilder(units="mm")
    for key, values in small["materials"].items():
        job.material(key, **values)
    job.cabinet(**small["cabinets"][0])
    assert job.document == small
    assert plan(job.document) == plan(small)


def test_each_call_of_the_builder_is_a_key_of_the_document(small: dict[str, Any]) -> None:
    """The document is written out by hand beside it, as the published schema has it."""
    house, shop = {"depth": 320}, {"fit": "0.1 mm"}
    wall = {"cabinets_at": {small["cabinets"][0]["id"]: [{"x": 100, "z": 0}]}}
    stock = {"sheets": [{"id": "full", "material": "ply", "length": 2440, "width": 1220}]}
    loose = {"id": "lid", "material": "ply", "length": 300, "width": 200}
    document = {**small, "house": house, "wall": wall, "stock": stock, "shop": shop, "loose_parts": [loose]}
    job: Any = JobBuilder(units="mm")
    job.house(**house).wall(**wall).stock(**stock).shop(**shop).loose_part(**loose).cabinet(**small["cabinets"][0])
    for key, values in small["materials"].items():
        job.material(key, **values)
    assert job.document == document
    assert "lid" in [one["name"] for one in plan(job.document)["parts"]]


@pytest.mark.parametrize(
    "number",
    [np.int64(600), np.float32(600), np.float64(600), Decimal(600), Decimal("600.0"), Fraction(600), Fraction(1200, 2)],
    ids=repr,
)
def test_numbers_of_other_kinds(small: dict[str, Any], number: Any) -> None:
    as_written = plan(small)["parts"]
    small["cabinets"][0]["width"] = number
    assert plan(small)["parts"] == as_written


def test_a_third_of_an_inch_stays_one(small: dict[str, Any]) -> None:
    small["units"] = "in"
    small["materials"] = {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": Fraction(3, 4)}}
    cabinet = {"id": "bench", "width": Fraction(73, 3), "height": 28, "depth": 12, "case": {"material": "ply"}}
    as_fraction = plan({**small, "cabinets": [cabinet]})
    assert as_fraction["parts"] == plan({**small, "cabinets": [{**cabinet, "width": "24 1/3"}]})["parts"]


def test_arrays_are_lists(job: dict[str, Any]) -> None:
    as_written = plan({**job, "shop": {"keep_offcut": [150, 300]}})
    assert plan({**job, "shop": {"keep_offcut": np.array([150, 300])}}) == as_written


@pytest.mark.parametrize(
    ("job", "pointer"),
    [
        (None, ""),
        ([], ""),
        (3, ""),
        ({"units": "mm", "title": object()}, "/title"),
        ({"units": "mm", "loose_parts": [{"id": {1, 2}}]}, "/loose_parts/0/id"),
        ({"units": "mm", 3: 4}, ""),
        ({"units": "mm", "cabinets": [{"width": float("nan")}]}, "/cabinets/0/width"),
        ({"units": "mm", "cabinets": [{"width": Decimal("Infinity")}]}, "/cabinets/0/width"),
    ],
)
def test_what_is_no_json_is_a_problem_with_its_place(job: Any, pointer: str) -> None:
    with pytest.raises(BadDocumentError) as bad:
        plan(job)
    assert pointer in [problem.pointer for problem in bad.value.problems]


def test_a_job_that_holds_itself() -> None:
    job: dict[str, Any] = {"units": "mm"}
    job["house"] = job
    with pytest.raises(BadDocumentError):
        plan(job)


@pytest.mark.parametrize(
    "error",
    [
        BadDocumentError(Problem("/units", "needed", "nothing", "Add it.")),
        UnusableJobError(Problem("", "a", "b", "c"), Problem("/d", "e", "f", "g")),
        NoGeometryError(Problem("/cabinets/0", "a", "b", "c")),
        PluginFaultError("bench", "peg", "raised ValueError", "peg.py, line 3"),
        PluginFaultError("bench", "peg", "raised ValueError"),
        UnknownItemError("hinge", "cup-36", ("cup-35",)),
    ],
    ids=lambda error: type(error).__name__,
)
def test_errors_cross_processes(error: Exception) -> None:
    again = pickle.loads(pickle.dumps(error))
    assert (type(again), str(again), vars(again)) == (type(error), str(error), vars(error))


def test_planning_needs_three_libraries(small: dict[str, Any]) -> None:
    program = f"{BARE}\nfrom casewright.api import plan\nprint(len(plan(json.loads(sys.argv[1]))['parts']))"
    ran = subprocess.run(
        [sys.executable, "-c", program, json.dumps(small)], capture_output=True, text=True, timeout=120, check=False
    )
    assert ran.returncode == 0, ran.stderr
    assert int(ran.stdout) == len(plan(small)["parts"])


def test_a_library_that_is_missing_is_named(tmp_path: Any, small: dict[str, Any]) -> None:
    (tmp_path / "job.json").write_text(json.dumps(small))
    program = f"{BARE}\nfrom casewright.api.command.cli import main\nsys.exit(main(sys.argv[1:]))"

    def ran(*words: str) -> "subprocess.CompletedProcess[str]":
        command = [sys.executable, "-c", program, *words]
        return subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, timeout=120, check=False)

    assert ran("plan", "job.json").returncode == 0
    papers = ran("plan", "job.json", "--out", "papers")
    assert papers.returncode == 3
    assert "pip install 'casewright[papers]'" in papers.stderr
    serving = ran("serve")
    assert serving.returncode == 3
    assert "pip install 'casewright[" in serving.stderr


def test_nothing_else_is_exported() -> None:
    for name in library.__all__:
        assert getattr(library, name) is not None
    missing: Callable[[], Any] = lambda: library.weather  # type: ignore[attr-defined] # noqa: E731
    with pytest.raises(AttributeError):
        missing()


def test_the_example_keeps_its_bytes() -> None:
    job = example_job()
    before = json.dumps(job)
    plan(job)
    assert json.dumps(job) == before
