"""POST /v1/cures: what is answered, in lines too, and what is refused; the command and the function beside it."""

import json

import jsonschema
import pytest
from casewright.api import cures
from casewright.api.command.cli import main
from casewright.api.job import limits
from casewright.api.use.examples import example_job
from casewright.api.web.openapi import openapi_document
from casewright.sdk.testing import assert_cures

URL = "/v1/cures"


@pytest.fixture(scope="module")
def overloaded():
    """Return the example, whose wall cabinets hang on too few fasteners."""
    job = example_job()
    job["house"]["mounting"]["per_stud"] = 1
    return job


@pytest.fixture(scope="module")
def answer(client, overloaded):
    """Return the service's answer to it."""
    return client.post(URL, json=overloaded)


def test_the_example_is_cured_as_described(client, registry, overloaded, answer):
    assert (answer.status_code, answer.mimetype) == (200, "application/json")
    body = answer.get_json()
    assert body["stops"]
    assert 0 < body["tries"] <= body["most_tries"] == limits.CURE_TRIES
    for stop in body["cures"]:
        assert 1 <= len(stop["cures"]) <= limits.CURES
        for cure in stop["cures"]:
            assert_cures(client, overloaded, stop["check"], cure["patch"])
            assert "mass_lb" in cure
    document = openapi_document(registry)
    described = document["paths"][URL]["post"]["responses"]["200"]["content"]["application/json"]["schema"]
    jsonschema.Draft202012Validator({**described, "components": document["components"]}).validate(body)


def test_lines_hold_progress_and_the_same_answer(client, overloaded, answer):
    lines = [json.loads(line) for line in client.post(f"{URL}?as=ndjson", json=overloaded).data.splitlines()]
    assert lines[-1]["result"] == answer.get_json()
    tries = [line["progress"] for line in lines[:-1] if line["progress"]["stage"] == "cures"]  # a slow one comes twice
    assert {row["done"] for row in tries} == set(range(answer.get_json()["tries"] + 1))
    assert {row["of"] for row in tries} == {limits.CURE_TRIES}


def test_the_same_job_has_the_same_bytes_and_tag(client, overloaded, answer):
    assert client.post(URL, json=overloaded).data == answer.data
    current = client.post(URL, json=overloaded, headers={"If-None-Match": answer.headers["ETag"]})
    assert current.status_code == 412


def test_a_job_that_cannot_be_read_or_built_is_a_problem(client, is_problem, example):
    is_problem(client.post(URL, json={"units": "mm", "unitz": 1}), "bad-document")
    example["cabinets"][0]["width"] = 3
    is_problem(client.post(URL, json=example), "no-geometry")
    is_problem(client.post(f"{URL}?as=csv", json=example), "bad-query")


def test_python_and_the_command_give_the_same(tmp_path, capsys, overloaded, answer, job):
    answers = cures(overloaded)["cures"]
    assert answers == answer.get_json()["cures"]
    path = tmp_path / "job.json"
    path.write_text(json.dumps(overloaded))
    assert main(["cures", str(path)]) == 1
    text = capsys.readouterr().out
    for stop in answers:
        for cure in stop["cures"]:
            assert cure["words"].split(",")[0] in text.replace("\n        ", " ")
            *_, key = cure["patch"][0]["path"].split("/")
            assert f"{key}: {json.dumps(cure['patch'][0]['value'])}" in text.replace("\n          ", " ")
            assert cure["patch"][0]["path"] not in text  # people read names of cabinets
    path.write_text(json.dumps(job))
    assert main(["cures", str(path)]) == 0
    assert "No stops" in capsys.readouterr().out
