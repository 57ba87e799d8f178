"""A plan as a JSON document: plain dictionaries, numbers in job units, text for the bench beside them."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any

import orjson
from casewright.api.stock import pile_after
from casewright.api.wire.built_document import built_document
from casewright.api.wire.checks_document import checks_document
from casewright.api.wire.features import point
from casewright.api.wire.fits_document import fits_document, unproved_document
from casewright.api.wire.lengths import Document, Lengths, mass_document
from casewright.api.wire.mounting_document import mounting_result
from casewright.api.wire.parts_document import (
    doors_document,
    dry_fit_document,
    hardware_document,
    joints_document,
    parts_document,
)
from casewright.api.wire.run_document import costs_document, run_document
from casewright.api.wire.steps_document import schedule_document, steps_document
from casewright.api.wire.stock_document import clean_document, pieces_document, stock_document
from casewright.sdk import model
from casewright.sdk.engineering.weights import hands
from casewright.sdk.errors import pointer_to
from casewright.sdk.units import Units


def plan_document(
    plan: model.Plan,
    made_by: Mapping[str, Any],
    fingerprint: str,
    sections: Iterable[str],
) -> Document:
    """Return the plan, or the named sections of it, as JSON values."""
    lengths = Lengths.of(plan.job)
    answer = {name: _SECTIONS[name](plan, lengths) for name in sections}
    return answer_document(plan.job, stop_count(plan.checks), answer, (made_by, fingerprint))


def answer_document(job: model.Job, stops: int, answer: Document, made: tuple[Mapping[str, Any], str]) -> Document:
    """Return an answer about a job: whose it is, how many stops there are, what is answered, and what made it."""
    made_by, fingerprint = made
    whose = {"title": job.title, "units": job.units, "tape": str(job.tape), "stops": stops}
    return {**whose, **answer, "made_by": made_by, "fingerprint": fingerprint}


def stop_count(checks: Iterable[model.Check]) -> int:
    """Return how many checks say stop."""
    return sum(check.level == "stop" for check in checks)


def to_bytes(document: Any) -> bytes:
    """Return a document as UTF-8 JSON text that ends with a line feed."""
    return orjson.dumps(document, option=orjson.OPT_APPEND_NEWLINE)


def _summary(plan: model.Plan, lengths: Lengths) -> list[Document]:
    """Return a line a cabinet."""
    weights = {w.cabinet: w for w in plan.weights}
    bought, stops = _bought(plan), _stops(plan)
    return [
        {
            **_summary_line(cabinet, weights.get(cabinet.id), plan.job.units, lengths),
            "buy": [bought[cabinet.id][item] for item in sorted(bought[cabinet.id])],
            "stops": stops[cabinet.id],
        }
        for cabinet in plan.job.cabinets
    ]


def _summary_line(cabinet: model.Cabinet, weight: model.Weight | None, units: Units, lengths: Lengths) -> Document:
    sizes = (cabinet.width, cabinet.height, cabinet.depth)
    out: Document = {
        "cabinet": cabinet.id,
        "title": cabinet.title,
        "count": cabinet.count,
        "width": lengths.numbers[cabinet.width],
        "height": lengths.numbers[cabinet.height],
        "depth": lengths.numbers[cabinet.depth],
        "text": " × ".join(lengths.texts[size] for size in sizes),
    }
    if weight is not None:
        out |= mass_document(weight.mass_kg, units)
        out["hands"] = hands(weight.mass_kg)
    return out


def _bought(plan: model.Plan) -> defaultdict[str, dict[tuple[str, str], Document]]:
    """Return what each cabinet needs to have bought, by cabinet, then by item and name."""
    bought: defaultdict[str, dict[tuple[str, str], Document]] = defaultdict(dict)
    for line in plan.hardware:
        new: Document = {"item": line.item, "name": line.name, "quantity": 0}
        bought[line.cabinet].setdefault((line.item, line.name), new)["quantity"] += line.quantity
    return bought


def _stops(plan: model.Plan) -> defaultdict[str, list[str]]:
    """Return the codes of the stops that are about each cabinet, or about stock that is short for it."""
    places: defaultdict[str, set[str]] = defaultdict(set)
    for cabinet in plan.job.cabinets:
        for place in (cabinet.id, cabinet.pointer, *_on_wall(cabinet)):
            places[place].add(cabinet.id)
    cabinet_of = {part.id: part.cabinet for part in plan.parts}
    short: defaultdict[str, set[str]] = defaultdict(set)
    for row in plan.stock.short if plan.stock else ():
        if row.part in cabinet_of:
            short[pointer_to("materials", row.material)].add(cabinet_of[row.part])
    stops: defaultdict[str, list[str]] = defaultdict(list)
    for check in plan.checks:
        if check.level == "stop":
            about = {one for place in _places_above(check.subject) for one in places.get(place, ())}
            for one in about | short.get(check.subject, set()):
                stops[one].append(check.code)
    return stops


def _on_wall(cabinet: model.Cabinet) -> list[str]:
    """Return the pointers of a cabinet's places on the wall: of all its places, or of those of its copies."""
    if not cabinet.copies:
        return [pointer_to("wall", "cabinets_at", cabinet.id)]
    return [pointer_to("wall", "cabinets_at", cabinet.planned, str(copy - 1)) for copy in cabinet.copies]


def _places_above(subject: str) -> Iterator[str]:
    """Yield what a subject is inside of, itself first: `tools/top` is in `tools`."""
    while subject:
        yield subject
        subject = subject.rpartition("/")[0]


def _mounting(plan: model.Plan, lengths: Lengths) -> list[Document]:
    """Return every mounting; what its engineering found stands beside its geometry."""
    return [
        {
            **mounting_result(m.result),
            "cabinet": m.cabinet,
            "method": m.method,
            "lift": lengths.numbers[m.lift],
            "lengths": {name: lengths.numbers[nm] for name, nm in m.lengths},
            "cautions": m.cautions,
        }
        for m in plan.mounting
    ]


def _weights(plan: model.Plan, lengths: Lengths) -> list[Document]:
    """Return each cabinet's empty mass and its centre in the cabinet frame."""
    return [
        {"cabinet": w.cabinet, **mass_document(w.mass_kg, plan.job.units), "centre": point(w.centre, lengths.numbers)}
        for w in plan.weights
    ]


def _workshop(plan: model.Plan, lengths: Lengths) -> list[Document]:
    """Return what each cabinet asks of glue, band and finish, for one of its copies."""
    return [
        {
            "cabinet": w.cabinet,
            "glue_area_mm2": round(w.glue_area_mm2, 1),
            "glue_g": round(w.glue_g, 2),
            "band_length": lengths.numbers[w.band_length],
            "finish_area_mm2": round(w.finish_area_mm2, 1),
        }
        for w in plan.workshop
    ]


def _stock(plan: model.Plan, lengths: Lengths) -> Document | None:
    """Return the cutting plan, or None where there is none."""
    if plan.stock is None or plan.job.stock is None:
        return None
    document = stock_document(plan.stock, lengths)
    stock = plan.job.stock
    return {
        **document,
        "clean": [clean_document(one, lengths) for one in stock.clean],
        "after": pieces_document(pile_after(stock, plan.stock, plan.job.shop.keep_offcut), lengths),
    }


def _run(plan: model.Plan, lengths: Lengths) -> Document | None:
    """Return the run along the wall, or None where no cabinet has a place."""
    return None if plan.run is None else plain(run_document(plan.run, plan.shared_cleats, lengths))


def _costs(plan: model.Plan, lengths: Lengths) -> Document:
    """Return what the job takes and costs."""
    return costs_document(plan.costs)


def _origins(plan: model.Plan, lengths: Lengths) -> dict[str, str]:
    """Return where values that a cabinet does not give itself came from, by their JSON Pointer."""
    return dict(sorted(plan.job.origins.items()))


_PLAIN = frozenset({str, int, float, bool, type(None)})


def plain(value: Any) -> Any:
    """Return a value with every mapping as a dict, for the JSON writer."""
    if isinstance(value, Mapping):
        return {str(key): inner if type(inner) in _PLAIN else plain(inner) for key, inner in value.items()}
    if isinstance(value, (list, tuple)):
        return [inner if type(inner) in _PLAIN else plain(inner) for inner in value]
    return value


_SECTIONS: Mapping[str, Callable[[model.Plan, Lengths], Any]] = {
    "summary": _summary,
    "parts": parts_document,
    "joints": joints_document,
    "doors": doors_document,
    "hardware": hardware_document,
    "mounting": _mounting,
    "dry_fit": dry_fit_document,
    "checks": checks_document,
    "steps": steps_document,
    "schedule": schedule_document,
    "weights": _weights,
    "workshop": _workshop,
    "stock": _stock,
    "run": _run,
    "costs": _costs,
    "fits": fits_document,
    "fits_not_proved": unproved_document,
    "built": built_document,
    "origins": _origins,
}

SECTIONS = tuple(_SECTIONS)
"""Names of the sections, in the order they are written."""
