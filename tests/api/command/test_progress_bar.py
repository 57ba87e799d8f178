"""The bar on a terminal: its steps, and that nothing of it is left."""

import io
import json
from typing import Any

import pytest
from casewright.api.command.cli import main
from casewright.api.command.progress_bar import Bar


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_the_bar_shows_on_a_terminal_and_leaves_it_clean(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    screen = Terminal()
    with Bar(screen) as bar:
        for done in range(5):
            bar("cabinets", done, 4)
    frames = screen.getvalue().split("\r\x1b[K")
    assert frames[1] == "working out cabinets [..............................] 0 of 4"
    assert frames[3].count("=") == 15
    assert frames[5] == "working out cabinets [==============================] 4 of 4"
    assert frames[-1] == ""


@pytest.mark.parametrize("columns", [20, 40, 60, 80, 120])
def test_the_bar_is_no_wider_than_the_window(monkeypatch: pytest.MonkeyPatch, columns: int) -> None:
    monkeypatch.setenv("COLUMNS", str(columns))
    screen = Terminal()
    with Bar(screen) as bar:
        for stage in ("cabinets", "cutting", "settings", "writing"):
            for done in range(0, 61, 6):
                bar(stage, done, 60)
    frames = screen.getvalue().split("\r\x1b[K")
    assert max(map(len, frames)) < columns


def test_no_bar_where_there_is_no_terminal(
    tmp_path: Any, job: dict[str, Any], capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "job.json"
    path.write_text(json.dumps(job))
    assert main(["check", str(path)]) == 0
    assert capsys.readouterr().err == ""
