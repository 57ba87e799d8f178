"""A construction is a value: each step gives a larger one and leaves the one before as it was."""

from casewright.api.engine.construction.case import build_case, shell_of
from casewright.sdk.model import Finding, HardwareUse


def test_each_stage_returns_a_larger_value_and_changes_none(building):
    empty = building()
    case = build_case(empty, shell_of(empty.context))
    assert (len(empty.drafts), empty.joints) == (0, ())
    assert list(case.drafts) == ["side-left", "side-right", "top", "bottom"]
    before = dict(case.drafts)
    more = case.with_findings("bay", Finding("x", "note", "x")).with_hardware(
        "bay/x", HardwareUse("a", "a", quantity=3)
    )
    assert dict(case.drafts) == before
    assert [check.subject for check in more.checks] == [*(check.subject for check in case.checks), "bay"]


def test_hardware_counts_over_all_cabinets_alike(building):
    built = building({"count": 4}).with_hardware("bay/x", HardwareUse("screw", "screw", quantity=3))
    assert [(line.item, line.quantity) for line in built.hardware] == [("screw", 12)]


def test_parts_are_numbered_on_by_kind(building):
    built = building()
    built = build_case(built, shell_of(built.context))
    assert (built.next_number("side"), built.next_number("shelf")) == (3, 1)
