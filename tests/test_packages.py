"""What is built holds every file: a source distribution, and a wheel built from it and not from the tree."""

import os
import shutil
import subprocess
import sys
import tarfile
import tomllib
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
TOPS = {
    "api/casewright/": "casewright/",
    "sdk/casewright/": "casewright/",
    "plugins/casewright/": "casewright/",
    "openapi/": "casewright/openapi/",
}
"""Where the sources stand, and where a wheel holds them."""


def tracked():
    """Return every file that belongs to the project, by its path from the root."""
    listed = ["git", "ls-files", "--cached", "--others", "--exclude-standard"]
    names = subprocess.run(listed, cwd=ROOT, check=True, capture_output=True, text=True).stdout.splitlines()
    return [name for name in names if (ROOT / name).is_file()]


def wheeled(name):
    """Return the name a source file has in the wheel, or nothing for a file no wheel holds."""
    return next((inside + name.removeprefix(top) for top, inside in TOPS.items() if name.startswith(top)), None)


@pytest.fixture(scope="module")
def built(tmp_path_factory):
    """Return the names in a source distribution of a clean copy, and in a wheel of plain Python built from it."""
    tree = tmp_path_factory.mktemp("tree")
    for name in tracked():
        (tree / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(ROOT / name, tree / name)
    out = tmp_path_factory.mktemp("built")
    subprocess.run(
        [sys.executable, "-m", "build", "--no-isolation", "--outdir", str(out)],
        cwd=tree,
        check=True,
        capture_output=True,
        env={**os.environ, "PYTHONWARNINGS": "ignore", "CASEWRIGHT_COMPILE": "0"},
    )
    ((source,), (wheel,)) = out.glob("*.tar.gz"), out.glob("*.whl")
    with tarfile.open(source) as sources, zipfile.ZipFile(wheel) as archive:
        return {name.partition("/")[2] for name in sources.getnames()}, set(archive.namelist())


def test_the_source_distribution_holds_what_a_wheel_is_built_from(built):
    source, _ = built
    wanted = {name for name in tracked() if wheeled(name)} | {".build/casewright_build.py", "README.md", "LICENSE"}
    assert len(wanted) > 300
    assert sorted(wanted - source) == []


def test_the_wheel_holds_every_file_of_the_packages(built):
    _, wheel = built
    wanted = {wheeled(name) for name in tracked()} - {None}
    assert len(wanted) > 300
    assert sorted(wanted - wheel) == []


def test_the_wheel_holds_nothing_else(built):
    _, wheel = built
    strangers = {name for name in wheel if ".dist-info/" not in name}
    assert strangers == {wheeled(name) for name in tracked()} - {None}


def test_the_wheel_names_every_built_in_plugin(built):
    _, wheel = built
    for module in PROJECT["project"]["entry-points"]["casewright.plugins"].values():
        assert f"{module.replace('.', '/')}.py" in wheel


def test_types_are_checked_strictly():
    assert PROJECT["tool"]["mypy"]["strict"] is True
    for top in ("api", "sdk", "plugins"):
        assert (ROOT / top / "casewright" / top / "py.typed").is_file()
