"""Silent, slow and half-closed connections against a service: `python tests/bench/slow_connections.py [--seconds 20]`.

Two hundred connections of seven kinds are kept up throughout, each opened anew when the service closes it; half of
them ask for a path that is not there. With `--key` the service asks for a key, which none of them has. Meanwhile
health is asked for 20 times a second and a small plan, another job each time, 10 times a second, each request on a
connection of its own. Printed: p50 and p99 of both while nothing else is there and throughout, what failed, and
memory, threads and descriptors of all processes as it goes. Fails where a limit below is broken.
"""

import argparse
import asyncio
import sys
import time
from collections.abc import Callable, Coroutine
from dataclasses import dataclass, field
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from live_service import Size, part, post, running, small_body

PATHS = (b"/v1/plan", b"/v1/nowhere")
HEALTH_SECONDS = 0.1
"""p99 of health, at the most."""

SLOWER = 2.0
"""How many times the time of a small plan with nothing else there it may take: p50 by p50, p99 by p99."""

KEY = "a-key-of-the-repair-bay-0123456789"
Reader, Writer = asyncio.StreamReader, asyncio.StreamWriter


def head(path: bytes) -> bytes:
    """Return the head of a request that is never sent whole, but for the empty line."""
    return b"POST %s HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: 4000\r\n" % path


async def _drip(writer: Writer, text: bytes) -> None:
    for at in range(len(text)):
        writer.write(text[at : at + 1])
        await writer.drain()
        await asyncio.sleep(0.5)


async def silent(reader: Reader, writer: Writer, path: bytes) -> None:
    await reader.read(1)


async def begun(reader: Reader, writer: Writer, path: bytes) -> None:
    writer.write(b"GET /healt")
    await reader.read(1)


async def slow_head(reader: Reader, writer: Writer, path: bytes) -> None:
    await _drip(writer, head(path))


async def no_body(reader: Reader, writer: Writer, path: bytes) -> None:
    writer.write(head(path) + b"\r\n")
    await reader.read(1)


async def slow_body(reader: Reader, writer: Writer, path: bytes) -> None:
    writer.write(head(path) + b"\r\n")
    await _drip(writer, b" " * 4000)


async def half_closed(reader: Reader, writer: Writer, path: bytes) -> None:
    writer.write(head(path))
    writer.write_eof()
    await reader.read()
    await asyncio.sleep(1)


async def never_reads(reader: Reader, writer: Writer, path: bytes) -> None:
    writer.transport.pause_reading()  # type: ignore[attr-defined]
    writer.write(b"GET %s HTTP/1.1\r\nHost: localhost\r\n\r\n" % (b"/openapi.json" if path == PATHS[0] else path))
    await asyncio.sleep(15)


Kind = Callable[[Reader, Writer, bytes], Coroutine[None, None, None]]

KINDS: tuple[Kind, ...] = (
    silent, begun, slow_head, no_body, slow_body, half_closed, never_reads,
)  # fmt: skip


async def keep_up(port: int, kind: Kind, path: bytes) -> None:
    """Keep one connection of a kind up."""
    while True:
        try:
            reader, writer = await asyncio.open_connection("127.0.0.1", port)
        except OSError:
            await asyncio.sleep(0.5)
            continue
        try:
            await kind(reader, writer, path)
        except OSError:
            await asyncio.sleep(0.1)
        finally:
            writer.transport.abort()


@dataclass
class Tally:
    """What requests of one kind came to: their seconds, and how many were not answered 200."""

    seconds: list[float] = field(default_factory=list)
    failed: int = 0

    def text(self) -> str:
        if not self.seconds:
            return f"none answered, {self.failed} failed"
        p50, p99 = part(self.seconds, 0.5), part(self.seconds, 0.99)
        return f"p50 {1000 * p50:.1f} ms, p99 {1000 * p99:.1f} ms, {len(self.seconds)} answered, {self.failed} failed"


async def ask(port: int, sent: bytes, tally: Tally) -> None:
    """Send one request, and time it."""
    since = time.perf_counter()
    try:
        reader, writer = await asyncio.open_connection("127.0.0.1", port)
        writer.write(sent)
        answer = await asyncio.wait_for(reader.read(), 60)
        writer.close()
        assert answer.startswith(b"HTTP/1.1 200 "), answer[:200]
    except (OSError, AssertionError, TimeoutError):
        tally.failed += 1
        return
    tally.seconds.append(time.perf_counter() - since)


def health() -> bytes:
    return b"GET /healthz HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n"


def small_plan(number: int, *more: str) -> bytes:
    return post("/v1/plan", small_body(500 + number * 0.01), "Connection: close", *more)


async def measure(port: int, seconds: float, first: int, *more: str) -> tuple[Tally, Tally]:
    """Ask for health and small plans at a steady rate, the plans with `more` headers."""
    checks, plans = Tally(), Tally()
    tasks = []
    end = time.monotonic() + seconds
    for number in range(int(20 * seconds)):
        tasks.append(asyncio.create_task(ask(port, health(), checks)))
        if number % 2:
            tasks.append(asyncio.create_task(ask(port, small_plan(first + number, *more), plans)))
        await asyncio.sleep(max(0.0, end - seconds + (number + 1) / 20 - time.monotonic()))
    await asyncio.gather(*tasks)
    return checks, plans


async def measured(port: int, connections: int, seconds: float, *more: str) -> dict[str, Tally]:
    """Measure with nothing else there, then among slow connections; small plans are asked for with `more` headers."""
    idle_checks, idle_plans = await measure(port, min(seconds, 10), 0, *more)
    kinds = [(KINDS[i % len(KINDS)], PATHS[i // len(KINDS) % len(PATHS)]) for i in range(connections)]
    slow = [asyncio.create_task(keep_up(port, kind, path)) for kind, path in kinds]
    await asyncio.sleep(1)
    checks, plans = await measure(port, seconds, 10_000, *more)
    for task in slow:
        task.cancel()
    await asyncio.gather(*slow, return_exceptions=True)
    return {"health, idle": idle_checks, "small plan, idle": idle_plans, "health": checks, "small plan": plans}


async def sizes(pid: int) -> None:
    """Print how large the service is, every five seconds."""
    while True:
        print(Size.of(pid), flush=True)
        await asyncio.sleep(5)


async def watched(pid: int, port: int, connections: int, seconds: float, *more: str) -> dict[str, Tally]:
    """Measure, and print how large the service is meanwhile."""
    watching = asyncio.create_task(sizes(pid))
    came = await measured(port, connections, seconds, *more)
    watching.cancel()
    return came


def broken(came: dict[str, Tally]) -> list[str]:
    """Return the limits that are broken."""
    faults = [f"{name}: {tally.failed} failed" for name, tally in came.items() if tally.failed]
    if part(came["health"].seconds, 0.99) >= HEALTH_SECONDS:
        faults.append(f"health takes more than {HEALTH_SECONDS} s")
    idle, beside = came["small plan, idle"].seconds, came["small plan"].seconds
    late = [share for share in (0.5, 0.99) if part(beside, share) >= SLOWER * part(idle, share)]
    return faults + [f"small plans take more than {SLOWER} times as long, at p{100 * share:g}" for share in late]


def main() -> int:
    """Measure, print, and return 1 where a limit is broken."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n", 1)[0])
    parser.add_argument("--seconds", type=float, default=20)
    parser.add_argument("--connections", type=int, default=200)
    parser.add_argument("--key", action="store_true", help="the service asks for a key")
    chosen = parser.parse_args()
    env = {"CASEWRIGHT_API_KEY": KEY} if chosen.key else {}
    more = [f"Authorization: Bearer {KEY}"] if chosen.key else []
    with running(**env) as (port, process):
        came = asyncio.run(watched(process.pid, port, chosen.connections, chosen.seconds, *more))
    for name, tally in came.items():
        print(f"{name:<20} {tally.text()}")
    faults = broken(came)
    print(*faults, sep="\n")
    return int(bool(faults))


if __name__ == "__main__":
    sys.exit(main())
