"""Where in a job a stop is: the cabinet and the place that its check's subject names."""

import pytest
from casewright.sdk.findings import Check, Finding
from casewright.sdk.methods import Choices, Stop
from casewright.sdk.testing import planned, registry_with

JOB = {
    "units": "mm",
    "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
    "house": {"width": 600, "height": 700, "depth": 300, "case": {"material": "ply", "back": None}},
    "cabinets": [{"id": "a"}, {"id": "b"}],
}


@pytest.fixture(scope="module")
def stop_at():
    registry = registry_with()
    plan = planned(JOB, registry)
    choices = Choices(registry.catalogue, registry.joints, registry.boxes, registry.doors)
    return lambda subject: Stop(Check(subject, Finding("any", "stop", "any")), plan, JOB, choices)


@pytest.mark.parametrize(
    ("subject", "cabinet", "spot"),
    [
        ("b", "b", None),
        ("b/side-left", "b", None),
        ("/cabinets/1", "b", None),
        ("/cabinets/0/mounting", "a", None),
        ("/wall/cabinets_at/b/2", "b", 2),
        ("/wall/cabinets_at/b/2/fillers/left", "b", 2),
        ("/cabinets/9", None, None),
        ("/cabinets/x", None, None),
        ("/wall/cabinets_at/b/x", "b", None),
        ("/materials/ply", None, None),
        ("loose/lid", None, None),
        ("/", None, None),
        ("", None, None),
    ],
)
def test_a_subject_names_its_cabinet_and_place(stop_at, subject, cabinet, spot):
    stop = stop_at(subject)
    assert (stop.cabinet.id if stop.cabinet else None, stop.spot) == (cabinet, spot)


def test_a_place_inside_the_cabinet(stop_at):
    assert stop_at("b").at("case", "corner") == ("cabinets", 1, "case", "corner")
