"""One number for one cell: RFC 9110 for HEAD and conditions, arithmetic on the bench for the numbers."""

from typing import Any
from urllib.parse import urlencode
from xml.etree import ElementTree

import pytest
from casewright.api.web.value import FIELDS
from flask.testing import FlaskClient

CABINET = {"width": "600", "height": "720", "depth": "300", "thickness": "18"}


def ask(client: FlaskClient, _method: str = "GET", headers: dict[str, str] | None = None, **query: str) -> Any:
    return client.open("/v1/value?" + urlencode({**CABINET, **query}), method=_method, headers=headers)


@pytest.mark.parametrize(
    ("query", "number"),
    [
        # Outside sizes and the sheet's own thickness are what was asked for, whatever the joints are.
        ({"part": "side-left", "field": "length"}, "720"),
        ({"part": "side-left", "field": "width"}, "300"),
        ({"part": "side-right", "field": "thickness"}, "18"),
        ({"part": "side-left", "field": "quantity"}, "1"),
        ({"part": "side-left", "field": "quantity", "count": "3"}, "3"),
        # Butted between the sides, a top is as long as the width less two thicknesses: 600 - 2 × 18.
        ({"part": "top", "field": "length", "case.corner.method": "screwed-butt"}, "564"),
        # A groove in each side takes in its depth at each end: 600 - 2 × 18 + 2 × 6.
        (
            {
                "part": "top", "field": "length", "case.corner.method": "housed-groove", "case.corner.depth": "6",
                "case.top_inset": "40", "case.bottom_inset": "40",
            },
            "576",
        ),
        # 1 in = 25.4 mm exactly, so 28 in is 711.2 mm.
        ({"part": "side-left", "field": "length", "height": "28 in"}, "711.2"),
        ({"field": "stops"}, "0"),
    ],
)  # fmt: skip
def test_numbers(client: FlaskClient, query: dict[str, str], number: str) -> None:
    answer = ask(client, **query)
    assert (answer.status_code, answer.mimetype, answer.text) == (200, "text/plain", number), answer.text


def test_units_of_numbers_and_answers(client: FlaskClient) -> None:
    inches = {"width": "24", "height": "30", "depth": "12", "thickness": "0.709", "units": "in"}
    assert ask(client, part="side-left", field="length", **inches).text == "30"
    by_path = {**inches, "job.units": "in"}
    del by_path["units"]
    assert ask(client, part="side-left", field="length", **by_path).text == "30"


def test_the_same_numbers_as_a_plan(client: FlaskClient) -> None:
    job = {
        "units": "mm",
        "materials": {"s": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
        "cabinets": [{"id": "a", "width": 600, "height": 720, "depth": 300, "case": {"material": "s"}}],
    }
    plan = client.post("/v1/plan", json=job).get_json()
    for part in plan["parts"]:
        for field in FIELDS["part"]:
            got = ask(client, part=part["id"].removeprefix("a/"), field=field).text
            assert float(got) == pytest.approx(part[field], rel=1e-11)
    assert float(ask(client, field="mass_kg").text) == plan["summary"][0]["mass_kg"]
    for item in {line["item"] for line in plan["hardware"]}:
        number = sum(line["quantity"] for line in plan["hardware"] if line["item"] == item)
        assert ask(client, item=item, field="quantity").text == str(number)


def test_xml_and_json(client: FlaskClient) -> None:
    element = ElementTree.fromstring(ask(client, part="side-left", field="length", **{"as": "xml"}).data)
    assert (element.tag, element.text, element.attrib) == (
        "value",
        "720",
        {"units": "mm", "field": "length", "stops": "0"},
    )
    document = ask(client, headers={"Accept": "application/json"}, part="side-left", field="length").get_json()
    assert document == {
        "value": 720, "units": "mm", "field": "length", "stops": 0, "part": "side-left", "text": "720.0 mm",
    }  # fmt: skip


@pytest.mark.parametrize("form", ["text", "xml", "json"])
def test_head_is_get_without_its_body(client: FlaskClient, form: str) -> None:
    query = {"part": "top", "field": "length", "as": form}
    head, get = ask(client, "HEAD", **query), ask(client, **query)
    assert (head.status_code, head.data) == (200, b"")
    for name in ("Content-Type", "Content-Length", "ETag", "Casewright-Stops"):
        assert head.headers[name] == get.headers[name]


def test_304(client: FlaskClient) -> None:
    first = ask(client, part="top", field="length")
    for method in ("GET", "HEAD"):
        again = ask(client, method, {"If-None-Match": first.headers["ETag"]}, part="top", field="length")
        assert (again.status_code, again.data) == (304, b"")
    assert ask(client, part="top", field="width").headers["ETag"] != first.headers["ETag"]


def test_a_stop_is_told_beside_the_number(client: FlaskClient) -> None:
    # Common practice, no source: grooves half the thickness deep from both faces of a divider leave no wood.
    bays = {f"space.bays.{i}.fixed_shelves": "1" for i in (0, 1)}
    bays |= {"case.fixed_joint.method": "housed-groove", "case.fixed_joint.depth": "9"}
    answer = ask(client, part="side-left", field="length", **bays)
    assert int(answer.headers["Casewright-Stops"]) > 0
    assert ask(client, field="stops", **bays).text == answer.headers["Casewright-Stops"]


@pytest.mark.parametrize(
    ("query", "status", "pointer", "fix"),
    [
        ({}, 400, "?field", "field="),
        ({"field": "weight"}, 400, "?field", "field="),
        ({"field": "length"}, 422, "?field", "part=side-left"),
        ({"field": "hands", "part": "top"}, 422, "?field", "length"),
        ({"field": "length", "part": "topp"}, 422, "?part", '"top"'),
        ({"field": "quantity", "item": "x"}, 422, "?item", ""),
        ({"field": "quantity", "item": "x", "part": "top"}, 422, "?item", "Leave"),
        ({"field": "length", "part": "top", "widht": "600"}, 422, "?widht", '"width"'),
        ({"field": "length", "part": "top", "width": "wide"}, 422, "?width", "600"),
        ({"field": "length", "part": "top", "thickness": "-1"}, 422, "?thickness", ""),
        ({"field": "length", "part": "top", "units": "ft"}, 422, "?units", "one of"),
        ({"field": "length", "part": "top", "units": "mm", "job.units": "mm"}, 422, "?job.units", "Leave"),
        ({"field": "length", "part": "top", "case.corner.method": "glue"}, 422, "?case.corner.method", ""),
        ({"field": "length", "part": "top", "as": "csv"}, 400, "?as", "text"),
    ],
)
def test_problems_name_the_parameter(
    client: FlaskClient, query: dict[str, str], status: int, pointer: str, fix: str
) -> None:
    answer = ask(client, **query)
    assert (answer.status_code, answer.mimetype) == (status, "application/problem+json"), answer.text
    errors = answer.get_json()["errors"]
    assert [one for one in errors if one["pointer"] == pointer and fix in one["fix"]], errors


def test_a_parameter_twice_is_refused(client: FlaskClient) -> None:
    answer = client.get("/v1/value?field=stops&width=600&width=700")
    assert (answer.status_code, answer.get_json()["errors"][0]["pointer"]) == (400, "?width")


def test_no_geometry_keeps_its_kind(client: FlaskClient) -> None:
    # Two sides of 30 mm leave nothing inside a cabinet 55 mm wide.
    answer = ask(client, part="top", field="length", width="55", thickness="30")
    assert answer.status_code == 422
    assert answer.get_json()["type"] == "/problems/no-geometry"
