"""The booklet's hanging pages: the wall, what each cabinet weighs on it, its fasteners, and the cautions."""

from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.setting import SMALL, UNDER, head, para, table
from casewright.sdk.model import HungCabinet, StandingCabinet
from reportlab.platypus import Flowable


def hanging(facts: Facts) -> list[Flowable]:
    """Return how the cabinets hang; nothing for a job in which none does."""
    if not facts.plan.mounting:
        return []
    story: list[Flowable] = [head("Appendix: hanging")]
    cautions = dict.fromkeys(c for m in facts.plan.mounting for c in m.cautions)
    story += [para(f"• {c}") for c in cautions]
    counts: dict[str, int] = {}
    for mounted in facts.plan.mounting:
        number = counts.get(mounted.cabinet, 0)
        counts[mounted.cabinet] = number + 1
        story.append(para(f"{facts.cabinets[mounted.cabinet].copy_name(number)}: {mounted.method}", UNDER))
        if mounted.lift:
            story.append(para(f"Lift it {facts.text(mounted.lift)} past its place, then let it down on its hook."))
        for what, nm in mounted.lengths:
            story.append(para(f"{what}: {facts.text(nm)}", SMALL))
        story += _result(facts, facts.hanging(mounted.cabinet, number))
    return story


def _result(facts: Facts, result: HungCabinet | StandingCabinet | None) -> list[Flowable]:
    if result is None:
        return [para("Its hold on the wall was not computed. Do not take that for a yes: ask a licensed person.")]
    out: list[Flowable] = []
    if isinstance(result, HungCabinet):
        case, mass = result.case, facts.writer.mass_kg
        origin = "taken, as the job does not say" if case.contents_assumed_pa is not None else "as the job says"
        out.append(
            para(f"Cabinet {mass(case.cabinet_kg)}, contents {mass(case.contents_kg)} {origin}; fastener "
                 f"{case.fastener.id if case.fastener else 'none'}.")
        )  # fmt: skip
    force = facts.writer.force_n
    rows = [
        [i + 1, _place(facts, f.at_mm), _place(facts, f.up_mm), force(f.pull_n),
         force(f.shear_n), f"{100 * f.use:.0f} %", f.governs]
        for i, f in enumerate(result.fasteners)
    ]  # fmt: skip
    if rows:
        heads = ("No.", "From wall's left", "Over strip's lower edge", "Pull", "Shear", "Use", "What governs")
        out.append(table(heads, rows, (6, 16, 18, 20, 20, 9, 24)))
    use = result.use
    if use is not None:
        word = "OVER ITS LIMIT: DO NOT HANG" if use > 1 else "within its limit"
        out.append(para(f"The hardest-worked fastener is at {100 * use:.0f} % and {word}."))
    if isinstance(result, HungCabinet) and result.result.likely is not None:
        likely = result.result.likely
        out.append(para(f"Likely, and no verdict: {100 * likely.use:.0f} %, with {likely.taken}.", SMALL))
    return out


def _place(facts: Facts, mm: float) -> str:
    return facts.tape(round(mm * 1e6))
