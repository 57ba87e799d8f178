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


@pytest.fixture(scope="module")
def seen(browser_folder: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    job = tmp_path_factory.mktemp("job") / "job.json"
    job.write_text(json.dumps(STOPPING, indent=2), "utf-8")
    with demo.service() as base:
        command = ["node", "bench.mjs", f"{base}/docs", shutil.which("chromium") or "", str(job)]
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
