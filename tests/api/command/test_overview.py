"""The overview on a terminal: about thirty lines, none wider than the window, each caution once, files by use."""

from copy import deepcopy
from typing import Any

import pytest
from casewright.api.command.overview import more_lines, overview_lines

FILES = ("out", ["plan.json", "parts.csv", "booklet.pdf", "wall-1.svg", "outlines.dxf", "model.glb", "notes"])


def check(level: str, subject: str, message: str, code: str = "c") -> dict[str, Any]:
    return {"code": code, "level": level, "subject": subject, "message": message, "value": None, "limit": None,
            "unit": "", "source": ""}  # fmt: skip


PART = {"id": "a/top", "material": "ply", "length": 500, "width": 300, "thickness": 18, "grain": "free", "quantity": 2}
PLAN: dict[str, Any] = {
    "title": "Repair bay",
    "fingerprint": "0123456789abcdef",
    "summary": [
        {"cabinet": "a", "count": 2, "text": "600 × 720 × 300", "mass_kg": 12.0, "hands": 1, "stops": []},
        {"cabinet": "b", "count": 1, "text": "900 × 720 × 300", "mass_kg": 30.0, "hands": 2, "stops": []},
    ],
    "parts": [PART, {**PART, "id": "a/bottom"}, {**PART, "id": "a/side", "length": 720}],
    "checks": [
        check("caution", "a", "the wood may move"),
        check("caution", "b", "the wood may move"),
        check("caution", "/materials/ply/thickness", "measure it again"),
        check("note", "a", "a note"),
    ],
    "stock": {
        "buy": [{"quantity": 2, "stock": "sheet", "length_text": "2440 mm", "width_text": "1220 mm", "cost": 40.0}],
        "short": [{"quantity": 3}],
    },
    "hardware": [{"item": "pin"}, {"item": "pin"}, {"item": "knob"}],
    "costs": {"total": "80.00", "currency": "", "missing": 2},
    "schedule": {"finish": 60, "hands_on": 0, "left": 12, "untimed": 12},
    "dry_fit": {"pairs_checked": 9, "seats": [{"seated": True}, {"seated": True}], "clashes": []},
    "steps": [{}] * 12,
}


@pytest.mark.parametrize("width", [40, 64, 80, 120])
def test_no_line_is_wider_than_the_window(width: int) -> None:
    lines = overview_lines(PLAN, FILES, width, {})
    assert max(map(len, lines)) <= width
    assert len(lines) <= {40: 45, 64: 34, 80: 30, 120: 30}[width]


def test_it_says_what_counts() -> None:
    text = " ".join(" ".join(overview_lines(PLAN, FILES, 100, {})).split())
    assert "2 × a, b: the wood may move" in text
    assert text.count("the wood may move") == 1
    assert "material ply, thickness: measure it again" in text
    assert "a note" not in text
    assert "2 sizes, 6 pieces of 1 material" in text
    assert "2 × sheet, 2440 mm × 1220 mm; 2 kinds of hardware" in text
    assert "does not yield 3 pieces" in text
    assert "80.00 for what has a price, 2 lines have none" in text
    assert "9 pairs of parts tried dry, 2 of 2 joints seated, 0 clashes" in text
    assert "12 steps replayed from the stock on, and make every piece as planned" in text
    for use in ("bench: booklet.pdf", "drawings: wall-1.svg", "spreadsheet: parts.csv", "also: notes"):
        assert use in text


def test_many_files_of_one_kind_are_named_by_the_first_and_the_last() -> None:
    names = [f"section-{number}.svg" for number in range(1, 81)]
    text = " ".join(" ".join(overview_lines(PLAN, ("out", [*names, "wall-1.svg"]), 100, {})).split())
    assert "drawings: section-1.svg to section-80.svg, wall-1.svg" in text


def test_stops_come_with_their_cures_and_faults_of_the_replay_are_counted() -> None:
    plan = deepcopy(PLAN)
    plan["checks"] = [check("stop", "a", "it would fall", "hanging"), check("stop", "b", "no", "work-not-carried-out")]
    text = " ".join(" ".join(overview_lines(plan, FILES, 100, {("hanging", "a"): "two more screws"})).split())
    assert "STOP: 2 reasons not to cut: a: it would fall tried, and clears it: two more screws b: no" in text
    assert "Go:" not in text
    assert "12 steps replayed from the stock on, with 1 fault" in text


def test_stops_of_a_kind_that_one_change_clears_are_shown_once() -> None:
    plan = deepcopy(PLAN)
    plan["checks"] = [check("stop", f"a/{name}", f"{name} meets it", "clash") for name in "bcd"]
    plan["checks"] += [check("stop", "a/b", "no room", "clash"), check("stop", "a/b", "no air", "clash")]
    cures = {("clash", f"a/{name}"): "a lower drawer" for name in "cd"}
    text = " ".join(" ".join(overview_lines(plan, FILES, 100, cures)).split())
    assert "5 reasons not to cut: a/b: b meets it a/c: c meets it; and 1 more alike tried, and clears them: a l" in text
    assert "a lower drawer a/b: no room a/b: no air Mind" in text
    plan["summary"][0]["stops"] = ["clash", "anti-tip", "clash"]
    assert "2 × clash, anti-tip" in " ".join(overview_lines(plan, FILES, 200, cures))


def test_more_is_what_was_wanted() -> None:
    lines = more_lines(PLAN, (False, True, False), 60)
    assert lines[:2] == ["Checks", "======"]
    assert any("a note" in line for line in lines)
    assert more_lines(PLAN, (False, False, False), 60) == []
