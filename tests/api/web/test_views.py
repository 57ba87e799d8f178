"""The views: every one is a part of the plan."""

from typing import Any

import pytest
from flask.testing import FlaskClient


def test_the_example_job_has_a_plan(client: FlaskClient, example: dict[str, Any]) -> None:
    answer = client.post("/v1/plan", json=example)
    assert answer.status_code == 200
    assert answer.mimetype == "application/json"
    assert [line["cabinet"] for line in answer.get_json()["summary"]] == [c["id"] for c in example["cabinets"]]


@pytest.mark.parametrize("view", ["plan", "parts", "hardware", "steps", "stock", "mounting"])
def test_every_view_is_a_part_of_the_plan(client: FlaskClient, example: dict[str, Any], view: str) -> None:
    whole = client.post("/v1/plan", json=example).get_json()
    part = client.post(f"/v1/{view}", json=example).get_json()
    assert part.items() <= whole.items()
    assert view in part or view == "plan"
