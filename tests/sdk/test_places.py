"""Where a plugin's own source stands, by the lines of files written for it here."""

import importlib.util
import sys
from pathlib import Path
from types import ModuleType

import pytest
from casewright.sdk.joinery import too_narrow
from casewright.sdk.places import defined_at, frame_at, raised_at

SOURCE = '''"""A plugin."""
from casewright.sdk.units import mm


class Lath:
    """A thing."""

    def fit(self):
        return mm("no length")


def reads():
    return Lath().fit()
'''


@pytest.fixture
def module(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> ModuleType:
    path = tmp_path / "lath.py"
    path.write_text(SOURCE, "utf-8")
    spec = importlib.util.spec_from_file_location("lath", path)
    assert spec is not None
    assert spec.loader is not None
    made = importlib.util.module_from_spec(spec)
    monkeypatch.setitem(sys.modules, "lath", made)
    spec.loader.exec_module(made)
    return made


def test_an_error_is_where_the_plugin_called_what_raised_it(module: ModuleType) -> None:
    """Line 9 of the text above calls; the SDK raises."""
    with pytest.raises(ValueError, match="length") as caught:
        module.reads()
    assert raised_at(caught.value) == "lath.py:9"


def test_things_are_where_they_are_written(module: ModuleType) -> None:
    assert defined_at(module.Lath) == "lath.py:5"
    assert defined_at(module.Lath()) == "lath.py:5"
    assert defined_at(module.Lath().fit) == "lath.py:8"
    assert defined_at(module.reads) == "lath.py:12"
    assert defined_at(module) == "lath.py"
    assert defined_at(3) == ""


def test_a_syntax_error_is_at_its_line(tmp_path: Path) -> None:
    with pytest.raises(SyntaxError) as caught:
        compile("\n\nlath = (\n", "folder/of/mine/lath.py", "exec")
    assert raised_at(caught.value) == "lath.py:3"


def test_an_error_without_a_frame_is_nowhere() -> None:
    assert raised_at(ValueError("never raised")) == ""
    assert frame_at(None) == ""
    assert frame_at(sys._getframe()).startswith("test_places.py:")
    assert defined_at(too_narrow).startswith("layout.py:")
