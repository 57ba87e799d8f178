"""Spaces as they are read: bays from the left, tiers from the top, leaves with fronts; expected values by hand."""

from typing import Any

import pytest
from casewright.api.job.problems import Findings
from casewright.api.job.schema import job_schemas
from casewright.api.job.schema.pieces import SpaceEntry
from casewright.api.job.space_builder import build_space
from casewright.sdk.loader import load
from casewright.sdk.model import Overlays, Space

SCHEMAS = job_schemas(load(discover="built-in"))


def built(values: dict[str, Any]) -> tuple[Space, list[str]]:
    findings = Findings()
    reader = SCHEMAS.of(SpaceEntry)
    space = build_space(reader, findings, reader.read(values, "/space", findings), "/space")
    assert not findings.schema
    return space, [problem.pointer for problem in findings.beyond]


def test_bays_and_tiers_are_divided_down_to_their_leaves() -> None:
    space, wrong = built({"bays": [{"size": 300}, {"share": 2, "tiers": [{"front": "door"}, {"fixed_shelves": 3}]}]})
    assert wrong == []
    assert (space.division, [part.size for part in space.parts]) == ("bays", [300_000_000, None])
    right = space.parts[1]
    assert (right.share, right.division, right.pointer) == (2, "tiers", "/space/bays/1")
    assert [(leaf.front, leaf.fixed_count) for leaf in right.parts] == [("door", 0), ("open", 3)]


def test_a_list_of_heights_counts_its_shelves() -> None:
    space, _ = built({"fixed_shelves": [200, 400]})
    assert (space.fixed_count, space.fixed_heights) == (2, (200_000_000, 400_000_000))


@pytest.mark.parametrize(
    ("values", "pointer"),
    [
        ({"front": "drawer", "overlays": {"left": 5}}, "/space/overlays"),
        ({"bays": [{}], "front": "door"}, "/space"),
        ({"bays": [{}], "tiers": [{}]}, "/space"),
        ({"bays": [{"size": 300, "share": 2}]}, "/space/bays/0/share"),
    ],
)
def test_what_does_not_go_together_is_noted(values: dict[str, Any], pointer: str) -> None:
    assert built(values)[1] == [pointer]


def test_divisions_end_at_their_greatest_depth() -> None:
    values: dict[str, Any] = {"front": "door"}
    for _ in range(9):
        values = {"bays": [values]}
    assert built(values)[1] == ["/space" + "/bays/0" * 9]


def test_overlays_of_its_edges_are_read_and_the_others_left_open() -> None:
    space, wrong = built({"front": "door", "overlays": {"left": 16, "top": "1/2 in"}})
    assert wrong == []
    assert space.overlays == Overlays(left=16_000_000, top=12_700_000)
