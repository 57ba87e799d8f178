"""What a mounting is told about its cabinet, and what it leaves in the plan. Worked by hand, 18 mm stock."""

from dataclasses import replace
from types import MappingProxyType

import pytest
from casewright.sdk.geometry import Box
from casewright.sdk.methods import Hanging, MountDesign, MountingMethod
from casewright.sdk.model import Assembly
from casewright.sdk.mountings import CAUTIONS
from casewright.sdk.units import mm

HUNG = {"mounting": {"method": "screw-strip", "contents_kg": 10}}


@pytest.fixture
def mount_request(planned, registry):
    """Return a function that gives the request a mounting method is asked with."""

    def ask(cabinet=None, case=None):
        seen = []

        def build(self, request, options):
            seen.append(request)
            return MountDesign(Assembly(()), Hanging(0, 0, None, 0, None, 0), cautions=CAUTIONS)

        method = type("Asking", (MountingMethod,), {"id": "screw-strip", "title": "Asking", "build": build})()
        using = replace(registry, mountings=MappingProxyType({"screw-strip": method}))
        plan = planned({**HUNG, **(cabinet or {})}, case, using=using)
        return seen[0], plan

    return ask


def test_the_request_is_the_case_without_frame(mount_request):
    # Captured back 6 thick, inset 19: inside up to 320 − 19 − 19 − 6 = 276, behind it from 282 to 301.
    case = {
        "corner": {"method": "housed-groove", "depth": 6},
        "top_inset": 20,
        "bottom_inset": 30,
        "back": {"material": "thin", "inset": 19, "joint": {"method": "housed-groove"}},
    }
    request, _ = mount_request({"face_frame": {"material": "frame", "overhang": 4}}, case)
    assert request.outside == Box(0, 0, 0, mm(792), mm(301), mm(900))
    assert request.inside == Box(mm(18), 0, mm(48), mm(774), mm(276), mm(862))
    assert request.behind == Box(mm(18), mm(282), mm(48), mm(774), mm(301), mm(862))
    assert (request.top.z0, request.top.z1) == (mm(862), mm(880))
    assert request.case_material is not None
    assert request.case_material.key == "case"


def test_a_flush_back_leaves_no_room_behind(mount_request):
    request, _ = mount_request(case={"back": {"material": "thin", "inset": 0, "joint": {"method": "rabbet"}}})
    assert request.behind.y0 == request.behind.y1 == mm(320)
    request, _ = mount_request(case={"back": None})
    assert request.back is None


def test_clear_rooms_are_told_between_dividers(mount_request):
    case = {"fixed_joint": {"method": "dowel"}, "back": None}
    request, _ = mount_request({"space": {"bays": [{"size": 200}, {}]}}, case)
    assert [(b.x0, b.x1) for b in request.under_top] == [(mm(18), mm(218)), (mm(236), mm(782))]


def test_a_mounting_without_a_wall_strip_is_a_stop_and_no_crash(mount_request):
    _, plan = mount_request()
    assert ("stop", "strip-unknown") in {(c.level, c.code) for c in plan.checks}


@pytest.mark.parametrize("method", ["bevel-cleat", "screw-strip"])
@pytest.mark.parametrize("space", [{}, {"bays": [{}, {}, {}]}, {"tiers": [{"size": 90}, {}]}])
def test_mountings_clear_everything(planned, method, space):
    back = {"material": "case", "inset": "3/4 in", "joint": {"method": "housed-groove"}}
    plan = planned({"space": space, "mounting": {"method": method, "contents_kg": 10}}, {"back": back})
    assert plan.dry_fit.clashes == ()
    assert all(s.seated for s in plan.dry_fit.seats)
    assert plan.mounting


def test_a_face_frame_does_not_move_the_wall(planned):
    # Same case depth with and without a 19 mm frame: the load's distance from the wall may change only by the
    # frame's own mass, a few millimetres, not by its thickness on top.
    def out(cabinet):
        plan = planned({"mounting": {"method": "screw-strip", "contents_kg": 40}, **cabinet}, {"back": None})
        return plan.mounting[0].result.case.centre_out_mm

    bare = out({"depth": 301})
    framed = out({"depth": 320, "face_frame": {"material": "frame"}})
    assert framed - bare == pytest.approx(0, abs=12)
