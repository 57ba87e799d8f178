"""What may be a pane, what stops where a part would be one, and what is said to whoever orders it (common practice)."""

import pytest

GLASS = {"pane": {"kind": "sheet", "stuff": "float-glass", "thickness": 18}}
SLAB = {"style": "slab", "material": "pane", "overlay": 10}


@pytest.mark.parametrize(
    ("cabinet", "case", "code", "subject"),
    [
        ({"space": {"front": "door"}, "doors": SLAB}, {}, "pane-worked", "bay/door-1/slab"),
        ({"space": {"fixed_shelves": 1}}, {"shelf_material": "pane"}, "pane-carries", "bay/shelf-1"),
        ({}, {"back": {"material": "pane", "inset": 10}}, "pane-carries", "bay/back"),
    ],
)
def test_a_part_that_is_cut_or_carries_is_no_pane(planned, codes, cabinet, case, code, subject):
    plan = planned(cabinet, {"back": None, **case}, materials=GLASS)
    assert codes(plan, code) == [("stop", code, subject)]


def test_a_loose_glass_shelf_is_left_to_the_glazier(planned, codes):
    plan = planned({"space": {"loose_shelves": 1}}, {"back": None, "shelf_material": "pane"}, materials=GLASS)
    assert codes(plan, "pane-shelf") == [("caution", "pane-shelf", "bay/loose-shelf-1")]
    assert not codes(plan, "pane-carries")
    assert codes(plan, "pane-order") == [("caution", "pane-order", "/materials/pane")]


def test_stock_of_glass_is_left_alone_and_says_so(planned, codes):
    stock = {"sheets": [{"id": "s", "material": "pane", "length": 1000, "width": 1000}]}
    plan = planned(
        loose_parts=[{"id": "p", "material": "pane", "length": 400, "width": 300}], materials=GLASS, stock=stock
    )
    assert codes(plan, "pane-stock") == [("caution", "pane-stock", "/stock")]
    assert not [one for layout in plan.stock.layouts for one in layout.placed]
