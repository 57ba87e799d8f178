"""What is given and changes nothing is said: by plans with it and without it, which are alike but for their checks."""

import copy
import json

import pytest
from casewright.api import plan

CODE = "given-unused"
OWN = ("origins", "fingerprint", "checks")
"""What of a plan says what was given, and what is said of it."""
DOORS = {"style": "slab", "material": "ply"}


def job(**cabinet):
    case = {"material": "ply", "back": {"material": "thin", "inset": 20}}
    return {
        "units": "mm",
        "materials": {
            "ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 17.7},
            "thin": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 6.2},
        },
        "cabinets": [{"id": "pumps", "width": 600, "height": 720, "depth": 500, "case": case, **cabinet}],
    }


def put(document, pointer, value):
    """Return a document with a value put at a place whose objects are there."""
    document = copy.deepcopy(document)
    *steps, last = [int(step) if step.isdigit() else step for step in pointer.split("/")[1:]]
    inner = document
    for step in steps:
        inner = inner[step]
    inner[last] = value
    return document


def answer(document):
    """Return what a plan says of sizes and work, and the places of which it says that nothing comes of them."""
    made = plan(document)
    rest = {key: value for key, value in made.items() if key not in OWN}
    return json.dumps(rest, sort_keys=True), [one["subject"] for one in made["checks"] if one["code"] == CODE]


OVERLAY = job(space={"front": "door"}, doors=DOORS)
INSET = job(space={"front": "door"}, doors={**DOORS, "hang": "inset"})
PAIR = job(space={"front": "door-pair"}, doors=DOORS)
OPEN = job(space={"front": "open"})
DRAWERS = job(form="base", space={"front": "drawer", "drawers": 2}, drawers={"bottom": "thin", "hang": "inset"})
ON_FEET = job(form="base", mounting={"method": "screw-strip", "contents_kg": 20})
CASES = [
    (INSET, "doors/overlay", 7),
    (OVERLAY, "doors/gap", 3),
    (OVERLAY, "doors/panel", "thin"),
    (DRAWERS, "drawers/overlay", 7),
    (PAIR, "space/hinge_side", "right"),
    (OPEN, "space/drawers", 3),
    (OPEN, "space/drawer_heights", [200, None]),
    (OPEN, "space/drawer_rule", "graduated"),
    (OPEN, "case/stretcher", 90),
    (INSET, "doors/stand_off", 3),
    ({**OPEN, "cabinets": [{**OPEN["cabinets"][0], "ends": {"left": "open"}}]}, "ends/scribe", 5),
    (ON_FEET, "mounting/contents_from_front", 90),
]


@pytest.mark.parametrize(("document", "place", "value"), CASES, ids=[place for _, place, _ in CASES])
def test_what_changes_nothing_is_said(document, place, value):
    pointer = f"/cabinets/0/{place}"
    without, nothing = answer(document)
    given, unused = answer(put(document, pointer, value))
    assert (nothing, unused) == ([], [pointer])
    assert given == without


@pytest.mark.parametrize(
    ("document", "place", "value"),
    [
        (INSET, "doors/gap", 3),
        (OVERLAY, "doors/overlay", 7),
        (DRAWERS, "drawers/gap", 3),
        (OVERLAY, "space/hinge_side", "right"),
        (DRAWERS, "space/drawer_rule", "graduated"),
    ],
)
def test_of_what_is_used_nothing_is_said(document, place, value):
    without, _ = answer(document)
    given, unused = answer(put(document, f"/cabinets/0/{place}", value))
    assert unused == []
    assert given != without


def test_a_house_speaks_for_all_of_its_cabinets():
    house = {"doors": {**DOORS, "overlay": 7, "gap": 3, "panel": "thin"}, "case": {"stretcher": 90}}
    document = {**job(space={"front": "door"}, doors={"hang": "inset"}), "house": house}
    assert answer(document)[1] == []
    assert answer(put(document, "/cabinets/0/doors/overlay", 9))[1] == ["/cabinets/0/doors/overlay"]
