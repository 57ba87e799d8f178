"""Small plans beside heavy work and clients that leave: `python tests/bench/mixed_load.py [--minutes 15]`.

Ten small plans a second, each another job on a connection of its own. Beside them throughout: one client after another
asks for a heavy cutting plan, one for booklets, and one asks for lines of progress and leaves after the first. Printed
ten times on the way: p50 and p99 of the small plans, memory, threads and descriptors of all processes; then what was
answered. Fails where an answer was 5xx or none, but for those under way in a process that was killed, and, where none
is killed, where one of those figures grows.
"""

import argparse
import asyncio
import os
import signal
import sys
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from statistics import fmean

sys.path.insert(0, str(Path(__file__).parent))

from live_service import Size, heavy_body, part, post, running, small_body
from slow_connections import small_plan

WORKERS = 3
MOST_LOST = WORKERS + 20
"""Requests that one kill may cost: those that the gateway has, with the small plans of a second or two that wait."""

FLAT = 1.25
"""What the second half of the time may have of each figure, against the first."""

FLOOR = 0.1
"""Seconds under which a difference of p99 is one of the machine."""


@dataclass
class Load:
    """What came of a load: statuses by kind of request, and the seconds of small plans."""

    port: int
    answered: Counter[tuple[str, int]] = field(default_factory=Counter)
    seconds: list[float] = field(default_factory=list)
    killed: int = 0

    async def ask(self, kind: str, sent: bytes) -> None:
        """Send a request and count its status; 0 is none."""
        since = time.perf_counter()
        try:
            reader, writer = await asyncio.open_connection("127.0.0.1", self.port)
            writer.write(sent)
            answer = await asyncio.wait_for(reader.read(), 90)
            writer.close()
            status = int(answer.split(b" ", 2)[1]) if answer else 0
        except (OSError, TimeoutError):
            status = 0
        self.answered[kind, status] += 1
        if kind == "small plan":
            self.seconds.append(time.perf_counter() - since)

    async def small(self, end: float) -> None:
        """Ask for ten small plans a second."""
        start, tasks = time.monotonic(), set[asyncio.Task[None]]()
        while time.monotonic() < end:
            task = asyncio.create_task(self.ask("small plan", small_plan(len(self.seconds) % 20_000)))
            tasks.add(task)
            task.add_done_callback(tasks.discard)
            await asyncio.sleep(max(0.0, start + (len(self.seconds) + len(tasks)) / 10 - time.monotonic()))
        await asyncio.gather(*tasks)

    async def heavy(self, end: float) -> None:
        """Ask for one heavy plan after another."""
        number = 0
        while time.monotonic() < end:
            number += 1
            await self.ask("stock", post("/v1/stock", heavy_body(number), "Connection: close"))

    async def booklets(self, end: float) -> None:
        """Ask for one booklet after another."""
        number = 0
        while time.monotonic() < end:
            number += 1
            await self.ask("booklet", post("/v1/booklet", small_body(600 + number * 0.01), "Connection: close"))

    async def leaving(self, end: float) -> None:
        """Ask for lines of progress, and leave after the first."""
        number = 100_000
        while time.monotonic() < end:
            number += 1
            try:
                reader, writer = await asyncio.open_connection("127.0.0.1", self.port)
                writer.write(post("/v1/stock", heavy_body(number), "Accept: application/x-ndjson"))
                await asyncio.wait_for(reader.read(100), 60)
                writer.transport.abort()
            except (OSError, TimeoutError):
                pass
            await asyncio.sleep(2)

    async def kills(self, end: float, pid: int) -> None:
        """Kill one process of the service after another, the gateway too, every ten seconds."""
        while time.monotonic() < end:
            await asyncio.sleep(10)
            children = Path(f"/proc/{pid}/task/{pid}/children").read_text().split()
            os.kill(int(children[self.killed % len(children)]), signal.SIGKILL)
            self.killed += 1

    async def run(self, seconds: float, pid: int, *, kill: bool) -> list["Span"]:
        """Run all of it; print and return what each tenth of the time came to."""
        end = time.monotonic() + seconds
        loads = [asyncio.create_task(one(end)) for one in (self.small, self.heavy, self.booklets, self.leaving)]
        if kill:
            loads.append(asyncio.create_task(self.kills(end, pid)))
        spans: list[Span] = []
        for _ in range(10):
            before = len(self.seconds)
            await asyncio.sleep(seconds / 10)
            spans.append(Span(self.seconds[before:], Size.of(pid)))
            print(spans[-1].text(), flush=True)
        await asyncio.gather(*loads)
        return spans


@dataclass(frozen=True)
class Span:
    """What a tenth of the time came to: the seconds of small plans answered in it, and the service at its end."""

    seconds: list[float]
    size: Size

    def text(self) -> str:
        p50, p99 = (f"{1000 * part(self.seconds, share):.1f}" if self.seconds else "-" for share in (0.5, 0.99))
        return f"p50 {p50} ms, p99 {p99} ms, {self.size}"


def grown(spans: list[Span]) -> list[str]:
    """Return what is not flat: the mean of the second half of the time against that of the first."""
    early, late = spans[: len(spans) // 2], spans[len(spans) // 2 :]
    figures: dict[str, Callable[[Span], float]] = {
        "p99 of small plans": lambda span: part(span.seconds, 0.99) + FLOOR if span.seconds else FLOOR,
        "memory": lambda span: span.size.mib,
        "threads": lambda span: span.size.threads,
        "descriptors": lambda span: span.size.descriptors,
    }
    means = {name: (fmean(map(of, early)), fmean(map(of, late))) for name, of in figures.items()}
    return [
        f"{name} grew from {first:.3g} to {then:.3g}" for name, (first, then) in means.items() if then > FLAT * first
    ]


def main() -> int:
    """Run, print, and return 1 where a limit is broken."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n", 1)[0])
    parser.add_argument("--minutes", type=float, default=1.0)
    parser.add_argument("--kill", action="store_true", help="kill one process after another, every ten seconds")
    chosen = parser.parse_args()
    with running("--workers", str(WORKERS)) as (port, process):
        load = Load(port)
        spans = asyncio.run(load.run(60 * chosen.minutes, process.pid, kill=chosen.kill))
    for (kind, status), count in sorted(load.answered.items()):
        print(f"{kind:<12} {status} {count:>7}")
    print(f"small plans: p50 {1000 * part(load.seconds, 0.5):.1f} ms, p99 {1000 * part(load.seconds, 0.99):.1f} ms")
    failed = sum(count for (_, status), count in load.answered.items() if status == 0 or status >= 500)
    print(f"{failed} failed, {load.killed} processes killed")
    faults = [] if chosen.kill else grown(spans)
    print(*faults, sep="\n")
    return int(bool(faults) or failed > load.killed * MOST_LOST)


if __name__ == "__main__":
    sys.exit(main())
