"""What is built, as it leaves: parts with their reasons and cuts, joints, doors, hardware and the dry fit."""

from collections import Counter
from collections.abc import Mapping

from casewright.api.wire.features import feature_document, point
from casewright.api.wire.lengths import Document, Lengths, mass_document
from casewright.sdk import model

_AXIS_NAMES: Mapping[int, str] = {1: "+x", 2: "+y", 3: "+z", -1: "-x", -2: "-y", -3: "-z"}
"""Which way of the cabinet an axis of a part runs."""

OVER_SIZE: Mapping[int, str] = {1: "length", 2: "width"}
"""What the sizes are called that a part may be over until it is measured for."""


def parts_document(plan: model.Plan, lengths: Lengths) -> list[Document]:
    """Return every part."""
    short = Counter({one.part: one.quantity for one in plan.stock.short}) if plan.stock else Counter[str]()
    over = plan.over_size
    copies = {cabinet.id: cabinet.copies for cabinet in plan.job.cabinets}
    return [
        {
            **_part(part, plan.sides[part.id], lengths),
            "no_stock": short[part.id],
            "built": part.built,
            "bought_to_size": plan.job.materials[part.material].to_size,
            "over_size": [OVER_SIZE[axis] for axis in over.get(part.id, ())],
            "copies": copies.get(part.cabinet, ()),
        }
        for part in plan.parts
    ]


def _part(part: model.Part, sides: model.Sides, lengths: Lengths) -> Document:
    numbers, texts, place = lengths.numbers, lengths.texts, part.place
    return {
        "id": part.id,
        "cabinet": part.cabinet,
        "role": part.role,
        "name": part.name,
        "quantity": part.quantity,
        "material": part.material,
        "length": numbers[part.length],
        "width": numbers[part.width],
        "thickness": numbers[part.thickness],
        "text": {
            "length": texts[part.length],
            "width": texts[part.width],
            "thickness": texts[part.thickness],
        },
        "grain": part.grain,
        "why": {"length": _why(part.why_length, lengths), "width": _why(part.why_width, lengths)},
        "features": [feature_document(f, numbers, texts) for f in part.features],
        "place": {
            "at": point(place.at, numbers),
            "length": _AXIS_NAMES[place.x],
            "width": _AXIS_NAMES[place.y],
            "thickness": _AXIS_NAMES[place.z],
        },
        "sides": {side.value: sides[side] for side in model.Side},
        "edge_band": [_band(band, part, lengths) for band in part.bands],
        "group": part.group,
        "match": _match(part.matched),
    }


def _match(matched: model.Matched | None) -> Document | None:
    return {"row": matched.row, "place": matched.place, "of": matched.of} if matched else None


def _why(terms: tuple[model.Term, ...], lengths: Lengths) -> list[Document]:
    numbers, texts = lengths.numbers, lengths.texts
    return [{"term": t.label, "value": numbers[t.nm], "text": texts[t.nm]} for t in terms]


def _band(band: model.Band, part: model.Part, lengths: Lengths) -> Document:
    box, blank = band.box, part.blank
    sides = {"end-low": box.x1 <= 0, "end-high": box.x0 >= blank.x1}
    sides |= {"edge-low": box.y1 <= 0, "edge-high": box.y0 >= blank.y1}
    edge = next((name for name, here in sides.items() if here), "edge-low")
    along = 0 if edge.startswith("edge") else 1
    return {
        "material": band.material,
        "edge": edge,
        "length": lengths.numbers[box.size[along]],
        "thickness": lengths.numbers[box.size[1 - along]],
    }


def joints_document(plan: model.Plan, lengths: Lengths) -> list[Document]:
    """Return every joint."""
    numbers = lengths.numbers
    return [
        {
            "id": j.id,
            "cabinet": j.cabinet,
            "method": j.method,
            "kind": j.kind,
            "host": j.host,
            "guest": j.guest,
            "seat": numbers[j.seat],
            "clearance": numbers[j.clearance],
            "glue_area_mm2": round(j.glue_area_mm2, 1),
            **({"note": j.note} if j.note else {}),
        }
        for j in plan.joints
    ]


def doors_document(plan: model.Plan, lengths: Lengths) -> list[Document]:
    """Return every door as hung."""
    numbers = lengths.numbers
    return [
        {
            "id": d.id,
            "cabinet": d.cabinet,
            "at": point(d.at, numbers),
            "width": numbers[d.width],
            "height": numbers[d.height],
            "thickness": numbers[d.thickness],
            "hinge_side": d.hinge_side,
            "parts": d.parts,
            "hinges": [numbers[h] for h in d.hinges],
            **mass_document(d.mass_kg, plan.job.units),
        }
        for d in plan.doors
    ]


def hardware_document(plan: model.Plan, lengths: Lengths) -> list[Document]:
    """Return every line of hardware."""
    numbers = lengths.numbers
    return [
        {
            "item": h.item,
            "name": h.words,
            "cabinet": h.cabinet,
            "for": h.used_for,
            "quantity": h.quantity,
            "at": [point(p, numbers) for p in h.at],
        }
        for h in plan.hardware
    ]


def dry_fit_document(plan: model.Plan, lengths: Lengths) -> Document:
    """Return the dry fit."""
    fit, numbers = plan.dry_fit, lengths.numbers
    return {
        "pairs_checked": fit.pairs_checked,
        "seats": [
            {"joint": s.joint, "seat": numbers[s.seat], "clearance": numbers[s.clearance], "seated": s.seated}
            for s in fit.seats
        ],
        "clashes": [{"first": c.first, "second": c.second, "volume_mm3": c.volume_mm3} for c in fit.clashes],
        "outside": [
            {"cabinet": cabinet, "low": point(low, numbers), "high": point(high, numbers)}
            for cabinet, low, high in fit.outside
        ],
        "approximations": fit.approximations,
    }
