"""What a cure comes to: which stops it clears, what it costs and weighs more, what it makes otherwise and raises."""

from collections.abc import Mapping
from decimal import Decimal

from casewright.api.engine import Draft
from casewright.sdk.methods import Change
from casewright.sdk.model import Check, Part, Plan
from casewright.sdk.model.cures import Cure
from casewright.sdk.model.stock import MINOR_UNITS

Key = tuple[str, str]
"""A stop by its code and what it is about: a cabinet by its id in the job, whatever its copies come out as."""


def stops_of(plan: Plan | Draft) -> tuple[Check, ...]:
    """Return the stops of a plan, one for each code and subject."""
    stops = {(check.code, check.subject): check for check in reversed(plan.checks) if check.level == "stop"}
    return tuple(reversed(stops.values()))


def keys_of(plan: Plan | Draft) -> frozenset[Key]:
    """Return what stops a plan has."""
    return frozenset(key_of(plan, check) for check in stops_of(plan))


def key_of(plan: Plan | Draft, check: Check) -> Key:
    """Return a check of a plan as a key that is the same in the plan of a changed job."""
    subject = check.subject
    size = next((one for one in plan.job.built if one.pointer == subject), None)
    if size is not None:
        return check.code, f"{size.cabinet}/{size.part} {size.measure} {size.copy} {size.at}"
    cabinet, slash, rest = subject.partition("/")
    own = next((one.planned for one in plan.job.cabinets if one.planned and one.id == cabinet), cabinet)
    return check.code, f"{own}{slash}{rest}"


def stops_left(plan: Plan, key: Key) -> tuple[Check, ...]:
    """Return the stops of a plan that are about the same as a stop of another code was."""
    return tuple([check for check in stops_of(plan) if key_of(plan, check)[1] == key[1]])


def cure_of(change: Change, key: Key, base: Plan, plan: Plan) -> Cure:
    """Return a change that clears its stop, as a cure with its figures."""
    cost, unpriced = _cost(base, plan)
    cautions = {(check.code, check.subject) for check in base.checks if check.level != "note"}
    return Cure(
        words=change.words,
        patch=change.patch,
        keeps=change.keeps,
        cost=cost,
        unpriced=unpriced,
        parts=_parts_changed(base, plan),
        mass_kg=round(_mass_kg(plan) - _mass_kg(base), 3),
        clears=len(keys_of(base) - keys_of(plan)),
        leaves=stops_left(plan, key),
        raises=tuple(
            check for check in plan.checks if check.level == "caution" and (check.code, check.subject) not in cautions
        ),
    )


def rank(cure: Cure) -> tuple[bool, bool, Decimal, int, float]:
    """Return what orders cures: those that leave no stop there first, of these those that keep all that is asked.

    Then added cost, parts changed, mass.
    """
    return bool(cure.leaves), not cure.keeps, cure.cost or Decimal(0), cure.parts, cure.mass_kg


def _cost(base: Plan, plan: Plan) -> tuple[Decimal | None, int]:
    """Return what a plan costs more, and how many of the lines it changes have no price."""
    if base.job.rates is not None and plan.job.rates is not None:
        was, now = ({(line.kind, line.item): line for line in one.lines} for one in (base.costs, plan.costs))
        unpriced = [
            key
            for key in {**was, **now}
            if was.get(key) != now.get(key) and any(key in one and one[key].amount is None for one in (was, now))
        ]
        return (plan.costs.total or Decimal(0)) - (base.costs.total or Decimal(0)), len(unpriced)
    before, after = _stock_cost(base), _stock_cost(plan)
    hardware = _hardware(base) != _hardware(plan)
    if before is None or after is None:
        return None, 0
    return after - before, int(hardware)


def _stock_cost(plan: Plan) -> Decimal | None:
    """Return what the stock bought costs; `None` where no stock is given, or a piece bought has no cost."""
    if plan.stock is None:
        return None
    costs = [row.cost for row in plan.stock.buy]
    return None if None in costs else Decimal(sum(cost or 0 for cost in costs)) / MINOR_UNITS


def _hardware(plan: Plan) -> Mapping[str, int]:
    total: dict[str, int] = {}
    for line in plan.hardware:
        total[line.item] = total.get(line.item, 0) + line.quantity
    return total


def _parts_changed(base: Plan, plan: Plan) -> int:
    was, now = ({part.id: _made(part) for part in one.parts} for one in (base, plan))
    return sum(1 for key in {**was, **now} if was.get(key) != now.get(key))


def _made(part: Part) -> tuple[object, ...]:
    """Return what a part is as it is made."""
    return part.length, part.width, part.thickness, part.quantity, part.material, part.features


def _mass_kg(plan: Plan) -> float:
    """Return the mass of all cabinets, empty."""
    counts = {cabinet.id: cabinet.count for cabinet in plan.job.cabinets}
    return sum(weight.mass_kg * counts[weight.cabinet] for weight in plan.weights)
