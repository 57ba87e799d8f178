"""The pages say what the code does: hooks, promises, errors, settings, commands; and their links and blocks work."""

import inspect
import re
import shlex
import subprocess
from dataclasses import fields
from importlib.resources import files
from pathlib import Path

import pytest
import tutorial
from casewright.api.command import exits
from casewright.api.command.parser import parser
from casewright.api.web.pages import PAGES, anchor, page_text
from casewright.api.web.problems import KINDS
from casewright.sdk import errors, hookspecs, joints, testing
from casewright.sdk import fields as option_fields
from casewright.sdk import kit as public_kit
from casewright.sdk.deprecations import DEPRECATED
from casewright.sdk.methods import Fit, Meeting
from casewright.sdk.validation import STRICT
from casewright.sdk.versions import SDK_VERSION
from casewright.sdk.writer import INCHES

ROOT = Path(__file__).parents[3]
TEXTS = {
    path.name.removesuffix(".md"): path.read_text("utf-8")
    for path in files("casewright.sdk").joinpath("pages").iterdir()
    if path.name.endswith(".md")
}
PLUGINS, ERRORS, SETTINGS = TEXTS["plugins"], TEXTS["errors"], TEXTS["settings"]
BLOCKS = [block for text in TEXTS.values() for block in tutorial.blocks(text)]


def section(heading: str) -> str:
    """Return a section of the page on plugins, up to the next heading of its level."""
    level = heading.split()[0]
    sections = PLUGINS.split(f"\n{heading}\n")
    assert len(sections) == 2, heading
    return re.split(rf"\n{level} ", sections[1])[0]


def code(text: str) -> set[str]:
    """Return what stands between backticks."""
    return set(re.findall(r"`([^`\n]+)`", text))


def rows(text: str) -> list[list[str]]:
    """Return the cells of every table row but headings."""
    lines = [line for line in text.splitlines() if line.startswith("| `")]
    return [[cell.strip().strip("`") for cell in line.strip("|").split("|")] for line in lines]


def test_every_hook_is_a_heading_with_its_signature():
    headings = re.findall(r"^### `(casewright_\w+)(\(.*)`$", PLUGINS, re.MULTILINE)
    hooks = [(n, f) for n, f in vars(hookspecs).items() if n.startswith("casewright_")]
    assert len(headings) == len(hooks)
    for (name, signature), (hook, function) in zip(headings, hooks, strict=True):
        assert name == hook
        shown = str(inspect.signature(function))
        assert signature == re.sub(r"(?:\w+\.)+(\w+)", r"\1", shown)


@pytest.mark.parametrize("kind", [Meeting, Fit])
def test_every_field_of_a_meeting_and_a_fit_is_explained(kind):
    text = section("### Joint methods: `JointMethod.fit(meeting, options) -> Fit`")
    before, after = text.split("A `Fit` answers it:")
    explained = {word for row in rows(before if kind is Meeting else after) for word in re.findall(r"\w+", row[0])}
    assert explained == {f.name for f in fields(kind)}


def test_every_contract_and_helper_of_the_testing_kit_is_named():
    assert set(testing.__all__) <= code(section("## Testing a plugin"))


def test_what_the_text_names_is_there():
    kit = section("### Joint methods: `JointMethod.fit(meeting, options) -> Fit`")
    shared = re.search(r"`casewright.sdk.joints` and `.kit` have what joints share: (.*?)\. A number", kit, re.DOTALL)[
        1
    ]
    assert code(shared) <= {*joints.__all__, *public_kit.__all__}
    named = code(section("### Options")) & {n for n in vars(option_fields) if n[0].isupper()}
    assert named == {kind.__name__ for kind in STRICT}
    for name in (w for w in code(ERRORS) if w.endswith("Error")):
        assert hasattr(errors, name), name


def test_every_problem_is_listed_with_status_and_title():
    assert rows(ERRORS) == [[k.name, str(k.status), k.title] for k in KINDS.values()]


EXITS = {"when done": exits.DONE, "a stop": exits.STOPPED, "of no use": exits.UNUSABLE, "failed": exits.FAILED}


@pytest.mark.parametrize("word", EXITS)
def test_exit_codes(word):
    page = " ".join(ERRORS.split())
    assert re.search(rf"\b{EXITS[word]} (?:where [^0-9.]*)?{word}", page)


def test_settings_are_those_the_code_reads():
    listed = {row[0] for row in rows(SETTINGS)}
    sources = [p for room in ("api", "sdk", "plugins") for p in (ROOT / room).rglob("*.py")]
    read = {name for p in sources for name in re.findall(r"\bCASEWRIGHT_[A-Z_]+\b", p.read_text("utf-8"))}
    assert listed == read


def test_versions_and_deprecations():
    text = section("## SDK versions and deprecations")
    assert f"This is SDK {SDK_VERSION[0]}.{SDK_VERSION[1]}" in text
    assert ("Nothing is deprecated now." in text) == (not DEPRECATED)
    assert set(DEPRECATED) <= code(text)


def test_the_pages_served_are_those_that_ship():
    assert sorted(PAGES) == sorted(TEXTS)


@pytest.mark.parametrize("name", TEXTS)
def test_links_lead_to_a_page_and_a_heading(name):
    for page, _, heading in re.findall(r"\]\(([\w-]+\.md)?(#([^)]+))?\)", TEXTS[name]):
        text = page_text(page.removesuffix(".md") or name)
        headings = {anchor(line) for line in re.findall(r"^#+ (.*)$", text, re.MULTILINE)}
        assert not heading or heading in headings, heading


@pytest.mark.parametrize("name", TEXTS)
def test_a_page_has_one_title_and_no_heading_twice(name):
    bare = re.sub(r"^```.*?^```$", "", TEXTS[name], flags=re.MULTILINE | re.DOTALL)
    assert bare.startswith("# ")
    assert len(re.findall(r"^# ", bare, re.MULTILINE)) == 1
    headings = re.findall(r"^#+ (.*)$", bare, re.MULTILINE)
    assert len({anchor(heading) for heading in headings}) == len(headings)


def test_every_block_is_of_a_kind_that_is_tried():
    assert {b.kind for b in BLOCKS} == {"python", "toml", "json", "sh", "text"}
    assert sum(text.count("\n```") for text in TEXTS.values()) == 2 * len(BLOCKS)


def commands():
    for block in BLOCKS:
        if block.kind == "sh":
            for line in block.text.splitlines():
                words = shlex.split(line)
                if words and words[0].endswith("casewright"):
                    yield words[1:]


@pytest.mark.parametrize("words", list(commands()), ids=" ".join)
def test_every_casewright_command_is_one(words):
    assert parser().parse_args(words).run


def test_shell_blocks_are_shell():
    for block in BLOCKS:
        if block.kind == "sh":
            subprocess.run(["bash", "-n"], input=block.text, text=True, check=True)


def test_units_that_changed_are_those_the_writer_gives():
    table = TEXTS["migration"].split("| unit in 0.1")[1].split("\n\n")[0]
    pairs = [
        (before, after)
        for line in re.findall(r"^\| (`.*) \| (`.*) \|$", table, re.MULTILINE)
        for before, after in zip(*(re.findall(r"`([^`]+)`", cell) for cell in line), strict=True)
    ]
    assert len(pairs) > 5
    assert [INCHES.measured(1.0, before)[1] for before, _ in pairs] == [after for _, after in pairs]
