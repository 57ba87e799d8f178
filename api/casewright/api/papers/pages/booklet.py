"""The booklet: everything one person at the bench needs, in the order it is needed."""

from collections.abc import Sequence

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.shapes import Sheet
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages import (
    adjusting,
    appendix,
    bench,
    buying,
    cards,
    cut_list,
    figures,
    from_work,
    hanging,
    settings,
    today,
)
from casewright.api.papers.pages.binding import bound
from casewright.api.papers.pages.setting import LEAST, ROOM, drawings, section
from casewright.api.papers.views.fixing import fixing
from casewright.api.papers.views.isometric import keyed
from casewright.api.papers.views.layout import pictures
from casewright.api.papers.views.page import Page, finish
from casewright.api.papers.views.sheet import cabinet_sheet
from casewright.api.papers.views.template import template
from casewright.api.papers.views.wall import wall
from casewright.sdk.model import Plan
from casewright.sdk.model.cures import StopCures
from reportlab.platypus import KeepTogether


def booklet(plan: Plan, fingerprint: str, paper: str, cures: Sequence[StopCures] = ()) -> bytes:
    """Return the booklet as PDF. `paper` is one of `views.page.PAPERS`; `fingerprint` is printed on every page.

    `cures` are those of its stops, which stand on the first page.
    """
    facts = Facts(plan)
    mark = metrics.short(fingerprint)

    def sheets(pages: list[Page]) -> tuple[Sheet, ...]:
        return finish(facts, pages, paper, mark)

    drawn = _cabinets(facts, paper)
    story = [
        *today.today(facts, cures),
        *section([KeepTogether(buying.buying(facts))], LEAST),
        *drawings("Cabinets", sheets([page for _, page in drawn]), [cabinet for cabinet, _ in drawn]),
        *section(cut_list.cut_list(facts)),
        *drawings("Cutting", sheets(pictures(facts, paper))),
        *section(settings.settings(facts)),
        *section(figures.figures(facts, paper), LEAST),
        *section(cards.assembly_cards(facts), ROOM),
        *section([KeepTogether(from_work.from_work(facts))], LEAST),
        *section(bench.bench(facts), ROOM),
        *drawings("Wall", sheets([*wall(facts, None, paper), *fixing(facts, None, paper)])),
        *section(
            [
                *hanging.hanging(facts),
                *from_work.late_joints(facts),
                *adjusting.adjusting(facts),
                *appendix.appendix(facts),
            ]
        ),
        *drawings("Templates, to be printed at 100 %", sheets(template(facts, None, paper))),
    ]
    return bound(story, facts, mark, paper)


def _cabinets(facts: Facts, paper: str) -> list[tuple[str, Page]]:
    """Return each cabinet's sheets with its id: its front, its sections, and how it is taken apart."""
    return [
        (cabinet.id, page)
        for cabinet in facts.cabinets.values()
        for page in (
            *cabinet_sheet(facts, cabinet, paper),
            *keyed(facts, cabinet, paper),
        )
    ]
