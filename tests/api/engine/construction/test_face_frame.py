"""The face frame, worked by hand: 1 1/2 in (38.1 mm) members unless said; 19 mm oak on an 800 × 900 case."""

import pytest
from casewright.sdk.errors import NoGeometryError
from casewright.sdk.units import mm

W = mm("38.1")
SHALLOW = {"fixed_joint": {"method": "dowel"}, "back": None}


def box(part):
    return part.place.box(part.blank)


def test_stiles_run_the_full_height_and_rails_between_them(planned, part_of):
    plan = planned({"face_frame": {"material": "frame"}}, SHALLOW)
    left, rail = part_of(plan, "frame-stile-left"), part_of(plan, "frame-rail-top")
    assert (left.length, left.width, left.thickness) == (mm(900), W, mm(19))
    assert (rail.length, rail.width) == (mm(800) - 2 * W, W)
    assert box(left).y1 == 0
    assert box(rail).z1 == mm(900)


def test_an_overhang_stands_past_the_case_at_both_sides(planned, part_of):
    plan = planned({"face_frame": {"material": "frame", "overhang": 6}}, SHALLOW)
    assert box(part_of(plan, "frame-stile-left")).x0 == -mm(6)
    assert box(part_of(plan, "frame-stile-right")).x1 == mm(800 - 6)
    assert part_of(plan, "frame-rail-top").length == mm(800) - 2 * W
    assert plan.dry_fit.outside[0][1:] == ((-mm(6), -mm(19), 0), (mm(794), mm(301), mm(900)))


def test_members_stand_over_what_divides_the_inside(planned, part_of):
    # Divider 18 thick from 391 to 409; a 38.1 stile in its middle starts at 391 + (18 − 38.1) / 2 = 380.95.
    plan = planned({"space": {"bays": [{}, {"tiers": [{}, {}]}]}, "face_frame": {"material": "frame"}}, SHALLOW)
    mid = part_of(plan, "frame-mid-stile-1")
    assert (box(mid).x0, box(mid).x1) == (mm("380.95"), mm("419.05"))
    assert mid.length == mm(900) - 2 * W
    rail, shelf = part_of(plan, "frame-mid-rail-1"), part_of(plan, "shelf-1")
    assert box(rail).z1 == box(shelf).z1
    assert box(rail).x0 == mm("419.05")
    hosts = {j.host.split("/")[1] for j in plan.joints if j.guest == rail.id}
    assert hosts == {"frame-mid-stile-1", "frame-stile-right"}


def test_equal_members_are_alike_to_the_nanometre(planned):
    space = {"bays": [{"tiers": [{}, {}]}, {"tiers": [{}, {}]}, {"tiers": [{}, {}]}]}
    plan = planned({"width": "899.999999", "space": space, "face_frame": {"material": "frame"}}, SHALLOW)
    rails = [p for p in plan.parts if "mid-rail" in p.id]
    assert len(rails) == 3
    assert len({r.length for r in rails if r.id != rails[1].id}) == 1
    assert plan.dry_fit.clashes == ()
    assert all(s.seated for s in plan.dry_fit.seats)


def test_mortises_from_both_sides_of_a_mid_stile_leave_wood(planned, codes):
    # Two loose tenons at one height in a stile of 1 1/2 in, 96 sixty-fourths: each goes at most nine twentieths into
    # it, 43.2 of them, and so 43: ten are left.
    space = {"bays": [{"tiers": [{}, {}]}, {"tiers": [{}, {}]}]}
    plan = planned({"width": 900, "space": space, "face_frame": {"material": "frame"}}, SHALLOW)
    assert ("caution", "web", "bay/frame-mid-stile-1") in codes(plan, "web")
    web = next(c.value for c in plan.checks if c.code == "web" and c.subject == "bay/frame-mid-stile-1")
    assert web == mm("25.4") * 10 // 64


def test_a_rail_that_leaves_the_case_edge_bare_is_told(planned, codes):
    plan = planned(
        {"face_frame": {"material": "frame", "rail": 30}}, {**SHALLOW, "top_inset": 13, "corner": {"method": "dowel"}}
    )
    assert codes(plan, "frame-covers-edge") == [("caution", "frame-covers-edge", "bay/top")]


def test_a_stile_that_leaves_a_sides_edge_bare_is_told(planned, codes):
    # 18 of side and 4 of overhang need 22 of stile.
    for stile, named in ((22, []), ("21.9", ["bay/side-left", "bay/side-right"])):
        plan = planned({"face_frame": {"material": "frame", "stile": stile, "overhang": 4}}, SHALLOW)
        assert [at for _, _, at in codes(plan, "frame-covers-edge")] == named


@pytest.mark.parametrize(
    ("frame", "space", "pointer"),
    [
        ({"stile": 400}, {}, "/face_frame/stile"),
        ({"rail": 450}, {}, "/face_frame/rail"),
        ({"mid_stile": 750}, {"bays": [{}, {}]}, "/face_frame"),
    ],
)
def test_a_frame_without_opening_is_refused(planned, frame, space, pointer):
    with pytest.raises(NoGeometryError) as caught:
        planned({"space": space, "face_frame": {"material": "frame", **frame}}, SHALLOW)
    assert caught.value.problems[0].pointer == f"/cabinets/0{pointer}"
