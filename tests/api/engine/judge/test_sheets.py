"""Sheets against the range they are sold in: 18 mm birch plywood measures 17.1 to 18.1 mm (EN 315-class data sheet)."""

import pytest
from casewright.sdk.units import mm


@pytest.mark.parametrize(
    ("thickness", "limit"), [("17.1", None), ("18.1", None), ("17.05", "17.1"), ("18.2", "18.1"), ("19.5", "20.0")]
)  # 19.5 is nearer to 21 mm, 20.0 to 20.9, than to 18
def test_a_sheet_outside_its_range_is_a_caution(planned, thickness, limit):
    case = {"kind": "sheet", "stuff": "birch-plywood", "thickness": thickness}
    plan = planned(case={"back": None}, materials={"case": case})
    found = [
        (check.subject, check.level, check.limit)
        for check in plan.checks
        if check.code == "sheet-thickness" and check.subject == "/materials/case/thickness"
    ]
    assert found == ([("/materials/case/thickness", "caution", mm(limit))] if limit else [])


def test_every_sheet_of_the_catalogue_is_judged_by_its_own_source(planned, registry):
    # 18 mm is no size of 3/4 in plywood of PS 1 (18.26 to 19.84 mm), but is one of 23/32 (17.46 to 19.05 mm).
    for stuff in registry.catalogue.stuffs:
        if stuff.kind == "sheet":
            case = {"kind": "sheet", "stuff": stuff.id, "thickness": 18}
            checks = planned(case={"back": None}, materials={"case": case}).checks
            assert all(check.source for check in checks if check.code == "sheet-thickness")


def test_boards_have_no_range(planned):
    subjects = [check.subject for check in planned().checks if check.code == "sheet-thickness"]
    assert "/materials/frame/thickness" not in subjects
