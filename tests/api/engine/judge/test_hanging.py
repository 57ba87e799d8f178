"""Hanging from the job to the answer: one answer whichever units the job is written in."""

import copy
import re
from types import ModuleType
from typing import ClassVar

import pytest
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.sdk.kit import Box, Options, Term, hookimpl
from casewright.sdk.loader import load
from casewright.sdk.mountings import (
    CAUTIONS,
    Assembly,
    Hanging,
    HangingOptions,
    MountDesign,
    MountingMethod,
    MountRequest,
    PartSpec,
    fixed_on,
)
from casewright.sdk.units import MM
from wall_jobs import wall_job

INCH, POUND = 25.4, 0.45359237


def job(units, contents, size):
    """Return a cabinet on two studs, its lengths given in inches and written by `size`."""
    return {
        "units": units,
        "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": size(0.709)}},
        "cabinets": [
            {
                "id": "tools", "width": size(28), "height": size(30), "depth": size(11),
                "case": {"material": "ply", "back": {"material": "ply", "inset": size(0.75)}},
                "mounting": {"method": "bevel-cleat", "height": size(4), "fastener": "lag-1-4-3", **contents},
            }
        ],
        "wall": {
            "studs": {"at": [size(7), size(23)], "stuff": "spruce-pine-fir", "width": size(1.5), "depth": size(3.5)},
            "lining": size(0.5), "cabinets_at": {"tools": [{"x": size(2.5), "z": size(54)}]},
        },
        "shop": {"fit": 0, "wall_allowance": size(0.125)},
    }  # fmt: skip


@pytest.mark.parametrize("pounds", [40.0, 117.0])
def test_twins_in_inches_and_millimetres_have_one_answer(registry, pounds):
    twins = (
        job("in", {"contents_lb": pounds}, lambda inches: inches),
        job("mm", {"contents_kg": pounds * POUND}, lambda inches: f"{inches} in"),
        job("mm", {"contents_kg": pounds * POUND}, lambda inches: inches * INCH),
    )
    plans = [make_plan(read_job(one, registry), registry) for one in twins]
    inch, *others = [plan.mounting[0].result.result for plan in plans]
    assert inch.use > 0.1
    assert inch.hook is not None
    for other in others:
        assert other.use == pytest.approx(inch.use, rel=1e-9)
        assert [one.pull_n for one in other.fasteners] == pytest.approx(
            [one.pull_n for one in inch.fasteners], rel=1e-9
        )
        assert [one.code for one in other.findings] == [one.code for one in inch.findings]
        assert other.likely.use == pytest.approx(inch.likely.use, rel=1e-9)


class RearRail(MountingMethod):
    """A rail behind the back, screwed to the wall from inside through both."""

    id: ClassVar[str] = "rear-rail"
    title: ClassVar[str] = "Rail behind the back"
    options = HangingOptions

    def build(self, request: MountRequest, options: Options) -> MountDesign:
        room, t = request.behind, 18 * MM
        box = Box(room.x0, room.y0, room.z1 - 80 * MM, room.x1, room.y0 + t, room.z1)
        width, height = (Term("clear width", box.x1 - box.x0),), (Term("height", 80 * MM),)
        rail = PartSpec("rail", "strip", "rail", "ply", box, 1, 3, width, height)
        packed, z = request.outside.y1 - box.y1, room.z1 - 40 * MM
        hanging = Hanging(z, request.outside.z0, None, 0, "rail", z, fastener=options["fastener"], packed=packed)
        return MountDesign(Assembly((rail,), (fixed_on(request, rail),)), hanging, cautions=CAUTIONS)


def test_what_a_screw_goes_through_before_its_strip_is_no_grip():
    """3 1/4 in is 82.55 mm, less 6 of back, 18 of rail, 2 behind it and 12.5 of lining: 44.05 mm into the stud."""
    plugin = ModuleType("rear_rail")
    plugin.casewright_mountings = hookimpl(lambda: (RearRail(),))
    registry = load(discover="built-in", extra=[("rear-rail", plugin)])
    one = {
        "units": "mm",
        "materials": {
            "ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18},
            "thin": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 6},
        },
        "cabinets": [
            {
                "id": "tools", "width": 900, "height": 600, "depth": 300,
                "case": {"material": "ply", "back": {"material": "thin", "inset": 20}},
                "mounting": {"method": "rear-rail", "fastener": "screw-10-3-1-4", "contents_kg": 15},
            }
        ],
        "wall": {
            "studs": {"at": [100, 500, 900], "stuff": "spruce-pine-fir"},
            "lining": 12.5, "cabinets_at": {"tools": [{"x": 50, "z": 1400}]},
        },
    }  # fmt: skip
    plan = make_plan(read_job(one, registry), registry)
    capacity = plan.mounting[0].result.result.capacity
    assert capacity.penetration_mm == pytest.approx(44.05)
    assert capacity.gap_mm == pytest.approx(20.5)
    (screws,) = [line for line in plan.hardware if line.used_for == "tools/mounting" and "into studs" in line.words]
    assert {y for _, y, _ in screws.at} == {(300 - 20 - 6) * MM}


@pytest.mark.parametrize(
    ("wall", "code"),
    [
        ({}, "place-unknown"),  # studs are given and no place: the place alone is to be supplied
        ({"studs": None}, "wall-unknown"),
    ],
)
def test_a_cabinet_without_a_place_is_stopped_for_what_the_job_lacks_alone(registry, wall, code):
    document = job("in", {"contents_lb": 40.0}, lambda inches: inches)
    document["wall"] = {key: value for key, value in {**document["wall"], **wall}.items() if value is not None}
    del document["wall"]["cabinets_at"]
    plan = make_plan(read_job(document, registry), registry)
    assert [check.code for check in plan.checks if check.code in {"place-unknown", "wall-unknown"}] == [code]


def message_at(document, registry, code, cabinet):
    """Return what a check says of the first place of a cabinet, None where it says nothing."""
    checks = make_plan(read_job(document, registry), registry).checks
    messages = {check.subject: check.message for check in checks if check.code == code}
    return messages.get(f"/wall/cabinets_at/{cabinet}/0")


@pytest.mark.parametrize(
    ("seed", "subject"), [(30012, "c1"), (30013, "c1"), (30018, "c3"), (30027, "c1"), (30031, "c1")]
)
def test_a_strip_as_thick_or_high_as_a_caution_offers_ends_it(seed, subject):
    """The strip is made so in the job, and planned anew: it weighs more, and its fasteners stand elsewhere."""
    registry, given = load(discover="built-in"), wall_job(seed)

    def gives(written):
        return message_at(written, registry, "strip-gives", subject)

    offered = re.findall(r"([\d /]+ (?:mm|in)) (thick|high)", gives(given))
    assert offered
    for size, way in offered:
        made = copy.deepcopy(given)
        (mounting,) = [one["mounting"] for one in made["cabinets"] if one["id"] == subject]
        if way == "high":
            mounting["height"] = size.strip()
        else:
            made["materials"]["strip"] = made["materials"]["ply"] | {"thickness": size.strip()}
            mounting["material"] = "strip"
        assert gives(made) is None, (size, way)


@pytest.mark.parametrize(("seed", "subject"), [(30001, "c2"), (30004, "c1"), (30006, "c2"), (30012, "c1")])
def test_a_strip_as_high_as_screws_too_close_ask_for_ends_that(seed, subject):
    """In mm and in inches; where more screws are asked for than a low strip takes, for all of them."""
    registry, given = load(discover="built-in"), wall_job(seed)

    def close(written):
        return message_at(written, registry, "screw-spacing", subject)

    (high,) = re.findall(r"Make the strip ([\d /]+ (?:mm|in)) high", close(given))
    (mounting,) = [one["mounting"] for one in given["cabinets"] if one["id"] == subject]
    mounting["height"] = high
    assert close(given) is None
