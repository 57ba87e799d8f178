"""`/docs/<page>`: the pages for people that ship with the SDK as Markdown, shown as HTML with the look of `/docs`."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from html import escape
from importlib.resources import files
from itertools import pairwise
from string import Template
from typing import Any

from casewright.sdk.reference import reference_text
from markdown_it import MarkdownIt
from markdown_it.renderer import RendererHTML
from markdown_it.token import Token
from markdown_it.utils import OptionsDict

PAGES = (
    "calling", "spreadsheet", "from-stock", "one-side-short", "tutorial", "plugins", "plugin-joint", "plugin-door",
    "plugin-box", "plugin-mounting", "plugin-catalogue", "plugin-check", "plugin-style", "settings", "errors",
    "worked-hanging", "migration",
)  # fmt: skip
"""The pages that ship as Markdown, in the order a reader meets them."""

REFERENCE = "reference"
"""The page that is made of docstrings."""

FIGURES = ("joint-frame.svg", "door-frame.svg", "cabinet-frame.svg")
"""Pictures that the pages show."""
_TITLED = re.compile(r'title="([^"]+)"')


def page_text(name: str) -> str:
    """Return a page's Markdown."""
    if name == REFERENCE:
        return reference_text()
    return files("casewright.sdk").joinpath("pages", f"{name}.md").read_text("utf-8")


def title_of(text: str) -> str:
    """Return the title of a page of Markdown: its first line's."""
    return text.partition("\n")[0].removeprefix("# ")


@dataclass(frozen=True, slots=True)
class Shelf:
    """Where pages stand: what leads from one to the first page and to the folder of all, and how their names end."""

    front: str = "../docs"
    root: str = ""
    suffix: str = ""


def figure(name: str) -> bytes:
    """Return a picture that the pages show, as SVG."""
    return files("casewright.sdk").joinpath("pages", name).read_bytes()


@lru_cache(maxsize=len(PAGES) + 1)
def page_html(name: str) -> bytes:
    """Return a page as a whole HTML document."""
    return text_html(page_text(name))


def text_html(text: str, shelf: Shelf = Shelf()) -> bytes:  # a frozen record
    """Return Markdown as a whole HTML document."""
    around = files("casewright.api.web").joinpath("docs_assets", "text.html").read_text("utf-8")
    title = escape(title_of(text))
    filled = {"front": shelf.front, "root": shelf.root, "suffix": shelf.suffix}
    return Template(around).substitute(title=title, body=_body(text, shelf.suffix), **filled).encode()


def anchor(heading: str) -> str:
    """Return the id of a heading, by the same rule as the common forges, so that one link serves both."""
    return re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-")


def _body(text: str, suffix: str) -> str:
    tokens = _MARKDOWN.parse(text)
    for token, following in pairwise(tokens):
        if token.type == "heading_open":
            token.attrSet("id", anchor(following.content))
        for child in token.children or ():
            if child.type == "link_open":
                child.attrSet("href", re.sub(r"\.md(?=#|$)", suffix, str(child.attrGet("href"))))
    html: str = _MARKDOWN.renderer.render(tokens, _MARKDOWN.options, {})
    return html


def _code(_: RendererHTML, tokens: Sequence[Token], index: int, options: OptionsDict, env: Any) -> str:
    titled = _TITLED.search(tokens[index].info)
    above = f'<p class="path">{escape(titled[1])}</p>\n' if titled else ""
    return f'{above}<pre tabindex="0"><code>{escape(tokens[index].content)}</code></pre>\n'


def _table(_: RendererHTML, tokens: Sequence[Token], index: int, options: OptionsDict, env: Any) -> str:
    return '<div class="wide" tabindex="0"><table>\n' if tokens[index].nesting == 1 else "</table></div>\n"


_MARKDOWN = MarkdownIt("commonmark", {"html": False}).enable("table")
for _kind, _rule in (("fence", _code), ("code_block", _code), ("table_open", _table), ("table_close", _table)):
    _MARKDOWN.add_render_rule(_kind, _rule)
