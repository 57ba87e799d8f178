"""Costs by the shop's rates, worked by hand in decimals."""

from dataclasses import replace
from decimal import Decimal

import pytest
from casewright.api.engine import make_plan
from casewright.api.engine.work.costs import cost_of, hardware_totals, rounded
from casewright.api.job.document import read_job
from casewright.sdk.model import HardwareLine
from casewright.sdk.model.parts import Purpose
from casewright.sdk.model.rates import TIMED_WORK
from hypothesis import given
from hypothesis import strategies as st

BARE = {"corner": {"method": "dowel"}, "back": None, "case_band": "edging"}


def lines(plan, kind=None):
    return {line.item: line for line in plan.costs.lines if kind in (None, line.kind)}


@pytest.mark.parametrize("more", [{}, {"rates": {}}])
def test_without_rates_every_line_says_that_none_is_given(planned, more):
    costs = planned(**more).costs
    assert (costs.materials, costs.work, costs.total) == (None, None, None)  # nothing, not nought
    assert costs.lines
    assert costs.missing == len(costs.lines)
    assert all(line.amount is None and line.note for line in costs.lines)
    assert {line.note for line in costs.lines if line.kind == "hardware"} <= {"no rate given"}
    assert {line.note for line in costs.lines if line.kind == "work"} == {"no time given"}


def test_work_by_the_hour(planned):
    rates = {"hour": 42.5, "minutes": {"hang": 25, "joint": 1.5}}
    cabinet = {"count": 3, "mounting": {"method": "screw-strip", "contents_kg": 5}}
    made = planned(cabinet, {"back": {"inset": 19}}, rates=rates)
    work = lines(made, "work")
    # 3 cabinets x 25 min = 1.25 h at 42.50
    assert (work["hang"].quantity, work["hang"].hours, work["hang"].amount) == (3, Decimal("1.25"), Decimal("53.13"))
    joints = 3 * len(made.joints)
    assert work["joint"].quantity == joints
    assert work["joint"].amount == rounded(Decimal(joints) * Decimal("1.5") * Decimal("42.5") / 60, 2)
    assert made.costs.work == work["hang"].amount + work["joint"].amount
    assert made.costs.hours == rounded((Decimal(75) + joints * Decimal("1.5")) / 60, 4)


def test_hardware_by_the_piece_over_all_cabinets(planned):
    cabinet, case = {"count": 3, "space": {"loose_shelves": 2}}, {"back": {"inset": 19}}
    made = planned(cabinet, case)
    item = made.hardware[0].item
    count = sum(line.quantity for line in made.hardware if line.item == item)
    assert count % 3 == 0
    priced = planned(cabinet, case, rates={"hardware": {item: 0.035}})
    line = lines(priced, "hardware")[item]
    assert (line.quantity, line.rate, line.amount) == (count, Decimal("0.035"), rounded(count * Decimal("0.035"), 2))


def test_what_is_ordered_by_another_name_is_counted_by_itself_and_commas_are_part_of_a_name(planned):
    """Hinges of two arms under one id are two orders; one screw that goes to two places is one."""
    hinge, screw = "hinge, steel, 110°, steel", "screw No. 6, steel"
    rows = [
        ("cup", f"{hinge}, straight arm", "a/door-1", 2, ""),
        ("screw", screw, "a/door-1 screws", 4, "in cups"),
        ("cup", f"{hinge}, cranked arm", "b/door-1", 3, ""),
        ("screw", screw, "b/door-1 screws", 6, "in plates, long"),
        ("cup", f"{hinge}, straight arm", "c/door-1", 2, ""),
        ("screw", screw, "c/door-1 screws", 4, "in cups"),
    ]
    hardware = [HardwareLine(item, name, used[0], used, count, (), where) for item, name, used, count, where in rows]
    assert hardware_totals(replace(planned(), hardware=tuple(hardware))) == [
        ("cup", f"{hinge}, cranked arm", 3),
        ("cup", f"{hinge}, straight arm", 4),
        ("screw", f"{screw}, in cups, in plates, long", 14),
    ]


def test_screws_of_hinges_and_runners_are_one_order_that_names_both_places(planned):
    """A door of two hinges takes two screws a plate, a drawer's runners one a hole that is drilled for them."""
    space = {"tiers": [{"front": "door", "size": 500}, {"front": "drawer"}]}
    doors = {"style": "slab", "material": "case", "overlay": 10, "hinges": 2}
    made = planned({"space": space, "doors": doors, "drawers": {"bottom": "thin"}}, {"back": None})
    (screws,) = [one for one in hardware_totals(made) if one.item == "system-screw-6-13"]
    runners = [h for part in made.parts for f in part.features if f.purpose is Purpose.RUNNER for h in f.holes]
    assert screws.quantity == 2 * 2 + len(runners)
    assert set(screws.words.split(", ")[1:]) == {"in hinge plates", "in runners"}


def test_band_by_the_metre(planned):
    # Front edges: two sides of 900 mm, top and bottom of 800 - 2 x 18 = 764 mm: 3.328 m a cabinet, two cabinets.
    made = planned({"count": 2}, BARE, rates={"band_per_m": {"edging": 0.35}, "minutes": {"band": 2}, "hour": 30})
    band = lines(made, "band")["edging"]
    assert (band.quantity, band.rate, band.amount) == (Decimal("6.656"), Decimal("0.35"), Decimal("2.33"))
    assert lines(made, "work")["band"].amount == Decimal("6.66")  # 6.656 m x 2 min at 30 an hour


def test_sheets_at_their_own_cost_and_offcuts_for_nothing(planned):
    stock = {
        "sheets": [{"id": "full", "material": "case", "length": 2440, "width": 1220, "cost": 61.1}],
        "effort": 1,
    }
    made = planned({"count": 2}, {"corner": {"method": "dowel"}, "back": None}, stock=stock, rates={})
    (bought,) = made.stock.buy
    full = lines(made, "stock")["full"]
    assert (full.quantity, full.amount) == (bought.quantity, bought.quantity * Decimal("61.1"))
    cuts = [cut for layout in made.stock.layouts for cut in layout.cuts]
    work = lines(made, "work")
    assert work["rip"].quantity + work["crosscut"].quantity == len(cuts)


def test_a_price_finer_than_the_minor_unit_is_multiplied_before_it_is_rounded(planned):
    """Two sheets at 61.105 are 122.21; rounded first, at 61.11 each, they would be 122.22."""
    sheet = {"id": "half", "material": "case", "length": 950, "width": 700, "cost": 61.105}
    made = planned({"count": 1}, {"corner": {"method": "dowel"}, "back": None}, stock={"sheets": [sheet]}, rates={})
    # two sides 900 x 320 fill one sheet, top and bottom of 764 x 320 another
    line = lines(made, "stock")["half"]
    assert (line.quantity, line.rate, line.amount) == (2, Decimal("61.105"), Decimal("122.21"))
    assert made.costs.materials == Decimal("122.21")


def test_material_without_stock_is_told_by_its_net_area(planned):
    made = planned(case={"corner": {"method": "dowel"}, "back": None}, rates={})
    # two sides 900 x 320, top and bottom 764 x 320
    area = lines(made, "stock")["case"]
    assert area.quantity == Decimal("1.0650")  # 0.576 + 0.48896 = 1.06496 m2
    assert area.note == "no stock given to cut it from"


def test_coats_multiply_finish_and_its_work(planned):
    one = planned(rates={"finish_per_m2": 4})
    three = planned(rates={"finish_per_m2": 4, "coats": 3})
    assert lines(three, "finish")["finish"].quantity == 3 * lines(one, "finish")["finish"].quantity
    assert lines(three, "work")["finish"].quantity == 3 * lines(one, "work")["finish"].quantity


def test_fillers_are_scribed_and_finished(planned):
    spot = {"x": 60, "z": 1400, "fillers": {"left": {"material": "frame"}}}
    made = planned(wall={"cabinets_at": {"bay": [spot]}, "corners": "left"}, rates={"finish_per_m2": 1})
    assert lines(made, "work")["filler"].quantity == 1
    # 900 x 60 x 19 mm: 2 (0.054 + 0.00114 + 0.0171) m2
    bare = planned(rates={"finish_per_m2": 1})
    more = lines(made, "finish")["finish"].quantity - lines(bare, "finish")["finish"].quantity
    assert more == pytest.approx(Decimal("0.14448"), abs=Decimal("0.0001"))


def test_money_is_taken_as_written_and_halves_are_rounded_up():
    assert rounded(Decimal("1.005"), 2) == Decimal("1.01")  # as a float, 1.005 is less and would go to 1.00
    assert rounded(Decimal("2.675"), 2) == Decimal("2.68")
    assert rounded(Decimal("1234.5"), 0) == Decimal("1235")


@given(st.lists(st.integers(0, 99_999), min_size=1, max_size=5), st.sampled_from([0, 2, 3]))
def test_totals_are_the_sums_of_the_amounts_shown(planned_with, prices, decimals):
    rates = {"decimals": decimals, "hour": prices[0] / 100, "glue_per_kg": prices[-1] / 100,
             "minutes": {kind: prices[i % len(prices)] / 1000 for i, kind in enumerate(TIMED_WORK)}}  # fmt: skip
    costs = planned_with(rates).costs
    for kind, total in (("work", costs.work), ("materials", costs.materials)):
        mine = [line.amount for line in costs.lines if (line.kind == "work") == (kind == "work")]
        assert sum((a for a in mine if a is not None), Decimal(0)) == total
    for line in costs.lines:
        if line.amount is not None:
            assert -line.amount.as_tuple().exponent == decimals
    assert costs.total == costs.work + costs.materials


@pytest.fixture(scope="session")
def planned_with(registry):
    """Return a function that plans one small cabinet by rates, planned once for all of them."""
    from_rates = {
        "units": "mm",
        "materials": {"case": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
        "cabinets": [{"id": "bay", "width": 800, "height": 900, "depth": 320, "case": {"material": "case"}}],
    }
    plan = make_plan(read_job(from_rates, registry), registry)

    def make(rates):
        job = read_job({**from_rates, "rates": rates}, registry)
        return replace(plan, job=job, costs=cost_of(replace(plan, job=job), registry))

    return make


def test_lines_of_a_job_in_inches_are_in_its_units_unless_a_rate_counts_them(planned, registry):
    """A square foot is 0.09290304 m2, a foot 0.3048 m and a pound 0.45359237 kg (NIST SP 811), to four decimals."""

    def in_inches(**top):
        made = planned(case=BARE, **top)
        costs = cost_of(replace(made, job=replace(made.job, units="in")), registry)
        return {line.kind: line for line in made.costs.lines}, {line.kind: line for line in costs.lines}

    metric, inch = in_inches()
    for kind, unit, each in (("finish", "sq ft", 0.09290304), ("glue", "lb", 0.45359237), ("band", "ft", 0.3048)):
        assert inch[kind].unit == unit
        assert float(inch[kind].quantity) * each == pytest.approx(float(metric[kind].quantity), abs=each * 5.1e-5)
    metric, inch = in_inches(rates={"finish_per_m2": 4})
    assert inch["finish"] == metric["finish"]
