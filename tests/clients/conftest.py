"""The real service on loopback, and what a test says where a program it needs is absent."""

import os
import shutil
from collections.abc import Callable, Iterator

import pytest
from casewright.api.command import demo


@pytest.fixture(scope="session")
def base() -> Iterator[str]:
    """Return the address of a running service."""
    with demo.service() as address:
        yield address


@pytest.fixture(scope="session")
def needed() -> Callable[..., None]:
    """Return a function that skips the test where a program is absent; in CI, which installs them, it fails."""

    def check(*programs: str) -> None:
        for program in programs:
            if shutil.which(program) is None:
                if os.environ.get("CI"):
                    pytest.fail(f"{program} is not installed; CI installs it")
                pytest.skip(f"{program} is not installed")

    return check
