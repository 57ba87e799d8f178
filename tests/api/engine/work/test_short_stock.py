"""A material that stock is short of: a stop on every view, with the purchase as data, in the job's own units."""

import copy

import pytest
from casewright.api import plan
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.api.papers.drawing.shapes import Text
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.labels import label_sheets
from casewright.api.wire.tables import checks_csv, cutting_csv, parts_csv

LOOSE = [{"id": "flap", "material": "ply", "length": 600, "width": 300, "quantity": 3}]


def job(units="mm", over=1, **stock):
    """Three flaps of 600 x 300 (of a unit) and one offcut that holds one."""
    scrap = {"id": "scrap", "material": "ply", "length": 650 / over, "width": 320 / over}
    loose = [{**row, "length": row["length"] / over, "width": row["width"] / over} for row in LOOSE]
    return {
        "units": units,
        "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18 / over}},
        "cabinets": [],
        "loose_parts": loose,
        "stock": {"kerf": 3 / over, "offcuts": [scrap], **stock},
    }


@pytest.mark.parametrize(("units", "over"), [("mm", 1), ("in", 25)])
def test_short_stock_is_a_stop_with_its_cure_in_the_jobs_units(units, over):
    # two flaps end to end, a kerf between, 600 + 3 + 600 by 300, are smaller than side by side, 600 by 603
    answer = plan(job(units, over))
    (stop,) = [check for check in answer["checks"] if check["level"] == "stop"]
    assert (stop["code"], stop["subject"], stop["value"]) == ("no-stock", "/materials/ply", 2)
    (lacking,) = answer["stock"]["lacking"]
    (bought,) = lacking["buy"]
    assert (lacking["material"], lacking["parts"], bought["stock"], bought["quantity"]) == ("ply", 2, None, 1)
    assert (bought["length"], bought["width"]) == pytest.approx((1203 / over, 300 / over))
    assert ("mm" in stop["message"]) == (units == "mm")
    assert answer["parts"][0]["no_stock"] == 2
    assert answer["stock"]["bound"] == []


def test_what_is_proposed_ends_the_stop_when_followed():
    first = job()
    (bought,) = plan(first)["stock"]["lacking"][0]["buy"]
    mended = copy.deepcopy(first)
    mended["stock"]["offcuts"].append(
        {"id": "got", "material": "ply", "length": bought["length"], "width": bought["width"]}
    )
    assert not [check for check in plan(mended)["checks"] if check["level"] == "stop"]


def test_loose_parts_may_be_turned_where_that_ends_it():
    narrow = job()
    narrow["loose_parts"] = [{"id": "flap", "material": "ply", "length": 300, "width": 600}]
    answer = plan(narrow)
    assert answer["stock"]["lacking"][0]["turn"] == ["loose/flap"]
    narrow["loose_parts"][0]["grain"] = "free"
    assert not [check for check in plan(narrow)["checks"] if check["level"] == "stop"]


def test_every_table_and_label_says_it(registry):
    answer = plan(job())
    head, _, row = parts_csv(answer).decode().splitlines()
    assert dict(zip(head.split(","), row.split(","), strict=True))["no_stock"] == "2"
    assert "no-stock" in checks_csv(answer).decode()
    rows = cutting_csv(answer).decode()
    assert "does not yield" in rows
    made = make_plan(read_job(job(), registry), registry)
    (sheet,) = label_sheets(Facts(made), "A4")
    words = [shape.text for view in sheet.views for shape in view.shapes if isinstance(shape, Text)]
    assert sum(text.startswith("NO STOCK YET") for text in words) == 2
    assert sum(text.startswith("piece 1 of 3") for text in words) == 1


def test_only_boards_with_a_good_face_are_cut_for_what_is_seen():
    # a drawer front or a frame is seen: of a hidden board alone the frame cannot be cut, the loose strip can
    job = {
        "units": "mm",
        "materials": {
            "ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18},
            "oak": {"kind": "board", "stuff": "red-oak", "thickness": 19},
        },
        "cabinets": [
            {
                "id": "a",
                "width": 500,
                "height": 500,
                "depth": 300,
                "case": {"material": "ply"},
                "face_frame": {"material": "oak", "stile": 40, "rail": 40},
            }
        ],
        "loose_parts": [{"id": "strip", "material": "oak", "length": 600, "width": 40}],
        "stock": {
            "sheets": [{"id": "full", "material": "ply", "length": 2440, "width": 1220}],
            "boards": [{"id": "plain", "material": "oak", "length": 2400, "width": 150, "grade": "hidden"}],
        },
    }
    short = {row["part"] for row in plan(job)["stock"]["short"]}
    assert short
    assert all("frame" in name or "stile" in name or "rail" in name for name in short)
    job["stock"]["boards"][0]["grade"] = "face"
    assert plan(job)["stock"]["short"] == []


def test_stock_that_yields_all_parts_is_no_stop():
    enough = job(sheets=[{"id": "full", "material": "ply", "length": 2440, "width": 1220}])
    answer = plan(enough)
    assert answer["stock"]["lacking"] == []
    assert not [check for check in answer["checks"] if check["level"] == "stop"]
