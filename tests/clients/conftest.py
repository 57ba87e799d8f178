"""The real service on loopback."""

from collections.abc import Iterator

import pytest
from casewright.api.command import demo


@pytest.fixture(scope="session")
def base() -> Iterator[str]:
    """Return the address of a running service."""
    with demo.service() as address:
        yield address
