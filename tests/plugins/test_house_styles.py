"""House styles: nearest wins, and the plan says where each value came from."""

from types import ModuleType

import pytest
from casewright.api.web import create_app
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.loader import load
from casewright.sdk.methods import HouseStyle

STYLE = HouseStyle(
    "workshop",
    "Bicycle workshop",
    {
        "depth": "280 mm",
        "case": {"material": "ply", "corner": {"method": "housed-groove", "depth": "5 mm"}, "top_inset": "20 mm",
                 "bottom_inset": "20 mm"},
    },
)  # fmt: skip


@pytest.fixture(scope="module")
def client():
    plugin = ModuleType("styled")
    plugin.casewright_house_styles = hookimpl(lambda: [STYLE])
    return create_app(load(discover="built-in", extra=[("styled", plugin)])).test_client()


def planned(client, house, units="mm", **cabinet):
    scale = 1 if units == "mm" else 25.4
    answer = client.post(
        "/v1/plan",
        json={
            "units": units,
            "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": "18 mm"}},
            "house": house,
            "cabinets": [{"id": "tools", "width": 600 / scale, "height": 700 / scale, **cabinet}],
        },
    )
    assert answer.status_code == 200, answer.get_json()
    return answer.get_json()


def depth(plan):
    return plan["summary"][0]["depth"]


@pytest.mark.parametrize(
    ("house", "cabinet", "expected", "origin"),
    [
        ({"style": "workshop"}, {}, 280, "house-style"),
        ({"style": "workshop", "depth": 300}, {}, 300, "house"),
        ({"style": "workshop", "depth": 300}, {"depth": 320}, 320, None),
        ({"style": "workshop"}, {"depth": 320}, 320, None),
    ],
)
def test_the_nearest_wins_and_is_named(client, house, cabinet, expected, origin):
    plan = planned(client, house, **cabinet)
    assert depth(plan) == expected
    assert plan["origins"].get("/cabinets/0/depth") == origin


def test_an_option_given_nearer_leaves_the_others_to_the_style(client):
    plan = planned(client, {"style": "workshop"}, case={"corner": {"method": "housed-groove", "clearance": 1}})
    origins = plan["origins"]
    assert origins["/cabinets/0/case/corner/depth"] == "house-style"
    assert "/cabinets/0/case/corner/clearance" not in origins
    assert origins["/cabinets/0/case/material"] == "house-style"
    assert origins["/cabinets/0/case/top_kind"] == "default"
    top = next(p for p in plan["parts"] if p["id"] == "tools/top")
    assert top["length"] == 600 - 2 * 18 + 2 * (5 - 1)  # by hand: two sides of 18, two grooves of 5 less 1 of clearance


def test_a_style_means_the_same_in_inches(client):
    plan = planned(client, {"style": "workshop"}, units="in")
    assert depth(plan) == pytest.approx(280 / 25.4, rel=1e-12)


def test_a_style_that_is_not_there_names_the_nearest(client):
    answer = client.post("/v1/plan", json={"units": "mm", "house": {"style": "workshpo"}, "cabinets": []})
    (entry,) = [e for e in answer.get_json()["errors"] if e["pointer"] == "/house/style"]
    assert answer.status_code == 422
    assert "workshop" in entry["fix"]
