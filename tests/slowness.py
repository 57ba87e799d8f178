"""How much slower this machine is than the one that limits in seconds are meant for, by a fixed work in plain Python.

A virtual machine whose host is busy can be four times as slow for an hour, in processor time too, and shows nothing of
it. A limit is for seconds divided by `slowness()`, the greatest seen before, during and after the work, for it changes
from one second to the next; where the machine is as it should be, that is 1.
"""

import gc
import time
from collections import defaultdict
from dataclasses import dataclass, replace

USUAL = 0.018
"""Processor seconds of `_work` on two cores of a server with nothing else to do, the least of five."""


@dataclass(frozen=True, slots=True)
class _Piece:
    name: str
    length: int
    width: int


def _work() -> int:
    """Make records, change, group and sort them, as planning does; return a number, that none of it is left out."""
    pieces = [_Piece(f"piece-{i % 97}", i * 7919 % 10007, i * 104729 % 5003) for i in range(8_000)]
    pieces = [replace(piece, length=piece.length + 1) for piece in pieces]
    rows: defaultdict[tuple[str, int], list[_Piece]] = defaultdict(list)
    for piece in pieces:
        rows[piece.name, piece.width % 31].append(piece)
    ranked = sorted(rows.items(), key=lambda row: (-len(row[1]), row[0]))
    return sum(piece.length * place for place, (_, row) in enumerate(ranked) for piece in row)


def slowness(runs: int = 5) -> float:
    """Return how many times slower this machine is now, by the least of a few runs; never less than 1."""
    collects, best = gc.isenabled(), float("inf")
    gc.disable()  # else it would cost by what else is alive
    for _ in range(runs):
        began = time.process_time()
        _work()
        best = min(best, time.process_time() - began)
    if collects:
        gc.enable()
    return max(1.0, best / USUAL)
