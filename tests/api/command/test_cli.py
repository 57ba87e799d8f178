"""The command line: what it writes, its exit codes, and messages to act on."""

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from casewright.api.command import demo
from casewright.api.command.cli import main
from casewright.api.web.serve import gunicorn_settings
from casewright.api.web.settings import Settings


def test_a_bad_job_is_exit_code_2(tmp_path: Path, job: dict[str, Any], capsys: pytest.CaptureFixture[str]) -> None:
    job["unitz"] = "mm"
    path = tmp_path / "job.json"
    path.write_text(json.dumps(job))
    assert main(["check", str(path)]) == 2
    output = capsys.readouterr().err
    assert "/unitz" in output
    assert 'Leave it out: "units" is here already.' in output


def test_a_file_that_is_not_there(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "nowhere.json"]) == 2
    assert "nowhere.json" in capsys.readouterr().err


@pytest.mark.parametrize(
    "words", [["serve", "--port", "0"], ["serve", "--port", "x"], ["serve", "--workers", "-1"], ["plan"]]
)
def test_a_command_line_that_is_wrong(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as caught:
        main(words)
    assert caught.value.code == 2
    assert "usage" in capsys.readouterr().err


def test_openapi_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["openapi"]) == 0
    assert json.loads(capsys.readouterr().out)["openapi"] == "3.1.0"


def test_the_server_is_set_up_to_write_nothing() -> None:
    chosen = gunicorn_settings(Settings(host="::1", workers=3))
    assert (chosen["bind"], chosen["workers"], chosen["preload_app"]) == ("[::1]:8000", 3 + 1, True)  # the gateway
    assert chosen["control_socket_disable"] is True


def test_the_service_starts_answers_and_stops(job: dict[str, Any]) -> None:
    with demo.service() as base:
        plan = json.loads(demo.post(f"{base}/v1/plan", json.dumps(job).encode()))
        with pytest.raises(demo.DemoError, match="400"):
            demo.post(f"{base}/v1/plan", b"{}")
    assert [part["id"] for part in plan["parts"]] == ["loose/lid"]
    with pytest.raises(OSError):  # noqa: PT011 - the connection must be refused: the service has gone
        demo.post(f"{base}/v1/plan", b"{}")


def test_demo_prints_in_a_pipe_what_a_terminal_shows_and_what_is_wanted_and_keeps_the_answer(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "casewright.api.command.cli", "demo", "--out", "out", "--reasons"]
    ran = subprocess.run(command, cwd=tmp_path, env=os.environ, capture_output=True, text=True, timeout=120)
    assert ran.returncode in (0, 1), ran.stderr
    overview, reasons, _ = ran.stdout.partition("\n\nReasons\n")
    assert reasons
    assert 20 <= overview.count("\n") <= 40  # "some thirty lines", README
    assert overview.startswith("The service answers at")
    assert "\nIn out: " in overview
    assert "Checks" not in ran.stdout
    plan = json.loads((tmp_path / "out" / "plan.json").read_text())
    stops = [check for check in plan["checks"] if check["level"] == "stop"]
    assert ran.returncode == (1 if stops else 0)
    assert all(part["id"] in ran.stdout for part in plan["parts"])
    assert all(part["id"] in (tmp_path / "out" / "cut-list.txt").read_text() for part in plan["parts"])


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ([], "usage: casewright"),
        (["check", "nowhere.json"], "nowhere.json is not there; name a job file"),
        (["check", "."], ". is a folder; name a job file in it"),
        (["plan", "job.json", "--out", "job.json"], "job.json is a file; --out names a folder"),
        (["plan", "job.json", "--out", "made", "--view", "costs"], "--out writes all views"),
        (["openapi", "--out", "nowhere/api.json"], "nowhere/api.json cannot be written"),
        (["migrate", "cabinets.csv"], "cabinets.csv is a table"),
    ],
)
def test_files_and_folders_mistaken(
    job_file: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    arguments: list[str],
    words: str,
) -> None:
    monkeypatch.chdir(job_file.parent)
    Path("cabinets.csv").write_text("id,width\ntools,600\n")
    assert main(arguments) == 2
    assert words in capsys.readouterr().err


def test_version_and_exit_codes_in_help(capsys: pytest.CaptureFixture[str]) -> None:
    for words in (["--version"], ["--help"]):
        with pytest.raises(SystemExit) as left:
            main(words)
        assert left.value.code == 0
    output = capsys.readouterr().out
    assert output.startswith("casewright 0.")
    assert "1  the plan holds a stop: do not cut" in output


@pytest.mark.parametrize("command", ["plan", "check", "from-stock", "plugin"])
def test_every_command_tells_its_exit_codes(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main([command, "--help"])
    assert "1  the plan holds a stop: do not cut" in capsys.readouterr().out


def test_it_runs_as_a_module() -> None:
    command = [sys.executable, "-X", "importtime", "-m", "casewright", "--version"]
    ran = subprocess.run(command, capture_output=True, text=True, timeout=60, check=False)
    assert ran.stdout.startswith("casewright 0.")
    assert "casewright.api.command.cli" in ran.stderr
    for heavy in ("casewright.sdk.model", "casewright.api.engine", "marshmallow"):
        assert heavy not in ran.stderr, "the version is printed without what plans"


@pytest.mark.parametrize("name", ["/dev/zero", "/dev/null"])
def test_a_device_is_no_job(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", name]) == 2
    assert f"{name} is no file" in capsys.readouterr().err


def test_a_job_that_is_too_large(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "job.json"
    path.write_bytes(b" " * (2 * 1024 * 1024 + 1))
    assert main(["plan", str(path)]) == 2
    assert "holds more than" in capsys.readouterr().err


def test_a_job_of_an_earlier_version(tmp_path: Path, job: dict[str, Any], capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "job.json"
    cabinet = {"id": "a", "width": 600, "height": 700, "depth": 300, "case": {"material": "mdf", "back": None}}
    path.write_text(
        json.dumps(
            {
                **job,
                "cabinets": [cabinet],
                "wall": {"studs": None, "lining": 12},
                "rates": {"hour": None, "minutes": {"cross-cut": 2}},
            }
        )
    )
    assert main(["check", str(path)]) == 2
    capsys.readouterr()
    assert main(["migrate", str(path)]) == 0
    output = capsys.readouterr()
    assert json.loads(output.out) == {
        **job,
        "cabinets": [cabinet],
        "wall": {"lining": 12},
        "rates": {"minutes": {"crosscut": 2}},
    }
    assert "/wall/studs" in output.err
    assert "/rates/hour" in output.err
    assert "/rates/minutes/cross-cut: is crosscut now" in output.err


def test_plugins_are_listed(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plugin", "list"]) == 0
    output = capsys.readouterr().out
    assert "joint-rabbet" in output
    assert "loaded" in output
