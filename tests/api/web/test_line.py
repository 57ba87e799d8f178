"""Requests that wait for a worker: their order, their bounds, their figures. Expected: by hand from the rules."""

import asyncio
from collections.abc import Coroutine
from dataclasses import astuple
from typing import Any

import pytest
from casewright.api.web.classes import WorkClass
from casewright.api.web.line import BusyError, Line

SMALL, HEAVY = WorkClass.SMALL, WorkClass.HEAVY


def run(work: Coroutine[Any, Any, None]) -> None:
    asyncio.run(asyncio.wait_for(work, 10))


async def entered(line: Line, *kinds: WorkClass) -> list["asyncio.Task[None]"]:
    tasks = []
    for kind in kinds:
        tasks.append(asyncio.create_task(line.enter(kind)))
        await asyncio.sleep(0)
    await asyncio.sleep(0.01)
    return tasks


def test_heavy_work_leaves_a_worker_to_small_work() -> None:
    async def work() -> None:
        line = Line(3)
        tasks = await entered(line, HEAVY, HEAVY, HEAVY, SMALL, SMALL)
        assert [task.done() for task in tasks] == [True, True, False, True, False]
        assert (line.figures(HEAVY).waiting, line.figures(SMALL).waiting) == (1, 1)
        line.leave(SMALL)
        await asyncio.sleep(0.01)
        assert [task.done() for task in tasks] == [True, True, False, True, True]
        line.leave(HEAVY)
        await asyncio.sleep(0.01)
        assert tasks[2].done()

    run(work())


def test_whoever_came_first_goes_first() -> None:
    async def work() -> None:
        line = Line(2)
        tasks = await entered(line, SMALL, SMALL, SMALL, HEAVY, SMALL)
        for turn in range(3):
            line.leave(SMALL)
            await asyncio.sleep(0.01)
            assert [task.done() for task in tasks] == [True] * (3 + turn) + [False] * (2 - turn)

    run(work())


def test_one_worker_does_both() -> None:
    async def work() -> None:
        line = Line(1)
        tasks = await entered(line, HEAVY, SMALL)
        assert [task.done() for task in tasks] == [True, False]
        line.leave(HEAVY)
        await tasks[1]

    run(work())


def test_no_more_than_some_wait_and_no_longer_than_some_time() -> None:
    shown: dict[WorkClass, tuple[float, ...]] = {}

    async def work() -> None:
        line = Line(2, lambda kind, figures: shown.update({kind: astuple(figures)}), most=2, seconds=0.2)
        tasks = await entered(line, HEAVY, HEAVY, HEAVY, HEAVY)
        with pytest.raises(BusyError):
            await tasks[3]
        assert not tasks[1].done()
        for task in tasks[1:3]:
            with pytest.raises(BusyError):
                await task
        (small,) = await entered(line, SMALL)
        assert small.done()
        line.leave(HEAVY)

    run(work())
    # waiting, running, admitted, refused
    assert shown[HEAVY][:4] == (0, 0, 1, 3)
    assert shown[SMALL][:4] == (0, 1, 1, 0)
    assert 0.4 <= shown[HEAVY][4] < 2
