"""What casewright weighs and costs whoever takes it in: `python tests/bench/footprint.py [--install FOLDER]`.

The served OpenAPI document by what weighs in it; processor time of the import and of the first plan; 400 cabinets
planned inside a program and by the service; requests a second with and without keep-alive. `--install FOLDER` also
makes an environment there, installs casewright into it without extras, and weighs it.
"""

import argparse
import gzip
import json
import os
import subprocess
import sys
import time
from collections import Counter
from collections.abc import Callable, Iterator
from http.client import HTTPConnection
from pathlib import Path
from typing import Any

from casewright.api import plan
from casewright.api.use.examples import example_job
from casewright.api.web import create_app
from live_service import running, small_body
from test_many_cabinets import least, many

ROOT = Path(__file__).resolve().parents[2]
CABINETS = 400
SECONDS = 4.0
SLIP = 1.25
"""What the same work may cost more inside a program, at most: other work on the machine moves processor time too."""
STARTS = {
    "import of casewright.api": "import casewright.api",
    "import and first plan": "from casewright.api import plan; import json, sys; plan(json.load(sys.stdin))",
}
ALONE = """
import importlib.metadata, json, sys
from casewright.api import plan
print(len(plan(json.load(sys.stdin))["parts"]), *sorted(d.name for d in importlib.metadata.distributions()))
"""


def weights(document: dict[str, Any]) -> Counter[str]:
    """Return the bytes of the served document by what they are."""
    sizes: Counter[str] = Counter()
    for path in document["paths"].values():
        for operation in path.values():
            for name, value in _answers(operation):
                sizes[f"operations: {name}"] += _bytes(value)
    sizes["operations: all else"] = _bytes(document["paths"]) - sum(sizes.values())
    for name, schema in document["components"]["schemas"].items():
        sizes["schemas: names"] += _bytes(name) + 2
        for key, value in _keywords(schema):
            sizes[f"schemas: {key}"] += _bytes(key) + _bytes(value) + 2
    schemas = sum(count for key, count in sizes.items() if key.startswith("schemas"))
    sizes["schemas: braces and names of properties"] = _bytes(document["components"]["schemas"]) - schemas
    sizes["all else"] = _bytes(document) - sum(sizes.values())
    return sizes


def _answers(operation: dict[str, Any]) -> Iterator[tuple[str, Any]]:
    for status, response in operation["responses"].items():
        examples = [one["example"] for one in response.get("content", {}).values() if "example" in one]
        yield from (("examples of answers", example) for example in examples)
        if "$ref" in response:
            yield "references to shared answers", {status: response}


def _keywords(schema: dict[str, Any]) -> Iterator[tuple[str, Any]]:
    """Yield each keyword of a schema, and of those inside it, that holds no schema itself."""
    for key, value in schema.items():
        if key == "properties":
            for inner in value.values():
                yield from _keywords(inner)
        elif key in ("items", "additionalProperties", "propertyNames") and isinstance(value, dict):
            yield from _keywords(value)
        elif key in ("anyOf", "oneOf"):
            for inner in value:
                yield from _keywords(inner)
        else:
            yield key, value


def _bytes(value: Any) -> int:
    return len(json.dumps(value, separators=(",", ":"), ensure_ascii=False).encode())


def started(program: str) -> float:
    """Return the least processor time of three new processes that run a program, less that of Python alone."""

    def used(text: str) -> float:
        before = os.times()
        job = json.dumps(example_job())
        subprocess.run([sys.executable, "-c", text], input=job, text=True, check=True, capture_output=True)
        after = os.times()
        return after.children_user + after.children_system - before.children_user - before.children_system

    return min(used(program) for _ in range(3)) - min(used("pass") for _ in range(3))


def embedded() -> tuple[float, float]:
    """Return the processor time of many cabinets planned inside this program, and by the service in it."""
    client = create_app().test_client()
    jobs = iter([json.dumps({**many(CABINETS), "title": f"bay {i}"}) for i in range(6)])

    def served() -> None:
        answer = client.post("/v1/plan", data=next(jobs), content_type="application/json")
        assert answer.status_code == 200, answer.data[:300]
        json.loads(answer.data)

    return least(3, lambda: plan(next(jobs))), least(3, served)


def rate(port: int, *, keep: bool) -> float:
    """Return how many small jobs, each another, one client has planned a second."""
    connection = HTTPConnection("127.0.0.1", port, timeout=30)
    began, done = time.perf_counter(), 0
    while time.perf_counter() - began < SECONDS:
        connection.request("POST", "/v1/plan", small_body(400 + done * 0.01 + keep * 0.005), HEADS)
        answer = connection.getresponse()
        assert answer.status == 200, answer.read()[:300]
        answer.read()
        if not keep:
            connection.close()
        done += 1
    return done / (time.perf_counter() - began)


HEADS = {"Content-Type": "application/json"}


def installed_into(folder: Path) -> Iterator[tuple[str, str]]:
    """Install casewright without extras into a new environment; yield what it takes and what it can do."""
    python = folder / "bin" / "python"
    subprocess.run([sys.executable, "-m", "venv", folder], check=True)
    packages = next((folder / "lib").glob("python3*")) / "site-packages"
    before = _megabytes(packages)
    subprocess.run([python, "-m", "pip", "install", "--quiet", ROOT], check=True)
    yield "site-packages, less pip's own", f"{_megabytes(packages) - before:.1f} MB"
    yield "of that casewright", f"{_megabytes(packages / 'casewright'):.1f} MB"
    ran = subprocess.run(
        [python, "-I", "-c", ALONE], input=json.dumps(example_job()), text=True, capture_output=True, check=True
    )
    count, *names = ran.stdout.split()
    yield "plans the example", f"{count} lines of parts, with {', '.join(names)}"


def _megabytes(folder: Path) -> float:
    return sum(path.stat().st_size for path in folder.rglob("*") if path.is_file()) / 1e6


def main() -> int:
    """Print the tables; 1 where many cabinets cost more inside a program than in the service."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition(":")[0])
    parser.add_argument("--install", type=Path, help="folder for an environment of the base install")
    chosen = parser.parse_args()
    say: Callable[[str, str], None] = lambda what, figure: print(f"{what:48} {figure}", flush=True)  # noqa: E731
    body = create_app().test_client().get("/openapi.json").data
    say("OpenAPI document, served", f"{len(body)} bytes; gzip {len(gzip.compress(body))}")
    for what, count in weights(json.loads(body)).most_common():
        say(f"  {what}", f"{count} bytes")
    for what, program in STARTS.items():
        say(what, f"{started(program):.2f} s")
    inside, served = embedded()
    say(f"{CABINETS} cabinets inside a program", f"{inside:.2f} s; by the service {served:.2f} s")
    with running("--workers", "1") as (port, _):
        for keep in (True, False):
            say(f"requests a second, {'with' if keep else 'without'} keep-alive", f"{rate(port, keep=keep):.0f}")
    if chosen.install:
        for what, figure in installed_into(chosen.install.resolve()):
            say(f"base install: {what}", figure)
    return 0 if inside <= SLIP * served else 1


if __name__ == "__main__":
    sys.exit(main())
