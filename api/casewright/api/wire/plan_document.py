"""A plan as a JSON document: plain dictionaries, numbers in job units, text for the bench beside them."""

from collections.abc import Callable, Iterable, Mapping
from typing import Any

import orjson
from casewright.api.stock import pieces_after
from casewright.api.wire.checks_document import checks_document
from casewright.api.wire.features import point
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
from casewright.api.wire.stock_document import pieces_document, stock_document
from casewright.sdk import model
from casewright.sdk.engineering.weights import hands
from casewright.sdk.errors import pointer_to


def plan_document(
    plan: model.Plan,
    made_by: Mapping[str, Any],
    fingerprint: str,
    sections: Iterable[str],
) -> Document:
    """Return the plan, or the named sections of it, as JSON values."""
    lengths = Lengths.of(plan.job)
    out: Document = {
        "title": plan.job.title,
        "units": plan.job.units,
        "tape": str(plan.job.tape),
    }
    for name in sections:
        out[name] = _SECTIONS[name](plan, lengths)
    out["made_by"] = made_by
    out["fingerprint"] = fingerprint
    return out


def to_bytes(document: Any) -> bytes:
    """Return a document as UTF-8 JSON text that ends with a line feed."""
    return orjson.dumps(document, option=orjson.OPT_APPEND_NEWLINE)


def _summary(plan: model.Plan, lengths: Lengths) -> list[Document]:
    """Return a line a cabinet."""
    weights = {w.cabinet: w for w in plan.weights}
    return [_summary_line(c, weights.get(c.id), plan, lengths) for c in plan.job.cabinets]


def _summary_line(cabinet: model.Cabinet, weight: model.Weight | None, plan: model.Plan, lengths: Lengths) -> Document:
    buy: dict[str, Document] = {}
    for line in plan.hardware:
        if line.cabinet == cabinet.id:
            row = buy.setdefault(line.item, {"item": line.item, "name": line.name, "quantity": 0})
            row["quantity"] += line.quantity
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
        out |= mass_document(weight.mass_kg, plan.job.units)
        out["hands"] = hands(weight.mass_kg)
    out["buy"] = [buy[item] for item in sorted(buy)]
    short = _short(plan, cabinet)
    out["stops"] = [
        check.code
        for check in plan.checks
        if check.level == "stop" and (_about(check.subject, cabinet) or check.subject in short)
    ]
    return out


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
    after = pieces_after(plan.job.stock.pieces, plan.stock.layouts)
    return {**document, "after": pieces_document(after, lengths)}


def _run(plan: model.Plan, lengths: Lengths) -> Document | None:
    """Return the run along the wall, or None where no cabinet has a place."""
    return None if plan.run is None else plain(run_document(plan.run, plan.shared_cleats, lengths))


def _costs(plan: model.Plan, lengths: Lengths) -> Document | None:
    """Return what the job costs by the shop's rates, or None where it gives none."""
    return None if plan.costs is None else costs_document(plan.costs)


def _origins(plan: model.Plan, lengths: Lengths) -> dict[str, str]:
    """Return where values that a cabinet does not give itself came from, by their JSON Pointer."""
    return dict(sorted(plan.job.origins.items()))


def _short(plan: model.Plan, cabinet: model.Cabinet) -> set[str]:
    """Return the places in the job of the materials that stock yields too few of this cabinet's parts from."""
    own = {part.id for part in plan.parts if part.cabinet == cabinet.id}
    rows = plan.stock.short if plan.stock else ()
    return {pointer_to("materials", row.material) for row in rows if row.part in own}


def _about(subject: str, cabinet: model.Cabinet) -> bool:
    places = (f"{cabinet.id}/", f"{cabinet.pointer}/", pointer_to("wall", "cabinets_at", cabinet.id) + "/")
    return subject in (cabinet.id, cabinet.pointer) or subject.startswith(places)


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
    "origins": _origins,
}

SECTIONS = tuple(_SECTIONS)
"""Names of the sections, in the order they are written."""
