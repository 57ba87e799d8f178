"""What-if: changes tried on a small job, the differences worked by hand."""

import copy

import pytest
from casewright.api.use.compare import Change, compare
from casewright.sdk.errors import ProblemsError
from casewright.sdk.loader import Registry, load

JOB = {
    "title": "Repair bay",
    "units": "mm",
    "materials": {
        "case": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18},
        "thin": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 6},
        "frame": {"kind": "board", "stuff": "red-oak", "thickness": 19},
    },
    "house": {"case": {"material": "case", "corner": {"method": "dowel"}, "back": None}, "depth": 320},
    "cabinets": [{"id": "bay", "count": 2, "width": 800, "height": 900}],
    "shop": {"fit": 0},
    "stock": {
        "sheets": [{"id": "full", "material": "case", "length": 2440, "width": 1220, "cost": 61.1}],
        "effort": 1,
    },
    "rates": {"currency": "EUR", "hour": 30, "minutes": {"joint": 2}},
}


@pytest.fixture(scope="module")
def registry() -> Registry:
    return load(discover="built-in")


@pytest.fixture
def tried(registry):
    """Return a function that tries one patch on the job and gives what differs."""

    def make(patch, **more):
        (change,) = compare({**JOB, **more}, [Change("tried", patch)], registry)["changes"]
        assert change["planned"], change["errors"]
        return change["differences"]

    return make


def test_no_change_makes_no_difference(tried):
    difference = tried({})
    assert difference["parts"] == {"added": [], "removed": [], "changed": []}
    assert difference["hardware"] == []
    assert (difference["checks"]["new"], difference["checks"]["gone"], difference["checks"]["level"]) == ([], [], [])
    assert difference["weight"]["cabinets"] == []
    assert difference["stock"]["buy"] == []
    assert (difference["costs"]["by"], difference["costs"]["lines"]) == ("0.00", [])


def test_a_deeper_case_changes_the_width_of_its_parts_alone(tried):
    difference = tried({"house": {"depth": 350}})
    assert {row["id"] for row in difference["parts"]["changed"]} == {
        "bay/side-left",
        "bay/side-right",
        "bay/top",
        "bay/bottom",
    }
    assert all(row["sizes"]["width"] == {"was": 320, "now": 350} for row in difference["parts"]["changed"])
    assert all(list(row["sizes"]) == ["width"] for row in difference["parts"]["changed"])
    # Two sides of 900 and two levels of 764 mm, 30 mm deeper, 18 mm thick, birch plywood; two cabinets.
    heavier = 2 * (2 * 0.9 + 2 * 0.764) * 0.03 * 0.018 * 685
    assert difference["weight"]["total_kg"]["now"] - difference["weight"]["total_kg"]["was"] == pytest.approx(
        heavier, abs=0.003
    )


def test_a_back_is_added_and_taken_away(tried, registry):
    back = {"material": "thin", "inset": 0, "joint": {"method": "applied"}}
    difference = tried({"house": {"case": {"back": back}}})
    (added,) = difference["parts"]["added"]
    assert (added["id"], added["quantity"], added["material"]) == ("bay/back", 2, "thin")
    assert difference["stock"]["parts_short"] == {"was": 0, "now": 2}  # no sheet of 6 mm is on hand
    joints = [row for row in difference["costs"]["lines"] if row["item"] == "joint"]
    assert joints[0]["was"]["quantity"] < joints[0]["now"]["quantity"]
    with_back = copy.deepcopy(JOB)
    with_back["house"]["case"]["back"] = back
    # null takes a key away; without a key the house has no back of its own and the default stands
    (change,) = compare(with_back, [Change("bare", {"house": {"case": {"back": {"material": None}}}})], registry)[
        "changes"
    ]
    assert [
        row["sizes"]["material"] for row in change["differences"]["parts"]["changed"] if row["id"] == "bay/back"
    ] == [{"was": "thin", "now": "case"}]


def test_a_dearer_hour_changes_the_cost_of_work_by_its_share(tried):
    difference = tried({"rates": {"hour": 36}})
    # 4 corners of two cabinets at 2 minutes: 16 minutes, at 30 and at 36 an hour.
    assert difference["costs"]["work"] == {"was": "8.00", "now": "9.60"}
    assert difference["costs"]["by"] == "1.60"
    assert difference["stock"]["buy"] == []


def test_more_of_a_cabinet_buys_more(tried):
    difference = tried({"cabinets": [{"id": "bay", "count": 6, "width": 800, "height": 900}]})
    (row,) = difference["stock"]["buy"]
    assert (row["stock"], row["was"]) == ("full", 1)
    assert row["now"] > 1
    assert difference["stock"]["cost"] == {"was": "61.10", "now": f"{row['now'] * 61.1:.2f}"}
    assert all(r["sizes"] == {"quantity": {"was": 2, "now": 6}} for r in difference["parts"]["changed"])


def test_a_new_stop_and_its_end(tried):
    low = {"ceiling": 2000, "cabinets_at": {"bay": [{"x": 0, "z": 1400}, {"x": 800, "z": 1400}]}}
    difference = tried({"wall": low})
    assert {"ceiling-hit", "mounting-missing"} == {
        c["code"] for c in difference["checks"]["new"] if c["level"] == "stop"
    }
    assert difference["checks"]["stops"] == {"was": 0, "now": 3}
    back = tried({"wall": {"ceiling": None}}, wall=low)
    assert {"ceiling-hit"} == {c["code"] for c in back["checks"]["gone"]}


def test_a_check_of_another_level_is_told_as_such(tried):
    past = {"cabinets_at": {"bay": [{"x": -10, "z": 1400}, {"x": 800, "z": 1400}]}}
    difference = tried({"wall": {"corners": "left"}}, wall=past)
    assert [(c["code"], c["was"], c["now"]) for c in difference["checks"]["level"]] == [
        ("wall-end-passed", "caution", "stop")
    ]


def test_units_of_a_change_do_not_disturb_the_comparison(registry):
    inches = copy.deepcopy(JOB)
    inches["units"] = "in"
    for key, value in {"width": "800 mm", "height": "900 mm"}.items():
        inches["cabinets"][0][key] = value
    inches["house"]["depth"] = "320 mm"
    for material in inches["materials"].values():
        material["thickness"] = f"{material['thickness']} mm"
    inches["stock"]["sheets"][0] |= {"length": "2440 mm", "width": "1220 mm"}
    (change,) = compare(inches, [Change("metric", {"units": "mm"})], registry)["changes"]
    assert change["differences"]["parts"] == {"added": [], "removed": [], "changed": []}


def test_a_change_that_cannot_be_planned_says_why_and_stops_no_other(registry):
    changes = [
        Change("no such material", {"materials": {"case": None}}),
        Change(
            "too thick", {"materials": {"case": {"thickness": 150}}, "cabinets": [{**JOB["cabinets"][0], "width": 200}]}
        ),
        Change("none", {}),
        Change("not a job", {"units": "feet"}),
    ]
    answer = compare(JOB, changes, registry)
    assert [c["planned"] for c in answer["changes"]] == [False, False, True, False]
    assert answer["changes"][0]["errors"][0]["pointer"] == "/house/case/material"
    assert all(c["differences"] is None for c in answer["changes"] if not c["planned"])
    assert all({"pointer", "rule", "got", "fix"} == set(e) for c in answer["changes"] for e in c["errors"])


def test_a_job_that_cannot_be_planned_is_an_error_of_its_own(registry):
    with pytest.raises(ProblemsError):
        compare({**JOB, "materials": {}}, [Change("none", {})], registry)


def test_what_was_sent_is_left_as_it_was_and_the_answer_is_the_same_again(registry):
    kept = copy.deepcopy(JOB)
    changes = [Change("deeper", {"house": {"depth": 350}})]
    assert compare(JOB, changes, registry) == compare(JOB, changes, registry)
    assert kept == JOB
