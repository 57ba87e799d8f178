"""Will it stay on the wall: the whole answer for one hung cabinet.

`hang` never raises for a case it cannot vouch for: it answers with a `stop` and says what to find out.
"""

from dataclasses import replace

from casewright.sdk.engineering import (
    adjust,
    hanging_capacity,
    hanging_findings,
    hanging_places,
    hanging_solve,
    hanging_unknown,
)
from casewright.sdk.engineering.hanging_case import (
    Anchor,
    AntiLift,
    Capacity,
    FastenerUse,
    HangingCase,
    HangingResult,
    Hook,
    Likely,
    Proof,
)
from casewright.sdk.engineering.limits import OutsideLimits
from casewright.sdk.engineering.units import N_PER_LBF, weight_n
from casewright.sdk.findings import Finding, Level
from casewright.sdk.writer import MILLIMETRES, Writer

_KCMA = "kcma-a161-1-5-2"
PROOF_LOADS_N: tuple[float, ...] = (500.0 * N_PER_LBF, 600.0 * N_PER_LBF)
"""ANSI/KCMA A161.1: 500 lb in the older text, 600 lb in the later (document read)."""

_ORDER: dict[Level, int] = {"stop": 0, "caution": 1, "note": 2}


def hang(case: HangingCase, write: Writer = MILLIMETRES) -> HangingResult:
    """Return forces, capacity, use, placing and findings for one hung cabinet, in the words of `write`.

    The free body is that of `hanging_forces`; capacities are those of `hanging_capacity`.
    """
    findings: list[Finding] = list(hanging_unknown.case_findings(case, write))
    case = governing(case)
    load: hanging_solve.Load | None = None
    capacity: Capacity | Anchor | None = None
    fasteners: tuple[FastenerUse, ...] = ()
    try:
        load = hanging_solve.load(case)
        capacity = _capacity(case)
        if isinstance(capacity, Anchor):
            fasteners = hanging_solve.uses(case, load, hanging_places.anchor_columns(case), capacity)
        elif capacity is not None and (best := fasten(case, load)):
            capacity, fasteners = best
    except OutsideLimits as problem:
        findings.append(hanging_unknown.outside_limits(problem, write))
    except hanging_capacity.NoGravity as problem:
        findings.append(hanging_unknown.no_gravity(problem))
    anti_lift, anti_lift_findings = _anti_lift(case, load.hook if load else None, write)
    findings.extend(anti_lift_findings)
    result = _result(case, load, capacity if isinstance(capacity, Capacity) else None, fasteners, anti_lift)
    findings.extend(hanging_findings.result_findings(case, result, write))
    findings.sort(key=lambda finding: _ORDER[finding.level])
    return replace(result, findings=tuple(findings))


def governing(case: HangingCase) -> HangingCase:
    """Return the case as it governs: with its contents at their duration, or empty as a lasting load if that is more.

    max(D/0.9, (D + L)/C_D): the shortest load of a combination sets its C_D, and each combination is tried. NDS 2018
    Appendix B (from memory).
    """
    lasting, brief = case.cabinet_kg, case.contents_kg
    if lasting / adjust.DURATION["permanent"] <= (lasting + brief) / case.duration:
        return case
    return replace(case, contents_kg=0.0, duration=adjust.DURATION["permanent"])


def _result(
    case: HangingCase,
    load: hanging_solve.Load | None,
    capacity: Capacity | None,
    fasteners: tuple[FastenerUse, ...],
    anti_lift: AntiLift | None,
) -> HangingResult:
    """Return the result without its findings: the fasteners' uses, and where else fasteners would do."""
    use = hanging_solve.worst(fasteners) if fasteners else None
    between = extension = None
    sets: tuple[tuple[float, ...], ...] = ()
    if capacity is not None and load is not None:
        carries = hanging_solve.trial(case, load, hanging_solve.fastener_capacity(case) or capacity)
        between = hanging_places.works_between(case, carries)
        sets = hanging_places.stud_sets(case, carries)
        extension = hanging_places.extension(case)
    return HangingResult(
        weight_n=weight_n(case.cabinet_kg + case.contents_kg),
        hook=load.hook if load else None,
        pull_n=load.pull_n if load else 0.0,
        capacity=capacity,
        fasteners=fasteners,
        use=use,
        anti_lift=anti_lift,
        caught_studs_mm=_studs_used(case, fasteners),
        works_between_mm=between,
        stud_sets=sets,
        extension=extension,
        lift=hanging_places.lift(case),
        proofs=_proofs(case, load, use),
        likely=likely(case) if use is not None else None,
        findings=(),
        cautions=hanging_findings.CAUTIONS,
    )


def fasten(
    case: HangingCase, load: hanging_solve.Load, *, seated: bool = False
) -> tuple[Capacity, tuple[FastenerUse, ...]] | None:
    """Return what a fastener carries and how hard each works, in the studs where the hardest works least.

    Of `hanging_places.column_sets`; None where the strip crosses no stud or a fastener's hold is not known. Raises
    `OutsideLimits` where no set can be in balance, `NoGravity`.
    """
    ways: list[tuple[Capacity, tuple[FastenerUse, ...]]] = []
    problems: list[OutsideLimits] = []
    for columns in hanging_places.column_sets(case):
        try:
            capacity = hanging_solve.fastener_capacity(case, seated=seated, end_factor=columns.end_factor)
            if capacity is not None:
                ways.append((capacity, hanging_solve.uses(case, load, columns.at_mm, capacity)))
        except OutsideLimits as problem:
            problems.append(problem)
    if problems and not ways:
        raise problems[0]
    return min(ways, key=lambda way: hanging_solve.worst(way[1]), default=None)


def _studs_used(case: HangingCase, fasteners: tuple[FastenerUse, ...]) -> tuple[float, ...]:
    """Return the studs that fasteners stand in; where none are worked out, those caught."""
    if case.wall.kind != "studs":
        return ()
    return tuple(dict.fromkeys(one.at_mm for one in fasteners)) or hanging_places.caught_studs(case)


def _capacity(case: HangingCase) -> Capacity | Anchor | None:
    """Return what one fastener carries; None where the wall or the fastener is not known well enough."""
    return case.wall.anchor if case.wall.kind == "masonry" else hanging_solve.fastener_capacity(case)


def likely(case: HangingCase) -> Likely | None:
    """Return the likely figure of the hardest-worked fastener, beside the bound; None where the bound has none.

    The bevel's friction is counted, and the lining, drawn tight, bears as the strip does; the rest is as in the bound.
    """
    try:
        load = hanging_solve.load(case)
        load = replace(load, pull_n=hanging_solve.likely_pull_n(case, load))
        best = fasten(case, load, seated=True)
    except (OutsideLimits, hanging_capacity.NoGravity):
        return None
    if best is None:
        return None
    capacity, fasteners = best
    use = hanging_solve.worst(fasteners)
    taken = "lining drawn tight bears" if load.hook is None else "friction on the bevel; lining drawn tight bears"
    return Likely(load.pull_n, capacity.lateral_n, use, taken)


def _anti_lift(case: HangingCase, hook: Hook | None, write: Writer) -> tuple[AntiLift | None, list[Finding]]:
    """Judge the fastener that stops the cabinet lifting off."""
    if case.mounting != "bevel-cleat" or hook is None:
        return None, []
    if case.anti_lift is None:
        return None, [hanging_findings.no_anti_lift(hook, write)]
    wall = case.wall
    if wall.kind != "studs" or wall.stud is None:
        return None, [hanging_findings.anti_lift_wall(hook)]
    if not case.strip_within and hanging_places.anti_lift_stud(case) is None:
        return None, [hanging_findings.no_anti_lift(hook, write)]
    gap = case.anti_lift_gap_mm
    if gap is None:
        gap = wall.lining_mm + case.strip.thickness_mm + case.behind_strip_mm
    try:
        capacity = hanging_capacity.capacity(
            case.anti_lift, case.strip.stuff, case.anti_lift_side_mm, wall.stud, wall.stud_depth_mm, gap, case.duration
        )
    except OutsideLimits as problem:
        finding = hanging_unknown.outside_limits(problem, write)
        return None, [replace(finding, code=f"anti-lift-{problem.check_code}")]
    except hanging_capacity.NoGravity as problem:
        return None, [replace(hanging_unknown.no_gravity(problem), code="anti-lift-wood")]
    anti_lift = AntiLift(hook.shortfall_n, capacity.pull_n, hook.shortfall_n / capacity.pull_n)
    return anti_lift, [hanging_findings.anti_lift_use(anti_lift, rides_up=hook.rides_up)]


def _proofs(case: HangingCase, load: hanging_solve.Load | None, use: float | None) -> tuple[Proof, ...]:
    """Scale the use, which is in proportion to the weight, to each proof load at C_D 1.0."""
    if load is None or use is None or load.weight_n == 0.0:
        return ()
    share = 1.0 if case.wall.kind == "masonry" else case.duration
    return tuple(Proof(proof, use * proof / load.weight_n * share, _KCMA) for proof in PROOF_LOADS_N)
