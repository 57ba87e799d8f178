"""POST /v1/from-stock: what is answered, by lines too, what is refused, and that it is as described."""

import json

import jsonschema
from casewright.api.web.openapi import openapi_document

URL = "/v1/from-stock"


def example(registry):
    post = openapi_document(registry)["paths"][URL]["post"]
    return post["requestBody"]["content"]["application/json"]["examples"]["one-offcut"]["value"]


def test_the_example_is_answered_as_described(client, registry):
    document = openapi_document(registry)
    answer = client.post(URL, json=example(registry))
    assert (answer.status_code, answer.mimetype) == (200, "application/json")
    schema = document["paths"][URL]["post"]["responses"]["200"]["content"]["application/json"]["schema"]
    jsonschema.Draft202012Validator({**schema, "components": document["components"]}).validate(answer.get_json())
    assert answer.get_json()["answers"]
    again = client.post(URL, json=example(registry))
    assert again.data == answer.data
    unchanged = client.post(URL, json=example(registry), headers={"If-None-Match": answer.headers["ETag"]})
    assert unchanged.status_code == 412


def test_lines_end_in_what_json_answers(client, registry):
    lines = client.post(f"{URL}?as=ndjson", json=example(registry)).data.decode().splitlines()
    *progress, last = [json.loads(line) for line in lines]
    assert {line["progress"]["stage"] for line in progress} >= {"bound", "pile", "answers"}
    assert last["result"] == client.post(URL, json=example(registry)).get_json()


def test_what_is_wrong_is_named_under_the_job(client, registry):
    body = example(registry)
    body["job"]["cabinets"][0]["depth"] = "deep"
    for suffix in ("", "?as=ndjson"):
        answer = client.post(URL + suffix, json=body)
        assert answer.status_code == 400
        assert [error["pointer"] for error in answer.get_json()["errors"]] == ["/job/cabinets/0/depth"]
    assert client.post(URL, data="id\n1\n", content_type="text/csv").status_code == 415
