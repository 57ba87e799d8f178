"""What is built, over HTTP and at the command line."""

import json

import pytest
from casewright.api.command.bench_text import cut_list_lines
from casewright.api.command.cli import main
from casewright.api.command.exits import DONE, STOPPED, UNUSABLE
from casewright.api.use.planning import plan_job

SIDE = {"cabinet": "bench", "part": "side-left", "measure": "length", "value": 699}


def test_the_answer_tells_what_comes_out_otherwise(client, small):
    """Asked for 700 high, one side cut to 699: the other is to be cut to 699 too."""
    small["built"] = [SIDE]
    answer = client.post("/v1/built", json=small).json
    assert answer["built"]["cabinets"] == [
        {"cabinet": "bench", "planned": "bench", "copies": [],
         "sizes": {"height": {"was": 700, "now": 699, "by": -1, "text": "699.0 mm"}}}
    ]  # fmt: skip
    sides = {row["part"]: row for row in answer["built"]["changed"] if "side" in row["part"]}
    assert sides["bench/side-right"]["sizes"]["length"]["now"] == 699
    assert (sides["bench/side-left"]["built"], sides["bench/side-right"]["built"]) == (True, False)
    parts = {row["id"]: row["built"] for row in client.post("/v1/parts", json=small).json["parts"]}
    assert (parts["bench/side-left"], parts["bench/side-right"]) == (1, 0)


def test_a_job_that_says_nothing_of_it_has_no_answer(client, small):
    assert client.post("/v1/built", json=small).json["built"] is None


def test_a_measurement_that_cannot_be_is_refused_with_its_range(client, small):
    small["built"] = [{**SIDE, "value": 69}]
    answer = client.post("/v1/built", json=small)
    assert answer.status_code == 422
    (problem,) = answer.json["errors"]
    assert problem["pointer"] == "/built/0/value"
    assert "350 mm to 1050 mm" in problem["rule"]


@pytest.mark.parametrize(
    ("built", "code", "words"),
    [
        ([SIDE], DONE, ["bench/side-right: length 699.0 mm (-1)", "CAUTION"]),
        ([], DONE, ["says nothing"]),
        ([{**SIDE, "value": 700}], DONE, ["as planned"]),
        ([SIDE, {**SIDE, "part": "side-right", "value": 700}], STOPPED, ["trim it to 699 mm"]),
        ([{**SIDE, "value": 6}], UNUSABLE, []),
        (
            [{"cabinet": "bench", "part": "side-left", "mistake": "groove-on-wrong-face"}],
            DONE,
            ["bench/side-left, groove on wrong face: It is the right side now"],
        ),
    ],
)
def test_the_command_prints_it(small, tmp_path, capsys, built, code, words):
    small["built"] = built
    job = tmp_path / "job.json"
    job.write_text(json.dumps(small))
    assert main(["built", str(job)]) == code
    printed = capsys.readouterr().out
    assert all(word in printed for word in words), printed


def test_the_cut_list_says_what_is_cut_already(registry, small):
    small["built"] = [SIDE]
    heading, _, *rows = cut_list_lines(plan_job(small, registry))
    assert heading.endswith("cut already")
    assert [row.split()[0] for row in rows if row.endswith(" 1")] == ["bench/side-left"]
