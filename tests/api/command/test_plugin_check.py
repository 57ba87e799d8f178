"""`casewright plugin check`: problems are told so that one can act."""

import re
import sys
from pathlib import Path

import pytest
from casewright.api.command.cli import main

TEMPLATE = Path(__file__).parents[3] / "sdk" / "casewright" / "sdk" / "template"
CATALOGUE = """from casewright.sdk.catalogue import Catalogue
from casewright.sdk.kit import hookimpl


@hookimpl
def casewright_catalogue() -> Catalogue:
    return Catalogue()
"""


def test_check_finds_nothing_wrong_with_a_new_plugin(made, capsys):
    assert main(["plugin", "check", "--jobs=5", str(made)]) == 0
    output = capsys.readouterr().out
    assert "registers joints/ladder-joint" in output
    assert "PROBLEM" not in output
    assert output.count("  ok ") >= 10


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("seat=depth,", "seat=depth / 1,", "whole nm"),
        ("seat=depth,", "seat=depth // 2,", "but the guest enters its host by"),
        ("load_default=None,", "load_default=6,", "write mm(6) if 6 mm were meant"),
        ("room = meeting.host_depth // 2", "while True:\n            pass\n        room = meeting.host_depth // 2",
         "End the loop"),
        ('id: ClassVar[str] = "ladder-joint"', 'id: ClassVar[str] = "rabbet"', "taken by plugin joint-rabbet"),
        ("((2, 0), (3, 0))", "((7, 0), (8, 0))", "written for SDK 7.0"),
        ("from casewright.sdk.joints import Fit", "import no_such_module\nfrom casewright.sdk.joints import Fit",
         "ModuleNotFoundError"),
        ("from casewright.sdk.joints import Fit", "from casewright.sdk.joinery import said, Fit", "/docs/migration"),
        ("def casewright_joint_methods()", "def casewright_joint_method()", "perhaps casewright_joint_methods"),
        ("depth = Length(", "depth = __import__('marshmallow').fields.Integer() or Length(", "casewright.sdk.fields"),
    ],
)  # fmt: skip
def test_check_tells_what_is_wrong(made, capsys, old, new, words):
    path = made / "ladder_joint.py"
    text = path.read_text()
    assert old in text
    path.write_text(text.replace(old, new))
    assert main(["plugin", "check", "--jobs=3", "--seconds=1", str(path)]) == 2
    output = capsys.readouterr().out
    assert output.count("PROBLEM") == 1
    assert words in output
    assert "ladder_joint.py:" in output
    assert all(f"    {word}:" in output for word in ("rule", "got", "fix"))


def test_check_of_what_is_not_there(tmp_path, capsys):
    for name in ("no-such-plugin", str(tmp_path), str(tmp_path / "none.py")):
        assert main(["plugin", "check", name]) == 2
        assert capsys.readouterr().err.startswith("casewright plugin check: ")


def test_check_of_a_built_in(capsys):
    assert main(["plugin", "check", "joint-rabbet"]) == 0
    assert "ships with casewright" in capsys.readouterr().out


def test_a_report_holds_what_failed_and_it_replays_until_it_is_mended(made, tmp_path, capsys):
    path, out = made / "ladder_joint.py", tmp_path / "report"
    right = path.read_text()
    path.write_text(right.replace("seat=depth,", "seat=depth // 2,"))
    assert main(["plugin", "check", "--jobs=5", str(path), "--report", str(out)]) == 2
    page = (out / "report.md").read_text("utf-8")
    failing = out / "joints-ladder-joint-failing.json"
    assert f"casewright plugin check {path} --replay {failing}" in page
    for words in (
        "PROBLEM at ladder_joint.py:",
        "but the guest enters its host by",
        "Traceback",
        "10 corner meetings",
        "Refused:",
    ):
        assert words in page
    pictures = set(re.findall(r"\]\(([\w-]+\.svg)\)", page))
    assert pictures == {f"joints-ladder-joint-{name}.svg" for name in ("failing", "corner", "tee")}
    assert all("<svg" in (out / picture).read_text("utf-8") for picture in pictures)
    capsys.readouterr()
    assert main(["plugin", "check", str(path), "--replay", str(failing)]) == 2
    assert "but the guest enters its host by" in capsys.readouterr().out
    path.write_text(right)
    beside = made / "pyproject.toml"  # a folder with another plugin in it, which the report is not about
    beside.write_text(beside.read_text().replace('= "ladder_joint"\n', '= "ladder_joint"\nspare = "our_rates"\n'))
    (made / "our_rates.py").write_text(CATALOGUE)
    sys.modules.pop("ladder_joint")
    assert main(["plugin", "check", str(made), "--replay", str(failing)]) == 0
    output = capsys.readouterr()
    assert "  ok ladder-joint: Whole nm" in output.out
    assert not output.err
    assert main(["plugin", "check", "--jobs=1", str(made), "--report", str(out)]) == 0
    page = (out / "report.md").read_text("utf-8")
    assert page.startswith("# ladder-joint: what was tried")
    assert "## ladder-joint (joints)" in page
    assert not failing.exists()


def test_an_option_that_hides_a_shared_key_is_told(made, capsys):
    path = made / "ladder_mounting.py"
    text = (TEMPLATE / "mounting" / "shop_plugin.py").read_text()
    path.write_text(text.replace("height = Length(", "contents_kg = Length(about='x')\n    height = Length(", 1))
    assert main(["plugin", "check", str(path)]) == 2
    assert "mountings/shop-plugin options hide contents_kg" in capsys.readouterr().out


@pytest.mark.parametrize("names", ["ladder_joints", "ladder_joint:plugin"])
def test_an_entry_point_that_names_nothing_is_quoted(made, capsys, names):
    project = made / "pyproject.toml"
    project.write_text(project.read_text().replace('= "ladder_joint"\n', f'= "{names}"\n'))
    assert main(["plugin", "check", str(made)]) == 2
    output = capsys.readouterr().out
    assert f'pyproject.toml has ladder-joint = "{names}", which names nothing there' in output


def test_a_file_of_a_package_may_import_its_neighbours(made, capsys):
    package = made / "our_joinery"
    package.mkdir()
    (package / "__init__.py").touch()
    (package / "rates.py").write_text(CATALOGUE)
    (package / "shop.py").write_text("from our_joinery.rates import casewright_catalogue\nfrom . import rates\n")
    assert main(["plugin", "check", str(package / "shop.py")]) == 0
    assert "shop: registers a catalogue only" in capsys.readouterr().out


def test_without_the_testing_kit_nothing_is_passed(made, capsys, monkeypatch):
    monkeypatch.setattr("casewright.api.command.plugin_check.find_spec", lambda name: None)
    assert main(["plugin", "check", str(made)]) == 3
    assert "pip install 'casewright[plugin]'" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("{", "cannot be replayed"),
        ('{"family": "doors", "method": "none", "test": "", "drawn": {}}', "registers no doors/none"),
    ],
)
def test_what_cannot_be_replayed_is_said(made, tmp_path, capsys, text, words):
    path = tmp_path / "failing.json"
    path.write_text(text)
    assert main(["plugin", "check", str(made / "ladder_joint.py"), "--replay", str(path)]) == 2
    assert words in capsys.readouterr().err
