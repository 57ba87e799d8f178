"""One wall cleat through notched neighbours: its length, its fasteners, its loads and the work, worked by hand.

Two cases 600 wide side by side from 100 mm, sides 18 mm, backs set in 19 mm; cleats 18 mm thick and 76.2 mm (3 in)
high, 6.35 mm (1/4 in) shorter than the room at a closed end. Birch plywood of 18 mm.
"""

import copy

import pytest
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.sdk.units import MM
from needs import before

STUDS = (300, 1100)
PLACES = {"a": [{"x": 100, "z": 1400}], "b": [{"x": 700, "z": 1400}]}


@pytest.fixture
def pair(document, registry):
    """Return a function that plans the neighbours a and b, with what is given laid over their mountings and wall."""

    def make(a=None, b=None, studs=STUDS, places=PLACES, **wall):
        job = document()
        (bay,) = job["cabinets"]
        bay |= {"width": 600, "height": 700, "depth": 300, "case": {"material": "case", "back": {"inset": 19}}}
        mounting = {"method": "bevel-cleat", "contents_kg": 10, "fastener": "lag-1-4-3"}
        given = {"a": {"through": "right", **(a or {})}, "b": {"through": "left", **(b or {})}}
        job["cabinets"] = [
            {**copy.deepcopy(bay), "id": name, "count": len(places[name]), "mounting": {**mounting, **more}}
            for name, more in given.items()
            if name in places
        ]
        built_wall = wall or {"studs": {"at": list(studs), "stuff": "spruce-pine-fir"}}
        job["wall"] = {"lining": 12.7, **built_wall, "cabinets_at": places}
        return make_plan(read_job(job, registry), registry)

    return make


def cleats(plan):
    return [part for part in plan.parts if part.role == "wall-cleat"]


def assert_one_strip(plan):
    """One strip over both: 1200, less a side of 18 and a play of 6.35 at either end."""
    (strip,) = cleats(plan)
    assert (strip.id, strip.quantity) == ("a/wall-cleat", 1)
    assert strip.length == round((1200 - 2 * (18 + 6.35)) * MM) == sum(term.nm for term in strip.why_length)
    assert strip.place.box(strip.blank).x0 == round((18 + 6.35) * MM)
    (bevel,) = strip.features
    assert {wedge.box.x1 - wedge.box.x0 for wedge in bevel.wedges} == {strip.length}


def test_the_strip_is_one_piece_through_both_notched_sides(pair):
    plan = pair()
    assert_one_strip(plan)
    notches = {part.id: ft for part in plan.parts for ft in part.features if ft.kind == "notch"}
    assert set(notches) == {"a/side-right", "b/side-left"}
    for name, notch in notches.items():
        part = next(one for one in plan.parts if one.id == name)
        (box,) = [part.place.box(box) for box in notch.boxes]
        # From the back's rear face, 281, to the rear edge. The cleat's lower edge stands at 682 - 76.2 + 18 - 76.2 =
        # 547.6 and its top at 623.8; it is hung from 18 + 3.175 higher, with 2 mm of room at both ends.
        assert (box.y0, box.y1) == (281 * MM, 300 * MM)
        assert (box.z0, box.z1) == (round((547.6 - 21.175 - 2) * MM), round(625.8 * MM))
    assert plan.dry_fit.clashes == ()
    hooks = {joint.id: joint.host for joint in plan.joints if joint.kind == "hook"}
    assert set(hooks.values()) == {"a/wall-cleat"}
    assert len(hooks) == 2
    assert not [check for check in plan.checks if check.code in ("parts-not-made", "work-not-shown", "cleat-through")]


def test_a_gap_between_the_cabinets_is_bridged(pair):
    (strip,) = cleats(pair(places={"a": PLACES["a"], "b": [{"x": 703, "z": 1400}]}))
    assert strip.length == round((1203 - 2 * (18 + 6.35)) * MM)
    assert {term.label: term.nm for term in strip.why_length}["gap to b"] == 3 * MM


def test_all_and_each_alone_load_its_fasteners(pair):
    plan = pair()
    a, b = (mounted.result for mounted in plan.mounting)
    assert (a.on_strip, a.cleat, a.has_strip, b.has_strip) == (b.on_strip, "a/wall-cleat", True, False)
    weights = [9.80665 * (weight.mass_kg + 10) for weight in plan.weights]
    # Two equal cabinets stand evenly between studs at 300 and 1100: of both together each of four lags carries a
    # quarter. By itself one hangs 300 mm aside of the middle at 700, and twists the group about it.
    assert [one.down_n for one in a.fasteners] == pytest.approx([sum(weights) / 4] * 4)
    assert a.use == b.use == max(one.use for one in a.fasteners)
    assert [one.at_mm for one in a.fasteners] == [300.0, 300.0, 1100.0, 1100.0]
    (line,) = [line for line in plan.hardware if "into studs" in line.words]
    assert (line.used_for, line.quantity) == ("a/mounting", 4)
    assert sorted({x for x, _, _ in line.at}) == [200 * MM, 1000 * MM]  # in a's own frame, whose left side is at 100


def test_one_cabinet_by_itself_may_be_what_governs(pair):
    plan = pair(a={"contents_kg": 30, "contents_from_left": 50}, b={"contents_kg": 0.1}, studs=(620, 780))
    a, b = (mounted.result for mounted in plan.mounting)
    # Both studs stand far to the right of a's own load, which b's would balance: a alone is worse.
    assert a.use > b.use
    together = sum(9.80665 * weight.mass_kg for weight in plan.weights) + 9.80665 * 30.1
    assert sum(one.down_n for one in a.fasteners) < together


def test_neighbours_hang_by_the_studs_of_one_of_them(pair):
    # Behind b, from 700, stands no stud; alone it would stop.
    alone = pair(a={"through": "none"}, b={"through": "none"}, studs=(300, 600))
    assert [check.subject for check in alone.checks if check.code == "no-stud"] == ["/wall/cabinets_at/b/0"]
    both = pair(studs=(300, 600))
    assert not [check for check in both.checks if check.code == "no-stud"]
    assert both.mounting[1].result.result.caught_studs_mm == (300.0, 600.0)


@pytest.mark.parametrize(
    "given",
    [
        {"b": {"through": "none"}},
        {"b": {"through": "right"}},
        {"b": {"height": 100}},
        {"b": {"per_stud": 1}},
        {"places": {"a": PLACES["a"], "b": [{"x": 800, "z": 1400}]}},
        {"places": {"a": PLACES["a"], "b": [{"x": 700, "z": 1410}]}},
        {"places": {"a": PLACES["a"]}},
    ],
)
def test_a_strip_that_meets_none_like_it_is_a_stop(pair, given):
    stops = [check for check in pair(**given).checks if check.code == "cleat-through"]
    assert {check.level for check in stops} == {"stop"}
    assert "/wall/cabinets_at/a/0" in {check.subject for check in stops}


def test_the_strip_is_screwed_on_before_either_is_hung(pair):
    plan = pair()
    (screwed,) = [step for step in plan.steps if step.stage == "mounting" and "wall cleat of" in step.do]
    assert screwed.do.startswith("Screw the wall cleat of a and b level to the wall")
    assert [(piece.part, piece.count) for piece in screwed.on] == [("a/wall-cleat", 1)]
    hung = [step for step in plan.steps if step.action == "hang"]
    assert [step.do.split()[1] for step in hung] == ["a", "b"]
    for step in hung:
        assert screwed.number in before(plan.steps)[step.number]
        # The screws against lifting go through each cabinet's own back, in its own measure.
        assert (
            "2 × wood screw No. 8 × 1 1/4 in, through the back into the wall cleat against lifting, 75.2 mm" in step.do
        )


def test_copies_make_rows_of_their_own(pair):
    places = {
        "a": [{"x": 100, "z": 1400}, {"x": 2500, "z": 1400}],
        "b": [{"x": 700, "z": 1400}, {"x": 3100, "z": 1400}],
    }
    plan = pair(places=places, studs=(300, 1100, 2700, 3500))
    assert [(part.id, part.quantity) for part in cleats(plan)] == [("a/wall-cleat", 1), ("a/wall-cleat-2", 1)]
    assert not [check for check in plan.checks if check.level == "stop" and check.code in ("cleat-through", "no-stud")]
    screwed = [step for step in plan.steps if step.stage == "mounting" and "wall cleat of" in step.do]
    assert [[piece.part for piece in step.on] for step in screwed] == [["a/wall-cleat"], ["a/wall-cleat-2"]]
    assert "a 1 and b 1" in screwed[0].do
    lags = [line for line in plan.hardware if "into studs" in line.words]
    assert [(line.used_for, line.quantity) for line in lags] == [("a/mounting, place 1", 4), ("a/mounting, place 2", 4)]


def test_masonry_takes_one_row_of_anchors(pair):
    stone = {"tension_n": 2000, "shear_n": 3000, "approval": "approval 12", "anchors": 3, "stand_off": 30}
    plan = pair(masonry=stone)
    (line,) = [line for line in plan.hardware if line.item == "wall-anchor"]
    assert line.quantity == 3
    assert len({check.subject for check in plan.checks if check.code == "one-cleat"}) == 2


def copies(pair, at=(100, 700), **more):
    """Return a plan of copies of one cabinet at places along the wall, both sides notched."""
    places = {"a": [{"x": x, "z": 1400} for x in at]}
    return pair(a={"through": "both", "contents_kg": 6}, places=places, **more)


def test_two_copies_side_by_side_hang_on_one_cleat(pair):
    """Both are notched at both sides; at the outer ones the cleat ends 18 + 6.35 within, as over neighbours."""
    plan = copies(pair)
    assert_one_strip(plan)
    first, second = (mounted.result for mounted in plan.mounting)
    assert first.on_strip == second.on_strip == ("/wall/cabinets_at/a/0", "/wall/cabinets_at/a/1")
    assert (first.has_strip, second.has_strip) == (True, False)
    assert not [check for check in plan.checks if check.level == "stop"]
    (screwed,) = [step for step in plan.steps if step.stage == "mounting" and "wall cleat of" in step.do]
    assert screwed.do.startswith("Screw the wall cleat of a 1 and a 2 level to the wall")
    assert [(line.used_for, line.quantity) for line in plan.hardware if "into studs" in line.words] == [
        ("a/mounting, place 1", 4)
    ]
    assert {part.id: part.quantity for part in plan.parts if any(ft.kind == "notch" for ft in part.features)} == {
        "a/side-left": 2,
        "a/side-right": 2,
    }


def test_a_copy_by_itself_hangs_on_a_cleat_of_its_own(pair):
    """The third stands apart: its cleat is as long as one that runs through nothing, 600 less twice 18 + 6.35."""
    plan = copies(pair, at=(100, 700, 2500), studs=(300, 1100, 2700, 2900))
    assert [(part.id, part.length) for part in cleats(plan)] == [
        ("a/wall-cleat", round((1200 - 2 * (18 + 6.35)) * MM)),
        ("a/wall-cleat-2", round((600 - 2 * (18 + 6.35)) * MM)),
    ]
    assert not [check for check in plan.checks if check.code == "cleat-through"]
    assert {check.subject for check in plan.checks if check.code == "one-cleat"} == {
        "/wall/cabinets_at/a/0",
        "/wall/cabinets_at/a/1",
    }


def test_copies_that_meet_none_are_a_stop(pair):
    plan = copies(pair, at=(100, 2500), studs=(300, 500, 2700, 2900))
    assert [check.subject for check in plan.checks if check.code == "cleat-through"] == [
        "/wall/cabinets_at/a/0",
        "/wall/cabinets_at/a/1",
    ]


def test_pairs_that_hang_on_one_strip_are_no_more_offered_one(pair):
    apart = pair(a={"through": "none"}, b={"through": "none"})
    assert [one.places for one in apart.shared_cleats] == [("/wall/cabinets_at/a/0", "/wall/cabinets_at/b/0")]
    assert pair().shared_cleats == ()
