"""Words of insertions: into what, over what, where from, where the glue goes."""

from casewright.api.engine.work.setting_in import in_order, merged
from casewright.api.engine.work.together import put_together

CAPTURED = {
    "corner": {"method": "housed-groove", "depth": 6},
    "top_inset": 20,
    "bottom_inset": 20,
    "back": {"material": "case", "inset": 19, "joint": {"method": "housed-groove"}},
    "fixed_joint": {"method": "housed-groove", "depth": 5},
}
TWO_SHELVES = {"space": {"fixed_shelves": 2}}
DOORS = {"space": {"front": "door"}, "doors": {"style": "cope-and-stick", "material": "frame", "panel": "thin"}}


def set_in(plan, stage):
    return [step.do for step in plan.steps if step.stage == stage and step.action == "insert"]


def test_a_case_in_grooves_reads_as_one_would_say_it(planned):
    # Worked out on paper: lying on its back, bottom and top, one side, then shelves, then the other side closes all.
    assert set_in(planned(TWO_SHELVES, CAPTURED), "glue") == [
        "Lay the back down, front face up, on strips 19.0 mm thick, then set the bottom over the back, which goes into "
        "its groove, from the bottom; glue where it goes in",
        "Set the top over the back, which goes into its groove, from the top; glue where it goes in",
        "Set the right side over the top, the bottom and the back, which go into its grooves, from the right; glue "
        "where they go in",
        "Set shelf 2 and shelf 1 into the grooves of the right side, from the left, one after another; glue on each "
        "one's right end",
        "Set the left side over the top, the bottom, shelf 1, shelf 2 and the back, which go into its grooves, from "
        "the left; glue where they go in",
    ]


def test_what_screws_hold_stands_against_its_neighbour_and_they_are_driven_when_the_glue_is_on(planned):
    # Two screws an end from the outside (a screwed butt has no room that the end goes into).
    words = set_in(planned({}, {"corner": {"method": "screwed-butt", "count": 2}, "back": None}), "glue")
    assert words[0].startswith("Set the bottom against the right side; glue on its right end; once home, drive 2 × ")
    assert all("; glue " in do and "; once home, drive " in do and "hole of" not in do for do in words)
    assert all("go into" not in do and "between" not in do for do in words)


def test_a_panel_slides_along_its_grooves_and_takes_no_glue(planned):
    words = set_in(planned(DOORS, CAPTURED), "doors")
    (panel,) = [do for do in words if do.startswith("Slide the panel into the grooves of")]
    assert "glue" not in panel
    assert "none on the panel" in words[-1]


def test_what_only_stands_against_something_comes_from_anywhere(planned):
    words = set_in(planned({"form": "base", "height": 850, "base": {"kind": "plinth", "height": 100}}), "base")
    assert words
    assert all(" against " in do and "from" not in do and "Lay" not in do for do in words)


def test_like_parts_that_follow_one_another_are_one_insertion(planned):
    plan = planned(TWO_SHELVES, CAPTURED)
    together = put_together(plan.parts, plan.joints, plan.hardware, {})["bay", "case"]
    runs = [[part for one in run for part in one.parts] for run in merged(together.order.insertions, together)]
    assert ["bay/shelf-2", "bay/shelf-1"] in runs
    assert [part for run in runs for part in run] == [part for one in together.order.insertions for part in one.parts]
    assert in_order(together).endswith(", and last the left side")
