"""Will it stay on the wall: the whole answer for one hung cabinet.

`hang` never raises for a case it cannot vouch for: it answers with a `stop` and says what to find out.
"""

from dataclasses import replace

from casewright.sdk.engineering import hanging_capacity, hanging_findings, hanging_places, hanging_solve
from casewright.sdk.engineering.hanging_case import (
    Anchor,
    AntiLift,
    Capacity,
    FastenerUse,
    Finding,
    HangingCase,
    HangingResult,
    Hook,
    Level,
    Proof,
)
from casewright.sdk.engineering.limits import OutsideLimits
from casewright.sdk.engineering.units import N_PER_LBF, weight_n

_KCMA = "kcma-a161-1-5-2"
PROOF_LOADS_N: tuple[float, ...] = (500.0 * N_PER_LBF, 600.0 * N_PER_LBF)
"""ANSI/KCMA A161.1: 500 lb in the older text, 600 lb in the later (document read)."""


def hang(case: HangingCase) -> HangingResult:
    """Return forces, capacity, use, placing and findings for one hung cabinet.

    The free body is that of `hanging_forces`; capacities are those of `hanging_capacity`.
    """
    findings: list[Finding] = list(hanging_findings.before(case))
    total: hanging_solve.Load | None = None
    hook: Hook | None = None
    held: Capacity | Anchor | None = None
    answer: tuple[FastenerUse, ...] = ()
    try:
        total = hanging_solve.load(case)
        hook = total.hook
        held = _held(case)
        columns = _columns(case)
        if held is not None and columns:
            answer = hanging_solve.uses(case, total, columns, held)
    except OutsideLimits as problem:
        findings.append(hanging_findings.refusal(problem))
    except hanging_capacity.NoGravity as problem:
        findings.append(hanging_findings.no_gravity(problem))
    use = hanging_solve.worst(answer) if answer else None
    anti_lift, words = _anti_lift(case, hook)
    findings.extend(words)
    wood = held if isinstance(held, Capacity) else None
    between = sets = extension = None
    if wood is not None and total is not None:
        carries = hanging_solve.trial(case, total, wood)
        between = hanging_places.works_between(case, carries)
        sets = hanging_places.stud_sets(case, carries)
        extension = hanging_places.extension(case)
    lift = hanging_places.lift(case)
    result = HangingResult(
        weight_n=weight_n(case.cabinet_kg + case.contents_kg),
        hook=hook,
        pull_n=0.0 if total is None else total.pull_n,
        capacity=wood,
        fasteners=answer,
        use=use,
        anti_lift=anti_lift,
        caught_studs_mm=hanging_places.caught_studs(case) if case.wall.kind == "studs" else (),
        works_between_mm=between,
        stud_sets=sets or (),
        extension=extension,
        lift=lift,
        proofs=_proofs(case, total, use),
        findings=(),
        cautions=hanging_findings.CAUTIONS,
    )
    findings.extend(hanging_findings.after(case, result))
    order = {"stop": 0, "caution": 1, "note": 2}
    return replace(result, findings=tuple(sorted(findings, key=lambda finding: order[finding.level])))


def _columns(case: HangingCase) -> tuple[float, ...]:
    if case.wall.kind == "studs":
        return hanging_places.caught_studs(case)
    return hanging_places.anchor_columns(case) if case.wall.kind == "masonry" else ()


def _held(case: HangingCase) -> Capacity | Anchor | None:
    """Return what one fastener holds; None where the wall or the fastener is not known well enough."""
    wall = case.wall
    if wall.kind == "masonry":
        return wall.anchor
    if wall.kind != "studs" or wall.stud is None or case.fastener is None:
        return None
    gap = wall.lining_mm + (case.behind_strip_mm if case.mounting == "screw-strip" else 0.0)
    return hanging_capacity.capacity(
        case.fastener, case.strip.stuff, case.strip.thickness_mm, wall.stud, wall.stud_depth_mm, gap, case.duration
    )


def _anti_lift(case: HangingCase, hook: Hook | None) -> tuple[AntiLift | None, list[Finding]]:
    """Judge the fastener that stops the cabinet lifting off."""
    if case.mounting != "bevel-cleat" or hook is None:
        return None, []
    if case.anti_lift is None:
        if hook.rides_up:
            down = "" if hook.hold_down_n is None else f" (or hold the cabinet down with {hook.hold_down_n:.0f} N)"
            return None, [
                Finding(
                    "hook-rides-up",
                    "stop",
                    "Tipping pulls harder than the hook surely gives, so the cabinet would ride up the bevel. Fasten "
                    f"it to a stud for the {hook.rest_n:.0f} N that is left{down}, or set the cleat higher.",
                    hook.asked_n,
                    hook.gives_with_friction_n,
                    "N",
                )
            ]
        return None, [
            Finding(
                "anti-lift-missing",
                "caution",
                "Nothing stops the cabinet being knocked up and off its hook. Add an anti-lift fastener.",
                source="common-practice",
            )
        ]
    wall = case.wall
    if wall.kind != "studs" or wall.stud is None:
        return None, [
            Finding(
                "anti-lift-wall",
                "stop" if hook.rides_up else "caution",
                "The anti-lift fastener's hold cannot be computed in this wall.",
                hook.rest_n,
                None,
                "N",
            )
        ]
    gap = case.anti_lift_gap_mm
    if gap is None:
        gap = wall.lining_mm + case.strip.thickness_mm + case.behind_strip_mm
    try:
        held = hanging_capacity.capacity(
            case.anti_lift, case.strip.stuff, case.anti_lift_side_mm, wall.stud, wall.stud_depth_mm, gap, case.duration
        )
    except OutsideLimits as problem:
        return None, [replace(hanging_findings.refusal(problem), code=f"anti-lift-{problem.check_code}")]
    except hanging_capacity.NoGravity as problem:
        return None, [replace(hanging_findings.no_gravity(problem), code="anti-lift-wood")]
    answer = AntiLift(hook.rest_n, held.pull_n, hook.rest_n / held.pull_n)
    level: Level = "stop" if answer.use > 1.0 else "caution" if hook.rides_up else "note"
    return answer, [
        Finding(
            "anti-lift-hold",
            level,
            "The hook alone is not sure to hold against tipping: the anti-lift fastener is part of the hanging."
            if hook.rides_up
            else "The hook holds against tipping by itself; the anti-lift fastener guards against knocks.",
            answer.asked_n,
            answer.capacity_n,
            "N",
            "nds-2018-12-2-2",
        )
    ]


def _proofs(case: HangingCase, total: hanging_solve.Load | None, use: float | None) -> tuple[Proof, ...]:
    """Scale the use, which is in proportion to the weight, to each proof load at C_D 1.0."""
    if total is None or use is None or total.weight_n == 0.0:
        return ()
    share = 1.0 if case.wall.kind == "masonry" else case.duration
    return tuple(Proof(proof, use * proof / total.weight_n * share, _KCMA) for proof in PROOF_LOADS_N)
