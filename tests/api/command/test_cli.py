"""The command line: what it writes, its exit codes, and messages to act on."""

import fcntl
import json
import os
import pty
import struct
import subprocess
import sys
import termios
from pathlib import Path
from typing import Any

import pytest
from casewright.api.command import demo
from casewright.api.command.cli import main
from casewright.api.web.serve import gunicorn_settings
from casewright.api.web.settings import Settings


@pytest.fixture
def job_file(tmp_path: Path, job: dict[str, Any]) -> Path:
    path = tmp_path / "job.json"
    path.write_text(json.dumps(job))
    return path


def test_plan_writes_its_files(tmp_path: Path, job_file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", str(job_file), "--out", str(tmp_path / "out")]) == 0
    names = {"plan.json", "parts.csv", "hardware.csv", "cut-list.txt", "steps.txt"}
    names |= {"booklet.pdf", "parts.pdf", "parts.dxf", "labels.pdf", "workbook.xlsx", "model.glb"}
    assert {path.name for path in (tmp_path / "out").iterdir()} == names
    assert "500.0 mm" in (tmp_path / "out" / "cut-list.txt").read_text()
    assert "Written to" in capsys.readouterr().out


def test_check_prints_checks(job_file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(job_file)]) == 0
    assert "STOP" not in capsys.readouterr().out


def test_a_stop_is_exit_code_1(tmp_path: Path, job: dict[str, Any], capsys: pytest.CaptureFixture[str]) -> None:
    # Common practice, no source: grooves half the thickness deep from both faces of a divider leave no wood.
    space = {"bays": [{"fixed_shelves": 1}, {"fixed_shelves": 1}]}
    case = {"material": "mdf", "fixed_joint": {"method": "housed-groove", "depth": 9}}
    cabinet = {"id": "a", "width": 800, "height": 700, "depth": 300, "case": case, "space": space}
    path = tmp_path / "job.json"
    path.write_text(json.dumps({**job, "cabinets": [cabinet]}))
    assert main(["check", str(path)]) == 1
    said = capsys.readouterr()
    assert "STOP" in said.out
    assert "not to cut" in said.err
    out = tmp_path / "out"
    assert main(["plan", str(path), "--out", str(out)]) == 1
    for name in ("cut-list.txt", "steps.txt"):
        assert (out / name).read_text().startswith("STOP: ")


def test_a_bad_job_is_exit_code_2(tmp_path: Path, job: dict[str, Any], capsys: pytest.CaptureFixture[str]) -> None:
    job["unitz"] = "mm"
    path = tmp_path / "job.json"
    path.write_text(json.dumps(job))
    assert main(["check", str(path)]) == 2
    said = capsys.readouterr().err
    assert "/unitz" in said
    assert 'Write "units"' in said


def test_a_table_names_the_cell(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "job.csv"
    path.write_text("id,width,job.units\na,wide,mm\n")
    assert main(["check", str(path)]) == 2
    assert "row 2, column width" in capsys.readouterr().err


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


def test_demo_is_quiet_in_a_pipe_prints_what_is_wanted_and_keeps_the_answer(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "casewright.api.command.cli", "demo", "--out", "out", "--reasons"]
    ran = subprocess.run(command, cwd=tmp_path, env=os.environ, capture_output=True, text=True, timeout=120)
    assert ran.returncode in (0, 1), ran.stderr
    assert ran.stdout.startswith("Written to out.\n\nReasons\n")
    assert "Checks" not in ran.stdout
    plan = json.loads((tmp_path / "out" / "plan.json").read_text())
    stops = [check for check in plan["checks"] if check["level"] == "stop"]
    assert ran.returncode == (1 if stops else 0)
    assert all(part["id"] in ran.stdout for part in plan["parts"])
    assert all(part["id"] in (tmp_path / "out" / "cut-list.txt").read_text() for part in plan["parts"])


@pytest.mark.parametrize("width", [52, 100])
def test_nothing_is_wider_than_the_window(job_file: Path, tmp_path: Path, width: int) -> None:
    master, slave = pty.openpty()
    fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", 40, width, 0, 0))
    command = [sys.executable, "-m", "casewright.api.command.cli", "plan", str(job_file), "--out", "out"]
    command += ["--reasons", "--checks", "--steps"]
    env = {name: value for name, value in os.environ.items() if name != "COLUMNS"}
    with subprocess.Popen(command, cwd=tmp_path, env=env, stdout=slave, stderr=subprocess.DEVNULL) as ran:
        os.close(slave)
        text = b""
        while True:
            try:
                piece = os.read(master, 65536)
            except OSError:  # the other end is closed
                break
            if not piece:
                break
            text += piece
        assert ran.wait(60) == 0
    os.close(master)
    lines = text.decode().splitlines()
    assert max(map(len, lines)) <= width
    for word in ("Go: no check stops this work.", "Reasons", "Checks", "Steps"):
        assert word in lines


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ([], "usage: casewright"),
        (["check", "nowhere.json"], "nowhere.json is not there; name a job file"),
        (["check", "."], ". is a folder; name a job file in it"),
        (["plan", "job.json", "--out", "job.json"], "job.json is a file; --out names a folder"),
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
    assert main(arguments) == 2
    assert words in capsys.readouterr().err


def test_a_table_with_semicolons_is_read(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "job.csv"
    path.write_text("id;width\na;600\n")
    assert main(["check", str(path)]) == 2
    assert "units" in capsys.readouterr().err


def test_one_view_to_standard_output(job_file: Path, capsysbinary: pytest.CaptureFixture[bytes]) -> None:
    assert main(["plan", str(job_file), "--format", "json"]) == 0
    whole = json.loads(capsysbinary.readouterr().out)
    assert main(["plan", str(job_file), "--view", "parts", "--format", "json"]) == 0
    assert json.loads(capsysbinary.readouterr().out)["parts"] == whole["parts"]
    assert main(["plan", str(job_file), "--view", "parts", "--format", "csv"]) == 0
    assert capsysbinary.readouterr().out.startswith(b"cabinet,id,")
    assert main(["plan", str(job_file), "--view", "fits", "--format", "csv"]) == 2
    assert b"fits is no table" in capsysbinary.readouterr().err


def test_a_plan_that_is_not_written_is_printed_in_a_pipe_too(
    job_file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["plan", str(job_file), "--quiet"]) == 0
    said = capsys.readouterr().out
    assert "Go: no check stops this work." in said
    assert "Written to" not in said


def test_version_and_exit_codes_in_help(capsys: pytest.CaptureFixture[str]) -> None:
    for words in (["--version"], ["--help"]):
        with pytest.raises(SystemExit) as left:
            main(words)
        assert left.value.code == 0
    said = capsys.readouterr().out
    assert said.startswith("casewright 0.")
    assert "1  the plan holds a stop: do not cut" in said


def test_it_runs_as_a_module() -> None:
    command = [sys.executable, "-m", "casewright.api", "--version"]
    ran = subprocess.run(command, capture_output=True, text=True, timeout=60, check=False)
    assert ran.stdout.startswith("casewright 0.")


def test_a_table_on_standard_input(small: dict[str, Any]) -> None:
    columns = "id,width,height,depth,case.material,job.units,job.materials.ply.kind,job.materials.ply.stuff"
    row = "tools,600,700,300,ply,mm,sheet,birch-plywood,18"
    table = f"{columns},job.materials.ply.thickness\r\n{row}\r\n"
    command = [sys.executable, "-m", "casewright.api", "plan", "-", "--view", "parts", "--format", "csv", "--quiet"]
    ran = subprocess.run(command, input=table, capture_output=True, text=True, timeout=60, check=False)
    assert (ran.returncode, ran.stderr) == (0, "")
    assert "tools/side-left" in ran.stdout


def test_nobody_elses_files_are_touched(tmp_path: Path, job_file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "out"
    plan = ["plan", str(job_file), "--out", str(out), "--quiet"]
    assert main(plan) == 0
    assert capsys.readouterr().out == ""
    (out / "doors.pdf").write_text("of an earlier run")
    (out / "notes.txt").write_text("mine")
    assert main(plan) == 2
    assert "holds other files (notes.txt)" in capsys.readouterr().err
    assert (out / "doors.pdf").exists()
    victim = tmp_path / "victim"
    victim.write_text("not to be written")
    (out / "parts.csv").unlink()
    (out / "parts.csv").symlink_to(victim)
    assert main([*plan, "--force"]) == 0
    assert victim.read_text() == "not to be written"
    assert not (out / "parts.csv").is_symlink()
    assert not (out / "doors.pdf").exists()
    assert (out / "notes.txt").read_text() == "mine"
    link = tmp_path / "link"
    link.symlink_to(out)
    assert main(["plan", str(job_file), "--out", str(link)]) == 2


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
    path.write_text(json.dumps({**job, "cabinets": [cabinet], "wall": {"studs": None, "lining": 12}, "rates": None}))
    assert main(["check", str(path)]) == 2
    capsys.readouterr()
    assert main(["migrate", str(path)]) == 0
    said = capsys.readouterr()
    assert json.loads(said.out) == {**job, "cabinets": [cabinet], "wall": {"lining": 12}}
    assert "/wall/studs" in said.err
    assert "/rates" in said.err


def test_plugins_are_listed(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plugin", "list"]) == 0
    said = capsys.readouterr().out
    assert "joint-rabbet" in said
    assert "loaded" in said
