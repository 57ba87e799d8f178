"""`casewright plugin new`: what is made works."""

import os
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
from casewright.api.command.cli import main

ROOT = Path(__file__).parents[3]
TEMPLATE = ROOT / "sdk" / "casewright" / "sdk" / "template"


def test_new_copies_every_file_with_the_names_filled_in(made):
    files = sorted(p.relative_to(made).as_posix() for p in made.rglob("*") if p.is_file())
    assert files == ["README.md", "ladder_joint.py", "pyproject.toml", "tests/test_ladder_joint.py"]
    text = "".join(p.read_text() for p in made.rglob("*") if p.is_file())
    for placeholder in ("shop-plugin", "shop_plugin", "ShopPlugin", "Shop plugin"):
        assert placeholder not in text
    for word in ("ladder-joint", "ladder_joint", "LadderJoint", "Ladder joint"):
        assert word in text
    project = tomllib.loads((made / "pyproject.toml").read_text())["project"]
    assert project["entry-points"]["casewright.plugins"] == {"ladder-joint": "ladder_joint"}


def test_new_and_its_tests_pass_and_are_clean(made):
    here = [sys.executable, "-m"]
    before = filter(None, [os.environ.get("PYTHONPATH")])
    subprocess.run(
        [*here, "pytest", "-q", "-p", "no:cacheprovider", "-k", "hand or depth or exact or dry or publishes"],
        cwd=made,
        check=True,
        env={"PYTHONPATH": os.pathsep.join([str(made), *before]), "PATH": ""},
        capture_output=True,
    )
    subprocess.run([*here, "ruff", "check", "--isolated", "--line-length=120", "."], cwd=made, check=True)


@pytest.mark.parametrize(
    "name",
    ["Ladder", "ladder_joint", "", "json", "class", "-x", "casewright", "a" * 41, "../x", "marshmallow", "flask"],
)
def test_a_name_of_no_use_is_refused(tmp_path, capsys, name):
    with pytest.raises(SystemExit) as stopped:
        main(["plugin", "new", f"--into={tmp_path}", "--", name])
    assert stopped.value.code == 2
    assert name in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_new_overwrites_nothing(made, capsys):
    assert main(["plugin", "new", "ladder-joint", "--into", str(made.parent)]) == 2
    assert "there already" in capsys.readouterr().err


def test_the_wheel_is_told_to_carry_the_template():
    patterns = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["setuptools"]["package-data"]
    carried = {pattern.lstrip("*") for pattern in patterns["casewright.sdk.template"]} | {".py"}
    kept = [p for p in TEMPLATE.rglob("*") if p.is_file() and "__pycache__" not in p.parts]
    assert kept
    assert {p.suffix for p in kept} <= carried
