"""Answers packed for clients that take it, and what HTTP asks beside: types, names of files, the way to the docs."""

import csv
import gzip
import io
import json
import re
from typing import Any
from zipfile import ZipFile

import pytest
from casewright.api.web import create_app
from flask.testing import FlaskClient
from werkzeug.exceptions import NotFound
from werkzeug.middleware.dispatcher import DispatcherMiddleware
from werkzeug.test import Client

TAKES = {"Accept-Encoding": "gzip"}


@pytest.mark.parametrize("path", ["/openapi.json", "/v1/materials", "/docs"])
def test_what_is_got_is_packed(client: FlaskClient, path: str) -> None:
    plain, packed = client.get(path), client.get(path, headers=TAKES)
    assert "Content-Encoding" not in plain.headers
    assert packed.headers["Content-Encoding"] == "gzip"
    assert gzip.decompress(packed.data) == plain.data
    assert "Accept-Encoding" in packed.headers["Vary"]
    assert len(packed.data) < len(plain.data) / 2
    again = client.get(path, headers={**TAKES, "If-None-Match": packed.headers["ETag"]})
    assert again.status_code == 304
    assert packed.headers["ETag"].startswith("W/")


def test_a_plan_is_packed_and_is_the_same(client: FlaskClient, job: dict[str, Any]) -> None:
    plain, packed = client.post("/v1/plan", json=job), client.post("/v1/plan", json=job, headers=TAKES)
    assert json.loads(gzip.decompress(packed.data)) == plain.get_json()
    assert int(packed.headers["Content-Length"]) == len(packed.data)
    unchanged = client.post("/v1/plan", json=job, headers={**TAKES, "If-None-Match": packed.headers["ETag"]})
    assert unchanged.status_code == 412


@pytest.mark.parametrize("taken", ["", "identity", "br", "gzip;q=0"])
def test_others_get_it_plain(client: FlaskClient, taken: str) -> None:
    assert "Content-Encoding" not in client.get("/openapi.json", headers={"Accept-Encoding": taken}).headers


def test_short_answers_and_pictures_are_not_packed(client: FlaskClient, job: dict[str, Any]) -> None:
    assert "Content-Encoding" not in client.get("/healthz", headers=TAKES).headers
    assert "Content-Encoding" not in client.post("/v1/labels", json=job, headers=TAKES).headers


@pytest.mark.parametrize("kind", ["application/json", "application/vnd.workshop+json", "application/merge-patch+json"])
def test_every_json_is_read(client: FlaskClient, job: dict[str, Any], kind: str) -> None:
    assert client.post("/v1/parts", data=json.dumps(job), content_type=kind).status_code == 200


@pytest.mark.parametrize("kind", ["application/xml", "text/json", "application/jsonx", "application/+json"])
def test_nothing_else_is(client: FlaskClient, job: dict[str, Any], kind: str) -> None:
    assert client.post("/v1/parts", data=json.dumps(job), content_type=kind).status_code == 415


def test_a_byte_order_mark_is_read(client: FlaskClient, job: dict[str, Any]) -> None:
    marked = b"\xef\xbb\xbf" + json.dumps(job).encode()
    assert client.post("/v1/plan", data=marked, content_type="application/json").data == (
        client.post("/v1/plan", json=job).data
    )


def test_files_have_names(client: FlaskClient, job: dict[str, Any]) -> None:
    for path, name in (("labels", "labels.pdf"), ("drawings/part?as=dxf", "part.dxf"), ("parts?as=csv", "parts.csv")):
        answer = client.post(f"/v1/{path}", json=job)
        assert answer.headers["Content-Disposition"] == f'inline; filename="{name}"'


def test_every_paper_in_one_archive(client: FlaskClient, small: dict[str, Any]) -> None:
    answer = client.post("/v1/papers", json=small)
    assert (answer.status_code, answer.mimetype) == (200, "application/zip")
    assert answer.headers["Content-Disposition"] == 'inline; filename="papers.zip"'
    archive = ZipFile(io.BytesIO(answer.data))
    assert archive.testzip() is None
    assert {"plan.json", "parts.csv", "hardware.csv", "booklet.pdf", "labels.pdf", "workbook.xlsx", "model.glb"} <= set(
        archive.namelist()
    )
    assert archive.read("plan.json") == client.post("/v1/plan", json=small).data
    assert answer.data == client.post("/v1/papers", json=small).data


def test_the_root_leads_to_the_docs_and_problems_stand_under_the_prefix() -> None:
    site = Client(DispatcherMiddleware(NotFound(), {"/workshop": create_app()}))
    assert site.get("/workshop/").headers["Location"] == "/workshop/docs"
    problem = site.get("/workshop/v1/nothing").get_json()
    assert problem["type"] == "/workshop/problems/not-found"
    assert site.get(problem["type"]).status_code == 200


@pytest.mark.parametrize("view", ["parts", "hardware", "steps", "stock", "checks"])
def test_tables_as_a_spreadsheet_wants_them(client: FlaskClient, small: dict[str, Any], view: str) -> None:
    plain = client.post(f"/v1/{view}?as=csv", json=small).data.decode()
    other = client.post(f"/v1/{view}?as=csv&delimiter=semicolon&decimal=comma&bom=true", json=small)
    text = other.data.decode()
    assert text.startswith("\ufeff")
    rows = list(csv.reader(io.StringIO(text.removeprefix("\ufeff"), newline=""), delimiter=";"))
    expected = list(csv.reader(io.StringIO(plain, newline="")))
    number = re.compile(r"-?[0-9]+\.[0-9]+(e-?[0-9]+)?")
    for row, as_before in zip(rows, expected, strict=True):
        for cell, before in zip(row, as_before, strict=True):
            assert cell in (before, before.replace(".", ",") if number.fullmatch(before) else before)
    if view == "parts":
        assert any("17,8" in row for row in rows)


@pytest.mark.parametrize("query", ["delimiter=;", "decimal=x", "bom=1", "delimiter=tab&delimiter=tab"])
def test_a_mark_that_is_none_is_a_bad_query(client: FlaskClient, job: dict[str, Any], query: str) -> None:
    answer = client.post(f"/v1/parts?as=csv&{query}", json=job)
    assert (answer.status_code, answer.get_json()["type"]) == (400, "/problems/bad-query")


def test_a_view_without_a_table_takes_the_marks_of_a_job_sent_as_one_and_no_more(
    client: FlaskClient, small: dict[str, Any]
) -> None:
    assert client.post("/v1/plan?delimiter=tab", json=small).status_code == 200
    assert client.post("/v1/plan?bom=true", json=small).status_code == 400
