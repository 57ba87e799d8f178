"""Jobs planned at the command line: what is printed, and the files that are written."""

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
from casewright.api.command.cli import main


def test_plan_writes_its_files(tmp_path: Path, job_file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", str(job_file), "--out", str(tmp_path / "out")]) == 0
    names = {"plan.json", "parts.csv", "hardware.csv", "costs.csv", "cut-list.txt", "steps.txt"}
    names |= {"booklet.pdf", "parts.pdf", "outlines.dxf", "labels.pdf", "workbook.xlsx", "model.glb"}
    assert {path.name for path in (tmp_path / "out").iterdir()} == names
    assert "500.0 mm" in (tmp_path / "out" / "cut-list.txt").read_text()
    assert f"In {tmp_path / 'out'}: to carry to the bench" in " ".join(capsys.readouterr().out.split())


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
    output = capsys.readouterr()
    assert "STOP" in output.out
    assert "not to cut" in output.err
    out = tmp_path / "out"
    assert main(["plan", str(path), "--out", str(out)]) == 1
    for name in ("cut-list.txt", "steps.txt"):
        assert (out / name).read_text().startswith("STOP: ")


def test_a_table_names_the_cell(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "job.csv"
    path.write_text("id,width,job.units\na,wide,mm\n")
    assert main(["check", str(path)]) == 2
    assert "row 2, column width" in capsys.readouterr().err


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


def test_a_plan_that_is_not_written_is_printed(job_file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", str(job_file), "--quiet"]) == 0
    assert "Go: no check stops this work." in capsys.readouterr().out


def test_a_table_on_standard_input(small: dict[str, Any]) -> None:
    columns = "id,width,height,depth,case.material,job.units,job.materials.ply.kind,job.materials.ply.stuff"
    row = "tools,600,700,300,ply,mm,sheet,birch-plywood,18"
    table = f"{columns},job.materials.ply.thickness\r\n{row}\r\n"
    command = [sys.executable, "-m", "casewright", "plan", "-", "--view", "parts", "--format", "csv", "--quiet"]
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


def test_a_view_that_is_no_table_is_refused_unplanned(
    job_file: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("casewright.api.use.planning.Planner.both", None)
    for words in (["--view", "joints", "--format", "csv"], ["--view", "stock", "--format", "text"]):
        assert main(["plan", str(job_file), *words]) == 2
    output = capsys.readouterr().err
    assert "joints is no table" in output
    assert "stock is not written as text" in output


def test_tables_of_half_of_europe_in_and_out(tmp_path: Path, capsysbinary: pytest.CaptureFixture[bytes]) -> None:
    path = tmp_path / "job.csv"
    path.write_text(
        "id;width;height;depth;case.material;job.units;job.materials.ply.kind;job.materials.ply.stuff;"
        "job.materials.ply.thickness\na;600,5;700;300;ply;mm;sheet;birch-plywood;18\n"
    )
    marks = ["--delimiter", "semicolon", "--decimal", "comma"]
    assert main(["plan", str(path), "--view", "parts", "--format", "csv", *marks]) == 0
    heading, *rows = capsysbinary.readouterr().out.decode().splitlines()
    assert heading.startswith("cabinet;id;")
    assert any(";582,5;300;18;" in row for row in rows)  # 600.5 less two sides of 18, and a rabbet of 9 in each
    assert main(["check", str(path), "--decimal", "point"]) == 2
    assert b"row 2, column width" in capsysbinary.readouterr().err
