"""The pages of methods over HTTP: `/v1/methods` links to each, and each links on to what is there."""

import re
from urllib.parse import urljoin

import pytest
from flask.testing import FlaskClient

DRAWN = ("joints/dowel", "doors/slab", "boxes/box-rabbet", "mountings/bevel-cleat")


def listed(client: FlaskClient) -> dict[str, str]:
    """Return the page of everything that `/v1/methods` lists, by the reference it gives."""
    answer = client.get("/v1/methods").get_json()
    return {row["page"]: urljoin("/v1/methods", row["page"]) for rows in answer.values() for row in rows}


def test_everything_that_is_listed_has_a_page_of_its_own(client: FlaskClient) -> None:
    pages = listed(client)
    assert len(pages) == len(set(pages.values())) > 40
    index = client.get("/docs/methods")
    assert (index.status_code, index.mimetype) == (200, "text/html")
    linked = {urljoin("/docs/methods", link) for link in re.findall(r'href="(methods/[^"]+)"', index.text)}
    assert linked == set(pages.values())


def test_the_catalogue_is_listed_by_family(client: FlaskClient) -> None:
    families = {row["family"]: row["ids"] for row in client.get("/v1/methods").get_json()["catalogue"]}
    materials = client.get("/v1/materials").get_json()
    assert families == {name: [row["id"] for row in rows] for name, rows in materials.items() if rows}


@pytest.mark.parametrize("name", [*DRAWN, "catalogue/pins", "cures/stock"])
def test_a_page_and_all_that_it_leads_to_are_served(client: FlaskClient, name: str) -> None:
    at = f"/docs/methods/{name}"
    page = client.get(at)
    assert (page.status_code, page.mimetype) == (200, "text/html")
    pictures = re.findall(r'src="([^"]+)"', page.text)
    assert bool(pictures) == (name in DRAWN)
    for link in {*pictures, *re.findall(r'href="([^"]+)"', page.text)} - {"#content"}:
        answer = client.get(urljoin(at, link))
        assert answer.status_code == 200, link
        assert answer.mimetype == "image/svg+xml" or link not in pictures


@pytest.mark.parametrize(
    "path", ["joints/nothing", "nothing/dowel", "joints/dowel/nothing.svg", "joints/dowel.svg", "joints"]
)
def test_nothing_else_is_served(client: FlaskClient, path: str) -> None:
    assert client.get(f"/docs/methods/{path}").status_code == 404
