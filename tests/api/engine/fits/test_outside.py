"""Gaps along the wall, by hand arithmetic (derived)."""

import copy

import pytest
from casewright.sdk.model import FitKind, Verdict


def run_gap(planned, document, places, **wall):
    """Return the one fit along a wall of 3 m with copies of the small cabinet at some places."""
    where = {"cabinets_at": {"bay": places}, "length": 3000, "corners": "both", **wall}
    made = planned({"count": len(places)}, {"corner": {"method": "screwed-butt"}, "back": None}, wall=where)
    (one,) = [fit for fit in made.fits if fit.kind is FitKind.RUN_GAP]
    return one


def test_two_that_touch_and_a_filler_beyond(planned, document):
    # set to a mark, .5; two cases of 800, cut together: 2 x (bottom .2) at one stop, 2 x (2 x .1) of one sheet.
    # the wall is off by what is allowed behind a cabinet, 1/8 in: worst .5 + .4 + .4 + 3.175 = 4.475, and the
    # strip's rip .2; root sqrt(.25 + .16 + .16 + 10.0806 + .04) = 3.26965; more than the filler's 1/32 in
    filler = {"material": "frame"}
    places = [{"x": 1380, "z": 1000}, {"x": 2180, "z": 1000, "fillers": {"right": filler}}]
    one = run_gap(planned, document, copy.deepcopy(places))
    assert one.nominal == 20_000_000
    assert (one.stack.worst / 1e6, one.stack.root / 1e6) == pytest.approx((4.675, 3.26965), abs=1e-5)
    assert one.verdict is Verdict.TAKE_FROM_WORK
    assert len(one.measuring.cut) == 1
    # ripped to the reading: .25 and .2, well within 1/32 in
    assert one.measuring.stack.worst / 1e6 == pytest.approx(0.45, abs=1e-6)
    assert one.measuring.good


def test_a_narrow_gap_between_two(planned, document):
    # each set to a mark of its own, and the first one's width: .5 + .5 + .2 + .2; the gap of 10 stays open
    one = run_gap(planned, document, [{"x": 500, "z": 1000}, {"x": 1310, "z": 1000}])
    assert one.nominal == 10_000_000
    assert one.stack.worst / 1e6 == pytest.approx(1.4, abs=1e-6)
    assert one.verdict is Verdict.HOLDS
