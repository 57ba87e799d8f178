"""The booklet's drawings of drilling and of joints, in the run of the text."""

from collections.abc import Sequence

from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.picture import Picture, row_of
from casewright.api.papers.pages.setting import SMALL, head, para
from casewright.api.papers.views.drilling import rows_of
from casewright.api.papers.views.figure import BETWEEN, Figure
from casewright.api.papers.views.joint import details
from casewright.api.papers.views.page import size_of
from reportlab.platypus import Flowable, KeepTogether

MARGINS = 26.0
"""Paper on the left and on the right of the words of a page together, mm."""

ACROSS = 3
"""Details of joints beside one another."""

DRILLED = (
    "Numbers count from the ring on their line; letters name rows of holes. A mirrored part: the same sides by name."
)


def figures(facts: Facts, paper: str) -> list[Flowable]:
    """Return the drilling and the joints of the whole job; nothing of either that there is not."""
    width, every = size_of(paper, True)[0] - MARGINS, set(facts.cabinets)
    drilled = [_row(row) for row in rows_of(facts, width, every)]
    joints = [_row(row) for row in details(facts, width, ACROSS, every)]
    return [
        *_headed([head("Drilling"), para(DRILLED, SMALL)], drilled),
        *_headed([head("Joints, cut through")], joints),
    ]


def _row(row: Sequence[Figure]) -> Flowable:
    return row_of([Picture(one.views, one.width, one.high) for one in row], BETWEEN)


def _headed(heading: Sequence[Flowable], rows: Sequence[Flowable]) -> list[Flowable]:
    """Return rows under their heading, which stays on one page with the first."""
    return [KeepTogether([*heading, rows[0]]), *rows[1:]] if rows else []
