"""What a plan costs by stage, in processor time: `python tests/bench/stage_table.py [--against COMMIT]`.

Read, plan and write of the demo job without and with stock, of 60 and 400 cabinets; every view of the three examples;
the start of the command line. With `--against` an earlier commit is installed in a folder of its own and does the same
stages turn by turn, so that what else the machine does falls on both; what is printed of the two is the median of the
ratios of paired runs. Otherwise figures are the least of some runs.
"""

import argparse
import json
import os
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from casewright.api.use.examples import examples
from casewright.api.web import create_app
from casewright.api.web.papers import PAPER_KINDS
from casewright.api.web.views import VIEWS

ROOT = Path(__file__).resolve().parents[2]
STAGES = ("read", "plan", "write")
JOBS: dict[str, tuple[dict[str, Any], int]] = {
    "demo, no stock": ({}, 60),
    "demo, stock": ({"stock": True}, 20),
    "demo, stock, effort 1": ({"stock": True, "effort": 1}, 20),
    "60 cabinets": ({"cabinets": 60}, 3),
    "400 cabinets": ({"cabinets": 400}, 1),
}
"""What is asked of `stages.py`, and how often."""


@contextmanager
def stages(python: Path) -> Iterator["subprocess.Popen[str]"]:
    """Run `stages.py` under an interpreter until the block ends."""
    command = [str(python), str(ROOT / "tests" / "bench" / "stages.py")]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as process:
        yield process


def run(process: "subprocess.Popen[str]", question: dict[str, Any]) -> list[float]:
    """Return the milliseconds of one run: read, plan, write and all three."""
    assert process.stdin is not None
    assert process.stdout is not None
    process.stdin.write(json.dumps(question) + "\n")
    process.stdin.flush()
    times: list[float] = json.loads(process.stdout.readline())
    return [*times, sum(times)]


def installed_at(commit: str, folder: Path) -> Path:
    """Install a commit in a folder and return its interpreter."""
    source = folder / "source"
    source.mkdir()
    archive = subprocess.run(["git", "archive", commit], cwd=ROOT, capture_output=True, check=True).stdout
    subprocess.run(["tar", "-x", "-C", source], input=archive, check=True)
    subprocess.run([sys.executable, "-m", "venv", folder / "venv"], check=True)
    python = folder / "venv" / "bin" / "python"
    subprocess.run([python, "-m", "pip", "install", "--quiet", source], check=True)
    return python


def stage_rows(earlier: Path | None) -> Iterator[str]:
    """Yield the table by stage, beside an earlier version where there is one."""
    pythons = [Path(sys.executable), *([earlier] if earlier else [])]
    for name, (question, times) in JOBS.items():
        with stages(pythons[0]) as new, stages(pythons[-1]) as old:
            every = [new, old] if earlier else [new]
            for process in every:
                run(process, question)
            rounds = [[run(process, question) for process in every] for _ in range(times)]
        for place, stage in enumerate((*STAGES, "all")):
            least = [min(one[which][place] for one in rounds) for which in range(len(every))]
            line = f"{name:<24} {stage:<6} {least[0]:>10.2f} ms"
            if earlier:
                ratio = statistics.median(one[0][place] / one[1][place] for one in rounds)
                line += f" {least[1]:>10.2f} ms before, ratio {ratio:.2f}"
            yield line


def view_rows() -> Iterator[str]:
    """Yield how long each view and paper of each example takes over the app, each time another job."""
    client = create_app().test_client()
    papers = [(kind.path, form) for kind in PAPER_KINDS for form in kind.formats[:1]]
    for path, form in [*((view.name, view.formats[0]) for view in VIEWS), *papers]:
        times = []
        for example in examples():
            took = []
            for turn in range(3):
                job = {**example.job(), "title": f"{path} {turn}"}
                start = time.process_time()
                answer = client.post(f"/v1/{path}?as={form}", json=job)
                took.append(time.process_time() - start)
                assert answer.status_code == 200, answer.get_data(as_text=True)[:300]
            times.append(f"{example.name} {1000 * min(took):>7.1f} ms")
        yield f"/v1/{path:<22} {', '.join(times)}"


def start_rows() -> Iterator[str]:
    """Yield how long the command line takes to start, and to plan the demo job."""
    job = str(ROOT / "openapi" / "examples" / "repair-bay.json")
    with tempfile.TemporaryDirectory() as folder:
        for words in (["--version"], ["--help"], ["plan", job, "--out", folder]):
            took = []
            for _ in range(5):
                before = resource.getrusage(resource.RUSAGE_CHILDREN)
                command = [sys.executable, "-m", "casewright.api.command.cli", *words]
                subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False)
                after = resource.getrusage(resource.RUSAGE_CHILDREN)
                took.append(after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)
            yield f"casewright {words[0]:<14} {1000 * min(took):>7.0f} ms"


PARTS = {"views": view_rows, "start": start_rows}


def main(arguments: Sequence[str] | None = None) -> int:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n", 1)[0])
    parser.add_argument("--against", help="a commit that the same is measured of, turn by turn")
    parser.add_argument("--only", choices=["stages", *PARTS], help="one part of it")
    chosen = parser.parse_args(arguments)
    if chosen.only in (None, "stages"):
        with tempfile.TemporaryDirectory() as folder:
            earlier = installed_at(chosen.against, Path(folder)) if chosen.against else None
            for line in stage_rows(earlier):
                print(line, flush=True)
    for name, rows in PARTS.items():
        if chosen.only in (None, name):
            for line in rows():
                print(line, flush=True)
    print(f"Python {sys.version.split()[0]}, load {os.getloadavg()[0]:.1f}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
