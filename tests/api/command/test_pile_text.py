"""`casewright from-stock`: the jobs it prints and writes, and its exit codes."""

import json

import pytest
from casewright.api.command.cli import main

JOB = {
    "units": "mm",
    "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
    "cabinets": [
        {
            "id": "box",
            "width": {"least": 300, "most": 500, "step": 100},
            "height": 400,
            "depth": 200,
            "case": {"material": "ply", "back": None},
        }
    ],
    "stock": {"kerf": 3, "offcuts": [{"id": "left", "material": "ply", "length": 1000, "width": 410}]},
}


@pytest.fixture
def file(tmp_path):
    def write(document):
        path = tmp_path / "job.json"
        path.write_text(json.dumps(document))
        return str(path)

    return write


def test_the_jobs_are_printed_and_written(file, tmp_path, capsys):
    # two sides of 400 x 200 and two of the width: 2 x 2 pieces side by side on 410, so 400 + 3 + width fit in 1000
    assert main(["from-stock", file(JOB), "--out", str(tmp_path / "out")]) == 0
    text = capsys.readouterr().out
    assert text.startswith("1. 40.0 l outside; none is better\n   box: 1 of 500.0 mm × 400.0 mm × 200.0 mm\n")
    written = json.loads((tmp_path / "out" / "job-1.json").read_text())
    assert written["cabinets"][0]["width"] == 500


def test_places_on_the_wall_stay_and_what_they_leave_open_is_printed(file, capsys):
    # The widest box that fits, 500 (see above), from 100 on ends at 600: 150 short of the one beside it at 750.
    studs = {"at": [200, 600, 1000], "stuff": "spruce-pine-fir", "width": 38, "depth": 89}
    places = {"box": [{"x": 100, "z": 1400}], "bin": [{"x": 750, "z": 1400}]}
    fixed = {**JOB["cabinets"][0], "id": "bin", "width": 300}
    offcuts = [*JOB["stock"]["offcuts"], {"id": "more", "material": "ply", "length": 1000, "width": 410}]
    job = {**JOB, "cabinets": [*JOB["cabinets"], fixed], "wall": {"studs": studs, "cabinets_at": places}}
    job["stock"] = {"kerf": 3, "offcuts": offcuts}
    main(["from-stock", file(job), "--answers", "1"])
    text = " ".join(capsys.readouterr().out.split())
    assert "box: 1 of 500.0 mm" in text
    assert "on the wall 150.0 mm left between box and bin; with bin at 600.0 mm there is none" in text


def test_nothing_is_exit_1_and_what_is_wrong_2(file, capsys):
    small = {**JOB, "stock": {"offcuts": [{"id": "left", "material": "ply", "length": 300, "width": 100}]}}
    assert main(["from-stock", file(small)]) == 1
    assert "Nothing: the stock does not yield even the least sizes" in capsys.readouterr().out
    assert main(["from-stock", file(JOB), "--aim", "widest"]) == 2
    fixed = {**JOB, "cabinets": [{**JOB["cabinets"][0], "width": 400}]}
    assert main(["from-stock", file(fixed)]) == 2
    capsys.readouterr()
    turned = {**JOB, "cabinets": [{**JOB["cabinets"][0], "width": {"least": 500, "most": 300}}]}
    assert main(["from-stock", file(turned)]) == 2
    output = capsys.readouterr().err
    assert "\n/cabinets/0/width: " in output
    assert "500 to 300" in output


def test_the_least_change_is_printed(file, capsys):
    # sides of 400 beside a top of 540 less 2 x 18 between them: 400 + 3 + 504 = 907 of 903, 4 too much
    case = {"material": "ply", "back": None, "corner": {"method": "screwed-butt"}}
    box = {**JOB["cabinets"][0], "width": 540, "case": case}
    offcut = {"id": "left", "material": "ply", "length": 903, "width": 410}
    short = {**JOB, "cabinets": [box], "stock": {"kerf": 3, "offcuts": [offcut]}}
    assert main(["from-stock", file(short), "--aim", "least-change"]) == 0
    assert "box width 536, 4 mm less in all\n   box: 1 of 536.0 mm" in capsys.readouterr().out


def test_shelves_are_named_by_their_cabinet_and_space(file, capsys):
    bays = {"bays": [{"fixed_shelves": {"least": 0, "most": 1}}, {"front": "open"}]}
    box = {**JOB["cabinets"][0], "space": bays, "width": 450}
    roomy = {"id": "left", "material": "ply", "length": 1500, "width": 420}
    assert main(["from-stock", file({**JOB, "cabinets": [box], "stock": {"kerf": 3, "offcuts": [roomy]}})]) == 0
    text = capsys.readouterr().out
    assert ", 1 fixed shelf in bay 1" in text
    assert "on hand after it: left-1-left-1 (" in text
