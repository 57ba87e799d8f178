"""The tutorial works: its files are loaded and tried in process. `.ci/plugin` runs it in a fresh environment."""

import json
import subprocess
import sys
import tomllib
from importlib.resources import files

import pytest
import tutorial
from casewright.api.command import cli
from casewright.sdk.testing.service import client, registry_with
from modules import module_at

TEXT = files("casewright.sdk").joinpath("pages", "tutorial.md").read_text("utf-8")
FILES = tutorial.files(TEXT)


def test_its_commands_are_shell():
    subprocess.run(["bash", "-n"], input=tutorial.script(TEXT), text=True, check=True)


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """Return the folder the tutorial makes; what importing it leaves behind is undone."""
    for name, text in FILES.items():
        path = tmp_path / "bicycle-workshop" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    monkeypatch.setattr(sys, "path", [str(tmp_path / "bicycle-workshop"), *sys.path])
    yield tmp_path / "bicycle-workshop"
    sys.modules.pop("bicycle_workshop", None)


def test_the_tutorial_declares_its_plugin(folder):
    project = tomllib.loads(FILES["pyproject.toml"])["project"]
    assert project["entry-points"]["casewright.plugins"] == {"bicycle-workshop": "bicycle_workshop"}


def test_the_tutorials_plugin_passes_the_check(folder, capsys):
    assert cli.main(["plugin", "check", str(folder)]) == 0
    output = capsys.readouterr().out
    assert "registers joints/screwed-housing, houses/bicycle-workshop" in output


def test_the_tutorials_own_tests_pass(folder):
    module = module_at(folder / "tests" / "test_bicycle_workshop.py", "tutorial_tests")
    joint = module.TestScrewedHousing()
    joint.test_a_shelf_worked_by_hand()
    style = module.TestHouseStyle()
    style.test_defaults_are_json()
    style.test_the_job_is_planned_and_says_what_came_from_the_style()
    module.test_the_plan_says_what_came_from_the_style()


def test_the_tutorials_job_can_be_cut(folder):
    import bicycle_workshop

    answer = client(registry_with(bicycle_workshop)).post("/v1/plan", json=json.loads(FILES["repair-bay.json"]))
    assert answer.status_code == 200
    plan = answer.get_json()
    assert [c for c in plan["checks"] if c["level"] == "stop"] == []
    assert "screwed-housing" in {j["method"] for j in plan["joints"]}


def test_the_tutorials_files_are_clean(folder):
    rules = "E,F,W,I,B,UP,SIM,C4,RET,PIE,N,RUF,PT,PERF"
    tool = [sys.executable, "-m", "ruff"]
    subprocess.run(
        [*tool, "check", "--isolated", "--line-length=120", f"--select={rules}", "."], cwd=folder, check=True
    )
    subprocess.run([*tool, "format", "--isolated", "--line-length=120", "--check", "."], cwd=folder, check=True)
