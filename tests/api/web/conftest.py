"""What the tests of HTTP share."""

from collections.abc import Callable
from typing import Any

import pytest
from casewright.api.web.problems import KINDS


@pytest.fixture(scope="session")
def is_problem() -> Callable[[Any, str], dict[str, Any]]:
    """Return a function that asserts an answer to be a problem of a kind, and gives its body."""

    def check(answer: Any, name: str) -> dict[str, Any]:
        assert answer.mimetype == "application/problem+json"
        body: dict[str, Any] = answer.get_json()
        kind = KINDS[name]
        assert (body["type"], body["status"], answer.status_code) == (kind.type, kind.status, kind.status)
        assert body["title"]
        assert body["detail"]
        assert isinstance(body["errors"], list)
        return body

    return check
