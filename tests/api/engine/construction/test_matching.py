"""Fronts over which the grain runs on: which parts make a row, in which order, and what makes none. By hand."""

import pytest

DOORS = {"style": "slab", "material": "case", "overlay": 8}
DRAWERS = {"material": "case", "bottom": "thin", "front": "case", "overlay": 8}
STACK = {"form": "base", "depth": 500, "drawers": DRAWERS}


def rows(plan):
    """Return the parts of each row in order, and which way of them it runs."""
    found = {}
    for part in plan.parts:
        if part.matched is not None:
            found.setdefault(part.matched.row, {})[part.matched.place] = (part.id, part.matched.way, part.matched.of)
    return {name: [row[place] for place in sorted(row)] for name, row in found.items()}


def test_a_pair_of_doors_is_a_row_from_the_left_across_their_grain(planned):
    plan = planned({"space": {"front": "door-pair", "match": True}, "doors": DOORS})
    assert rows(plan) == {"bay/match-1": [("bay/door-1/slab", "width", 2), ("bay/door-2/slab", "width", 2)]}


def test_a_door_of_several_parts_is_matched_by_its_panel(planned):
    doors = {"style": "cope-and-stick", "material": "frame", "panel": "thin", "overlay": 8}
    plan = planned({"space": {"front": "door-pair", "match": True}, "doors": doors})
    assert [part for part, _, _ in rows(plan)["bay/match-1"]] == ["bay/door-1/panel", "bay/door-2/panel"]


def test_a_stack_of_drawers_is_a_row_from_the_top(planned):
    plan = planned({**STACK, "space": {"front": "drawer", "drawers": 3, "match": True}})
    assert rows(plan) == {"bay/match-1": [(f"bay/drawer-{n}/front", "width", 3) for n in (1, 2, 3)]}


def test_drawers_side_by_side_are_a_row_along_their_grain(planned):
    bays = [{"front": "drawer", "size": 200}, {"front": "drawer"}]
    plan = planned({**STACK, "space": {"bays": bays, "match": True}})
    assert rows(plan) == {"bay/match-1": [("bay/drawer-1/front", "length", 2), ("bay/drawer-2/front", "length", 2)]}


def test_rows_asked_for_one_by_one_are_rows_of_their_own(planned):
    tiers = [{"front": "drawer", "drawers": 2, "size": 300, "match": True}, {"front": "door-pair", "match": True}]
    plan = planned({**STACK, "space": {"tiers": tiers}, "doors": DOORS})
    assert {name: len(row) for name, row in rows(plan).items()} == {"bay/match-1": 2, "bay/match-2": 2}


@pytest.mark.parametrize(
    ("space", "at"),
    [
        ({"match": True}, "/cabinets/0/space/match"),
        ({"front": "drawer", "match": True}, "/cabinets/0/space/match"),
        (
            {"tiers": [{"front": "drawer", "size": 300}, {"front": "door-pair"}], "match": True},
            "/cabinets/0/space/match",
        ),
    ],
)
def test_what_is_no_row_of_one_piece_is_a_stop_that_leaving_it_out_ends(planned, codes, space, at):
    plan = planned({**STACK, "space": space, "doors": DOORS})
    assert codes(plan, "match") == [("stop", "match", "/cabinets/0/space/match")]
    assert rows(plan) == {}
    plan = planned({**STACK, "space": {**space, "match": False}, "doors": DOORS})
    assert codes(plan, "match") == []
