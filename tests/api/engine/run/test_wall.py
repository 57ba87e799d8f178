"""Obstacles, ends of the wall, the ceiling, level lines and the order of setting, worked by hand."""

from itertools import pairwise

import pytest
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from needs import before

MM = 1_000_000
WINDOW = {"id": "north", "kind": "window", "x": 900, "z": 1000, "width": 1200, "height": 1200}


def at(x, z=1400, **wall):
    return {"wall": {"cabinets_at": {"bay": [{"x": x, "z": z}]}, **wall}}


@pytest.mark.parametrize(
    ("x", "z", "clear", "by", "way"),
    [
        (150, 1400, 0, 50, "to the left"),  # right side at 950, window from 900
        (2090, 1400, 0, 10, "to the right"),  # left side at 2090, window to 2100
        (1000, 150, 0, 50, "down"),  # top at 1050, window from 1000
        (1000, 2180, 0, 20, "up"),  # bottom at 2180, window to 2200
        (80, 1400, 30, 10, "to the left"),  # 30 kept clear: from 870
    ],
)
def test_a_cabinet_over_a_window_is_a_stop_with_the_least_move(planned, x, z, clear, by, way):
    made = planned(**at(x, z, obstacles=[{**WINDOW, "keep_clear": clear}]))
    (check,) = [c for c in made.checks if c.code == "obstacle-hit"]
    assert (check.level, check.subject, check.value) == ("stop", "/wall/cabinets_at/bay/0", by * MM)
    assert f"is {way}," in check.message
    assert "window north" in check.message


@pytest.mark.parametrize(("x", "z"), [(100, 1400), (2100, 1400), (1000, 100), (1000, 2200)])
def test_a_cabinet_that_just_touches_what_is_kept_clear_is_well(planned, codes, x, z):
    assert codes(planned(**at(x, z, obstacles=[WINDOW])), "obstacle-hit") == []


def test_the_ends_of_the_wall(planned, codes):
    assert codes(planned(**at(-20)), "wall-end-passed")[0][0] == "caution"
    assert codes(planned(**at(-20, corners="left")), "wall-end-passed")[0][0] == "stop"
    assert codes(planned(**at(300, length=1000)), "wall-end-passed")[0][0] == "caution"
    assert codes(planned(**at(300, length=1000, corners="right")), "wall-end-passed")[0][0] == "stop"
    assert codes(planned(**at(200, length=1000, corners="right")), "wall-end-passed") == []


@pytest.mark.parametrize(("x", "narrower"), [(-20, False), (300, True)])
def test_what_ends_a_check_of_the_wall_s_end_ends_it(planned, x, narrower):
    """A cabinet stands where its left side does: made narrower it leaves the right end alone, and not the left one."""
    wall = {"length": 1000}
    (check,) = [c for c in planned(**at(x, **wall)).checks if c.code == "wall-end-passed"]
    assert ("or make it narrower" in check.message) is narrower
    by = check.value / MM
    moved, slimmer = (
        planned(**at(x - by if narrower else x + by, **wall)),
        planned({"width": 800 - by}, **at(x, **wall)),
    )
    assert "wall-end-passed" not in {c.code for c in moved.checks}
    assert ("wall-end-passed" not in {c.code for c in slimmer.checks}) is narrower


def test_the_ceiling(planned, codes):
    assert codes(planned(**at(0, 1500, ceiling=2400)), "ceiling-hit") == []
    assert codes(planned(**at(0, 1501, ceiling=2400)), "ceiling-hit")[0][0] == "stop"


def test_a_tall_cabinet_must_have_room_to_be_tilted_up(planned, codes):
    # A 3-4-5 triangle: 2100 high and 1575 deep has a diagonal of 2625.
    tall = {"form": "tall", "height": 2100, "depth": 1575}
    assert codes(planned(tall, **at(0, 0, ceiling=2625)), "no-room-to-tilt") == []
    assert codes(planned(tall, **at(0, 0, ceiling=2624)), "no-room-to-tilt")[0][0] == "caution"


def test_level_lines_name_all_that_stand_on_them(planned):
    made = planned(
        {"count": 2, "mounting": {"method": "bevel-cleat", "contents_kg": 10},
         "case": {"material": "case", "back": {"inset": 19}}},
        wall={"cabinets_at": {"bay": [{"x": 0, "z": 1400}, {"x": 900, "z": 1400}]}},
    )  # fmt: skip
    lines = {line.of: line for line in made.run.levels}
    assert set(lines) == {"bottoms", "tops", "cleat-bottoms", "cleat-tops"}
    assert lines["bottoms"].height == 1400 * MM
    assert lines["tops"].height == 2300 * MM
    assert all(line.standings == ("bay 1", "bay 2") for line in made.run.levels)
    (cleat,) = [p for p in made.parts if p.role == "wall-cleat"]
    box = cleat.place.box(cleat.blank)
    assert lines["cleat-bottoms"].height == 1400 * MM + box.z0
    assert lines["cleat-tops"].height == 1400 * MM + box.z1


def test_a_standing_cabinet_placed_above_the_floor_is_told(planned, codes):
    base = {"form": "base", "height": 720}
    assert codes(planned(base, **at(0, 50)), "base-off-floor")[0][0] == "caution"
    made = planned(base, **at(0, 0))
    assert codes(made, "base-off-floor") == []
    assert codes(made, "highest-point")[0][0] == "note"


def test_studs_behind_each_cabinet(planned):
    studs = {"at": [100, 500, 900, 1300], "stuff": "spruce-pine-fir"}
    (standing,) = planned(**at(200, studs=studs)).run.standings
    assert standing.studs == (500 * MM, 900 * MM)


def three(document, **wall):
    """Return a job with a tall, a base and two wall cabinets."""
    job = document()
    (bay,) = job["cabinets"]
    job["cabinets"] = [
        {**bay, "id": "under", "form": "base", "height": 720},
        {**bay, "id": "over", "count": 2},
        {**bay, "id": "store", "form": "tall", "height": 2000},
    ]
    job["wall"] = {
        "cabinets_at": {
            "under": [{"x": 0, "z": 0}],
            "over": [{"x": 0, "z": 1200}, {"x": 800, "z": 1200}],
            "store": [{"x": 1600, "z": 0}],
        },
        **wall,
    }
    return job


def test_tall_before_wall_before_base_each_from_the_corner(document, registry):
    left = make_plan(read_job(three(document), registry), registry)
    assert left.run.order == ("store", "over 1", "over 2", "under")
    right = make_plan(read_job(three(document, corners="right", length=2400), registry), registry)
    assert right.run.order == ("store", "over 2", "over 1", "under")
    put = [s for s in right.steps if s.action == "hang"]
    assert [s.do.split()[1:3] for s in put][1:3] == [["over", "2"], ["over", "1"]]
    waits = before(right.steps)
    assert all(first.number in waits[second.number] for first, second in pairwise(put))


def test_steps_of_a_run_need_only_steps_before_them(document, registry):
    made = make_plan(read_job(three(document), registry), registry)
    assert all(need < step.number for step in made.steps for need in step.needs)
    (struck,) = [s for s in made.steps if s.stage == "set-out"]
    waits = before(made.steps)
    assert all(struck.number in waits[s.number] for s in made.steps if s.action == "hang")
    joined = [s.do for s in made.steps if s.stage == "join"]
    assert any("over 1 and over 2" in do for do in joined)


def test_wall_cleats_are_shared_along_a_row_and_never_between_rows(planned):
    cabinet = {"count": 4, "mounting": {"method": "bevel-cleat", "contents_kg": 5}}
    places = [{"x": x, "z": z} for z in (300, 1400) for x in (0, 800)]
    studs = {"at": [20, 400, 780, 1200, 1580], "stuff": "spruce-pine-fir"}
    made = planned(cabinet, {"back": {"inset": 19}}, wall={"studs": studs, "cabinets_at": {"bay": places}})
    at = "/wall/cabinets_at/bay"
    assert [list(shared.places) for shared in made.shared_cleats] == [[f"{at}/0", f"{at}/1"], [f"{at}/2", f"{at}/3"]]


def test_cabinets_that_share_some_height_are_one_row_and_rows_go_from_the_top(planned):
    places = [{"x": 0, "z": 1400}, {"x": 800, "z": 1450}, {"x": 0, "z": 2400}, {"x": 800, "z": 2450}]
    made = planned({"count": 4}, wall={"cabinets_at": {"bay": places}})
    assert made.run.order == ("bay 3", "bay 4", "bay 1", "bay 2")


def test_screws_between_cabinets_are_in_the_hardware_list_with_their_places(document, registry):
    made = make_plan(read_job(three(document), registry), registry)
    (line,) = [line for line in made.hardware if line.used_for == "over 1 to over 2"]
    # Sides of 18 mm: 18 + 9 at least and 18 + 15 at most, so No. 8 × 1 1/4 in (31.75 mm) of the screw tables. The
    # places stand 60 mm from every end of the sides (common practice, no source).
    assert line.item == "screw-8-1-1-4"
    assert line.quantity == len(line.at) == 4
    (step,) = [s for s in made.steps if s.stage == "join" and "over 1 and over 2" in s.do]
    assert line.name in step.do
    assert "60.0 mm and 840.0 mm up from the bottom of its case" in step.do  # 900 high, less 60
