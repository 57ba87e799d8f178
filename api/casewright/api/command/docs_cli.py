"""`casewright docs`: the pages for people, on a terminal or as files that a browser opens without a service."""

import argparse
import shutil
import sys
from importlib.resources import as_file, files
from pathlib import Path
from typing import TYPE_CHECKING

from casewright.api.command.exits import DONE, UNUSABLE

if TYPE_CHECKING:
    from casewright.sdk.loader import Registry

LOOKS = ("page.css", "mark.svg")


def docs(chosen: argparse.Namespace) -> int:
    """Print a page, list them all, or write them with a page for each method to a folder."""
    from casewright.api.use.loading import installed
    from casewright.api.use.method_pages import every_page, index_text, page_of, page_path
    from casewright.api.web.pages import PAGES, REFERENCE, page_text, title_of

    registry = installed()
    if chosen.out is not None:
        write_docs(registry, chosen.out)
        print(chosen.out / "methods.html")
        return DONE
    if chosen.page is None:
        texts = [(name, page_text(name)) for name in (*PAGES, REFERENCE)] + [("methods", index_text(registry))]
        titles = {name: title_of(text) for name, text in texts}
        titles |= {f"methods/{page_path(family, name)}": title for family, name, title in every_page(registry)}
        width = max(map(len, titles))
        print("\n".join(f"{name:{width}}  {title}" for name, title in titles.items()))
        return DONE
    if chosen.page in (*PAGES, REFERENCE):
        print(page_text(chosen.page), end="")
        return DONE
    if chosen.page == "methods":
        print(index_text(registry), end="")
        return DONE
    family, _, name = chosen.page.removeprefix("methods/").partition("/")
    try:
        print(page_of(registry, family, name).text, end="")
    except KeyError:
        print(f"casewright docs: no page {chosen.page!r}; `casewright docs` lists them", file=sys.stderr)
        return UNUSABLE
    return DONE


def write_docs(registry: "Registry", out: Path) -> None:
    """Write every page as HTML that links to the others, its pictures beside it."""
    from casewright.api.papers.drawing.svg import to_svg
    from casewright.api.use.method_pages import every_page, index_text, page_of, page_path
    from casewright.api.web.pages import FIGURES, PAGES, REFERENCE, Shelf, figure, page_text, text_html

    out.mkdir(parents=True, exist_ok=True)
    for look in LOOKS:
        with as_file(files("casewright.api.web").joinpath("docs_assets", look)) as path:
            shutil.copy(path, out / look)
    for name in FIGURES:
        (out / name).write_bytes(figure(name))
    beside = Shelf("methods.html", "", ".html")
    texts = {name: page_text(name) for name in (*PAGES, REFERENCE)} | {"methods": index_text(registry)}
    for name, text in texts.items():
        (out / f"{name}.html").write_bytes(text_html(text, beside))
    for family, name, _ in every_page(registry):
        page = page_of(registry, family, name)
        path = out / "methods" / page_path(family, name)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.with_name(f"{name}.html").write_bytes(text_html(page.text, Shelf("../../methods.html", "../../", ".html")))
        for picture, sheet in page.pictures.items():
            path.mkdir(exist_ok=True)
            (path / f"{picture}.svg").write_text(to_svg(sheet), "utf-8")
