"""Whether shelves sag: each shelf and the bottom judged under what the job says they carry."""

from dataclasses import dataclass, replace

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.draft import Draft
from casewright.api.engine.judge.weights import Masses
from casewright.sdk.engineering import beams, shelves
from casewright.sdk.engineering.limits import OutsideLimits
from casewright.sdk.engineering.units import NM_PER_MM, weight_n
from casewright.sdk.materials import Stuff
from casewright.sdk.model import LENGTH, Check, Finding
from casewright.sdk.writer import Writer

NOSING_MM = 19.0
"""The thickness of the solid nosing that a shelf is offered, as `shelves.judge` takes it."""

ROUNDS = 8
"""How often a load and the size that carries it are worked out from each other; each time nearer by some ten times."""

SURE = 1.001
"""By how much a size that would pass is more than it must be, so that it may be rounded in words."""


@dataclass(frozen=True, slots=True)
class _Level:
    """One shelf as it is judged, with what follows its size: its own weight, and what it carries wherever it ends.

    `fixed_n` of its load stays when it is shorter, and `seats_mm` of it lie past the span.
    """

    case: shelves.ShelfCase
    stuff: Stuff
    own_n: float
    fixed_n: float
    seats_mm: float

    def thick_enough_mm(self) -> float:
        """Return the thickness that would pass, with what it then weighs and how stiff its stuff is when so thick."""
        case, thick = self.case, self.case.thickness_mm
        for _ in range(ROUNDS):
            more = self.own_n * (thick / case.thickness_mm - 1.0)
            stiff = self.stuff.modulus_at(round(thick * NM_PER_MM)) or case.e_mpa
            needed = shelves.judge(replace(case, load_n=case.load_n + more, e_mpa=stiff)).thickness_mm
            thick = max(thick, needed)
        return thick * SURE

    def short_enough_mm(self) -> float:
        """Return the span that would pass, with what the shelf then carries."""
        case = self.case
        span = case.span_mm
        for _ in range(ROUNDS):
            spread = (case.load_n - self.fixed_n) * (span + self.seats_mm) / (case.span_mm + self.seats_mm)
            load = self.fixed_n + spread
            same = load * case.span_mm / span if case.spread == "uniform" else load
            span = shelves.judge(replace(case, load_n=same)).longest_span_mm
        return span / SURE


def sag_checks(built: Construction, masses: Masses) -> tuple[Check, ...]:
    """Judge every shelf and the bottom; a shelf that sags past the limit is a caution with what would pass."""
    return tuple(
        [
            Check(f"{built.id}/{draft.key}", _sag(built, draft, load, weight_n(masses[draft.key][0])))
            for draft, load in level_loads(built, masses)
        ]
    )


def level_loads(built: Construction, masses: Masses) -> list[tuple[Draft, float]]:
    """Return every shelf and the bottom with what it carries, its own weight counted, N."""
    levels = [d for d in built.drafts.values() if d.role in ("shelf", "bottom")]
    whole = sum([_area(d) for d in levels])
    return [(draft, _load_n(built, _area(draft), whole) + weight_n(masses[draft.key][0])) for draft in levels]


def _area(draft: Draft) -> int:
    """Return a level's area in square nm."""
    wide, deep, _ = draft.box.size
    return wide * deep


def _load_n(built: Construction, area: int, whole: int) -> float:
    """Return the load on `area` of the `whole`: a share of the stated contents, or the job's load per area."""
    mounting = built.cabinet.mounting
    if mounting is not None and mounting.contents_kg is not None:
        return weight_n(mounting.contents_kg) * area / whole
    return built.cabinet.loading.shelf_pa * area * 1e-18


def _sag(built: Construction, draft: Draft, load_n: float, own_n: float) -> Finding:
    size = draft.box.size
    loading = built.cabinet.loading
    write = built.write
    thickness = draft.thickness
    stuff = built.stuff(draft.material)
    modulus = stuff.modulus_at(thickness, along=True)
    if modulus is None:
        return Finding("sag-unknown", "caution", f"no stiffness is known for {stuff.title}; sag is not judged")
    case = shelves.ShelfCase(
        span_mm=_span(built, draft) / NM_PER_MM,
        depth_mm=size[1] / NM_PER_MM,
        thickness_mm=thickness / NM_PER_MM,
        e_mpa=modulus,
        load_n=load_n,
        spread="uniform" if loading.spread == "uniform" else "centre",
        limit=loading.limit,
    )
    try:
        verdict = shelves.judge(case)
    except OutsideLimits as problem:
        message = f"{problem.message(write)}; sag is not judged"
        return Finding(problem.check_code, "caution", message, source=problem.source)
    mounting = built.cabinet.mounting
    given = mounting is not None and mounting.contents_kg is not None
    level = _Level(case, stuff, own_n, load_n - own_n if given else 0.0, max(0.0, size[0] / NM_PER_MM - case.span_mm))
    return Finding(
        "shelf-sag",
        "note" if verdict.passes else "caution",
        _sag_message(level, verdict, write),
        round(verdict.sag_mm * NM_PER_MM),
        round(verdict.limit_mm * NM_PER_MM),
        LENGTH,
        verdict.source,
    )


def _sag_message(level: _Level, verdict: shelves.ShelfResult, write: Writer) -> str:
    case = level.case
    message = f"sags {write.length_mm(verdict.sag_mm)} after years under {write.force_n(case.load_n)}"
    message += f"; the limit is {beams.LIMITS[case.limit].message(write)}"
    if not verdict.passes:
        message += (
            f"; {write.length_mm(level.thick_enough_mm())} thick would pass, or a span of "
            f"{write.length_mm(level.short_enough_mm())}"
        )
        if verdict.nosing_mm is not None:
            message += (
                f", or a solid nosing {write.length_mm(NOSING_MM)} thick and {write.length_mm(verdict.nosing_mm)} high"
            )
    return message


def _span(built: Construction, draft: Draft) -> int:
    """Return the widest clear span: between its hosts, or between dividers that stand on it or hang from it."""
    own = f"{built.id}/{draft.key}"
    grown = [j for j in built.joints if j.guest == own and j.kind in ("tee", "corner")]
    low = draft.box.x0 + sum(j.seat for j in grown if j.press == -1)
    high = draft.box.x1 - sum(j.seat for j in grown if j.press == 1)
    guests = [j.guest.removeprefix(f"{built.id}/") for j in built.joints if j.host == own and j.kind == "tee"]
    marks = sorted((built.drafts[key].box.x0, built.drafts[key].box.x1) for key in guests)
    spans, edge = [], low
    for left, right in marks:
        spans.append(left - edge)
        edge = right
    return max([*spans, high - edge])
