"""The documentation page: its files, its policy, and a reader's use of it in a real browser.

In the browser: WCAG by axe-core, the page's own policy in force, requests watched, two widths, light and dark.
"""

import json
import os
import re
import shutil
import subprocess
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from graphlib import TopologicalSorter
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
from casewright.api.command import demo
from casewright.api.web import create_app
from casewright.api.web.docs import ASSETS, POLICY
from casewright.api.web.guard import Guard
from casewright.api.web.pages import PAGES
from casewright.api.web.settings import read_settings
from casewright.sdk.loader import Registry
from flask.testing import FlaskClient
from werkzeug.exceptions import NotFound
from werkzeug.middleware.dispatcher import DispatcherMiddleware
from werkzeug.serving import make_server
from werkzeug.test import Client

ROOT = Path(__file__).resolve().parents[3]
KEY = "a-key-of-more-than-sixteen-letters"
SERIOUS = ("serious", "critical")


class Links(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.links: list[str] = []
        self.inline: list[str] = []
        self.ids: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        attributes = dict(attrs)
        self.links += [word for name in ("href", "src") if (word := attributes.get(name))]
        self.ids += [word] if (word := attributes.get("id")) else []
        self.inline += [name for name in attributes if name == "style" or name.startswith("on")]
        self.inline += [tag] if tag == "style" or (tag == "script" and "src" not in attributes) else []


def links(client: FlaskClient, path: str) -> Links:
    read = Links()
    read.feed(client.get(path).text)
    return read


@pytest.fixture(scope="module")
def page(client: FlaskClient) -> Links:
    return links(client, "/docs")


@pytest.mark.parametrize("path", ["/docs", "/docs/tutorial"])
def test_a_page_is_served_with_its_policy(client: FlaskClient, path: str) -> None:
    answer = client.get(path)
    assert (answer.status_code, answer.mimetype) == (200, "text/html")
    assert answer.headers["Content-Security-Policy"] == POLICY
    assert "unsafe" not in POLICY
    assert "http" not in POLICY
    assert client.get(path, headers={"If-None-Match": answer.headers["ETag"]}).status_code == 304


LIBRARY = "library/"


def test_every_file_is_small_and_names_no_other_host(client: FlaskClient) -> None:
    total = 0
    for path in ("/docs", *(f"/docs/{name}" for name in ASSETS if not name.startswith(LIBRARY))):
        answer = client.get(path)
        assert answer.status_code == 200, path
        total += len(answer.data)
        elsewhere = [u for u in re.findall(r"(?:https?:)?//[a-z][\w.-]+", answer.text) if "www.w3.org" not in u]
        assert not elsewhere, (path, elsewhere)
    assert total < 110_000


def test_what_others_made_is_packed_and_stands_beside_its_licences(client: FlaskClient) -> None:
    scripts = [name for name in ASSETS if name.startswith(LIBRARY) and name.endswith(".js")]
    assert len(scripts) == 2
    for name in scripts:
        packed = client.get(f"/docs/{name}", headers={"Accept-Encoding": "gzip"})
        assert packed.headers["Content-Encoding"] == "gzip"
        assert len(packed.data) < 200_000, name
        licence = client.get(f"/docs/{LIBRARY}LICENSE-{Path(name).stem}.txt")
        assert licence.mimetype == "text/plain"
        assert "Permission is hereby granted, free of charge" in licence.text


def test_what_others_made_is_made_anew_byte_for_byte(needed: Callable[..., None], tmp_path: Path) -> None:
    needed("node", "npm")
    subprocess.run([str(ROOT / ".ci/page/build"), str(tmp_path)], check=True, timeout=240)
    shipped = ROOT / "api/casewright/api/web/docs_assets/library"
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == {
        path.name: path.read_bytes() for path in shipped.iterdir()
    }


def test_links_are_relative_and_nothing_is_inline(page: Links) -> None:
    assert not page.inline
    assert page.links
    for link in page.links:
        assert not link.startswith(("/", "http")), link
        if link.startswith("#"):
            assert link[1:] in page.ids


def test_every_page_is_linked_from_the_front(page: Links) -> None:
    assert [link for link in page.links if link in {f"docs/{name}" for name in PAGES}] == [f"docs/{n}" for n in PAGES]


def test_no_script_imports_itself_by_way_of_another(client: FlaskClient) -> None:
    scripts = {name: client.get(f"/docs/{name}").text for name in ASSETS if name.endswith(".js")}
    imports = {name: set(re.findall(r'from "\./([\w.]+)"', text)) for name, text in scripts.items()}
    assert imports["page.js"]
    tuple(TopologicalSorter(imports).static_order())  # raises CycleError where they run in a circle


def test_links_lead_somewhere_under_a_prefix(registry: Registry, page: Links) -> None:
    mounted = Client(DispatcherMiddleware(NotFound(), {"/workshop/cabinets": create_app(registry)}))
    assert mounted.get("/workshop/cabinets/docs").status_code == 200
    for link in (*(one for one in page.links if not one.startswith("#")), "v1/examples", "v1/methods"):
        assert mounted.get(f"/workshop/cabinets/{link}").status_code == 200, link
    assert mounted.get("/docs").status_code == 404
    assert mounted.get("/workshop/cabinets/openapi.json").get_json()["servers"] == [{"url": "/workshop/cabinets"}]


def test_examples_are_jobs_that_can_be_planned(client: FlaskClient) -> None:
    answer = client.get("/v1/examples")
    examples = answer.get_json()["examples"]
    assert "repair-bay" in [one["name"] for one in examples]
    for one in examples:
        assert one["title"]
        assert client.post("/v1/plan", json=one["job"]).status_code == 200
    assert client.get("/v1/examples", headers={"If-None-Match": answer.headers["ETag"]}).status_code == 304


def looked(folder: Path, address: str, *only: str) -> list[dict[str, Any]]:
    out = os.environ.get("CASEWRIGHT_PICTURES", "")
    command = ["node", "look.mjs", address, out, shutil.which("chromium") or "", *only]
    ran = subprocess.run(command, cwd=folder, capture_output=True, text=True, timeout=500, check=False)
    assert ran.returncode == 0, ran.stderr
    found: list[dict[str, Any]] = json.loads(ran.stdout)
    return found


EXPECTED = {
    "Cabinets": ("28 in × 33 in × 11 in", "Booklet (PDF)"),
    "Cut list": ("tools/side-left", "33 in", "Cut list (CSV)", "Why each part is that size"),
    "Drawings": ("Elevations", "sheet 1 of 2", "Save as DXF"),
    "Steps": ("0 of", "1. Measure every sheet", "Steps (CSV)"),
    "Stock": ("case-sheet", "96 in × 48 in", "Cutting (CSV)"),
    "Hanging": ("tools 1", "tools 2", "spares", "As many people lift", "Over the floor", "7/8 in"),
    "Checks": ("Stop (0)", "Caution (", "Checks (CSV)"),
    "3D view": ("This browser draws no 3D picture", "sheet 1 of"),
}
"""Of each tab, words that the first example must bring: its own sizes, places and stock, and what can be saved.

The browser of these looks has no WebGL: the drawing stands for the model.
"""


def is_good(seen: dict[str, Any]) -> None:
    assert seen["console"] == []
    assert seen["elsewhere"] == []
    assert seen["requests"] > 5
    assert [one for one in seen["faults"] if one["impact"] in SERIOUS] == []
    assert max(seen["overflow_before"], seen["overflow_reference"]) <= 0
    assert seen["stops"][-2:] == ["job", "Plan this job"]
    # The first example's hand-tool cabinets: 33 in high, two to make, with a left and a right side each.
    assert [seen["rows"][0][i] for i in (0, 1, 2)] == ["tools/side-left, tools/side-right", "4", "33 in"]
    assert seen["wrapped"] == next(iter(seen["tabs"]))
    for name, tab in seen["tabs"].items():
        assert tab["focus"] == name
        assert tab["overflow"] <= 0, name
        assert all(drawn and title for drawn, title in tab["pictures"]), name
        for word in EXPECTED[name]:
            assert word in tab["text"], (name, word)
    assert set(seen["tabs"]) == set(EXPECTED)
    assert "Elevation" in seen["tabs"]["Drawings"]["pictures"][0][1]
    assert "/unitz" in seen["problem"]
    assert seen["shape"].startswith("#shape-")
    generated = {"docs/reference", "docs/methods"}
    assert [name for name in seen["pages"] if name not in generated] == [f"docs/{name}" for name in PAGES]
    assert generated <= set(seen["pages"])
    assert all(one["title"] and one["overflow"] <= 0 for one in seen["pages"].values()), seen["pages"]


def test_a_reader_can_use_the_page(browser_folder: Path, full: bool) -> None:
    looks = ["360-light", "360-dark", "1280-light", "1280-dark"] if full else ["360-light", "1280-dark"]
    with demo.service() as base:
        screens = looked(browser_folder, f"{base}/docs", *looks)
    assert [f"{one['width']}-{one['colorScheme']}" for one in screens] == looks
    for seen in screens:
        is_good(seen)
        assert seen["stops"][-4:-2] == ["openapi.json", "example"]
    assert len({one["background"] for one in screens}) == 2


@contextmanager
def mounted(registry: Registry) -> Iterator[str]:
    guard = Guard(read_settings({"CASEWRIGHT_API_KEY": KEY}))
    app = DispatcherMiddleware(NotFound(), {"/workshop/cabinets": create_app(registry, guard=guard)})
    server = make_server("127.0.0.1", 0, app, threaded=True)
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}/workshop/cabinets"
    finally:
        server.shutdown()
        thread.join()
        server.server_close()


def test_a_reader_can_use_the_page_under_a_prefix_with_a_key(
    browser_folder: Path, registry: Registry, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("CASEWRIGHT_KEY", KEY)
    with mounted(registry) as base:
        (seen,) = looked(browser_folder, f"{base}/docs", "360-light-brief")
    is_good(seen)
