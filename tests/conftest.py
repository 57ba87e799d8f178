"""Shared test options: `--full` runs the large recorded counts, the default run smaller ones."""

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--full", action="store_true", help="run properties and benchmarks at their full counts")


@pytest.fixture(scope="session")
def full(request: pytest.FixtureRequest) -> bool:
    """Whether the full counts were asked for."""
    return bool(request.config.getoption("--full"))
