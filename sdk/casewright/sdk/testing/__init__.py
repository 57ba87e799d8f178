"""What a plugin's tests may use: contracts to subclass, strategies that draw jobs, asserts, a client in process.

It needs `hypothesis` and `pytest`, which `casewright[plugin]` brings, and casewright itself installed: the real
planner is found by an entry point.
"""

from casewright.sdk.joinery.halves import halves
from casewright.sdk.testing.assemblies import DoorContract, HouseStyleContract, MountingContract
from casewright.sdk.testing.asserts import (
    assert_cuts_inside,
    assert_dry_fit,
    assert_extras,
    assert_fit,
    assert_outside,
    assert_refusal,
    assert_sums,
)
from casewright.sdk.testing.cures import CureContract, assert_cures
from casewright.sdk.testing.drawing import options_of
from casewright.sdk.testing.joints import BoxContract, JointContract
from casewright.sdk.testing.meetings import a_meeting, meetings
from casewright.sdk.testing.service import client, described, planned, registry_with
from casewright.sdk.testing.strategies import Using, jobs

__all__ = [
    "BoxContract",
    "CureContract",
    "DoorContract",
    "HouseStyleContract",
    "JointContract",
    "MountingContract",
    "Using",
    "a_meeting",
    "assert_cures",
    "assert_cuts_inside",
    "assert_dry_fit",
    "assert_extras",
    "assert_fit",
    "assert_outside",
    "assert_refusal",
    "assert_sums",
    "client",
    "described",
    "halves",
    "jobs",
    "meetings",
    "options_of",
    "planned",
    "registry_with",
]
