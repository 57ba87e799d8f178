"""Cures for what came out otherwise than planned, held to the contract of generators."""

import copy

import pytest
from casewright.api import cures, plan
from casewright.sdk.testing import CureContract

JOB = {
    "units": "mm",
    "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
    "cabinets": [{"id": "bench", "width": 600, "height": 700, "depth": 300, "case": {"material": "ply", "back": None}}],
}
LEFT = {"cabinet": "bench", "part": "side-left", "measure": "length", "value": 698}
RIGHT = {**LEFT, "part": "side-right", "value": 700}


def job(*built, **more):
    """Return a job of one cabinet of 600 by 700 by 300 mm with what is built of it."""
    return copy.deepcopy({**JOB, "built": list(built), **more})


class TestBuiltCures(CureContract):
    generator = "built"
    stopping = (job(LEFT, RIGHT), job({**LEFT, "measure": "width", "value": 320}), job({**LEFT, "value": 690}))


def words_of(answer):
    return [[cure["words"] for cure in stop["cures"]] for stop in answer["cures"]]


@pytest.mark.parametrize(
    ("built", "words"),
    [
        ([LEFT, RIGHT], ["side-right trimmed to 698 mm", "right side cut again"]),
        ([{**LEFT, "value": 690}], ["left side cut again", "a height of 690 mm, as it comes out"]),
        (
            [{**LEFT, "part": "top", "value": 570}, {**LEFT, "part": "bottom", "value": 560}],
            ["top trimmed", "top cut again"],
        ),
    ],
)
def test_the_least_work_comes_first(built, words):
    """Two mm off a side, a side again that is 10 mm short, a top to go with a bottom that is shorter."""
    listed = words_of(cures(job(*built)))
    assert all(any(word in one for rows in listed for one in rows) for word in words), listed


def test_a_part_cut_again_comes_from_the_smallest_leftover_that_holds_it():
    """A side is cut at 690 and is too short: of a sheet 2440 × 1220 there is room for 700 × 300 beside the others."""
    stock = {"sheets": [{"id": "sheet", "material": "ply", "length": 2440, "width": 1220, "copies": None}]}
    (stop,) = cures(job({**LEFT, "value": 690}, stock=stock))["cures"]
    (again,) = [cure for cure in stop["cures"] if "cut again" in cure["words"]]
    assert "from what is left of sheet 1" in again["words"]
    assert again["patch"] == [{"op": "remove", "path": "/built/0"}]


def test_a_part_of_one_copy_that_is_cut_already_is_trimmed_for_that_copy_alone():
    """Of two alike all is cut, and one left side is 2 mm short: its right side is trimmed, that of the other stays."""
    pair = {**JOB["cabinets"][0], "count": 2}
    stock = {"sheets": [{"id": "sheet", "material": "ply", "length": 2440, "width": 1220, "copies": None}]}
    whole = job(cabinets=[pair], stock=stock)
    done = [step["number"] for step in plan(whole)["steps"] if step["stage"] in ("measure", "cut")]
    (stop,) = cures({**whole, "done": done, "built": [{**LEFT, "copy": 1}]})["cures"]
    (trimmed,) = stop["cures"]
    assert trimmed["patch"] == [
        {"op": "add", "path": "/built/-", "value": {**RIGHT, "value": 698, "copy": 1}},
    ]
