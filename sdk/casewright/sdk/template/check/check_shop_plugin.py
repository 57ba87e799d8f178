"""The check finds what it is for, and nothing else."""

from casewright.sdk.testing import planned, registry_with

import shop_plugin


def test_a_long_part_is_found() -> None:
    """Of two loose parts the one over 2 m is cautioned."""
    job = {
        "units": "mm",
        "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
        "loose_parts": [
            {"id": "long", "material": "ply", "length": 2100, "width": 300},
            {"id": "short", "material": "ply", "length": 1900, "width": 300},
        ],
    }
    plan = planned(job, registry_with(shop_plugin))
    assert [check.subject for check in plan.checks if check.code == "shop-plugin"] == ["loose/long"]
