"""Work at the bench of `/docs` in a real browser: what is written, marked, completed, cured, ticked and saved."""

import json
import re
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest
from casewright.api.command import demo

MATERIALS = {
    "ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18},
    "oak": {"kind": "board", "stuff": "red-oak", "thickness": 19},
}
STOPPING = {
    "units": "mm",
    "materials": MATERIALS,
    "cabinets": [
        {
            "id": "tools",
            "width": 600,
            "height": 700,
            "depth": 300,
            "case": {"material": "ply", "back": {"material": "ply"}},
            "mounting": {
                "method": "bevel-cleat",
                "material": "oak",
                "contents_kg": 60,
                "height": 60,
                "fastener": "lag-1-4-3",
            },
        }
    ],
    "wall": {
        "studs": {"at": [100, 500], "stuff": "spruce-pine-fir", "width": 38, "depth": 89},
        "lining": 12.5,
        "ceiling": 2400,
        "cabinets_at": {"tools": [{"x": 0, "z": 1400}]},
    },
}
"""A strip too low for its fasteners: two stops, and a higher strip clears both."""

TWO = {
    **STOPPING,
    "cabinets": [
        STOPPING["cabinets"][0] | {"mounting": {"method": "bevel-cleat", "material": "oak", "contents_kg": 70}},
        STOPPING["cabinets"][0]
        | {"id": "tubes", "width": 900, "mounting": {"method": "bevel-cleat", "material": "oak", "contents_kg": 10}},
    ],
    "wall": {
        "studs": {"at": [300, 1000, 1400], "stuff": "spruce-pine-fir", "width": 38, "depth": 89},
        "lining": 12.5,
        "ceiling": 2110,
        "cabinets_at": {"tools": [{"x": 0, "z": 1400}], "tubes": [{"x": 700, "z": 1400}]},
    },
}
"""Two cabinets with 10 mm above them, none to lift them onto a hook by; the heavier one reaches a single stud."""


@pytest.fixture(scope="module")
def seen(browser_folder: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    folder = tmp_path_factory.mktemp("jobs")
    files = [folder / name for name in ("stopping.json", "two.json")]
    for file, job in zip(files, (STOPPING, TWO), strict=True):
        file.write_text(json.dumps(job, indent=2), "utf-8")
    with demo.service() as base:
        command = ["node", "bench.mjs", f"{base}/docs", shutil.which("chromium") or "", *map(str, files)]
        ran = subprocess.run(command, cwd=browser_folder, capture_output=True, text=True, timeout=500, check=False)
    assert ran.returncode == 0, ran.stderr
    shown: dict[str, Any] = json.loads(ran.stdout)
    return shown


def test_every_example_is_told_in_every_tab(seen: dict[str, Any]) -> None:
    """No value that is absent is written as if it stood there; what stands on the floor says whether it tips."""
    assert sorted(seen["examples"]) == ["tall-store", "workbench-run"]
    for tabs in seen["examples"].values():
        assert len(tabs) == 7
        for text in tabs.values():
            assert len(text) > 100
            assert not re.search(r"\b(NaN|undefined|null)\b|\[object", text), text[:400]
        assert "Stands by itself" in tabs["Hanging"]


def test_the_model_is_drawn_once_it_is_asked_for(seen: dict[str, Any]) -> None:
    """Its picture is not blank, and each way of looking at it gives another one."""
    assert seen["viewer"] == [[False] * 3, [True] * 3]
    for view in seen["views"]:
        assert view["colours"] > 20
        assert 0.03 < view["covered"] < 0.97
    assert seen["different"] == len(seen["views"]) == 6
    assert seen["part"].startswith("left side: 33 in × 10 1/4 in × ")
    assert [one for one in seen["faults"] if one["impact"] in ("serious", "critical")] == []


def test_a_problem_is_marked_on_its_line_and_mending_clears_it(seen: dict[str, Any]) -> None:
    """The misspelt key stands on line 6 of the job that the browser's script writes."""
    assert seen["at_first"] == []
    assert seen["misspelt"] == [6]
    assert seen["signs"] == 1
    (listed,) = seen["listed"]
    assert listed.startswith("Line 6, /cabinets/0/depht")
    assert '"depth"' in listed
    assert seen["mended"] == [[], 0, 0]


def test_broken_json_is_marked_without_asking_the_service(seen: dict[str, Any]) -> None:
    assert seen["broken"]["words"] == "Line 6: a comma, or a closing bracket, is missing."
    assert seen["broken"]["marked"] == [6]
    assert seen["broken"]["asked"] == 0


def test_keys_and_values_are_completed(seen: dict[str, Any]) -> None:
    assert any(one.startswith("form") for one in seen["offered"])
    assert [one.removesuffix("default") for one in seen["values"]] == ["wall", "base", "tall"]
    assert seen["completed"] == '"form": "base",'


def test_stops_stand_over_the_tabs_and_a_cure_is_made_by_a_button(seen: dict[str, Any]) -> None:
    assert seen["stops"] == "STOP: 2 reasons not to cut"
    assert seen["cures_in_tab"] >= 2
    assert seen["cure"].startswith("Cure: strips 80 mm high. Clears 2 stops")
    assert '"height": 80' in seen["cured"]
    assert seen["box"] == 0
    assert seen["shown"] == "job"


def test_cures_of_like_stops_say_whose_they_are_and_what_they_leave_row_by_row(seen: dict[str, Any]) -> None:
    """Both cabinets lack room to be lifted: `hung 12 mm lower` is said of each, by name."""
    lower = [one for one in seen["whose"] if one.endswith(": hung 12 mm lower")]
    assert sorted(lower) == [f"Make this change for {one} on the wall: hung 12 mm lower" for one in ("tools", "tubes")]
    ceiling = "The ceiling leaves no room to lift the cabinet onto its hook. (2110 mm; limit "
    assert any(row.startswith(ceiling) for row in seen["rows_left"])
    assert [row for row in seen["rows_left"] if row.count("; limit ") != 1] == []


def test_a_cure_of_several_changes_is_undone_at_once(seen: dict[str, Any]) -> None:
    before, made, undone, redone = seen["several"]
    assert '"z": 1388' in made
    assert '"per_stud": 4' in made
    assert undone == before
    assert redone == made


def test_a_job_of_ones_own_is_no_example_any_more(seen: dict[str, Any]) -> None:
    """The list of examples then names none, and the first can be begun from again."""
    assert seen["own"] == ["", "job.json"]
    assert seen["again"] == ["First", "", True]


def test_ticks_are_written_into_the_job(seen: dict[str, Any]) -> None:
    assert seen["done"] == '"done": [ 1, 2 ]'
    assert seen["ticked"] == 2


def test_what_is_saved_is_what_the_service_answers(seen: dict[str, Any]) -> None:
    name, first = seen["saved"]
    assert name == "parts.csv"
    assert first.startswith("cabinet,")


def test_nothing_was_asked_of_another_host_and_nothing_went_wrong(seen: dict[str, Any]) -> None:
    assert seen["elsewhere"] == []
    # The browser's own remark on an answer that says what is wrong with a job.
    assert [text for text in seen["console"] if "400 (BAD REQUEST)" not in text] == []
