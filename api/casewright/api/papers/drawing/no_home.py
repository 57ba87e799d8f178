"""Importing a library that keeps a cache in the user's home, without a home and without leaving anything in it.

The DXF library looks for fonts as it is imported and writes what it finds to the user's cache. A service may run as a
user without a home, on a read-only file system; nothing here needs that cache.
"""

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager

__all__ = ["elsewhere"]

NAMES = ("XDG_CACHE_HOME", "XDG_CONFIG_HOME")


@contextmanager
def elsewhere() -> Iterator[None]:
    """Let imports in this block keep their caches in a temporary folder that is gone after it."""
    before = {name: os.environ.get(name) for name in NAMES}
    with tempfile.TemporaryDirectory(prefix="casewright-") as folder:
        os.environ.update(dict.fromkeys(NAMES, folder))
        try:
            yield
        finally:
            for name, value in before.items():
                if value is None:
                    del os.environ[name]
                else:
                    os.environ[name] = value
