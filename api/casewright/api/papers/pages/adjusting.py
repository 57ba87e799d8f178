"""The booklet's page of how hung doors and drawers are set: which screws move what, and how far."""

from casewright.api.engine.work.adjusting import Adjustment, hinge_adjustments, slide_adjustments
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.setting import head, table
from casewright.sdk.hardware import Slide
from reportlab.platypus import Flowable

__all__ = ["adjusting"]


def adjusting(facts: Facts) -> list[Flowable]:
    """Return a row for each kind of screw of the hinges and slides that the job hangs doors and drawers on."""
    rows: list[list[object]] = []
    for fitting in facts.plan.fittings:
        adjustments = slide_adjustments(fitting) if isinstance(fitting, Slide) else hinge_adjustments(fitting)
        rows += [[fitting.title, one.screws, one.moves, _reach(facts, one)] for one in adjustments]
    if not rows:
        return []
    return [
        head("Appendix: setting doors and drawers"),
        table(("On", "Turn", "It moves", "How far"), rows, (18, 22, 42, 18)),
    ]


def _reach(facts: Facts, one: Adjustment) -> str:
    if one.one_way == one.other_way:
        return f"± {facts.tape(one.one_way)}"
    return f"{facts.tape(one.one_way)} out, {facts.tape(one.other_way)} in"
