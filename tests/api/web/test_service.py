"""Routes about the service itself."""

from casewright.api.web.problems import KINDS
from casewright.sdk.loader import Registry
from flask.testing import FlaskClient


def test_health_readiness_and_version(client: FlaskClient, registry: Registry) -> None:
    assert client.get("/healthz").get_json() == {"status": "alive"}
    assert client.get("/readyz").get_json()["status"] == "ready"
    version = client.get("/version").get_json()
    assert version["software"] == "casewright"
    assert len(version["plugins"]) == len(registry.plugins)


def test_every_kind_of_problem_is_explained_where_its_type_points(client: FlaskClient) -> None:
    for kind in KINDS.values():
        body = client.get(kind.type).get_json()
        assert (body["status"], body["title"]) == (kind.status, kind.title)
