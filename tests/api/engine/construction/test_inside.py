"""Dividers, tiers and shelves, worked by hand in a case 764 × 864 mm clear (800 − 36, 900 − 36), 18 mm stock."""

from types import ModuleType

import pytest
from casewright.sdk.errors import NoGeometryError
from casewright.sdk.geometry import Box, Wedge
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.methods import Fit, JointMethod
from casewright.sdk.model import Feature, Term
from casewright.sdk.testing import registry_with
from casewright.sdk.units import MM, mm

DOWEL = {"fixed_joint": {"method": "dowel"}, "back": None}
HOUSED = {"fixed_joint": {"method": "housed-groove", "depth": 6}, "back": None}


def box(part):
    return part.place.box(part.blank)


def test_bays_are_alike_from_left_to_right(planned, part_of):
    # (764 − 2 × 18) / 3 = 242.666 666 6…: both dividers stand 242.666 666 from the nearer side.
    plan = planned({"space": {"bays": [{}, {}, {}]}}, DOWEL)
    first, second = box(part_of(plan, "divider-1")), box(part_of(plan, "divider-2"))
    assert first.x0 == mm(18) + 242_666_666
    assert mm(800) - mm(18) - second.x1 == 242_666_666
    assert second.x0 - first.x1 == 242_666_668


def test_parts_of_one_division_are_alike_to_the_nanometre(planned, part_of):
    plan = planned({"space": {"bays": [{"fixed_shelves": 1}, {"fixed_shelves": 1}, {"fixed_shelves": 1}]}}, HOUSED)
    shelves = [part_of(plan, f"shelf-{n}") for n in (1, 2, 3)]
    assert {s.length for s in shelves} == {242_666_666 + 2 * mm(6)}
    middle = {t.label: t.nm for t in shelves[1].why_length}
    assert middle["made alike with others, kept as clearance"] == -2
    assert [j.clearance for j in plan.joints if j.guest.endswith("shelf-2")] == [0, 2]
    assert all(s.seated for s in plan.dry_fit.seats)


def test_tiers_run_from_top_to_bottom(planned, part_of):
    # Top tier 300 clear: its shelf's upper face stands at 882 − 300 = 582.
    plan = planned({"space": {"tiers": [{"size": 300}, {}]}}, DOWEL)
    assert (box(part_of(plan, "shelf-1")).z0, box(part_of(plan, "shelf-1")).z1) == (mm(564), mm(582))


def test_a_bay_sized_by_hand(planned, part_of):
    plan = planned({"space": {"bays": [{"size": 200}, {"share": 2}, {"share": 1}]}}, DOWEL)
    # 764 − 36 − 200 = 528: 352 and 176.
    assert box(part_of(plan, "divider-1")).x0 == mm(218)
    assert box(part_of(plan, "divider-2")).x0 == mm(218 + 18 + 352)


def test_fixed_shelves_leave_equal_rooms(planned, part_of):
    # (864 − 2 × 18) / 3 = 276 clear each.
    plan = planned({"space": {"fixed_shelves": 2}}, DOWEL)
    assert box(part_of(plan, "shelf-1")).z0 == mm(18 + 276)
    assert box(part_of(plan, "shelf-2")).z0 == mm(18 + 276 + 18 + 276)


def test_fixed_shelves_at_given_heights(planned, part_of):
    plan = planned({"space": {"fixed_shelves": [500, 100]}}, DOWEL)
    assert box(part_of(plan, "shelf-1")).z0 == mm(118)
    assert box(part_of(plan, "shelf-2")).z0 == mm(518)


@pytest.mark.parametrize(
    ("heights", "fix"),
    [
        ([0], "less than 846 mm over the floor of its space and more than 0."),  # 864 clear, 18 thick
        ([846], "less than 846 mm over the floor of its space and more than 0."),
        ([900], "less than 846 mm over the floor of its space and more than 0."),
        ([100, 118], "less than 846 mm over the floor of its space and more than 118 mm, where the shelf below ends."),
        ([100, 100], "less than 846 mm over the floor of its space and more than 118 mm, where the shelf below ends."),
        ([835, 840], "There is no room for it over the shelf below: leave it out."),  # which ends at 853
    ],
)
def test_shelves_that_meet_something_are_refused(planned, heights, fix):
    with pytest.raises(NoGeometryError) as caught:
        planned({"space": {"fixed_shelves": heights}}, DOWEL)
    (problem,) = caught.value.problems
    assert problem.pointer == "/cabinets/0/space/fixed_shelves"
    assert problem.fix.endswith(fix)
    assert problem.got == f"a shelf with its underside at {max(heights)} mm"


def test_shelf_depth_setback_and_band(planned, part_of):
    # 320 − 19 inset − 6 back − 25 setback − 1 band = 269.
    plan = planned(
        {"space": {"fixed_shelves": 1}},
        {
            "back": {"material": "thin", "inset": 19, "joint": {"method": "housed-groove"}},
            "shelf_band": "edging",
            "shelf_setback": 25,
        },
    )
    shelf = part_of(plan, "shelf-1")
    assert shelf.width == mm(269)
    (band,) = shelf.bands
    assert (shelf.place.box(band.box).y0, shelf.place.box(band.box).y1) == (mm(25), mm(26))


def test_shelves_clear_inset_doors(planned, part_of):
    # Inset slab 18 thick in a case without frame, 2 stand-off: shelves start 20 behind the front.
    plan = planned(
        {
            "space": {"front": "door", "fixed_shelves": 1},
            "doors": {"style": "slab", "material": "case", "hang": "inset", "gap": 3, "stand_off": 2},
        },
        DOWEL,
    )
    assert part_of(plan, "shelf-1").width == mm(300)
    assert plan.dry_fit.clashes == ()


class Undercut(JointMethod):
    """A tail 8 thick at its root and 5 long, that leans out 1 each side, in a slot with no play but what is given."""

    id, title, does, room = "undercut", "Undercut", frozenset({"tee"}), True

    def fit(self, meeting, options):
        run, t, deep = meeting.run, meeting.guest_thickness, 5 * MM
        play = meeting.spare if self.room else 0
        a, b = 5 * MM, t - 5 * MM
        low, high = a - play, b + play
        flanks = [
            Wedge(Box(0, low - MM, 0, run, low, deep), 1, (2, 3)),
            Wedge(Box(0, high, 0, run, high + MM, deep), 1, (-2, 3)),
        ]
        sides = [
            Wedge(Box(0, a - MM, 0, run, a, deep), 1, (-2, -3)),
            Wedge(Box(0, b, 0, run, b + MM, deep), 1, (2, -3)),
        ]
        cheeks = (Box(0, 0, 0, run, a - MM, deep), Box(0, b + MM, 0, run, t, deep))
        return Fit(
            growth=deep,
            why=(Term("tail", deep),),
            host=(Feature("groove", "slot", -3, boxes=(Box(0, low, 0, run, high, deep),), wedges=tuple(flanks)),),
            guest=(Feature("tenon", "tail", 3, boxes=cheeks, wedges=tuple(sides)),),
            seat=deep,
        )  # fmt: skip


def undercut(room):
    """Return the built-ins and the undercut joint, which leaves room for its meeting's spare or does not."""
    plugin, method = ModuleType("undercut"), type("Under", (Undercut,), {"room": room})()
    plugin.casewright_joint_methods = hookimpl(lambda: [method])
    return registry_with(plugin)


WITH_ROOM, WITHOUT = undercut(True), undercut(False)


@pytest.mark.parametrize("width", [800, 801.000001])
def test_an_undercut_joint_is_given_what_a_division_leaves_over(planned, width):
    # (764 - 2 x 18) / 3 leaves 2 nm over; (765.000 001 - 36) / 3 leaves 1 nm: the middle shelf stands that far off.
    bays = {"width": width, "space": {"bays": [{"fixed_shelves": 1}] * 3}}
    case = {"fixed_joint": {"method": "undercut"}, "back": None}
    plan = planned(bays, case, using=WITH_ROOM)
    assert [j.clearance for j in plan.joints if j.guest.endswith("shelf-2")] == [0, 2 if width == 800 else 1]
    assert plan.dry_fit.clashes == ()
    assert all(s.seated for s in plan.dry_fit.seats)
    drawn_out = planned(bays, case, using=WITHOUT)
    assert [(c.first, c.second) for c in drawn_out.dry_fit.clashes] == [("bay/divider-2", "bay/shelf-2")]


def test_six_bays_with_shelves_are_sound(planned):
    plan = planned({"width": 1803.7, "space": {"bays": [{"fixed_shelves": 2}] * 6}}, HOUSED)
    shelves = [p for p in plan.parts if p.role == "shelf"]
    assert len(shelves) == 12
    assert len({s.length for s in shelves}) == 1
    assert plan.dry_fit.clashes == ()
    assert all(s.seated for s in plan.dry_fit.seats)


def test_bays_within_tiers_within_bays(planned):
    inner = {"tiers": [{"bays": [{}, {}]}, {"fixed_shelves": 1}]}
    plan = planned({"width": 1201.1, "height": 903.3, "space": {"bays": [inner, {"share": 2}, inner]}}, HOUSED)
    assert plan.dry_fit.clashes == ()
    assert all(s.seated for s in plan.dry_fit.seats)
    mirrored = [p for p in plan.parts if p.role in ("shelf", "divider")]
    assert len({p.length for p in mirrored if p.role == "shelf"}) == 1


@pytest.mark.parametrize("entry", [{"size": 5000}, {"size": 764}])
def test_no_room_is_refused(planned, entry):
    with pytest.raises(NoGeometryError) as caught:
        planned({"space": {"bays": [entry, {}]}}, DOWEL)
    assert caught.value.problems[0].pointer.startswith("/cabinets/0/space/bays")


def test_a_divider_in_a_tier_is_as_high_as_its_tier(planned, part_of):
    # Inside 900 − 36 = 864; two tiers with 18 of shelf between them are 423 each, so the other tier and the shelf take
    # 441 of the divider's height. Dowelled: no end enters anything.
    case = {"corner": {"method": "dowel"}, "fixed_joint": {"method": "dowel"}, "back": None}
    plan = planned({"space": {"tiers": [{"bays": [{}, {}]}, {}]}}, case)
    divider = part_of(plan, "divider-1")
    assert divider.length == mm(423)
    assert ("other tiers and shelves", -mm(441)) in {(term.label, term.nm) for term in divider.why_length}
