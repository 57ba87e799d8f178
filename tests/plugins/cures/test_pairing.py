"""One wall cleat through a pair notched for it, as a cure: for a cabinet behind which no stud stands."""

import copy

import pytest
from casewright.api import cures, plan
from casewright.api.job.json_patch import with_patch
from casewright.sdk.loader import load
from casewright.sdk.testing import CureContract

PLY = {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}


def pair(a=None, b=None, **wall):
    """Return two cabinets 600 wide side by side from 100 mm; studs at 300 and 600 stand behind the left one alone."""
    cabinet = {
        "width": 600, "height": 700, "depth": 300,
        "case": {"material": "ply", "back": {"material": "ply", "inset": 19}},
    }  # fmt: skip
    mounting = {"method": "bevel-cleat", "fastener": "lag-1-4-3", "per_stud": 3, "height": 120, "contents_kg": 8}
    return {
        "units": "mm",
        "materials": {"ply": PLY},
        "cabinets": [
            {"id": name, **copy.deepcopy(cabinet), "mounting": {**mounting, **(more or {})}}
            for name, more in (("a", a), ("b", b))
        ],
        "wall": {
            "studs": {"at": [300, 600], "stuff": "spruce-pine-fir"},
            "lining": 12.7,
            "length": 1300,
            "cabinets_at": {"a": [{"x": 100, "z": 1400}], "b": [{"x": 700, "z": 1400}]},
            **wall,
        },
    }


def stops(job):
    return [(check["code"], check["subject"]) for check in plan(job)["checks"] if check["level"] == "stop"]


class TestPaired(CureContract):
    generator = "hanging"
    stopping = (pair(), pair(b={"through": "left"}))


def test_a_neighbours_studs_carry_both():
    job = pair(b={"contents_kg": 5, "contents_duration": "ten-years", "per_stud": 1})
    assert stops(job) == [("no-stud", "/wall/cabinets_at/b/0")]
    (row,) = cures(job)["cures"]
    cure, *_ = [cure for cure in row["cures"] if cure["words"].startswith("one wall cleat through b and a")]
    assert cure["keeps"]
    set_to = {operation["path"]: operation["value"] for operation in cure["patch"]}
    assert set_to["/cabinets/1/mounting/through"] == "left"
    # The neighbour is fastened alike, with its own load.
    other = set_to["/cabinets/0/mounting"]
    assert (other["through"], other["contents_kg"], other["fastener"]) == ("right", 8, "lag-1-4-3")
    assert other["per_stud"] == set_to["/cabinets/1/mounting/per_stud"]
    assert "contents_duration" not in other


STRIP = {"method": "screw-strip"}


@pytest.mark.parametrize("screwed", ["a", "b", "ab"])
def test_what_is_screwed_through_a_strip_is_hung_on_one_cleat_with_its_neighbour(screwed):
    job = pair(b={"contents_from_left": 250})
    for cabinet in job["cabinets"]:
        if cabinet["id"] in screwed:
            kept = {key: value for key, value in cabinet["mounting"].items() if key.startswith("contents")}
            cabinet["mounting"] = {**STRIP, **kept}
    row = next(row for row in cures(job)["cures"] if row["check"]["code"] == "no-stud")
    cure = next(cure for cure in row["cures"] if cure["words"].startswith("one wall cleat through b and a"))
    changed = with_patch(job, cure["patch"])
    assert ("no-stud", "/wall/cabinets_at/b/0") not in stops(changed)
    left, right = (cabinet["mounting"] for cabinet in changed["cabinets"])
    assert left["method"] == right["method"] == "bevel-cleat"
    assert (left["through"], right["through"], right["contents_from_left"]) == ("right", "left", 250)


@pytest.mark.parametrize("apart", [60, 200])
def test_cabinets_that_stand_apart_make_no_pair(apart):
    job = pair(cabinets_at={"a": [{"x": 100, "z": 1400}], "b": [{"x": 700 + apart, "z": 1400}]}, length=1600)
    words = [cure["words"] for row in cures(job)["cures"] for cure in row["cures"]]
    assert not [one for one in words if "one wall cleat" in one]


def test_a_cleat_that_meets_none_is_joined_or_closed():
    job = pair(b={"through": "left"})
    (row,) = [row for row in cures(job)["cures"] if row["check"]["code"] == "cleat-through"]
    words = [cure["words"] for cure in row["cures"]]
    assert "a wall cleat of its own, its sides not notched" in words
    generators = load(discover="built-in").cures.values()
    assert any("cleat-through" in one.codes for one in generators)


def test_a_copys_studs_carry_the_copy_beside_it():
    """Two copies of one cabinet, studs behind the first alone: one cleat through both, their sides notched alike."""
    job = pair(a={"contents_kg": 5})
    job["cabinets"] = [{**job["cabinets"][0], "count": 2}]
    job["wall"]["cabinets_at"] = {"a": [{"x": 100, "z": 1400}, {"x": 700, "z": 1400}]}
    assert stops(job) == [("no-stud", "/wall/cabinets_at/a/1")]
    (row,) = cures(job)["cures"]
    cure, *_ = [cure for cure in row["cures"] if cure["words"].startswith("one wall cleat through neighbouring copies")]
    assert cure["keeps"]
    set_to = {operation["path"]: operation["value"] for operation in cure["patch"]}
    assert set_to["/cabinets/0/mounting/through"] == "both"


def test_what_hangs_on_one_strip_is_fastened_anew_alike():
    """Two on one cleat with one lag in each stud: a change of one alone would part them, so both get it."""
    job = pair(
        a={"through": "right", "per_stud": 1, "contents_kg": 20},
        b={"through": "left", "per_stud": 1, "contents_kg": 20},
        studs={"at": [300, 600, 900], "stuff": "spruce-pine-fir"},
    )
    rows = cures(job)["cures"]
    assert {row["check"]["code"] for row in rows} == {"fastener-use"}
    for row in rows:
        assert row["cures"]
        for cure in row["cures"]:
            assert {operation["path"].split("/")[2] for operation in cure["patch"]} == {"0", "1"}


def test_two_neighbours_with_a_stud_each_carry_the_one_between_them_that_has_none():
    """Three of 600 in a row, studs behind the outer two alone: one cleat through all, their facing sides notched."""
    job = pair()
    job["cabinets"].append({**copy.deepcopy(job["cabinets"][0]), "id": "c"})
    job["wall"] |= {
        "length": 2000,
        "studs": {"at": [400, 1600], "stuff": "spruce-pine-fir"},
        "cabinets_at": {name: [{"x": 100 + 600 * n, "z": 1400}] for n, name in enumerate("abc")},
    }
    assert ("no-stud", "/wall/cabinets_at/b/0") in stops(job)
    row = next(row for row in cures(job)["cures"] if row["check"]["code"] == "no-stud")
    cure = next(cure for cure in row["cures"] if cure["words"].startswith("one wall cleat through a, b and c"))
    changed = with_patch(job, cure["patch"])
    assert [one["mounting"]["through"] for one in changed["cabinets"]] == ["right", "both", "left"]
    assert "/wall/cabinets_at/b/0" not in [subject for _, subject in stops(changed)]
