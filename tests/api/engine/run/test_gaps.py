"""Neighbours along a wall, worked by hand: overlaps, gaps, shared stiles and ends that show."""

MM = 1_000_000


def at(*places, **wall):
    return {"wall": {"cabinets_at": {"bay": [{"x": x, "z": 1400} for x in places]}, **wall}}


def gaps(plan):
    return [(g.left, g.right, g.size / MM) for g in plan.run.gaps]


def test_gaps_are_what_is_left_between_cabinets_and_to_the_corners(planned):
    # Cabinets 800 wide at 100 and 950 on a wall of 2000 with both corners: 100, 50 and 250 are left.
    made = planned({"count": 2}, **at(100, 950, length=2000, corners="both"))
    assert gaps(made) == [("wall", "bay 1", 100), ("bay 1", "bay 2", 50), ("bay 2", "wall", 250)]


def test_without_corners_the_wall_ends_are_no_gaps(planned):
    assert gaps(planned({"count": 2}, **at(100, 950, length=2000))) == [("bay 1", "bay 2", 50)]


def test_overlapping_cabinets_are_a_stop_that_says_by_how_much(planned):
    made = planned({"count": 2}, **at(0, 790))
    (check,) = [c for c in made.checks if c.code == "cabinets-overlap"]
    assert (check.level, check.subject, check.value) == ("stop", "/wall/cabinets_at/bay/1", 10 * MM)
    assert gaps(made) == [("bay 1", "bay 2", -10)]


def test_cabinets_one_over_another_are_no_neighbours(planned, codes):
    made = planned({"count": 2}, wall={"cabinets_at": {"bay": [{"x": 0, "z": 1400}, {"x": 0, "z": 2300}]}})
    assert made.run.gaps == ()
    assert codes(made, "cabinets-overlap") == []


def test_face_frames_that_stand_past_their_cases_are_counted(planned):
    # Width 800 is over the frame: 5 mm past the case at each side. x is to the case's side, so 810 apart leaves 10.
    frame = {"count": 2, "face_frame": {"material": "frame", "overhang": 5}}
    assert gaps(planned(frame, **at(5, 815))) == [("bay 1", "bay 2", 10)]
    assert gaps(planned(frame, **at(5, 805))) == [("bay 1", "bay 2", 0)]


def test_a_gap_too_small_to_scribe_is_a_caution_and_a_wide_one_is_not(planned, codes):
    assert codes(planned({"count": 2}, **at(0, 806)), "gap-too-small") == [
        ("caution", "gap-too-small", "/wall/cabinets_at/bay/0")
    ]
    for apart in (800, 830):
        assert codes(planned({"count": 2}, **at(0, apart)), "gap-too-small") == []


def test_stiles_side_by_side_could_be_one(planned):
    frame = {"count": 2, "face_frame": {"material": "frame", "stile": 40}}
    (check,) = [c for c in planned(frame, **at(0, 800)).checks if c.code == "stile-could-be-shared"]
    assert (check.level, check.value) == ("note", 80 * MM)


def test_ends_that_show_are_told_and_those_between_neighbours_are_not(planned, codes):
    made = planned({"count": 2}, **at(0, 800))
    shown = [c for c in made.checks if c.code == "end-shows"]
    assert sorted(c.subject for c in shown) == ["/cabinets/0/ends/left", "/cabinets/0/ends/right"]
    assert ["bay 1" in c.message for c in shown if c.subject.endswith("left")] == [True]
    in_corner = planned({"ends": {"right": "open"}}, **at(0, length=3000, corners="left"))
    assert codes(in_corner, "end-shows") == []


def test_a_finished_end_that_nobody_will_see_is_told(planned, codes):
    ends = {"count": 2, "ends": {"left": "finished", "right": "open", "material": "case"}}
    # The panel is 18 mm thick, so the second case stands 818 from the first.
    made = planned(ends, **at(18, 836))
    assert codes(made, "end-covered") == [("note", "end-covered", "/cabinets/0/ends/left")]


def test_a_gap_that_nothing_is_cut_for_is_still_said_to_be_taken_from_the_work(planned, codes):
    """2.2 mm to the corner is less than a place marked may be off (common practice), and no strip closes it."""
    made = planned(**at("2.2", corners="left"))
    (fit,) = [fit for fit in made.fits if fit.kind == "run-gap"]
    assert fit.measuring is not None
    assert fit.measuring.sizes == ()
    assert codes(made, "fit-from-the-work")
