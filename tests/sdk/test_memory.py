"""What counts as a want of memory: tried in a process of its own whose address space is limited (setrlimit(2))."""

import errno
import resource
import subprocess
import sys

import pytest
from casewright.sdk.memory import is_want_of_memory

TRY = """
import resource
from casewright.sdk.memory import NEAR, is_want_of_memory
pages = int(open("/proc/self/statm").read().split()[0]) * resource.getpagesize()
resource.setrlimit(resource.RLIMIT_AS, (pages + {room} * NEAR, resource.RLIM_INFINITY))
print([is_want_of_memory(one) for one in (SystemError(), ImportError(), OSError(5, "io"), ValueError())])
"""


@pytest.mark.parametrize(("room", "ended"), [("1", True), ("4", False)])
def test_the_interpreters_other_words_count_where_memory_has_ended(room: str, ended: bool) -> None:
    made = subprocess.run([sys.executable, "-c", TRY.format(room=room)], check=True, capture_output=True, text=True)
    assert made.stdout.strip() == str([ended, ended, False, False])


def test_want_of_memory_by_its_own_names() -> None:
    assert is_want_of_memory(MemoryError())
    assert is_want_of_memory(OSError(errno.ENOMEM, "cannot allocate"))
    assert not is_want_of_memory(OSError(errno.ENOSPC, "disk full"))


def test_without_a_limit_nothing_else_is_one() -> None:
    assert resource.getrlimit(resource.RLIMIT_AS)[0] == resource.RLIM_INFINITY
    assert not is_want_of_memory(SystemError())
