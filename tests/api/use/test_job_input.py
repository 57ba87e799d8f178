"""A job as it is handed in: from JSON and from a table, its fingerprint, and where its problems are said to stand."""

import json
from typing import Any

import pytest
from casewright.api.job.cells import CellProblem
from casewright.api.use.job_input import JobInput
from casewright.sdk.errors import BadDocumentError, NoGeometryError, Problem, UnusableJobError
from casewright.sdk.loader import Registry

TABLE = (
    "id,width,height,depth,case.material,case.corner.method,job.units,"
    "job.materials.ply.kind,job.materials.ply.stuff,job.materials.ply.thickness\r\n"
    "bench,600,700,300,{material},rabbet,mm,sheet,birch-plywood,17.8\r\n"
)


def test_the_same_job_has_the_same_fingerprint_however_it_is_written(registry: Registry, job: dict[str, Any]) -> None:
    backwards = dict(reversed(job.items()))
    written = (json.dumps(job), json.dumps(backwards, indent=3))
    prints = {JobInput.from_json(text.encode(), registry).fingerprint for text in written}
    assert prints == {JobInput(job, registry).fingerprint}
    job["loose_parts"][0]["width"] += 1
    assert JobInput(job, registry).fingerprint not in prints


def test_a_table_is_read_as_the_job_it_stands_for(registry: Registry) -> None:
    given = JobInput.from_table(TABLE.format(material="ply").encode(), registry)
    assert given.document["cabinets"][0]["width"] == 600
    assert given.read().cabinets[0].width == 600_000_000  # nm
    assert given.fingerprint == JobInput(given.document, registry).fingerprint


def test_a_problem_of_a_table_names_its_cell(registry: Registry) -> None:
    with pytest.raises(UnusableJobError) as caught:
        JobInput.from_table(TABLE.format(material="oak").encode(), registry).read()
    (problem,) = caught.value.problems
    assert isinstance(problem, CellProblem)
    assert (problem.row, problem.column) == (2, "case.material")
    assert {"row", "column"} < set(problem.as_dict())


def test_problems_of_planning_keep_their_kind(registry: Registry) -> None:
    given = JobInput.from_table(TABLE.format(material="ply").encode(), registry)
    with pytest.raises(NoGeometryError) as caught, given.in_cells():
        raise NoGeometryError(Problem("/cabinets/0/width", "room between the sides", "none", "Make it wider."))
    assert [(p.row, p.column) for p in caught.value.problems] == [(2, "width")]


def test_a_job_from_json_keeps_its_problems_as_they_are(registry: Registry, job: dict[str, Any]) -> None:
    job["loose_parts"][0]["width"] = True
    with pytest.raises(BadDocumentError) as caught:
        JobInput(job, registry).read()
    assert [type(problem) for problem in caught.value.problems] == [Problem]
