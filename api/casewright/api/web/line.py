"""Requests wait here for a worker: in the order of their arrival, no more than some, no longer than some seconds.

Heavy requests may take all workers but one, so that small ones need not wait for them. Within that, whoever came first
goes first, and neither class can fill the line against the other.
"""

import asyncio
import time
from collections import deque
from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import count

from casewright.api.web.classes import WorkClass

MOST_WAITING = 100
"""Requests of one class that may wait."""

MOST_SECONDS = 20.0


class BusyError(Exception):
    """Raised where a request cannot wait: too many do, or it has waited for too long."""


@dataclass(slots=True)
class Figures:
    """What a class of work comes to: waiting and running now; admitted, refused and seconds waited since the start."""

    waiting: int = 0
    running: int = 0
    admitted: int = 0
    refused: int = 0
    waited_seconds: float = 0.0


@dataclass(slots=True)
class _Class:
    workers: int
    figures: Figures = field(default_factory=Figures)
    line: "deque[tuple[int, asyncio.Future[None]]]" = field(default_factory=deque)


class Line:
    """The line before some workers; `changed` takes a class and its figures whenever they change."""

    def __init__(
        self,
        workers: int,
        changed: Callable[[WorkClass, Figures], None] = lambda kind, figures: None,
        most: int = MOST_WAITING,
        seconds: float = MOST_SECONDS,
    ) -> None:
        self.workers, self.most, self.seconds, self._changed = workers, most, seconds, changed
        self._numbers = count()
        self._classes = {
            WorkClass.SMALL: _Class(workers),
            WorkClass.HEAVY: _Class(max(1, workers - 1)),
        }
        for kind in self._classes:
            self._count(kind)

    def figures(self, kind: WorkClass) -> Figures:
        """Return what a class comes to."""
        known = self._classes[kind]
        known.figures.waiting = len(known.line)
        return known.figures

    async def enter(self, kind: WorkClass) -> None:
        """Return when a worker is free for this request; call `leave` when it is again. Raises `BusyError`."""
        known, since = self._classes[kind], time.monotonic()
        turn = asyncio.get_running_loop().create_future()
        place = (next(self._numbers), turn)
        known.line.append(place)
        self._admit()
        self._count(kind)
        try:
            if len(known.line) > self.most:
                raise TimeoutError
            async with asyncio.timeout(self.seconds):
                await turn
        except TimeoutError:
            if turn.done() and not turn.cancelled():  # its turn came as its time ran out
                self.leave(kind)
            known.figures.refused += 1
            raise BusyError from None
        else:
            known.figures.admitted += 1
        finally:
            if place in known.line:
                known.line.remove(place)
            known.figures.waited_seconds += time.monotonic() - since
            self._count(kind)

    def leave(self, kind: WorkClass) -> None:
        """Free the worker of a request that was let in."""
        self._classes[kind].figures.running -= 1
        self._admit()
        self._count(kind)

    def _admit(self) -> None:
        """Give each free worker to the request that came first of those whose class may have one more."""
        while sum(known.figures.running for known in self._classes.values()) < self.workers:
            open_ = [known for known in self._classes.values() if known.line and known.figures.running < known.workers]
            if not open_:
                return
            first = min(open_, key=lambda known: known.line[0][0])
            _, turn = first.line.popleft()
            if not turn.cancelled():
                first.figures.running += 1
                turn.set_result(None)

    def _count(self, kind: WorkClass) -> None:
        self._changed(kind, self.figures(kind))
