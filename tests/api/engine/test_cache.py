"""A plan made with a cache is the plan made without one, whatever was planned with the cache before.

Jobs are edited as they are after reading, in every field there is, so that edits reach what no document could say: an
edit that cannot be planned must fail alike with and without the cache. The default run draws a recorded smaller count.
"""

import random
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass, replace
from decimal import Decimal
from fractions import Fraction
from typing import Any, Literal, get_args, get_origin, get_type_hints

import pytest
from casewright.api.engine import PlanCache, make_plan
from casewright.api.engine.cache import MOST_CUTTINGS
from casewright.api.job.document import read_job
from casewright.api.use.examples import examples
from casewright.sdk.loader import Registry
from casewright.sdk.model import Job
from casewright.sdk.units import MM

EDITS, EDITS_FULL = 4, 2_000
SEED = 13

Path = tuple[Any, ...]


@dataclass(frozen=True)
class Leaf:
    """A value in a job: where it is, the record and field that hold it, and what may stand there."""

    path: Path
    of: tuple[str, str]
    value: Any
    kind: Any


def leaves(value: Any, path: Path = (), of: tuple[str, str] = ("", ""), kind: Any = None) -> Iterator[Leaf]:
    """Yield every value of a record, and every tuple and mapping as a whole too."""
    yield Leaf(path, of, value, kind)
    if is_dataclass(value) and not isinstance(value, type):
        hints = get_type_hints(type(value))
        for field in fields(value):
            inner = getattr(value, field.name)
            yield from leaves(inner, (*path, field.name), (type(value).__name__, field.name), hints[field.name])
    elif isinstance(value, Mapping):
        for key, inner in value.items():
            yield from leaves(inner, (*path, key), of)
    elif isinstance(value, tuple):
        for number, inner in enumerate(value):
            yield from leaves(inner, (*path, number), of)


def with_value(value: Any, path: Path, new: Any) -> Any:
    """Return a record with one value in it changed."""
    if not path:
        return new
    step, rest = path[0], path[1:]
    if isinstance(value, Mapping):
        return {**value, step: with_value(value[step], rest, new)}
    if isinstance(value, tuple):
        return (*value[:step], with_value(value[step], rest, new), *value[step + 1 :])
    return replace(value, **{step: with_value(getattr(value, step), rest, new)})


COUNTS = frozenset({"hinges"})
"""Fields that may hold a number of things, where most that may hold a whole number hold a length."""


def others(leaf: Leaf, job: Job) -> list[Any]:
    """Return values that may stand in place of one, by what it is."""
    value, choices = leaf.value, [None] if type(None) in get_args(leaf.kind) and leaf.value is not None else []
    words = [
        word for kind in (leaf.kind, *get_args(leaf.kind)) if get_origin(kind) is Literal for word in get_args(kind)
    ]
    choices += [word for word in words if word != value]
    match value:
        case bool():
            return [*choices, not value]
        case int() if abs(value) < MM // 1000:  # a count, not a length
            return [*choices, value + 1]
        case int():
            return [*choices, value + 1, value + 3 * MM, value - 3 * MM]
        case float():
            return [*choices, value * 1.25, value + 1.0, -value]
        case Fraction() | Decimal():
            return [*choices, value * 2]
        case str() if value in job.materials:
            return [*choices, *(key for key in job.materials if key != value), f"{value}-x"]
        case str():
            return [*choices, f"{value}-x"] if not words else choices
        case None if leaf.path[-1] in COUNTS:
            return [*choices, 3]
        case None:
            return [*choices, *(new for kind, new in ((int, 12 * MM), (float, 8.0)) if kind in get_args(leaf.kind))]
        case tuple() if value:
            return [*choices, value[:-1], (*value, value[-1])]
        case Mapping() if value:
            return [*choices, dict(list(value.items())[:-1]), dict(reversed(value.items()))]
    return choices


def outcome(job: Job, registry: Registry, cache: PlanCache | None = None) -> Any:
    """Return the plan of a job, or what planning it raises."""
    try:
        return make_plan(job, registry, with_stock=False, cache=cache)
    except Exception as error:
        return type(error), str(error), getattr(error, "problems", ())


def edited(job: Job, leaf: Leaf, draw: random.Random) -> Job:
    """Return a job with one of its values changed."""
    choices = others(leaf, job)
    made: Job = with_value(job, leaf.path, draw.choice(choices)) if choices else job
    return made


def with_solid_panels(job: Job) -> Job:
    """Return a job whose door panels are solid wood, so that they move with the climate."""
    cabinets = [
        replace(cabinet, doors=replace(cabinet.doors, panel=cabinet.doors.material))
        if cabinet.doors is not None and cabinet.doors.panel is not None
        else cabinet
        for cabinet in job.cabinets
    ]
    return replace(job, cabinets=tuple(cabinets))


@pytest.mark.parametrize("number", range(len(examples())))
def test_a_plan_with_a_cache_is_the_plan_without_one_whatever_was_edited(
    number: int, registry: Registry, full: bool
) -> None:
    job = with_solid_panels(read_job(examples()[number].job(), registry))
    draw, cache = random.Random(SEED), PlanCache()
    by_field: dict[tuple[str, str], list[Leaf]] = {}
    for leaf in leaves(job):
        if leaf.path and leaf.path[0] not in ("stock", "origins"):  # neither reaches a cabinet
            by_field.setdefault(leaf.of, []).append(leaf)
    groups = [*by_field.values()]
    every = [draw.choice(group) for group in (groups if full else groups[::4])]
    some = [draw.choice(draw.choice(list(by_field.values()))) for _ in range(EDITS_FULL if full else EDITS)]
    draws = planned = 0
    for leaf in [*every, *some]:
        one = edited(job, leaf, draw)
        if draw.random() < 0.2:
            one = edited(one, draw.choice([more for more in leaves(one) if more.path]), draw)
        fresh, again = outcome(one, registry), outcome(one, registry, cache)
        assert again == fresh, (leaf.path, leaf.value)
        draws += 1
        if not isinstance(fresh, tuple):
            planned += 1
            if planned % 5 == 0:  # a plan is long to write out
                assert repr(again) == repr(fresh)
    assert len(groups) > 60
    assert draws >= (80 if full else 20)
    assert planned > draws // 2


def test_numbers_that_are_equal_but_not_alike_are_not_taken_for_one_another(document, registry) -> None:
    job = read_job(document(), registry)
    cache = PlanCache()
    for degrees in (0.0, -0.0, 0):
        warm = replace(job, climate=replace(job.climate, shop_c=degrees))
        (plan,) = cache.cabinets(warm, registry)
        assert repr(plan.construction.job.climate.shop_c) == repr(degrees)
    assert len(cache) == 3


def test_another_registry_plans_anew(document, registry) -> None:
    job, cache = read_job(document(), registry), PlanCache()
    (first,) = cache.cabinets(job, registry)
    assert cache.cabinets(job, registry)[0] is first
    assert cache.cabinets(job, replace(registry))[0] is not first


def test_only_the_cabinet_that_changed_is_planned(registry) -> None:
    job = read_job(examples()[2].job(), registry)
    cache = PlanCache()
    first = cache.cabinets(job, registry)
    moved = replace(job, cabinets=(*job.cabinets[:-1], replace(job.cabinets[-1], height=job.cabinets[-1].height + MM)))
    second = cache.cabinets(moved, registry)
    assert [a is b for a, b in zip(first, second, strict=True)] == [True] * (len(first) - 1) + [False]
    assert cache.cabinets(job, registry)[-1] is first[-1]  # the earlier one is still there


def test_a_cache_holds_no_more_parts_than_it_may(document, registry) -> None:
    job = read_job(document(), registry)
    parts = len(make_plan(job, registry).parts)
    cache = PlanCache(most_parts=2 * parts)
    for width in range(5):
        cabinet = replace(job.cabinets[0], width=job.cabinets[0].width + width * MM)
        cache.cabinets(replace(job, cabinets=(cabinet,)), registry)
        assert len(cache) == min(2, width + 1)
    none = PlanCache(most_parts=0)
    assert none.cabinets(job, registry)[0].parts
    assert len(none) == 0


def test_a_cabinet_sees_only_what_is_in_its_key(document, registry) -> None:
    """A run, stock or rates reach no cabinet, so they plan none anew."""
    stock = {"sheets": [{"id": "s", "material": "case", "length": 2440, "width": 1220}]}
    job, cache = read_job(document(stock=stock), registry), PlanCache()
    (first,) = cache.cabinets(job, registry)
    other = replace(job, title="Other bay", stock=None, tape=Fraction(1))
    assert cache.cabinets(other, registry)[0] is first
    assert cache.cabinets(replace(other, units="in"), registry)[0] is not first
    for kerf in range(MOST_CUTTINGS + 2):
        wider = replace(job, stock=replace(job.stock, kerf=kerf * MM))
        cutting = cache.cutting(wider, first.parts)
        assert cache.cutting(wider, first.parts) is cutting
