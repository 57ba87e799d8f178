"""Whether an error is a want of memory: the interpreter has other words for that than `MemoryError`."""

import errno
import re
from pathlib import Path

NEAR = 64 * 2**20
"""Bytes of address space below its limit at which a process has had all that it could get: one request may be large."""

_OTHERWISE = (SystemError, ImportError)
"""What is raised, too, where memory ends: in the interpreter's own work, and as a module is loaded."""


def is_want_of_memory(error: BaseException) -> bool:
    """Return whether an error says that memory ended, or may, in a process that has come to the end of its memory."""
    if isinstance(error, MemoryError) or (isinstance(error, OSError) and error.errno == errno.ENOMEM):
        return True
    return isinstance(error, _OTHERWISE) and _has_ended()


def _has_ended() -> bool:
    """Return whether this process once had nearly as much address space as it may; False where none is limited."""
    try:
        limits, status = (Path("/proc/self", name).read_text(encoding="ascii") for name in ("limits", "status"))
    except OSError:  # no Linux
        return False
    most = re.search(r"^Max address space +([0-9]+)", limits, re.MULTILINE)
    peak = re.search(r"^VmPeak:\s+([0-9]+) kB", status, re.MULTILINE)
    return most is not None and peak is not None and int(peak[1]) * 1024 + NEAR >= int(most[1])
