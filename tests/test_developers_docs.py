"""DEVELOPERS.md says what the code does: hooks, promises, settings, errors; and every block of it works.

The whole tutorial, in a fresh environment, is run by `.ci/plugin`; here its files are loaded and tried in process.
"""

import importlib.util
import inspect
import json
import re
import shlex
import subprocess
import sys
import tomllib
from dataclasses import fields
from pathlib import Path

import pytest
from casewright.api.command import cli
from casewright.api.web.problems import KINDS
from casewright.sdk import errors, hookspecs, joinery, testing
from casewright.sdk import fields as option_fields
from casewright.sdk.deprecations import DEPRECATED
from casewright.sdk.methods import Fit, Meeting
from casewright.sdk.testing.service import client, registry_with
from casewright.sdk.versions import SDK_VERSION
from casewright.sdk.vetting import STRICT

ROOT = Path(__file__).parents[1]
TEXT = (ROOT / "DEVELOPERS.md").read_text("utf-8")


def load(name: str, path: Path):
    spec = importlib.util.spec_from_file_location(name, path)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


TUTORIAL = load("tutorial", ROOT / ".ci" / "tutorial.py")
BLOCKS = list(TUTORIAL.blocks(TEXT))
FILES = TUTORIAL.files(TEXT)


def section(heading: str) -> str:
    """Return a section's text, up to the next heading of its level."""
    level = heading.split()[0]
    found = TEXT.split(f"\n{heading}\n")
    assert len(found) == 2, heading
    return re.split(rf"\n{level} ", found[1])[0]


def code(text: str) -> set[str]:
    """Return what stands between backticks."""
    return set(re.findall(r"`([^`\n]+)`", text))


def rows(text: str) -> list[list[str]]:
    """Return the cells of every table row but headings."""
    lines = [line for line in text.splitlines() if line.startswith("| `")]
    return [[cell.strip().strip("`") for cell in line.strip("|").split("|")] for line in lines]


def test_every_hook_is_a_heading_with_its_signature():
    found = re.findall(r"^#### `(casewright_\w+)(\(.*)`$", TEXT, re.MULTILINE)
    hooks = [(n, f) for n, f in vars(hookspecs).items() if n.startswith("casewright_")]
    assert len(found) == len(hooks)
    for (name, signature), (hook, function) in zip(found, hooks, strict=True):
        assert name == hook
        shown = str(inspect.signature(function))
        assert signature == re.sub(r"(?:\w+\.)+(\w+)", r"\1", shown)


@pytest.mark.parametrize("kind", [Meeting, Fit])
def test_every_field_of_a_meeting_and_a_fit_is_explained(kind):
    text = section("### Joint methods: `JointMethod.fit(meeting, options) -> Fit`")
    before, after = text.split("A `Fit` answers it:")
    told = {word for row in rows(before if kind is Meeting else after) for word in re.findall(r"\w+", row[0])}
    assert told == {f.name for f in fields(kind)}


def test_every_contract_and_helper_of_the_testing_kit_is_named():
    assert set(testing.__all__) <= code(section("## Testing a plugin"))


def test_what_the_text_names_is_there():
    kit = section("### Joint methods: `JointMethod.fit(meeting, options) -> Fit`")
    shared = re.search(r"`casewright.sdk.joinery` has what joints share: (.*?)\. A number", kit, re.DOTALL)[1]
    assert code(shared) <= set(joinery.__all__)
    named = code(section("### Options")) & {n for n in vars(option_fields) if n[0].isupper()}
    assert named == {kind.__name__ for kind in STRICT}
    for name in (w for w in code(section("## Errors")) if w.endswith("Error")):
        assert hasattr(errors, name) or name == "UnusableJobError", name


def test_every_problem_is_listed_with_status_and_title():
    assert rows(section("## Errors")) == [[k.name, str(k.status), k.title] for k in KINDS.values()]


EXITS = {"when done": cli.DONE, "a stop": cli.STOPPED, "of no use": cli.UNUSABLE, "failed": cli.FAILED}


@pytest.mark.parametrize("word", EXITS)
def test_exit_codes(word):
    told = " ".join(section("## Errors").split())
    assert re.search(rf"\b{EXITS[word]} (?:where [^0-9.]*)?{word}", told)


def test_settings_are_those_the_code_reads():
    text = TEXT.split("<!-- settings begin")[1].split("<!-- settings end")[0]
    told = {row[0] for row in rows(text)}
    sources = [p for room in ("api", "sdk", "plugins") for p in (ROOT / room).rglob("*.py")]
    read = {name for p in sources for name in re.findall(r"\bCASEWRIGHT_[A-Z_]+\b", p.read_text("utf-8"))}
    assert told == read


def test_versions_and_deprecations():
    text = section("## SDK versions and deprecations")
    assert f"This is SDK {SDK_VERSION[0]}.{SDK_VERSION[1]}" in text
    assert ("Nothing is deprecated now." in text) == (not DEPRECATED)
    assert set(DEPRECATED) <= code(text)


def test_links_lead_somewhere():
    headings = re.findall(r"^#+ (.*)$", TEXT, re.MULTILINE)
    anchors = {re.sub(r"[^\w\- ]", "", h.lower()).replace(" ", "-") for h in headings}
    assert set(re.findall(r"\]\(#([^)]+)\)", TEXT)) <= anchors


def test_every_block_is_of_a_kind_that_is_tried():
    assert {b.kind for b in BLOCKS} == {"python", "toml", "json", "sh"}
    assert TEXT.count("\n```") == 2 * len(BLOCKS)


@pytest.mark.parametrize(
    "block", [b for b in BLOCKS if b.kind == "python" and b.title is None], ids=lambda b: b.text[:30]
)
def test_python_outside_the_tutorial_runs(block):
    exec(compile(block.text, "DEVELOPERS.md", "exec"), {})


def commands():
    for block in BLOCKS:
        if block.kind == "sh":
            for line in block.text.splitlines():
                words = shlex.split(line)
                if words and words[0].endswith("casewright"):
                    yield words[1:]


@pytest.mark.parametrize("words", list(commands()), ids=" ".join)
def test_every_casewright_command_is_one(words):
    assert cli.parser().parse_args(words).run


def test_shell_blocks_are_shell():
    for block in BLOCKS:
        if block.kind == "sh":
            subprocess.run(["bash", "-n"], input=block.text, text=True, check=True)
    subprocess.run(["bash", "-n"], input=TUTORIAL.script(TEXT), text=True, check=True)


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
    said = capsys.readouterr().out
    assert "registers joints/screwed-housing, houses/bicycle-workshop" in said


def test_the_tutorials_own_tests_pass(folder):
    module = load("tutorial_tests", folder / "tests" / "test_bicycle_workshop.py")
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
