"""Strips beside cabinets, worked by hand."""

from casewright.sdk.model import total
from needs import before

MM = 1_000_000


def spot(x, z=1400, **fillers):
    return {"x": x, "z": z, "fillers": fillers}


def strips(plan):
    return [p for p in plan.parts if p.group == "fillers"]


def test_a_filler_takes_the_gap_to_the_corner_and_wood_to_scribe(planned):
    filler = {"material": "frame", "scribe": 12}
    made = planned(wall={"cabinets_at": {"bay": [spot(60, left=filler)]}, "corners": "left"})
    (strip,) = strips(made)
    assert (strip.id, strip.role, strip.width, strip.length) == ("bay/filler-left", "strip", 72 * MM, 900 * MM)
    assert [(t.label, t.nm) for t in strip.why_width] == [
        ("gap between wall and bay", 60 * MM),
        ("scribe, cut to the line of what it meets", 12 * MM),
    ]
    assert total(strip.why_length) == strip.length
    assert made.run.gaps[0].fillers == ("bay/filler-left",)
    # The blank lies with its inner edge on the case's side and its face flush with the case's front edges.
    assert strip.place.box(strip.blank)[:3] == (-72 * MM, 0, 0)


def test_two_fillers_in_one_gap_share_it_evenly(planned):
    filler = {"material": "frame"}
    made = planned({"count": 2}, wall={"cabinets_at": {"bay": [spot(0, right=filler), spot(861, left=filler)]}})
    assert [s.width for s in strips(made)] == [61 * MM // 2] * 2
    assert {s.id for s in strips(made)} == {"bay/filler-right-1", "bay/filler-left-2"}


def test_a_filler_wider_than_the_gap_is_a_stop_and_one_too_narrow_a_caution(planned, codes):
    def made(width, scribe=0):
        filler = {"material": "frame", "width": width, "scribe": scribe}
        return planned(wall={"cabinets_at": {"bay": [spot(60, left=filler)]}, "corners": "left"})

    assert codes(made(70), "filler-wide", "filler-narrow") == [
        ("stop", "filler-wide", "/wall/cabinets_at/bay/0/fillers/left")
    ]
    assert codes(made(50), "filler-wide", "filler-narrow") == [
        ("caution", "filler-narrow", "/wall/cabinets_at/bay/0/fillers/left")
    ]
    assert codes(made(50, 10), "filler-wide", "filler-narrow") == []
    assert codes(made(60), "filler-wide", "filler-narrow") == []


def test_without_anything_beside_it_only_a_width_given_can_say(planned, codes):
    unknown = planned(wall={"cabinets_at": {"bay": [spot(60, left={"material": "frame"})]}})
    assert codes(unknown, "filler-width-unknown")[0][0] == "stop"
    assert strips(unknown) == []
    given = planned(wall={"cabinets_at": {"bay": [spot(60, left={"material": "frame", "width": 45})]}})
    assert [s.width for s in strips(given)] == [45 * MM]
    assert [step.parts for step in given.steps if step.stage == "fillers"] == [("bay/filler-left",)]
    assert codes(given, "work-not-carried-out") == []


def test_no_room_is_a_stop(planned, codes):
    made = planned({"count": 2}, wall={"cabinets_at": {"bay": [spot(0, right={"material": "frame"}), spot(800)]}})
    assert codes(made, "filler-no-room")[0][0] == "stop"


def test_a_strip_too_slight_to_work_is_a_caution(planned, codes):
    made = planned(wall={"cabinets_at": {"bay": [spot(8, left={"material": "frame"})]}, "corners": "left"})
    assert codes(made, "filler-slight")[0][0] == "caution"


def test_a_strip_is_cut_with_the_rest_and_fixed_after_its_cabinet_hangs(planned):
    filler = {"material": "frame", "scribe": 12}
    made = planned(wall={"cabinets_at": {"bay": [spot(60, left=filler)]}, "corners": "left"})
    (fix,) = [s for s in made.steps if s.stage == "fillers"]
    assert fix.parts == ("bay/filler-left",)
    assert {"cut", "hang"} <= {step.stage for step in made.steps if step.number in before(made.steps)[fix.number]}
