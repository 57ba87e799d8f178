"""Shared test options: `--full` runs the large recorded counts, the default run smaller ones.

Any test may import what stands beside this file: `assembly_walk`, `kernel`, `modules`, `overlap`, `slowness`, `solids`,
`wall_jobs`.
"""

import os
import shutil
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import settings

sys.path.insert(0, str(Path(__file__).parent))

settings.register_profile("untimed", deadline=None)  # how long an example takes on a busy machine says nothing
settings.load_profile("untimed")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--full", action="store_true", help="run properties and benchmarks at their full counts")


def pytest_xdist_auto_num_workers(config: pytest.Config) -> int:
    """Return one worker more than there are processors: many tests wait for a server, a browser or a time limit."""
    return (os.cpu_count() or 1) + 1


@pytest.fixture(scope="session")
def full(request: pytest.FixtureRequest) -> bool:
    """Whether the full counts were asked for."""
    return bool(request.config.getoption("--full"))


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
