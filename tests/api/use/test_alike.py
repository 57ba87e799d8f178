"""Stops of cabinets made alike, cured at once: each cure is applied here, and the plan of what comes of it read."""

import pytest
from casewright.api import cures, plan
from casewright.api.job.json_patch import with_patch

CASE = {"material": "ply", "back": {"material": "ply", "inset": 20}}
DOORS = {"style": "slab", "material": "ply", "overlay": 10, "meeting_gap": 0}


def job(*cabinets):
    """Return a job of cabinets whose pairs of doors have no gap between them, each with keys of its own."""
    every = {"width": 600, "height": 500, "depth": 300, "case": CASE, "space": {"front": "door-pair"}, "doors": DOORS}
    return {
        "units": "mm",
        "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
        "cabinets": [{"id": f"bay-{number}", **every, **own} for number, own in enumerate(cabinets)],
    }


def stops(document):
    return {(one["code"], one["subject"]) for one in plan(document)["checks"] if one["level"] == "stop"}


@pytest.fixture(scope="module")
def four():
    document = job({}, {"title": "By the stand"}, {"width": 640}, {})
    return document, cures(document)


def rows_of(answer):
    return next(value for value in answer.values() if isinstance(value, list))


def test_one_change_clears_the_stops_of_all_alike_and_of_no_other(four):
    document, answer = four
    alike, other = [f"/cabinets/{n}" for n in (0, 1, 3)], "/cabinets/2"
    first = rows_of(answer)[0]["cures"][0]["patch"]
    assert {"/".join(one["path"].split("/")[:3]) for one in first} == set(alike)
    left = stops(with_patch(document, first))
    assert {code for code, _ in left} == {"pair-gap"}
    assert len(left) == len(stops(document)) - 3
    assert all(other in subject or "bay-2" in subject for _, subject in left)


def test_every_cure_applied_in_turn_leaves_no_stop(four):
    document, answer = four
    for row in rows_of(answer):
        if row["cures"] and (row["check"]["code"], row["check"]["subject"]) in stops(document):
            document = with_patch(document, row["cures"][0]["patch"])
    assert stops(document) == set()


def test_twelve_alike_take_no_more_tries_than_two(four):
    two, twelve = (cures(job(*[{}] * count)) for count in (2, 12))
    assert twelve["tries"] == two["tries"]
    assert all(row["cures"] for row in rows_of(twelve))
