"""Changes in words: followed in the table or the document by hand, they make the job that the patch makes."""

import re
from typing import Any

import pytest
from casewright.api.command.change_text import change_lines
from casewright.api.job.json_patch import patched, read_patch
from casewright.api.job.problems import Findings
from casewright.api.use.job_input import JobInput
from casewright.sdk.loader import Registry

TABLE = """\
id;form;width;height;depth;case.material;mounting.method;space.loose_shelves;at.0.x;at.0.z;job.units;\
job.materials.ply.kind;job.materials.ply.stuff;job.materials.ply.thickness
tools;wall;600,5;700;300;ply;bevel-cleat;2;10;1200;mm;sheet;birch-plywood;17,8
spares;base;800;700;300;ply;;;700;0;;;;
"""
PATCHES: dict[str, list[dict[str, Any]]] = {
    "a cell that is empty": [{"op": "add", "path": "/cabinets/1/mounting", "value": {"method": "screw-strip"}}],
    "a column that is not there": [
        {"op": "add", "path": "/cabinets/1/mounting", "value": {"method": "screw-strip", "per_stud": 2}}
    ],
    "a number with decimals": [{"op": "replace", "path": "/cabinets/0/width", "value": 620.25}],
    "what is taken out": [
        {"op": "remove", "path": "/cabinets/0/space"},
        {"op": "replace", "path": "/cabinets/0/mounting", "value": {"method": "screw-strip", "height": 80}},
    ],
    "a place on the wall": [{"op": "replace", "path": "/wall/cabinets_at/spares/0/x", "value": 712.5}],
    "the job's own": [
        {"op": "replace", "path": "/materials/ply/thickness", "value": 15},
        {"op": "add", "path": "/house", "value": {"loading": {"lean_kg": 20}}},
    ],
}


def text(headings: list[str], rows: list[list[str]]) -> bytes:
    return "\n".join(map(";".join, (headings, *rows))).encode()


@pytest.mark.parametrize("name", PATCHES)
def test_a_table_changed_as_it_says_is_the_job_patched(registry: Registry, name: str) -> None:
    job = JobInput.from_table(TABLE.encode(), registry)
    headings, *rows = (line.split(";") for line in TABLE.splitlines())
    for line in change_lines(PATCHES[name], job):
        row, column, new, value = re.fullmatch(r"row (\d+), column (\S+?)( \(a new one\))?: (.*)", line).groups()  # type: ignore[union-attr]
        assert bool(new) == (column not in headings)
        if new:
            headings.append(column)
            rows = [[*one, ""] for one in rows]
        rows[int(row) - 2][headings.index(column)] = "" if value == "empty the cell" else value
    wanted = patched(job.document, read_patch(PATCHES[name], "", Findings()))
    assert JobInput.from_table(text(headings, rows), registry).document == wanted


def test_of_a_document_it_names_the_cabinet_and_the_keys(registry: Registry) -> None:
    document = {"cabinets": [{"id": "tools"}, {"id": "Öl, fett"}], "wall": {"studs": {"at": [400]}}}
    patch = [
        {"op": "add", "path": "/cabinets/1/mounting", "value": {"method": "screw-strip"}},
        {"op": "remove", "path": "/cabinets/0/case/back"},
        {"op": "replace", "path": "/wall/studs/at/0", "value": 412.5},
    ]
    assert change_lines(patch, JobInput(document, registry)) == [
        'cabinet Öl, fett, mounting: {"method": "screw-strip"}',
        "cabinet tools, case.back: take it out",
        "wall.studs.at 1: 412.5",
    ]
