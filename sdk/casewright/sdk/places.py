"""Where in a plugin's own source something stands: file and line, for whoever has to mend it.

A file is named without the folders that lead to it: what an answer says names no path of the machine that gave it.
"""

import inspect
import sys
from collections.abc import Iterator
from functools import cache
from importlib.metadata import entry_points, packages_distributions
from pathlib import PurePath
from types import FrameType, ModuleType, TracebackType

from casewright.sdk.hookspecs import GROUP

__all__ = ["defined_at", "frame_at", "outermost", "raised_at"]


def raised_at(error: BaseException) -> str:
    """Return `file:line` where the plugin's code raised, or called what raised; empty where no code of its own ran."""
    if isinstance(error, SyntaxError) and error.filename and error.lineno:
        return f"{PurePath(error.filename).name}:{error.lineno}"
    frames = list(_frames(error.__traceback__))
    theirs = [(frame, line) for frame, line in frames if _is_theirs(frame)]
    return _written(*theirs[-1]) if theirs else ""


def frame_at(frame: FrameType | None) -> str:
    """Return `file:line` of the innermost of a running call's frames that is the plugin's own."""
    while frame is not None and not _is_theirs(frame):
        frame = frame.f_back
    return "" if frame is None else _written(frame, frame.f_lineno)


def outermost(frame: FrameType | None) -> FrameType | None:
    """Return the outermost of a running call's frames that is the plugin's own: its call that is running."""
    last = None
    while frame is not None:
        last = frame if _is_theirs(frame) else last
        frame = frame.f_back
    return last


def defined_at(thing: object) -> str:
    """Return `file:line` of a function, method or class, or of a thing's class; empty where it has no source."""
    if isinstance(thing, ModuleType):
        return PurePath(thing.__file__).name if thing.__file__ else ""
    code = getattr(inspect.unwrap(thing) if callable(thing) else thing, "__code__", None)
    if code is not None:
        return f"{PurePath(code.co_filename).name}:{code.co_firstlineno}"
    kind = thing if isinstance(thing, type) else type(thing)
    try:
        file, (_, line) = inspect.getsourcefile(kind), inspect.getsourcelines(kind)
    except (OSError, TypeError):
        return ""
    return f"{PurePath(file).name}:{max(line, 1)}" if file else ""


def _frames(trace: TracebackType | None) -> Iterator[tuple[FrameType, int]]:
    while trace is not None:
        yield trace.tb_frame, trace.tb_lineno
        trace = trace.tb_next


def _is_theirs(frame: FrameType) -> bool:
    """Whether a frame runs code of a plugin: not of Python, not of what casewright is made of."""
    name = str(frame.f_globals.get("__name__", ""))
    root = name.partition(".")[0]
    if name.startswith("casewright.plugins"):
        return True
    if "__file__" not in frame.f_globals:  # made at run time, as decorators make functions
        return False
    return root != "casewright" and root not in sys.stdlib_module_names and root not in _libraries()


@cache
def _libraries() -> frozenset[str]:
    """Return the top modules of every distribution that declares no plugin: what others are built on."""
    plugins = {point.dist.name for point in entry_points(group=GROUP) if point.dist is not None}
    packages = packages_distributions()
    return frozenset(name for name, owners in packages.items() if plugins.isdisjoint(owners))


def _written(frame: FrameType, line: int) -> str:
    return f"{PurePath(frame.f_code.co_filename).name}:{line}"
