"""Will a shelf sag: the verdict on one shelf, and what would pass. Newtons, millimetres, megapascals."""

from dataclasses import dataclass

from casewright.sdk.engineering import beams
from casewright.sdk.engineering.limits import within


@dataclass(frozen=True, slots=True)
class ShelfCase:
    """One shelf: clear span, depth front to back, thickness, modulus along the span, its load and the limit.

    `load_n` is the total, own weight included, spread evenly or at the centre. `limit` is a code of `beams.LIMITS`.
    `creep` 1.0 judges the first deflection, 2.0 the sag after years. An edge band counts for nothing.
    """

    span_mm: float
    depth_mm: float
    thickness_mm: float
    e_mpa: float
    load_n: float
    spread: beams.Spread = "uniform"
    nosing: beams.Nosing | None = None
    limit: str = "sixteenth-per-foot"
    creep: float = beams.CREEP_FACTOR


@dataclass(frozen=True, slots=True)
class ShelfResult:
    """The verdict: `first_mm` at once, `sag_mm` with creep, both with ends taken as pinned.

    `longest_span_mm` carries the same load per length (uniform) or the same load (centre). `thickness_mm` would pass
    without the nosing; `nosing_mm` is the least height of the case's nosing, or of a 19 mm one of the shelf's own
    modulus, that would (None: not within 100 mm).
    """

    first_mm: float
    sag_mm: float
    limit_mm: float
    passes: bool
    longest_span_mm: float
    thickness_mm: float
    nosing_mm: float | None
    source: str


def judge(case: ShelfCase) -> ShelfResult:
    """Judge a shelf. FPL-GTR-190 (2010) eq. 9-2 with the modulus as tabulated (no shear term) and creep of ch. 5.

    Housed ends are judged as pinned: a groove's hold is unproved. Raises `OutsideLimits` for a span under four times
    the thickness (a beam no more; own bound) or sizes that are not positive.
    """
    within("shelf-span", "span", case.span_mm, 4.0 * case.thickness_mm, None, "mm", "fpl-190-eq-9-2")
    limit = beams.LIMITS[case.limit]
    stiffness = beams.stiffness_n_mm2(case.depth_mm, case.thickness_mm, case.e_mpa, case.nosing)
    sag = beams.sag_mm(case.load_n, case.span_mm, stiffness, case.spread, "pinned", case.creep)
    allowed = limit.at(case.span_mm)
    needed = beams.stiffness_needed_n_mm2(case.load_n, case.span_mm, case.spread, allowed, "pinned", case.creep)
    load = case.load_n / case.span_mm if case.spread == "uniform" else case.load_n
    nosing = case.nosing or beams.Nosing(19.0, case.thickness_mm, case.e_mpa)
    return ShelfResult(
        first_mm=sag / case.creep,
        sag_mm=sag,
        limit_mm=allowed,
        passes=sag <= allowed,
        longest_span_mm=beams.longest_span_mm(load, stiffness, case.spread, limit, "pinned", case.creep),
        thickness_mm=beams.thickness_needed_mm(needed, case.depth_mm, case.e_mpa),
        nosing_mm=beams.nosing_needed_mm(
            needed, case.depth_mm, case.thickness_mm, case.e_mpa, nosing.thickness_mm, nosing.e_mpa
        ),
        source=limit.source,
    )
