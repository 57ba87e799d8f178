"""The cut list: like parts in one row, every piece in some row once."""

import json
from pathlib import Path

import pytest
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.api.papers import outlines
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.cut_list import _row, _size, likes, to_cut
from casewright.api.papers.pages.setting import BOX

EXAMPLE = Path(__file__).resolve().parents[4] / "openapi" / "examples" / "repair-bay.json"


@pytest.fixture(scope="module")
def facts(registry):
    job = json.loads(EXAMPLE.read_text())
    job.pop("stock")
    return Facts(make_plan(read_job(job, registry), registry))


def test_a_row_holds_all_that_is_cut_alike_and_nothing_else(facts):
    rows = likes(facts)
    parts = [part for row in rows for part in row.parts]
    assert sorted(part.id for part in parts) == sorted(facts.parts)
    assert sum(row.pieces for row in rows) == sum(part.quantity for part in facts.parts.values())
    sizes = [(row.parts[0].material, row.parts[0].length, row.parts[0].width) for row in rows]
    assert len(set(sizes)) == len(rows)
    for row in rows:
        assert len({(part.length, part.width, part.thickness, part.grain, part.material) for part in row.parts}) == 1
    assert [row.number for row in rows] == list(range(1, len(rows) + 1))


def test_both_sides_of_a_cabinet_are_one_row(facts):
    (row,) = [row for row in likes(facts) if any(part.id == "tools/side-left" for part in row.parts)]
    assert {part.id for part in row.parts} == {"tools/side-left", "tools/side-right"}
    assert row.pieces == 4  # two cabinets of two sides


@pytest.mark.parametrize(
    ("nm", "tape", "exact"),
    # 1 in is 25,400,000 nm: 10 1/4 in, 33 in, and 27.291 in, which lies nearest to 27 19/64 (27.296875).
    [(260_350_000, "10 1/4", "10.25"), (838_200_000, "33", ""), (693_191_400, "27 19/64", "27.291")],
)
def test_a_size_is_read_on_the_tape_with_its_decimals_beside_it(facts, nm, tape, exact):
    size = _size(facts, nm)
    assert (size.tape, size.exact) == (tape, exact)


def test_what_is_cut_already_is_said_in_its_row(registry):
    """One of the two sides of the wide cabinet is measured as planned: its row says one of two, with one box left."""
    job = json.loads(EXAMPLE.read_text())
    job.pop("stock")
    job["built"] = [{"cabinet": "spares", "part": "side-left", "measure": "length", "value": 30}]
    facts = Facts(make_plan(read_job(job, registry), registry))
    (like,) = [row for row in likes(facts) if any(part.id == "spares/side-left" for part in row.parts)]
    assert (like.pieces, like.built) == (2, 1)
    row = _row(facts, like, facts.named.every)
    assert "cut already: 1" in row[1]
    assert row[-1] == BOX


def test_panes_bought_to_size_are_no_rows_of_what_is_cut_and_are_numbered_after_it(registry):
    job = json.loads(EXAMPLE.read_text())
    job.pop("stock")
    job["house"]["doors"]["panel_kind"] = "glass"
    job["materials"]["infill"] = {"kind": "sheet", "stuff": "float-glass", "thickness": "1/8"}
    facts = Facts(make_plan(read_job(job, registry), registry))
    rows, cut = likes(facts), to_cut(facts)
    assert [row.number for row in cut] == list(range(1, len(cut) + 1))
    assert {row.parts[0].material for row in rows[len(cut) :]} == {"infill"}
    assert not any(part.material == "infill" for row in cut for part in row.parts)
    drawing = outlines(facts.plan).decode("utf-8")
    assert "tools-door-1-stile-left" in drawing
    assert "tools-door-1-panel" not in drawing
