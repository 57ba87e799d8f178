"""What there is to choose from."""

from casewright.api.job import limits
from flask.testing import FlaskClient


def test_methods_show_their_options(client: FlaskClient) -> None:
    methods = {(m["family"], m["id"]): m for m in client.get("/v1/methods").get_json()["methods"]}
    groove = methods["joints", "housed-groove"]
    assert "depth" in groove["options"]["properties"]
    assert groove["options"]["additionalProperties"] is False


def test_limits_are_the_ones_kept(client: FlaskClient) -> None:
    published = {row["name"]: row["value"] for row in client.get("/v1/limits").get_json()["limits"]}
    assert published["body_bytes"] == limits.BODY_BYTES
    assert published["json_depth"] == limits.JSON_DEPTH
