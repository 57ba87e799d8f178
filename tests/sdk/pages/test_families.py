"""The page of each family: its example is tried as it stands, and the reference names all that is public."""

import importlib
import re
import sys
from importlib.resources import files

import pytest
import tutorial
from casewright.api.web.pages import FIGURES, PAGES
from casewright.sdk.reference import FAMILIES, reference_text
from casewright.sdk.testing.quick import Counts, trials
from modules import module_at

FOLDER = files("casewright.sdk").joinpath("pages")
KINDS = ("joint", "door", "box", "mounting", "catalogue", "check", "style")


@pytest.fixture
def written(request, tmp_path):
    """Return the modules of a page's plugin and of its tests; what importing them leaves behind is undone."""
    kind = request.param
    texts = tutorial.files(FOLDER.joinpath(f"plugin-{kind}.md").read_text("utf-8"))
    names = (f"bay_{kind}", f"test_bay_{kind}")
    assert set(texts) == {f"{names[0]}.py", f"tests/{names[1]}.py"}
    modules = []
    for name, text in zip(names, texts.values(), strict=True):
        path = tmp_path / f"{name}.py"
        path.write_text(text, encoding="utf-8")
        modules.append(module_at(path, name))
    yield tuple(modules)
    for name in names:
        sys.modules.pop(name, None)


@pytest.mark.parametrize("written", KINDS, indirect=True)
def test_the_example_keeps_its_contract_and_passes_its_own_tests(written, full):
    plugin, tests = written
    counts = Counts() if full else Counts(jobs=2, meetings=4)
    wrong = [(one.promise, one.wrong) for one in trials(plugin, counts) if one.wrong]
    assert not wrong
    own = [one for name, one in vars(tests).items() if name.startswith("test_")]
    for kind in (one for name, one in vars(tests).items() if name.startswith("Test")):
        own += [getattr(kind(), name) for name in vars(kind) if name.startswith("test_")]
    for test in own:
        test()
    assert own or any(name.startswith("Test") for name in vars(tests))


@pytest.mark.parametrize("kind", KINDS)
def test_a_page_is_served_and_shows_its_frame(kind):
    text = FOLDER.joinpath(f"plugin-{kind}.md").read_text("utf-8")
    assert f"plugin-{kind}" in PAGES
    shown = re.findall(r"\]\(([\w-]+\.svg)\)", text)
    assert set(shown) <= set(FIGURES)
    assert bool(shown) == (kind in ("joint", "door", "mounting"))


def test_the_reference_names_all_that_is_public():
    """Each as a heading of its own, but for those that two families share, which stand in the first."""
    headings = re.findall(r"^### (.*)$", reference_text(), re.MULTILINE)
    public = {name for family in FAMILIES for name in importlib.import_module(f"casewright.sdk.{family}").__all__}
    assert public <= set(headings)
    assert len(set(headings)) == len(headings)


def test_the_reference_gives_fields_signatures_and_docstrings():
    """A few as they are declared, by hand."""
    text = reference_text()
    assert "| `guest_thickness` | `int` |  |" in text
    assert "| `press` | `Axis` | `3` |" in text
    assert "`screw_within(catalogue: Catalogue, gauge: int, longest: int, least: int = 0) -> Screw | None`" in text
    assert "Raised by a method that has no answer" in text
    assert "| `mass_kg` | `float` |  |" in text
