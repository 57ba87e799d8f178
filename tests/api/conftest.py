"""The registry of the built-in methods, the app over it, and jobs to read; lets tests import `worked` beside it."""

import copy
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parent))

import pytest
from casewright.api.use.examples import example_job
from casewright.api.web import create_app
from casewright.sdk.loader import Registry, load
from flask.testing import FlaskClient

SMALL: dict[str, Any] = {
    "units": "mm",
    "materials": {
        "ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 17.8},
        "thin": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 6.3},
        "oak": {"kind": "board", "stuff": "red-oak", "thickness": 19},
        "edge": {"kind": "band", "stuff": "red-oak", "thickness": 2},
    },
    "cabinets": [
        {
            "id": "bench",
            "width": 600,
            "height": 700,
            "depth": 300,
            "case": {"material": "ply", "corner": {"method": "housed-groove"}, "top_inset": 20, "bottom_inset": 20},
            "space": {"fixed_shelves": 1},
        }
    ],
}


@pytest.fixture(scope="session")
def registry() -> Registry:
    return load(discover="built-in")


@pytest.fixture(scope="session")
def client(registry: Registry) -> FlaskClient:
    return create_app(registry).test_client()


@pytest.fixture
def job() -> dict[str, Any]:
    """Return a small job: one part that is only cut."""
    return {
        "units": "mm",
        "materials": {"mdf": {"kind": "sheet", "stuff": "mdf", "thickness": 18}},
        "loose_parts": [{"id": "lid", "material": "mdf", "length": 500, "width": 300}],
    }


@pytest.fixture
def example() -> dict[str, Any]:
    return example_job()


@pytest.fixture
def small() -> dict[str, Any]:
    """Return a job of one cabinet that can be built."""
    return copy.deepcopy(SMALL)


Change = Callable[[dict[str, Any]], Any]


@pytest.fixture
def changed(small: dict[str, Any]) -> Callable[[Change], dict[str, Any]]:
    """Return the small job with one change made to it."""

    def change(how: Change) -> dict[str, Any]:
        how(small)
        return small

    return change
