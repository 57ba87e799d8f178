"""A groove that nothing in the shop is narrow enough for; sizes in mm."""

import pytest

CASE = {"corner": {"method": "housed-groove"}, "top_inset": 20, "bottom_inset": 20, "back": None}
STOCK = {"sheets": [{"id": "full", "material": "case", "length": 2440, "width": 1220}]}


@pytest.mark.parametrize(
    ("cutters", "kerf", "stopped"),
    [
        ([20], 3, False),  # the saw's blade, in six passes
        ([20], 19, True),  # 19 and 20 are wider than the groove of 18
        ([6], 19, False),  # three passes
        ([], 19, False),  # none listed: every cutter is there
    ],
)
def test_a_groove_narrower_than_every_cutter_is_a_stop(planned, cutters, kerf, stopped):
    """The case is 18 thick and the fit 0, so its grooves are 18 wide."""
    plan = planned({}, CASE, shop={"groove_cutters": cutters}, stock={**STOCK, "kerf": kerf})
    levels = {check.subject: check.level for check in plan.checks if check.code == "no-cutter"}
    assert levels == ({"bay/side-left": "stop", "bay/side-right": "stop"} if stopped else {})


def test_without_stock_the_blade_is_not_known(planned):
    plan = planned({}, CASE, shop={"groove_cutters": [20]})
    assert all(check.code != "no-cutter" for check in plan.checks)
