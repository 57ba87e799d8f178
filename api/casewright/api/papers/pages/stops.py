"""The stops of a plan on the booklet's first page, each with the changes of the job that were tried and clear it."""

from collections.abc import Sequence

from casewright.api.papers.facts import Facts, counted
from casewright.api.papers.pages.setting import SMALL, WARN, para
from casewright.sdk.model.cures import Cure, StopCures
from reportlab.platypus import Flowable

LISTED = 8
"""Stops that stand on the first page; the others stand among the checks."""


def stops(facts: Facts, cures: Sequence[StopCures]) -> list[Flowable]:
    """Return the stops and their cures; nothing for a plan without stops."""
    if not facts.stops:
        return []
    story: list[Flowable] = [para(f"DO NOT CUT YET. {facts.stop_words}:", WARN)]
    known = {(row.check.code, row.check.subject): row for row in cures}
    for check in facts.stops[:LISTED]:
        story.append(para(f"• {facts.about(check)}: {check.message}"))
        row = known.get((check.code, check.subject))
        if row is not None:
            tried = [f"Tried, and clears it: {cure.words} ({figures(facts, cure)}).{_left(cure)}" for cure in row.cures]
            story += [para(words, SMALL) for words in tried or [row.why_none]]
    if len(facts.stops) > LISTED:
        story.append(para(f"… and {len(facts.stops) - LISTED} more, in the checks at the end."))
    return story


def _left(cure: Cure) -> str:
    """Return in words what a cure leaves there that stops too."""
    return "".join(f" This stop is left there: {check.message}" for check in cure.leaves)


def figures(facts: Facts, cure: Cure) -> str:
    """Return in words what a cure makes otherwise, costs and weighs more."""
    out = [] if cure.keeps else ["gives up something asked for"]
    out.append(f"{counted(cure.parts, 'part')} made otherwise")
    if cure.cost:
        rates = facts.job.rates
        out.append(f"costs {cure.cost:+.{rates.decimals if rates else 2}f} {rates.currency if rates else ''}".rstrip())
    if cure.mass_kg:
        more = "heavier" if cure.mass_kg > 0 else "lighter"
        out.append(f"{facts.writer.mass_kg(abs(cure.mass_kg))} {more}")
    if cure.raises:
        out.append(f"raises {counted(len(cure.raises), 'caution')}")
    return ", ".join(out)
