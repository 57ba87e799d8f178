"""The pages for people as a browser gets them: headings to link to, code and tables as they are, links that lead on."""

import re
from html.parser import HTMLParser
from urllib.parse import urljoin

import pytest
from casewright.api.web.pages import PAGES, REFERENCE, anchor, page_text
from flask.testing import FlaskClient


class Reader(HTMLParser):
    def __init__(self, html: str) -> None:
        super().__init__()
        self.ids: list[str] = []
        self.links: list[str] = []
        self.tags: list[str] = []
        self.code: list[str] = []
        self._inside = ""
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        attributes = dict(attrs)
        self.tags.append(tag)
        self.ids += [word] if (word := attributes.get("id")) else []
        self.links += [word] if (word := attributes.get("href")) else []
        if tag == "pre":
            self._inside = tag
            self.code.append("")

    def handle_endtag(self, tag: str) -> None:
        self._inside = "" if tag == "pre" else self._inside

    def handle_data(self, data: str) -> None:
        if self._inside:
            self.code[-1] += data


@pytest.fixture(scope="module")
def read(client: FlaskClient) -> dict[str, Reader]:
    answers = {name: client.get(f"/docs/{name}") for name in (*PAGES, REFERENCE)}
    assert {(answer.status_code, answer.mimetype) for answer in answers.values()} == {(200, "text/html")}
    return {name: Reader(answer.text) for name, answer in answers.items()}


def test_an_anchor_is_the_one_forges_give() -> None:
    """By the rule of the common forges (from memory): small letters, no punctuation, hyphens for spaces."""
    assert anchor("One stud, two screws: a hanging worked by hand") == "one-stud-two-screws-a-hanging-worked-by-hand"
    assert anchor("`casewright_checks() -> Sequence[ExtraCheck]`") == "casewright_checks---sequenceextracheck"


@pytest.mark.parametrize("name", PAGES)
def test_headings_code_and_tables_are_all_there(read: dict[str, Reader], name: str) -> None:
    text = page_text(name)
    fenced = re.findall(r"^```.*?\n(.*?)^```$", text, re.MULTILINE | re.DOTALL)
    assert set(fenced) <= set(read[name].code)
    bare = re.sub(r"^```.*?^```$", "", text, flags=re.MULTILINE | re.DOTALL)
    assert {anchor(line) for line in re.findall(r"^#+ (.*)$", bare, re.MULTILINE)} <= set(read[name].ids)
    assert read[name].tags.count("tr") == len(re.findall(r"^\|(?!-)", bare, re.MULTILINE))


@pytest.mark.parametrize("name", PAGES)
def test_links_lead_to_what_is_served(client: FlaskClient, read: dict[str, Reader], name: str) -> None:
    """A page stands beside the others, one level under the front page; a test of the Markdown follows headings."""
    for link in read[name].links:
        assert not link.startswith(("/", "http")), link
        path, _, heading = urljoin(f"/docs/{name}", link).partition("#")
        assert client.get(path).status_code == 200, link
        assert not heading or heading in read[path.rpartition("/")[2]].ids, link
    assert {*PAGES, REFERENCE, "methods"} <= set(read[name].links)


def test_markup_in_the_text_is_shown_and_not_obeyed(client: FlaskClient) -> None:
    """`Sequence[Term]` and `<` in code are text; the pages hold no raw HTML."""
    html = client.get("/docs/plugins").text
    assert "-&gt; Sequence[JointMethod]" in html
    assert "0 &lt;= x &lt;= run" in html


@pytest.mark.parametrize("path", ["/docs/nothing", "/docs/tutorial.md", "/docs/page.html", "/docs/../app.py"])
def test_nothing_else_is_served(client: FlaskClient, path: str) -> None:
    assert client.get(path).status_code == 404
