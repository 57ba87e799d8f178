"""The least change of a fixed job that takes less of its stock: worked by hand."""

import pytest
from casewright.api import plan
from casewright.api.job.ranges import read_question
from casewright.api.use.from_stock import from_stock_answer
from casewright.api.use.planning import Planner
from casewright.sdk.errors import BadDocumentError


def job(stock, over=1.0, units="mm"):
    """Return a case of two sides, 405 x 200, and a top and a bottom between them, 400 less 2 x 18, so 364 x 200."""
    box = {"id": "box", "width": 400 / over, "height": 405 / over, "depth": 200 / over}
    case = {"material": "ply", "back": None, "corner": {"method": "screwed-butt"}}
    return {
        "units": units,
        "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18 / over}},
        "cabinets": [{**box, "case": case}],
        "stock": {"kerf": 3 / over, **stock},
    }


def changes(registry, document, answers=5):
    question = {"job": document, "aim": "least-change", "answers": answers}
    return from_stock_answer(read_question(question, registry), Planner(registry))


def strip(name, length):
    return {"id": name, "material": "ply", "length": length, "width": 200}


def test_a_shortage_ends_by_the_least_change(registry):
    # A side and a top beside it take 405 + 3 + 364 = 772 of a strip of 760: 12 too much, of height or of width.
    document = job({"offcuts": [strip("one", 760), strip("other", 760)]})
    assert plan(document)["stock"]["short"]
    answers = changes(registry, document)["answers"]
    assert {(one["values"][0]["pointer"], one["values"][0]["value"]) for one in answers} == {
        ("/cabinets/0/height", 393),
        ("/cabinets/0/width", 388),
    }
    assert [one["changed"] for one in answers] == [12, 12]
    for answer in answers:
        assert plan(answer["job"])["stock"]["short"] == []


def test_a_sheet_is_saved(registry):
    # All four on one sheet 200 wide and 1537 long: 2 x 405 + 2 x 364 + 3 x 3 = 1547, 10 too much: 5 of height or width,
    # which steps of 2 make 6.
    sheet = {"id": "strip", "material": "ply", "length": 1537, "width": 200, "cost": 20}
    document = job({"sheets": [sheet]})
    assert [row["quantity"] for row in plan(document)["stock"]["buy"]] == [2]
    answers = changes(registry, document)["answers"]
    assert answers[0]["changed"] == 6
    assert [row["quantity"] for row in answers[0]["buy"]] == [1]


def test_nothing_is_changed_where_nothing_is_saved(registry):
    roomy = {"id": "full", "material": "ply", "length": 2440, "width": 1220}
    assert changes(registry, job({"sheets": [roomy]}))["answers"] == []


def test_a_range_is_refused_where_a_fixed_job_is_meant(registry):
    document = job({"offcuts": [strip("one", 760)]})
    document["cabinets"][0]["width"] = {"least": 300, "most": 400}
    with pytest.raises(BadDocumentError) as refused:
        changes(registry, document)
    assert [problem.pointer for problem in refused.value.problems] == ["/job/cabinets/0/width"]
