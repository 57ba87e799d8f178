"""The dry fit finds what is wrong: parts in one another, guests off their seat, webs too thin."""

from dataclasses import replace

import pytest
from casewright.api.engine.construction.case import build_case, shell_of
from casewright.api.engine.judge.dry_fit import dry_fit
from casewright.sdk.loader import Registry
from casewright.sdk.methods import Fit, JointMethod
from casewright.sdk.model import Term
from casewright.sdk.units import mm

HALF = {"fixed_joint": {"method": "housed-groove", "depth": "8.9 mm"}, "back": None}


class Careless(JointMethod):
    """A joint that says one thing and does another: what it does is set on the class."""

    id = "dowel"
    title = "Careless"
    does = frozenset({"corner", "tee"})
    answer = Fit()

    def fit(self, meeting, options):
        return self.answer


def with_tee(registry: Registry, answer: Fit) -> Registry:
    method = Careless()
    method.answer = answer
    return replace(registry, joints={**registry.joints, "dowel": method})


def test_a_sound_cabinet_has_no_clash_and_every_guest_seated(planned):
    plan = planned({"space": {"fixed_shelves": 2}}, {"corner": {"method": "rabbet"}})
    assert plan.dry_fit.clashes == ()
    assert len(plan.dry_fit.seats) == len(plan.joints)
    assert all(s.seated for s in plan.dry_fit.seats)
    n = len(plan.parts)
    assert plan.dry_fit.pairs_checked == n * (n - 1) // 2


def test_a_guest_that_grows_into_uncut_wood_is_a_clash_of_that_size(planned, registry, codes):
    # The shelf enters each side 5 mm over its whole section: 5 × 320 × 18 = 28 800 mm³.
    answer = Fit(growth=mm(5), why=(Term("too long", mm(5)),), seat=mm(5))
    case = {"corner": {"method": "rabbet"}, "fixed_joint": {"method": "dowel"}, "back": None}
    plan = planned({"space": {"fixed_shelves": 1}}, case, using=with_tee(registry, answer))
    assert {c.volume_mm3 for c in plan.dry_fit.clashes} == {28_800.0}
    assert ("stop", "clash", "bay/side-left") in codes(plan)


def test_a_guest_that_falls_short_is_not_seated(planned, registry, codes):
    answer = Fit(growth=-mm(1), why=(Term("too short", -mm(1)),))
    case = {"corner": {"method": "rabbet"}, "fixed_joint": {"method": "dowel"}, "back": None}
    plan = planned({"space": {"fixed_shelves": 1}}, case, using=with_tee(registry, answer))
    assert {s.seated for s in plan.dry_fit.seats if s.joint.startswith("bay/shelf-1")} == {False}
    assert len(codes(plan, "not-seated")) == 2


def test_a_stated_clearance_is_tried_to_the_nanometre(planned, registry):
    case = {"corner": {"method": "rabbet"}, "fixed_joint": {"method": "dowel"}, "back": None}
    for clearance, seated in ((mm(1), True), (mm(1) - 1, False), (mm(1) + 1, False)):
        answer = Fit(growth=-mm(1), why=(Term("short", -mm(1)),), clearance=clearance)
        plan = planned({"space": {"fixed_shelves": 1}}, case, using=with_tee(registry, answer))
        assert {s.seated for s in plan.dry_fit.seats if s.joint.startswith("bay/shelf-1")} == {seated}


# Shelves at one height in two bays: grooves d deep from both sides of an 18 mm divider leave 18 − 2d;
# under a quarter (4.5) is a caution, under 1 mm a stop.
@pytest.mark.parametrize(
    ("depth", "level"),
    [(6, None), ("6.75", None), ("6.76", "caution"), ("8.5", "caution"), ("8.51", "stop"), (9, "stop")],
)
def test_grooves_from_two_sides_leave_a_web(planned, codes, depth, level):
    case = {"fixed_joint": {"method": "housed-groove", "depth": depth}, "back": None}
    plan = planned({"space": {"bays": [{"fixed_shelves": [300]}, {"fixed_shelves": [300]}]}}, case)
    assert [found for found, *_ in codes(plan, "web")] == ([level] if level else [])


def test_grooves_at_different_heights_keep_the_whole_thickness(planned, codes):
    plan = planned({"space": {"bays": [{"fixed_shelves": [300]}, {"fixed_shelves": [318]}]}}, HALF)
    assert codes(plan, "web") == []
    plan = planned({"space": {"bays": [{"fixed_shelves": [300]}, {"fixed_shelves": [317]}]}}, HALF)
    assert [found for found, *_ in codes(plan, "web")] == ["stop"]


def test_an_odd_thickness_does_not_hide_a_missing_web(planned, codes):
    materials = {"case": {"kind": "sheet", "stuff": "birch-plywood", "thickness": "45/64 in"}}
    plan = planned({"space": {"bays": [{"fixed_shelves": 1}, {"fixed_shelves": 1}]}}, HALF, materials=materials)
    assert [found for found, *_ in codes(plan, "web")] == ["stop"]


def test_the_outside_is_measured_over_case_and_frame(planned):
    plan = planned({"face_frame": {"material": "frame"}}, {"back": None})
    assert plan.dry_fit.outside == (("bay", (0, -mm(19), 0), (mm(800), mm(301), mm(900))),)


def test_fitting_again_by_hand_gives_the_same(building):
    empty = building(case={"corner": {"method": "rabbet"}, "back": None})
    built = build_case(empty, shell_of(empty.context))
    fit = dry_fit(built, {f"bay/{key}": draft.solid("bay") for key, draft in built.drafts.items()}, ())
    assert fit.pairs == 6
    assert fit.clashes == ()
    assert all(seat.seated for seat in fit.seats)
