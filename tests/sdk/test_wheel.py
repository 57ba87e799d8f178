"""A built wheel holds every module and data file: what works in the tree works when installed."""

import os
import shutil
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
ROOMS = ("api", "sdk", "plugins", "openapi")
DATA = {".py", ".json", ".typed"}


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    """Return the names in a wheel built from a clean copy of the tree's tracked and untracked sources."""
    copy = tmp_path_factory.mktemp("tree")
    skipped = shutil.ignore_patterns("__pycache__", "*.egg-info", "build", "dist", ".git", "node_modules", ".*_cache")
    shutil.copytree(ROOT, copy / "casewright", symlinks=True, ignore=skipped)
    out = copy / "wheels"
    subprocess.run(
        [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", str(out)],
        cwd=copy / "casewright",
        check=True,
        capture_output=True,
        env={**os.environ, "PYTHONWARNINGS": "ignore"},
    )
    (made,) = out.glob("*.whl")
    with zipfile.ZipFile(made) as archive:
        return set(archive.namelist())


def sources():
    for room in ROOMS:
        for path in (ROOT / room).rglob("*"):
            if path.is_file() and path.suffix in DATA and "__pycache__" not in path.parts:
                yield f"casewright/{path.relative_to(ROOT).as_posix()}"


def test_the_wheel_holds_every_module_and_data_file(wheel):
    wanted = set(sources())
    assert len(wanted) > 100
    assert sorted(wanted - wheel) == []


def test_the_wheel_holds_nothing_else(wheel):
    strangers = {n for n in wheel if not n.startswith("casewright/") and ".dist-info/" not in n}
    assert strangers == set()
    assert not any(Path(n).name.startswith(("test_", "conftest")) for n in wheel)


def test_the_wheel_names_every_built_in_plugin(wheel):
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    for module in project["entry-points"]["casewright.plugins"].values():
        assert f"{module.replace('.', '/')}.py" in wheel


def test_types_are_checked_strictly():
    tool = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["mypy"]
    assert tool["strict"] is True
    for room in ("api", "sdk", "plugins"):
        assert (ROOT / room / "py.typed").is_file()
