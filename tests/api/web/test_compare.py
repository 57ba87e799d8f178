"""POST /v1/compare: what is read, what is answered, and what is refused."""

import jsonschema
import pytest
from casewright.api.job import limits
from casewright.api.web.openapi import openapi_document

URL = "/v1/compare"


def sent_job(job, patch=None, name="tried"):
    return {"job": job, "changes": [{"name": name, "patch": patch or {}}]}


def test_a_change_is_tried(client, job):
    answer = client.post(URL, json=sent_job(job, {"loose_parts": [{**job["loose_parts"][0], "length": 510}]}))
    assert (answer.status_code, answer.mimetype) == (200, "application/json")
    (change,) = answer.get_json()["changes"]
    assert change["differences"]["parts"]["changed"] == [
        {"id": "loose/lid", "sizes": {"length": {"was": 500, "now": 510}}, "cuts_changed": False}
    ]


def test_both_forms_of_a_patch_make_the_same_difference(client, job):
    merge = {"loose_parts": [{**job["loose_parts"][0], "length": 510}]}
    operations = [{"op": "replace", "path": "/loose_parts/0/length", "value": 510}]
    changes = [{"name": "both", "patch": merge}, {"name": "both", "patch": operations}]
    first, second = client.post(URL, json={"job": job, "changes": changes}).get_json()["changes"]
    assert first["planned"]
    assert first == second


def test_an_operation_that_cannot_be_applied_is_named_and_stops_no_other_change(client, job):
    operations = [{"op": "test", "path": "/units", "value": "mm"}, {"op": "remove", "path": "/loose_parts/9"}]
    changes = [{"name": "bad", "patch": operations}, {"name": "none", "patch": []}]
    bad, none = client.post(URL, json={"job": job, "changes": changes}).get_json()["changes"]
    assert not bad["planned"]
    assert [error["pointer"] for error in bad["errors"]] == ["/changes/0/patch/1/path"]
    assert none["planned"]


def test_the_answer_and_the_question_are_as_described(client, registry):
    document = openapi_document(registry)
    post = document["paths"][URL]["post"]
    question = post["requestBody"]["content"]["application/json"]
    given = question["examples"]["two-changes"]["value"]
    check = {"components": document["components"]}
    jsonschema.Draft202012Validator({**question["schema"], **check}).validate(given)
    answer = client.post(URL, json=given)
    assert answer.status_code == 200
    described = post["responses"]["200"]["content"]["application/json"]["schema"]
    jsonschema.Draft202012Validator({**described, **check}).validate(answer.get_json())


def test_the_same_question_has_the_same_bytes_and_the_same_tag(client, job):
    first, again = client.post(URL, json=sent_job(job)), client.post(URL, json=sent_job(job))
    assert first.data == again.data
    assert first.headers["ETag"] == again.headers["ETag"]
    unchanged = client.post(URL, json=sent_job(job), headers={"If-None-Match": first.headers["ETag"]})
    assert unchanged.status_code == 412
    other = client.post(URL, json=sent_job(job, name="other"), headers={"If-None-Match": first.headers["ETag"]})
    assert other.status_code == 200


@pytest.mark.parametrize(
    ("body", "pointer"),
    [
        ([], ""),
        ({}, "/job"),
        ({"job": {}}, "/changes"),
        ({"job": {}, "changes": []}, "/changes"),
        ({"job": {}, "changes": [{"name": "a", "patch": {}}] * (limits.CHANGES + 1)}, "/changes"),
        ({"job": {}, "changes": {}}, "/changes"),
        ({"job": {}, "changes": [1]}, "/changes/0"),
        ({"job": {}, "changes": [{"name": "a"}]}, "/changes/0/patch"),
        ({"job": {}, "changes": [{"name": "a", "patch": 1}]}, "/changes/0/patch"),
        ({"job": {}, "changes": [{"name": "a", "patch": [{"op": "put", "path": ""}]}]}, "/changes/0/patch/0/op"),
        ({"job": {}, "changes": [{"name": "a", "patch": [{"op": "add", "path": "/a"}]}]}, "/changes/0/patch/0/value"),
        ({"job": {}, "changes": [{"name": "", "patch": {}}]}, "/changes/0/name"),
        ({"job": {}, "changes": [{"name": 5, "patch": {}}]}, "/changes/0/name"),
        ({"job": {}, "changes": [{"name": "a", "patch": {}, "extra": 1}]}, "/changes/0/extra"),
        ({"job": {}, "changes": [{"name": "a", "patch": {}}], "jobs": 1}, "/jobs"),
        ({"job": {}, "changes": [{"name": "a", "patch": {}}]}, "/job/units"),
        ({"job": 7, "changes": [{"name": "a", "patch": {}}]}, "/job"),
    ],
)
def test_a_body_that_is_no_comparison_is_refused_at_its_place(client, body, pointer):
    answer = client.post(URL, json=body)
    assert answer.status_code == 400
    assert answer.get_json()["errors"][0]["pointer"] == pointer


def test_a_job_that_cannot_be_used_is_refused_under_its_pointer(client, job):
    answer = client.post(URL, json=sent_job({**job, "materials": {}}))
    assert answer.status_code == 422
    assert answer.get_json()["errors"][0]["pointer"] == "/job/loose_parts/0/material"


def test_only_json_is_read(client):
    assert client.post(URL, data="id\n", content_type="text/csv").status_code == 415
    assert client.post(URL, json={}, headers={"Accept": "text/csv"}).status_code == 406
    assert client.get(URL).status_code == 405
