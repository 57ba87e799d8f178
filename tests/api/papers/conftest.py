"""Lets the tests of this folder import the sample jobs beside them, and gives their plans."""

import sys
from collections.abc import Callable
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

import samples
from casewright.sdk.model import Plan


@pytest.fixture(scope="session")
def plan() -> Callable[[str], Plan]:
    """Return the plan of a sample job by name."""
    return samples.plan


@pytest.fixture(scope="session")
def bay() -> Plan:
    """Return the plan of the repair bay."""
    return samples.plan("repair-bay")
