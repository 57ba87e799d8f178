"""The Python client, the curl script and the fetch module, each run against the real service.

The client is also held against the OpenAPI document, both ways.
"""

import json
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from socketserver import BaseRequestHandler, TCPServer
from threading import Thread
from types import ModuleType
from typing import Any, get_type_hints

import casewright.openapi
import pytest
from casewright.api import plan
from casewright.api.use.examples import example_job
from modules import module_at

OPENAPI = Path(next(iter(casewright.openapi.__path__))).resolve()
CLIENTS = OPENAPI / "clients"
EXAMPLE = OPENAPI / "examples" / "repair-bay.json"
STUCK = '{"units": "mm", "unitz": 1}'


@pytest.fixture(scope="module")
def module() -> ModuleType:
    return module_at(CLIENTS / "python" / "casewright_client.py")


@pytest.fixture(scope="module")
def client(module: ModuleType, base: str) -> Any:
    return module.Client(base)


@pytest.fixture(scope="module")
def description() -> dict[str, Any]:
    document: dict[str, Any] = json.loads((OPENAPI / "openapi.json").read_text("utf-8"))
    return document


def test_the_client_asks_for_every_path_and_no_other(module: ModuleType, description: dict[str, Any]) -> None:
    def plain(path: str) -> str:
        return re.sub(r"^/v1/drawings/[a-z]+$", "/v1/drawings/{view}", path)

    published = {f"{verb.upper()} {plain(path)}" for path, verbs in description["paths"].items() for verb in verbs}
    assert set(module.PATHS.values()) == published
    for name in module.PATHS:
        assert callable(getattr(module.Client, name))


@pytest.mark.parametrize(
    ("typed", "component"),
    [
        ("Part", "PlanPart"), ("Hardware", "PlanHardware"), ("Check", "PlanCheck"), ("Step", "PlanStep"),
        ("Term", "PlanTerm"), ("Why", "Why"), ("BenchText", "BenchText"), ("Plan", "PlanView"),
        ("Cure", "Cure"), ("StopCures", "StopCures"), ("Cures", "CuresView"),
    ],
)  # fmt: skip
def test_the_clients_types_are_the_published_ones(
    module: ModuleType, description: dict[str, Any], typed: str, component: str
) -> None:
    schema = description["components"]["schemas"][component]
    words = {int: "integer", float: "number", str: "string"}
    for name, kind in get_type_hints(getattr(module, typed)).items():
        assert name in schema["required"], (typed, name)
        if kind in words:
            one = schema["properties"][name]
            one = description["components"]["schemas"].get(one.get("$ref", "").rpartition("/")[2], one)
            assert one["type"] == words[kind], (typed, name)


def test_every_method_of_the_client(client: Any, description: dict[str, Any]) -> None:
    job = example_job()
    whole = json.loads(json.dumps(plan(job)))
    assert client.plan(job) == whole
    for name in ("parts", "hardware", "checks", "steps", "stock", "costs"):
        assert getattr(client, name)(job) == whole[name]
    assert client.mounting(job)["mounting"] == whole["mounting"]
    for view in ("parts", "hardware", "checks", "stock", "mounting", "costs"):
        assert client.table(view, job).count("\r\n") > 1
    assert client.drawing(job, subject="tools").startswith(b"<svg")
    assert client.drawing(job, "wall", "pdf", paper="A4").startswith(b"%PDF")
    assert client.labels(job).startswith(b"%PDF")
    assert client.workbook(job).startswith(b"PK")
    assert client.model(job, exploded=True).startswith(b"glTF")
    change = {"name": "thinner frames", "patch": {"house": {"face_frame": {"stile": "1 1/2"}}}}
    assert client.compare(job, [change])
    assert client.cures(job)["stops"] == 0
    assert client.description() == description
    assert "repair-bay" in [one["name"] for one in client.examples()]
    for name in ("methods", "materials", "sources", "limits", "plugins", "alive", "ready", "version"):
        assert getattr(client, name)()
    assert client.problem("no-geometry")["status"] == 422


def test_progress_through_the_client(client: Any) -> None:
    heard: list[tuple[str, int, int]] = []
    job = example_job()
    assert client.stock(job, lambda *step: heard.append(step)) == client.stock(job)
    assert {stage for stage, _, _ in heard} == {"cabinets", "cutting", "settings"}
    assert client.booklet(job, progress=lambda *step: heard.append(step)) == client.booklet(job)
    assert heard[-1][0] == "writing"


def test_one_number_and_csv_through_the_client(client: Any) -> None:
    # Butted between two sides of 18 mm, the top of a cabinet 600 mm wide is 600 - 2 × 18 = 564 mm long.
    paths = {"width": 600, "height": 720, "depth": 300, "case.corner.method": "screwed-butt"}
    assert client.value("length", paths, part="top", thickness=18) == 564
    material = "job.materials.m.kind,job.materials.m.stuff,job.materials.m.thickness"
    heading = f"id,width,height,depth,case.material,job.units,{material}\r\n"
    parts = client.parts(heading + "a,600,720,300,m,mm,sheet,mdf,18\r\n")
    assert {part["id"]: part["length"] for part in parts}["a/side-left"] == 720


def test_problems_through_the_client(module: ModuleType, client: Any) -> None:
    with pytest.raises(module.JobProblemError, match="/unitz") as caught:
        client.plan(json.loads(STUCK))
    assert (caught.value.status, caught.value.kind) == (400, "/problems/bad-document")
    job = example_job()
    job["cabinets"][0]["width"] = 3  # two stiles of 1 3/4 in leave no opening in a frame 3 in wide
    for progress in (None, lambda *_: None):
        with pytest.raises(module.JobProblemError, match="stile") as caught:
            client.stock(job, progress)
        assert caught.value.status == 422
    with pytest.raises(OSError, match="refused"):
        module.Client("http://127.0.0.1:9", tries=1).version()


def test_a_busy_service_is_asked_again(module: ModuleType, monkeypatch: pytest.MonkeyPatch) -> None:
    """RFC 9110, 10.2.3: Retry-After is a number of seconds or a date; a connection that is reset is tried again too."""
    waits: list[float] = []
    monkeypatch.setattr(module, "sleep", waits.append)
    replies = iter([b"", b"503 Busy\r\nRetry-After: 7", b"503 Busy\r\nRetry-After: Thu, 01 Jan 2026 00:00:00 GMT"])

    class Busy(BaseRequestHandler):
        def handle(self) -> None:
            self.request.recv(65536)
            reply = next(replies, b"200 OK")
            self.request.sendall(b"HTTP/1.1 " + reply + b"\r\nContent-Length: 2\r\n\r\n{}" if reply else b"")

    with TCPServer(("127.0.0.1", 0), Busy) as server:
        Thread(target=server.serve_forever, args=(0.01,), daemon=True).start()
        address = f"http://127.0.0.1:{server.server_address[1]}"
        assert module.Client(address).version() == {}
        replies = iter([b"503 Busy", b"503 Busy", b"503 Busy"])
        with pytest.raises(module.JobProblemError) as caught:
            module.Client(address, tries=2).version()
        server.shutdown()
    assert caught.value.status == 503
    assert waits == [1, 7, 1, 1]


def test_the_client_passes_the_type_checker() -> None:
    pytest.importorskip("mypy")
    command = [
        sys.executable,
        "-m",
        "mypy",
        "--strict",
        "--cache-dir=/dev/null",
        "--config-file=",
        "casewright_client.py",
    ]
    ran = subprocess.run(command, cwd=CLIENTS / "python", capture_output=True, text=True, timeout=120, check=False)
    assert ran.returncode == 0, ran.stdout


def test_the_curl_script(base: str, needed: Callable[..., None], tmp_path: Path) -> None:
    needed("curl", "sh")
    script = [str(CLIENTS / "curl.sh")]
    ran = subprocess.run([*script, EXAMPLE, base, tmp_path], capture_output=True, text=True, timeout=60, check=False)
    assert ran.returncode == 0, ran.stderr
    number = re.search(r"is ([0-9.]+) mm long", ran.stdout)
    assert number is not None
    assert 600 - 2 * 18 <= float(number[1]) <= 600  # between the sides, or let into them
    assert (tmp_path / "booklet.pdf").read_bytes().startswith(b"%PDF")
    assert (tmp_path / "elevation.svg").read_text("utf-8").startswith("<svg")
    assert (tmp_path / "parts.csv").read_text("utf-8").startswith("cabinet,id,")
    bad = tmp_path / "bad.json"
    bad.write_text(STUCK)
    ran = subprocess.run([*script, bad, base, tmp_path], capture_output=True, text=True, timeout=60, check=False)
    assert ran.returncode == 1
    assert "/unitz" in ran.stderr


def test_the_fetch_module(base: str, needed: Callable[..., None], tmp_path: Path) -> None:
    needed("node")
    script = ["node", str(CLIENTS / "fetch.js")]
    ran = subprocess.run([*script, EXAMPLE, base], capture_output=True, text=True, timeout=60, check=False)
    assert ran.returncode == 0, ran.stderr
    assert "2 × tools/side-left: 33 in × 10 1/4 in" in ran.stdout
    bad = tmp_path / "bad.json"
    bad.write_text(STUCK)
    ran = subprocess.run([*script, bad, base], capture_output=True, text=True, timeout=60, check=False)
    assert ran.returncode == 1
    assert "/unitz" in ran.stderr
