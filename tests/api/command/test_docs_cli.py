"""`casewright docs`: pages on a terminal, and as files that lead to one another without a service."""

import re
from dataclasses import replace
from importlib import import_module
from importlib.resources import files
from pathlib import Path

from casewright.api.command.cli import main
from casewright.api.command.docs_cli import write_docs
from casewright.api.web.pages import PAGES
from casewright.sdk.loader import Registry, load
from casewright.sdk.reference import reference_text


def test_the_list_names_every_page_with_its_title(capsys) -> None:
    assert main(["docs"]) == 0
    titles = dict(line.split(maxsplit=1) for line in capsys.readouterr().out.splitlines())
    pages = files("casewright.sdk") / "pages"
    assert all(f"# {titles[name]}\n" == (pages / f"{name}.md").read_text("utf-8").splitlines(True)[0] for name in PAGES)
    assert titles["methods/joints/dowel"] == "Dowels"
    assert {*PAGES, "methods", "methods/joints/dowel", "methods/catalogue/hinges"} <= set(titles)


def test_a_page_is_printed(capsys) -> None:
    for name, title in (("tutorial", "# Tutorial"), ("methods", "# Methods"), ("methods/joints/dowel", "# Dowels")):
        assert main(["docs", name]) == 0
        assert capsys.readouterr().out.startswith(title)
    assert main(["docs", "methods/joints/nothing"]) == 2
    assert "no page" in capsys.readouterr().err


def test_the_reference_reads_where_no_plugin_is_tested(monkeypatch) -> None:
    """A service lacks what the testing kit imports: the page says so in place of its names."""

    def without(name: str) -> object:
        if name == "casewright.sdk.testing":
            raise ModuleNotFoundError("No module named 'hypothesis'", name="hypothesis")
        return import_module(name)

    monkeypatch.setattr("casewright.sdk.reference.importlib.import_module", without)
    text = reference_text.__wrapped__()
    assert "### CannotError" in text
    assert "### JointContract" not in text
    assert "`pip install 'casewright[plugin]'` brings it" in text


def few(registry: Registry) -> Registry:
    """Return a registry with one method of each family beside those that a job takes where it names none."""
    joints = {name: registry.joints[name] for name in ("dowel", "housed-groove", "rabbet", "loose-tenon")}
    return replace(
        registry,
        joints=joints,
        boxes={"box-rabbet": registry.boxes["box-rabbet"]},
        doors={"slab": registry.doors["slab"], "cope-and-stick": registry.doors["cope-and-stick"]},
        mountings={"bevel-cleat": registry.mountings["bevel-cleat"]},
    )


def test_files_lead_to_one_another(tmp_path: Path, full: bool) -> None:
    every = load(discover="built-in")
    write_docs(every if full else few(every), tmp_path)
    files = list(tmp_path.rglob("*.html"))
    assert len(files) > 30
    for file in files:
        for link in re.findall(r'(?:href|src)="([^"#]+)[^"]*"', file.read_text("utf-8")):
            assert (file.parent / link).is_file(), f"{file.name}: {link}"
