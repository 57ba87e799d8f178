"""Boards as they are cut, for the booklet: what is ringed on the picture, and what stands in words."""

import re
from itertools import pairwise

import pytest
import samples
from casewright.api.papers.drawing.shapes import Circle, Text
from casewright.api.papers.facts import Facts
from casewright.api.papers.views.layout import pictures


def read_out(words: str) -> set[int]:
    """Return the numbers of `steps 3 to 5 and 8`."""
    rows = re.findall(r"(\d+)(?: to (\d+))?", words)
    return {number for low, high in rows for number in range(int(low), int(high or low) + 1)}


@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_cuts_of_milled_blanks_stand_in_words_and_every_cut_stands_somewhere(paper: str) -> None:
    """Nobody cuts a blank to size before it is milled: rings on the board are for what is done to the board."""
    plan = samples.plan("demo")
    rested = min(step.number for step in plan.steps if (step.stage, step.action) == ("mill", "wait"))
    views = {view.name: view for page in pictures(Facts(plan), paper) for view in page.views}
    boards = [one for one in plan.stock.layouts if one.kind == "board"]
    assert boards
    for layout in boards:
        shapes = views[f"layout {layout.number}"].shapes
        ringed = {int(b.text) for a, b in pairwise(shapes) if isinstance(a, Circle) and isinstance(b, Text)}
        (words,) = [
            one.text
            for one in views[f"key {layout.number}"].shapes
            if isinstance(one, Text) and "once milled" in one.text.lower()
        ]
        before, _, after = words.lower().rpartition("once milled")
        steps = {cut.step for cut in layout.cuts}
        assert read_out(after) == {step for step in steps if step > rested}
        assert ringed | read_out(before) == {step for step in steps if step < rested}
