"""`casewright demo`: the real service on loopback, the example job sent to it, the answer shown and kept."""

import json
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from casewright.api.command.bench_text import cut_list_lines, reason_lines, step_lines, stop_lines
from casewright.api.command.outputs import write_folder
from casewright.api.command.overview import show
from casewright.api.use.examples import example_job

SECONDS_TO_START = 30
SECONDS_TO_ANSWER = 60
PAPERS = {
    "elevation.svg": "drawings/elevation?as=svg",
    "section.svg": "drawings/section?as=svg",
    "exploded.svg": "drawings/isometric?as=svg&page=2",
    "wall.svg": "drawings/wall?as=svg",
    "fixing.svg": "drawings/fixing?as=svg",
    "layouts.pdf": "drawings/layout?as=pdf",
    "parts.pdf": "drawings/part?as=pdf",
    "outlines.dxf": "outlines",
    "templates.pdf": "drawings/template?as=pdf",
    "booklet.pdf": "booklet",
    "labels.pdf": "labels",
    "workbook.xlsx": "workbook",
    "model.glb": "model",
}
"""Files of the demo and the paths they come from."""


class DemoError(Exception):
    """The demo could not go on; says why and what to do."""


def run(out: Path, more: tuple[bool, bool, bool]) -> int:
    """Run the demo, writing files into `out`; `more` is whether reasons, checks and steps are printed too.

    Returns the exit code: 0, or 1 for a plan with a stop.
    """
    job = json.dumps(example_job()).encode()
    with service() as base:
        print(f"The service answers at {base}; sending it openapi/examples/repair-bay.json.", flush=True)
        plan: dict[str, Any] = json.loads(post(f"{base}/v1/plan", job))
        files = {
            "job.json": json.dumps(example_job(), indent=2).encode() + b"\n",
            "plan.json": json.dumps(plan, indent=1, ensure_ascii=False).encode() + b"\n",
            "parts.csv": post(f"{base}/v1/parts?as=csv", job),
            "hardware.csv": post(f"{base}/v1/hardware?as=csv", job),
            "cut-list.txt": _text([*stop_lines(plan), *cut_list_lines(plan), "", *reason_lines(plan)]),
            "steps.txt": _text([*stop_lines(plan), *step_lines(plan)]),
            **{name: post(f"{base}/v1/{path}", job) for name, path in PAPERS.items()},
        }
    write_folder(out, files)
    show(plan, (str(out), list(files)), more, {})
    return 1 if any(check["level"] == "stop" for check in plan["checks"]) else 0


def _text(lines: list[str]) -> bytes:
    return ("\n".join(lines) + "\n").encode()


@contextmanager
def service() -> Iterator[str]:
    """Start the service on a free loopback port, yield its address, and stop it by its process id."""
    port = free_port()
    command = [sys.executable, "-m", "casewright.api.command.cli", "serve", "--port", str(port), "--workers", "1"]
    started = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
    base = f"http://127.0.0.1:{port}"
    try:
        wait(base, started)
        yield base
    finally:
        started.terminate()
        try:
            started.communicate(timeout=10)
        except subprocess.TimeoutExpired:
            started.kill()
            started.communicate()


def wait(base: str, started: "subprocess.Popen[bytes]") -> None:
    """Wait until the service says it is ready."""
    end = time.monotonic() + SECONDS_TO_START
    while time.monotonic() < end:
        if started.poll() is not None:
            errors = started.stderr.read().decode("utf-8", "replace") if started.stderr else ""
            raise DemoError(f"The service stopped while starting:\n{errors[-2000:]}")
        try:
            with urllib.request.urlopen(f"{base}/readyz", timeout=2):
                return
        except OSError:
            time.sleep(0.05)
    raise DemoError(f"The service was not ready within {SECONDS_TO_START} s; is the machine very busy? Try again.")


def post(url: str, body: bytes) -> bytes:
    """Send a job and return the answer's body."""
    request = urllib.request.Request(url, data=body, headers={"Content-Type": "application/json"})
    try:
        with urllib.request.urlopen(request, timeout=SECONDS_TO_ANSWER) as answer:
            content: bytes = answer.read()
            return content
    except urllib.error.HTTPError as error:
        with error:
            problem = error.read().decode("utf-8", "replace")
        raise DemoError(f"The service answered {error.code}: {problem}") from None


def free_port() -> int:
    """Return a loopback port that is free now."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port
