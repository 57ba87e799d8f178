"""DEVELOPERS.md is a true map: every path, module and name in it is there, its rooms are those held in order."""

import re
import tomllib
from importlib.util import find_spec
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
TEXT = (ROOT / "DEVELOPERS.md").read_text("utf-8")
CODE = re.findall(r"`([^`\n]+)`", re.sub(r"^```.*?^```$", "", TEXT, flags=re.MULTILINE | re.DOTALL))
PATHS = sorted({word for word in CODE if re.fullmatch(r"\.?[\w./-]+/[\w./-]*|[\w-]+\.toml", word) and word[0] != "/"})
MODULES = sorted({word for word in CODE if word.startswith("casewright.")})
NAMES = sorted(set(re.findall(r"((?:`\w+`(?:,| and)? ?)+) in `([\w./-]+\.py)`", TEXT)))
LAYERS = {
    contract["containers"][0]: contract["layers"]
    for contract in tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["importlinter"]["contracts"]
    if contract["type"] == "layers"
}


def place(path: str) -> Path:
    """Return the file or folder that a path of the text stands for."""
    top, _, rest = path.partition("/")
    inside = ROOT / top / "casewright" / top / rest
    return inside if inside.exists() else ROOT / path


def test_enough_is_named_to_be_a_map() -> None:
    assert len(PATHS) > 50
    assert len(NAMES) > 10


@pytest.mark.parametrize("path", PATHS)
def test_a_path_is_there(path: str) -> None:
    assert place(path).exists()
    assert place(path).is_dir() or not path.endswith("/")


@pytest.mark.parametrize("link", sorted(set(re.findall(r"\]\(([^)#]+)\)", TEXT))))
def test_a_link_leads_to_a_file(link: str) -> None:
    assert (ROOT / link).is_file()


@pytest.mark.parametrize("module", MODULES)
def test_a_module_is_there(module: str) -> None:
    package, _, name = module.rpartition(".")
    assert find_spec(module) if package == "casewright" else hasattr(__import__(package, fromlist=[name]), name)


@pytest.mark.parametrize(("names", "path"), NAMES)
def test_a_name_is_defined_in_its_module(names: str, path: str) -> None:
    source = place(path).read_text("utf-8")
    for name in re.findall(r"`(\w+)`", names):
        assert re.search(rf"^ *(?:def |class )?{name}\b(?:\(| ?=|:)", source, re.MULTILINE), name


@pytest.mark.parametrize(
    ("container", "heading"),
    [("casewright.api", "Rooms of `casewright.api`"), ("casewright.api.engine", "Rooms of the engine")],
)
def test_rooms_stand_in_the_order_that_is_held(container: str, heading: str) -> None:
    table = TEXT.split(heading)[1].split("\n| room")[1].split("\n\n")[0]
    listed = re.findall(r"^\| `api/(?:engine/)?(\w+)(?:/|\.py)`", table, re.MULTILINE)
    layer_rooms = [room for layer in LAYERS[container] for room in layer.split(" | ")]
    assert listed == layer_rooms


def test_it_stays_a_map() -> None:
    """A map is read in one sitting: at most about 15 kB."""
    assert len(TEXT.encode()) < 15_500


def test_its_python_runs() -> None:
    (block,) = re.findall(r"^```python\n(.*?)^```$", TEXT, re.MULTILINE | re.DOTALL)
    exec(compile(block, "DEVELOPERS.md", "exec"), {})
