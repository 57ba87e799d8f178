"""Whether shelves sag: each shelf and the bottom judged under what the job says they carry."""

from casewright.api.engine.construction.draft import Draft, Work
from casewright.sdk.engineering import beams, shelves
from casewright.sdk.engineering.limits import OutsideLimits
from casewright.sdk.engineering.units import weight_n
from casewright.sdk.model import LENGTH, Finding

NM_PER_MM = 1e6
_Judged = dict[shelves.ShelfCase, shelves.ShelfResult]
"""The verdicts on shelves of one cabinet: shelves alike are judged once."""


def check_shelves(work: Work, masses: dict[str, tuple[float, tuple[float, float, float]]]) -> None:
    """Judge every shelf and the bottom; a shelf that sags past the limit is a caution with what would pass."""
    levels = [d for d in work.drafts.values() if d.role in ("shelf", "bottom")]
    judged: _Judged = {}
    whole = sum([_area(d) for d in levels])
    for draft in levels:
        _check(work, draft, masses[draft.key][0], _load(work, _area(draft), whole), judged)


def _area(draft: Draft) -> int:
    """Return a level's area in square nm."""
    wide, deep, _ = draft.box.size
    return wide * deep


def _load(work: Work, area: int, whole: int) -> float:
    """Return the load in N on `area` of the `whole`: a share of the stated contents, or the job's load per area."""
    mounting = work.cabinet.mounting
    if mounting is not None and mounting.contents_kg is not None:
        return weight_n(mounting.contents_kg) * area / whole
    return work.cabinet.loading.shelf_pa * area * 1e-18


def _check(work: Work, draft: Draft, mass_kg: float, load_n: float, judged: _Judged) -> None:
    size = draft.box.size
    loading = work.cabinet.loading
    thickness = size[draft.thickness_axis - 1]
    stuff = work.stuff(draft.material)
    modulus = stuff.modulus_at(thickness, along=True)
    subject = f"{work.id}/{draft.key}"
    if modulus is None:
        work.find(
            subject,
            Finding("sag-unknown", "caution", f"no stiffness is known for {stuff.title}; sag is not judged", source=""),
        )
        return
    case = shelves.ShelfCase(
        span_mm=_span(work, draft) / NM_PER_MM,
        depth_mm=size[1] / NM_PER_MM,
        thickness_mm=thickness / NM_PER_MM,
        e_mpa=modulus,
        load_n=load_n + weight_n(mass_kg),
        spread="uniform" if loading.spread == "uniform" else "centre",
        ends="pinned" if draft.group == "loose" else "housed",
        limit=loading.limit,
    )
    try:
        if case not in judged:
            judged[case] = shelves.judge(case)
        verdict = judged[case]
    except OutsideLimits as problem:
        work.find(
            subject, Finding(problem.check_code, "caution", f"{problem}; sag is not judged", source=problem.source)
        )
        return
    message = (
        f"sags {verdict.sag_mm:.1f} mm after years under {case.load_n:.0f} N ({beams.LIMITS[loading.limit].title})"
    )
    if not verdict.passes:
        message += f"; {verdict.thickness_mm:.1f} mm thick would pass, or a span of {verdict.longest_span_mm:.0f} mm"
        if verdict.nosing_mm is not None:
            message += f", or a solid nosing 19 mm thick and {verdict.nosing_mm:.0f} mm high"
    work.find(
        subject,
        Finding(
            "shelf-sag",
            "note" if verdict.passes else "caution",
            message,
            round(verdict.sag_mm * NM_PER_MM),
            round(verdict.limit_mm * NM_PER_MM),
            LENGTH,
            verdict.source,
        ),
    )


def _span(work: Work, draft: Draft) -> int:
    """Return the widest clear span: between its hosts, or between dividers that stand on it or hang from it."""
    own = f"{work.id}/{draft.key}"
    grown = [j for j in work.joints if j.guest == own and j.kind in ("tee", "corner")]
    low = draft.box.x0 + sum(j.seat for j in grown if j.press == -1)
    high = draft.box.x1 - sum(j.seat for j in grown if j.press == 1)
    guests = [j.guest.removeprefix(f"{work.id}/") for j in work.joints if j.host == own and j.kind == "tee"]
    marks = sorted((work.drafts[key].box.x0, work.drafts[key].box.x1) for key in guests)
    spans, edge = [], low
    for left, right in marks:
        spans.append(left - edge)
        edge = right
    return max([*spans, high - edge])
