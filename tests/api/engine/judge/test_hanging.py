"""Hanging from the job to the answer: one answer whichever units the job is written in."""

import pytest
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job

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
