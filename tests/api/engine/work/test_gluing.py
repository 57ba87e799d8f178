"""What holds a joint is let in before it closes, or driven once it has."""

import pytest
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.sdk.model import Action


@pytest.mark.parametrize(
    ("joint", "words"),
    [("dowel", "put 4 × dowel 8 × 35 mm between"), ("pocket-screw", "once home, drive 4 × wood screw No. 8")],
)
def test_dowels_lie_between_and_screws_are_driven_after(registry, joint, words):
    """Two to a rail's end as both methods do at this width, two ends to a stile; a screw in between holds nothing."""
    job = {
        "units": "mm",
        "materials": {
            "ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18},
            "oak": {"kind": "board", "stuff": "red-oak", "thickness": 20},
        },
        "cabinets": [
            {
                "id": "bay", "width": 450, "height": 600, "depth": 300, "case": {"material": "ply"},
                "face_frame": {"material": "oak", "joint": {"method": joint}},
            }
        ],
    }  # fmt: skip
    plan = make_plan(read_job(job, registry), registry)
    (last,) = [
        step.do for step in plan.steps if step.action is Action.INSERT and step.do.startswith("Set the left frame")
    ]
    assert words in last
    assert ("between" in last) == ("put" in words)
