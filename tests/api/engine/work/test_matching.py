"""Rows cut in sequence as the shop sees them: layouts, steps, list, labels, and what ends a row that cannot be had."""

import copy
from dataclasses import replace

import pytest
from casewright.api import plan as planned
from casewright.api.engine import make_plan
from casewright.api.engine.work.matching import match_checks
from casewright.api.job.document import read_job
from casewright.api.papers.drawing.shapes import Text
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.cut_list import cut_list
from casewright.api.papers.pages.labels import label_sheets
from casewright.api.wire.tables import parts_csv

JOB = {
    "units": "mm",
    "materials": {
        "ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18},
        "oak": {"kind": "board", "stuff": "red-oak", "thickness": 19},
    },
    "cabinets": [
        {
            "id": "bay", "count": 2, "form": "base", "width": 600, "height": 700, "depth": 500,
            "case": {"material": "ply", "back": None}, "drawers": {"front": "oak", "overlay": 8},
            "space": {"front": "drawer", "drawers": 3, "drawer_rule": "graduated", "match": True},
        }
    ],
    "stock": {
        "kerf": 3,
        "sheets": [{"id": "full", "material": "ply", "length": 2440, "width": 1220}],
        "boards": [{"id": "oak-1", "material": "oak", "width": 320, "length": 1900, "surfaced": "all-sides"}],
    },
}  # fmt: skip
ROW = ["bay/drawer-1/front", "bay/drawer-2/front", "bay/drawer-3/front"]


def job(**board):
    out = copy.deepcopy(JOB)
    out["stock"]["boards"][0].update(board)
    return out


def stops(answer):
    return [check for check in answer["checks"] if check["code"] in ("match", "no-stock", "work-not-carried-out")]


@pytest.mark.parametrize("board", [{}, {"thickness": 27, "surfaced": "none", "length": 2100}])
def test_each_row_comes_of_one_board_in_order_and_its_step_says_so(board):
    answer = planned(job(**board))
    assert stops(answer) == []
    boards = [layout for layout in answer["stock"]["layouts"] if layout["stock"] == "oak-1"]
    for layout in boards:
        along = [one["part"] for one in sorted(layout["parts"], key=lambda one: one["x"])]
        assert along in (ROW, ROW[::-1])
    assert len(boards) == 2
    (step,) = [step for step in answer["steps"] if any("Grain runs on" in text for text in step["cautions"])]
    assert step["stage"] == "cut"
    assert "drawer 1 front, drawer 2 front and drawer 3 front" in " ".join(step["cautions"])


def test_without_stock_the_steps_say_it_too():
    document = job()
    del document["stock"]
    cautions = [text for step in planned(document)["steps"] for text in step["cautions"]]
    assert any("Grain runs on over bay drawer 1 front" in text for text in cautions)


def test_boards_too_short_are_a_stop_that_both_its_cures_end():
    answer = planned(job(length=1000))
    (stop,) = stops(answer)
    assert (stop["code"], stop["subject"], stop["value"]) == ("no-stock", "/materials/oak", 6)
    assert 'leave out "match"' in stop["message"]
    (lacking,) = answer["stock"]["lacking"]
    assert lacking["unmatch"] == ROW
    loose = job(length=1000)
    loose["cabinets"][0]["space"]["match"] = False
    assert stops(planned(loose)) == []
    bought = job(length=1000)
    bought["stock"]["boards"] += [
        {"id": f"got-{at}", "material": "oak", "length": one["length"], "width": one["width"], "surfaced": "all-sides"}
        for at, one in enumerate(lacking["buy"])
    ]
    assert stops(planned(bought)) == []


def test_fronts_glued_up_of_strips_are_a_stop_that_wider_boards_end():
    # Graduated fronts share 700 less two edges of the case and two gaps in 2 : 3 : 4, the lowest some 290 high.
    (stop,) = stops(planned(job(width=150)))
    assert (stop["code"], stop["subject"], stop["value"]) == ("match", "/materials/oak", 3)
    assert "glued up of strips" in stop["message"]


@pytest.fixture(scope="module")
def plan(registry):
    return make_plan(read_job(job(), registry), registry)


def test_layouts_that_break_a_row_are_a_stop(plan):
    layout = next(one for one in plan.stock.layouts if one.kind == "board")
    first, second, third = ROW

    def renamed(piece):
        name = {first: second, second: first}.get(piece.part, piece.part)
        return replace(piece, part=name, inside=tuple(map(renamed, piece.inside)))

    broken = tuple(replace(one, tree=renamed(one.tree)) if one is layout else one for one in plan.stock.layouts)
    assert match_checks(plan.job, plan.parts, plan.stock) == ()
    (check,) = match_checks(plan.job, plan.parts, replace(plan.stock, layouts=broken))
    assert (check.level, check.code) == ("stop", "match")
    assert third in check.message


def test_list_labels_and_table_show_each_parts_place(plan, registry):
    rows = [row for table in cut_list(Facts(plan)) if hasattr(table, "_cellvalues") for row in table._cellvalues]
    assert any("1 of 3 in row bay/match-1" in getattr(cell, "text", str(cell)) for row in rows for cell in row)
    sheets = label_sheets(Facts(plan), "A4")
    texts = [one.text for sheet in sheets for view in sheet.views for one in view.shapes if isinstance(one, Text)]
    assert texts.count("3 of 3 in its row of grain") == 2
    lines = parts_csv(planned(job())).decode().splitlines()
    assert sum(",bay/match-1: 2 of 3," in line for line in lines) == 1
