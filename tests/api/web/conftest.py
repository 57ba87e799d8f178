"""The app over the built-in methods, and the example job."""

from typing import Any

import pytest
from casewright.api.web import create_app
from casewright.api.web.openapi import example_job
from casewright.sdk.loader import Registry, load
from flask.testing import FlaskClient


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
