"""The cures of hanging, held to the contract of generators; and where they have nothing honest to propose."""

import copy

import pytest
from casewright.api import cures, plan
from casewright.api.job.json_patch import with_patch
from casewright.sdk.testing import CureContract

PLY = {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}
WALL = {
    "studs": {"at": [100, 506, 912, 1318], "stuff": "spruce-pine-fir", "width": 38, "depth": 89},
    "lining": 12.7,
    "ceiling": 2440,
    "cabinets_at": {"tools": [{"x": 50, "z": 1400}]},
}


def hung(wall=None, **mounting):
    """Return a cabinet of 700 by 800 by 300 mm that hangs on a wall with studs 406 mm apart."""
    return {
        "units": "mm",
        "materials": {"ply": PLY, "oak": {"kind": "board", "stuff": "red-oak", "thickness": 25}},
        "cabinets": [
            {
                "id": "tools",
                "width": 700,
                "height": 800,
                "depth": 300,
                "case": {"material": "ply", "back": {"material": "ply", "inset": 20}},
                "mounting": {"method": "bevel-cleat", "contents_kg": 60, **mounting},
            }
        ],
        "wall": {**WALL, **(wall or {})},
    }


def codes(job):
    return {check["code"] for check in plan(job)["checks"] if check["level"] == "stop"}


class TestHangingCures(CureContract):
    generator = "hanging"
    stopping = (
        hung(per_stud=1, fastener="lag-1-4-2-1-2", contents_kg=30),
        hung(fastener="screw-10-1-1-4"),
        hung(per_stud=6, fastener="lag-3-8-3"),
        hung({"studs": {**WALL["studs"], "at": [20, 740, 1100]}}, fastener="lag-1-4-3"),
    )


def test_more_anchors_in_masonry():
    masonry = {"tension_n": 500, "shear_n": 700, "approval": "sheet 7", "anchors": 2, "stand_off": 50}
    job = hung({"masonry": masonry, "lining": 0})
    del job["wall"]["studs"]
    (row,) = [row for row in cures(job)["cures"] if row["check"]["code"] == "fastener-use"]
    use = row["check"]["value"]
    assert use > 1
    paths = {operation["path"]: operation["value"] for cure in row["cures"] for operation in cure["patch"]}
    # Anchors share the load at best evenly, so two times the use, up to a whole one, is the fewest that can do.
    assert paths["/wall/masonry/anchors"] >= 2 * use


def test_a_fact_to_be_found_out_is_not_made_up():
    job = hung()
    job["wall"] = {"cabinets_at": job["wall"]["cabinets_at"]}
    assert "wall-unknown" in codes(job)
    (row,) = [row for row in cures(job)["cures"] if row["check"]["code"] == "wall-unknown"]
    assert (row["cures"], row["tries"]) == ([], 0)
    assert "found out" in row["why_none"]


def test_less_load_comes_last_and_says_that_it_gives_something_up():
    job = copy.deepcopy(hung(per_stud=1, fastener="lag-1-4-2-1-2", contents_kg=300))
    for row in cures(job)["cures"]:
        kept = [cure["keeps"] for cure in row["cures"] if not cure["leaves"]]
        assert kept == sorted(kept, reverse=True)


MASONRY = {"tension_n": 1500, "shear_n": 2000, "approval": "sheet 7", "anchors": 3}


def on_masonry(**mounting):
    """Return the cabinet on bare masonry that its anchors touch: its back stands in by 20, its cleat is as given."""
    job = hung({"masonry": MASONRY, "lining": 0}, **{"contents_kg": 20, **mounting})
    del job["wall"]["studs"]
    return job


def test_a_back_set_in_by_the_cleats_thickness_takes_the_packing_away():
    """Ply of 18 behind 20 stands 2 off: a back 18 in leaves nothing."""
    (row,) = cures(on_masonry())["cures"]
    assert (row["check"]["code"], row["check"]["value"]) == ("anchor-stand-off", 2)
    (cure,) = row["cures"]
    assert cure["patch"] == [{"op": "replace", "path": "/cabinets/0/case/back/inset", "value": 18}]


def test_a_strip_inside_gives_way_to_cleats_that_lie_on_the_masonry():
    """The back, 18 thick, would hold the strip 18 + 20 off; behind a back 18 in, the cleat of 18 touches the wall."""
    (row,) = cures(on_masonry(method="screw-strip"))["cures"]
    assert (row["check"]["code"], row["check"]["value"]) == ("anchor-stand-off", 38)
    (cure,) = row["cures"]
    changed = {one["path"]: one["value"] for one in cure["patch"]}
    assert changed["/cabinets/0/case/back/inset"] == 18
    assert changed["/cabinets/0/mounting"] == {"contents_kg": 20, "method": "bevel-cleat"}


def test_strips_of_another_wood_on_masonry():
    """Of ply, 18 thick, they would stand 2 off the wall; of oak, 25 thick, the case stands off it instead."""
    job = on_masonry(material="board")
    job["materials"]["board"] = {"kind": "sheet", "stuff": "mdf", "thickness": 20}
    (row,) = cures(job)["cures"]
    assert row["check"]["code"] == "fastener-wood"
    assert {cure["words"] for cure in row["cures"]} == {"strips of oak"}


def test_a_lone_stud_is_brought_to_the_middle_of_the_cabinet():
    """A stud at 720, 30 from the right end of the case: with that at 370 its middle, 350 in, stands over the stud."""
    job = hung({"studs": {**WALL["studs"], "at": [720]}}, contents_kg=15, height=100)
    (row,) = cures(job)["cures"]
    assert row["check"]["code"] == "no-stud"
    assert any(
        {"op": "replace", "path": "/wall/cabinets_at/tools/0/x", "value": 370} in cure["patch"] for cure in row["cures"]
    )


def test_strips_of_a_stuff_that_no_rule_covers_are_made_of_another():
    job = hung(material="board", contents_kg=15)
    job["materials"]["board"] = {"kind": "sheet", "stuff": "mdf", "thickness": 18}
    (row,) = cures(job)["cures"]
    assert row["check"]["code"] == "fastener-wood"
    assert "strips of oak" in [cure["words"] for cure in row["cures"]]


def test_a_cabinet_far_from_every_stud_is_brought_to_the_nearest():
    """From 2600 the nearest stud, at 1318, is farther off than moves are tried one by one; 1115 is between two."""
    job = hung({"cabinets_at": {"tools": [{"x": 2600, "z": 1400}]}}, contents_kg=15)
    (row,) = cures(job)["cures"]
    assert row["check"]["code"] == "no-stud"
    moved = [op["value"] for cure in row["cures"] for op in cure["patch"] if op["path"].endswith("/x")]
    assert any(abs(x + 350 - 1115) <= 5 for x in moved)


def test_a_copy_is_moved_to_a_stud_though_the_other_stands_at_none():
    """Two of 700, one left of the only stud by 50 mm and one out of its reach: the near one is moved over it."""
    job = hung({"studs": {**WALL["studs"], "at": [800]}, "length": 4000}, contents_kg=40)
    job["cabinets"][0]["count"] = 2
    job["wall"]["cabinets_at"] = {"tools": [{"x": 50, "z": 1400}, {"x": 2500, "z": 1400}]}
    rows = {row["check"]["subject"]: row for row in cures(job)["cures"] if row["check"]["code"] == "no-stud"}
    near, far = (rows[f"/wall/cabinets_at/tools/{number}"] for number in (0, 1))
    moves = [one["value"] for cure in near["cures"] for one in cure["patch"] if one["path"].endswith("/0/x")]
    assert moves
    assert all(100 < x < 800 for x in moves)
    assert far["cures"] or "backing" in far["why_none"]


def one_stud(width, depth, at, **mounting):
    """Return a cabinet whose strip crosses one stud, so far from the cabinet's left end."""
    job = hung({"studs": {**WALL["studs"], "at": [1000 + at]}, "length": 4000, "ceiling": 2440}, **mounting)
    job["cabinets"][0] |= {"width": width, "height": 400, "depth": depth}
    job["wall"]["cabinets_at"] = {"tools": [{"x": 1000, "z": 1400}]}
    return job


def stops_of(job):
    return {(check["code"], check["subject"]) for check in plan(job)["checks"] if check["level"] == "stop"}


@pytest.mark.parametrize(
    "job",
    [
        one_stud(350, 200, 175, contents_kg=80, fastener="screw-12-3-1-2", per_stud=1),
        one_stud(350, 280, 245, contents_kg=60, contents_from_left=260),
        one_stud(900, 300, 450, contents_kg=60, per_stud=1),
        one_stud(700, 300, 140, contents_kg=30, fastener="lag-1-4-3", per_stud=1),
        one_stud(600, 350, 60, contents_kg=20),
    ],
)
def test_what_is_offered_on_one_stud_serves_or_says_what_is_left(job):
    """Each cure is planned anew: what `leaves` names, and nothing more, still stops this cabinet, and none is new."""
    before = stops_of(job)
    assert before
    for row in cures(job)["cures"]:
        assert row["cures"] or "another stud" in row["why_none"] or "backing" in row["why_none"]
        serving = [not cure["leaves"] for cure in row["cures"]]
        assert serving == sorted(serving, reverse=True)  # those that serve come first
        for cure in row["cures"]:
            after = stops_of(with_patch(job, cure["patch"]))
            assert (row["check"]["code"], row["check"]["subject"]) not in after
            assert after <= before
            assert after == {(left["code"], left["subject"]) for left in cure["leaves"]}


def test_a_load_that_is_offered_as_less_holds_with_the_higher_strips_beside_it():
    """What higher strips weigh more is borne too: 80 kg on one stud in a narrow case is too much, a little less not."""
    (row,) = cures(one_stud(350, 200, 175, contents_kg=80, fastener="screw-12-3-1-2", per_stud=1))["cures"]
    assert row["check"]["code"] == "fastener-use"
    loads = [op["value"] for cure in row["cures"] for op in cure["patch"] if op["path"].endswith("contents_kg")]
    assert loads
    assert max(loads) < 80


def test_a_lone_fastener_that_is_twisted_is_described_in_words():
    (message,) = {
        check["message"]
        for check in plan(one_stud(600, 300, 150, contents_kg=20, fastener="lag-1-4-3", per_stud=1))["checks"]
        if check["code"] == "fastener-group"
    }
    assert "two over one another" in message
    assert "e-" not in message
