"""How cabinets hold on their wall as it leaves: the case beside the result, so that the figures can be followed."""

from dataclasses import asdict
from typing import Any

from casewright.sdk import model
from casewright.sdk.engineering.hanging_case import HangingCase, HangingResult, Hook
from casewright.sdk.engineering.lead_holes import lead_holes


def mounting_result(result: model.HungCabinet | model.StandingCabinet | None) -> dict[str, Any]:
    """Return what engineering found of a mounting; an empty object where its hold was not computed."""
    match result:
        case None:
            return {}
        case model.HungCabinet(place, case, hung, on_strip):
            others = [one for one in on_strip if one != place]
            return {"pointer": place, "one_cleat_with": others, "given": _hung_case(case), **_hung(hung)}
        case model.StandingCabinet():
            return _standing(result)


def shared_cleat(shared: model.SharedCleat) -> dict[str, Any]:
    """Return whether two neighbours may hang on one wall cleat."""
    return {"pointers": list(shared.places), **asdict(shared.strip)}


def _hung_case(case: HangingCase) -> dict[str, Any]:
    return {
        "cabinet_kg": case.cabinet_kg,
        "contents_kg": case.contents_kg,
        "contents_assumed": case.contents_assumed_pa is not None,
        "contents_placed": case.contents_placed,
        "centre_out_mm": case.centre_out_mm,
        "centre_x_mm": case.centre_x_mm,
        "strip_low_mm": case.strip.low_mm,
        "strip_over_floor_mm": case.strip_over_floor_mm,
        "strip_left_mm": case.strip.left_mm,
        "strip_length_mm": case.strip.length_mm,
        "strip_thickness_mm": case.strip.thickness_mm,
        "lining_gap_mm": case.wall.lining_mm,
        "fastener": case.fastener.id if case.fastener else None,
        "lead_holes": _lead_holes(case),
        "duration_factor": case.duration,
        "wall": case.wall.kind,
    }


def _lead_holes(case: HangingCase) -> dict[str, Any] | None:
    """Return the holes bored for each wall fastener; `None` where a wood's gravity is not on record."""
    strip, stud = case.strip.stuff.g_oven_dry, case.wall.stud.g_oven_dry if case.wall.stud else None
    if case.fastener is None or strip is None or stud is None:
        return None
    return asdict(lead_holes(case.fastener, strip, stud))


def _hung(result: HangingResult) -> dict[str, Any]:
    anti_lift = result.anti_lift
    return {
        "weight_n": result.weight_n,
        "hook": _hook(result.hook) if result.hook else None,
        "pull_n": result.pull_n,
        "capacity": asdict(result.capacity) if result.capacity else None,
        "fasteners": [asdict(fastener) for fastener in result.fasteners],
        "use": result.use,
        "anti_lift": {"needed_n": anti_lift.needed_n, "capacity_n": anti_lift.capacity_n, "use": anti_lift.use}
        if anti_lift
        else None,
        "caught_studs_mm": result.caught_studs_mm,
        "works_between_mm": result.works_between_mm,
        "stud_sets": result.stud_sets,
        "extension": asdict(result.extension) if result.extension else None,
        "lift": asdict(result.lift),
        "likely": asdict(result.likely) if result.likely else None,
        "proofs": [asdict(proof) for proof in result.proofs],
    }


def _hook(hook: Hook) -> dict[str, Any]:
    return {
        "needed_n": hook.needed_n,
        "gives_frictionless_n": hook.frictionless_n,
        "gives_with_friction_n": hook.with_friction_n,
        "rides_up": hook.rides_up,
        "rest_n": hook.shortfall_n,
        "hold_down_n": hook.hold_down_n,
    }


def _standing(stand: model.StandingCabinet) -> dict[str, Any]:
    balance, leaned, case = stand.balance, stand.leaned, stand.case
    only = ("at_mm", "up_mm", "pull_n", "shear_n", "use", "governs")
    out: dict[str, Any] = {
        "pointer": stand.place,
        "stands": not balance.tips,
        "tipping_n_m": balance.tipping_n_mm / 1000.0,
        "holding_n_m": balance.holding_n_mm / 1000.0,
        "stands_leaned_on": not leaned.tips,
        "tipping_leaned_on_n_m": leaned.tipping_n_mm / 1000.0,
        "tip_margin": balance.margin,
        "fixing_height_mm": stand.fixing_height_mm,
        "fixing_pull_n": stand.pull_n,
        "fasteners": [{key: getattr(fastener, key) for key in only} for fastener in stand.fasteners],
        "use": stand.use,
    }
    if case is not None:
        fastener = case.fastener.id if case.fastener else None
        over_floor = {"strip_low_mm": case.strip.low_mm, "strip_over_floor_mm": case.strip_over_floor_mm}
        out["given"] = {"fastener": fastener, **over_floor, "wall": case.wall.kind}
    return out
