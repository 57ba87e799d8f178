"""README and its page on calling work as they stand: JSON is planned, commands run, pictures are the demo's."""

import json
import os
import re
import shlex
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from casewright.api.command import demo
from casewright.api.command.cli import main
from casewright.api.use.examples import example_job
from casewright.api.web import create_app
from casewright.sdk.loader import load

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text("utf-8")
CALLING = (ROOT / "sdk/casewright/sdk/pages/calling.md").read_text("utf-8")
BLOCK = re.compile(r"^```(\w+)(?: title=\"([^\"]+)\")?\n(.*?)^```$", re.MULTILINE | re.DOTALL)
BLOCKS = BLOCK.findall(README)
FIRST = next(body for kind, title, body in BLOCKS if title == "first.json")
SHELL = [body for kind, _, body in BLOCKS if kind == "sh"]


def test_it_opens_with_the_job_then_two_commands() -> None:
    assert README.index("A one- or two-person shop") < README.index("```sh")
    assert "casewright demo" in SHELL[0]
    assert SHELL[1].rstrip().endswith("pytest")
    assert len(SHELL[0].splitlines()) == len(SHELL[1].splitlines()) == 1


def test_the_first_cabinet(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.chdir(tmp_path)
    Path("first.json").write_text(FIRST, "utf-8")
    words = shlex.split(SHELL[2])
    assert words[0].endswith("/casewright")
    assert main(words[1:]) == 0
    named = set(re.findall(r"`pumps/([\w.-]+)`", README))
    assert named == {"cut-list.txt", "steps.txt", "booklet.pdf"}
    for name in named:
        assert (tmp_path / "pumps" / name).stat().st_size > 100


def test_the_requests(tmp_path: Path, needed: Callable[..., None]) -> None:
    needed("curl")
    assert shlex.split(SHELL[3])[1:] == ["serve"]
    (tmp_path / "first.json").write_text(FIRST, "utf-8")
    with demo.service() as base:
        for line in SHELL[4].splitlines():
            ran = subprocess.run(
                shlex.split(line.replace("http://127.0.0.1:8000", base)),
                cwd=tmp_path,
                capture_output=True,
                text=True,
                check=True,
                timeout=60,
            )
            assert "pumps" in ran.stdout


def test_the_embedding(tmp_path: Path) -> None:
    (tmp_path / "first.json").write_text(FIRST, "utf-8")
    code = next(body for kind, _, body in BLOCK.findall(CALLING) if kind == "python")
    ran = subprocess.run(
        [sys.executable, "-c", code], cwd=tmp_path, capture_output=True, text=True, check=True, env=os.environ
    )
    assert "pumps/side-left 720.0 mm 320.0 mm" in ran.stdout


def test_every_view_named_is_there() -> None:
    described = create_app(load(discover="built-in")).test_client().get("/openapi.json").get_json()
    table = [line for line in CALLING.splitlines() if line.startswith("| `/v1/")]
    named = re.findall(
        r"`(/v1/[\w/]+)`",
        "\n".join(table) + CALLING[CALLING.index("`GET /v1/value`") : CALLING.index("## Inside")].replace("GET ", ""),
    )
    assert len(named) > 12
    for path in named:
        assert path in described["paths"], path
    drawings = next(line for line in table if "drawings" in line)
    for view in re.findall(r"`(\w+)`", drawings.partition("|")[2].partition("| ")[2]):
        assert f"/v1/drawings/{view}" in described["paths"], view


@pytest.mark.parametrize("name", ["elevation.svg", "exploded.svg"])
def test_the_pictures_are_the_demos(name: str) -> None:
    client = create_app(load(discover="built-in")).test_client()
    made = client.post(f"/v1/{demo.PAPERS[name]}", json=example_job())
    assert made.status_code == 200
    assert (ROOT / "openapi" / "pictures" / name).read_bytes() == made.data, "run the demo and copy its picture"


def test_json_blocks_are_json() -> None:
    for kind, _, body in BLOCKS:
        if kind == "json":
            json.loads(body)


@pytest.mark.parametrize("link", sorted(set(re.findall(r"\]\(([^)#]+)\)", README))))
def test_a_link_leads_to_a_file(link: str) -> None:
    assert (ROOT / link).is_file()
