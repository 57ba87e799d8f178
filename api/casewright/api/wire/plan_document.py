"""A plan as a JSON document: plain dictionaries, numbers in job units, text for the bench beside them."""

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Any

import orjson
from casewright.api.wire.features import feature_document, point
from casewright.api.wire.lengths import Numbers, Texts
from casewright.api.wire.mounting_document import mounting_result
from casewright.api.wire.run_document import costs_document, run_document
from casewright.api.wire.stock_document import stock_document
from casewright.sdk import model
from casewright.sdk.engineering.units import KG_PER_LB
from casewright.sdk.engineering.weights import hands
from casewright.sdk.errors import pointer_to
from casewright.sdk.units import NM_PER_UNIT

__all__ = ["SECTIONS", "plan_document", "to_bytes"]

SECTIONS = (
    "summary", "parts", "joints", "doors", "hardware", "mounting", "dry_fit", "checks", "steps", "weights", "workshop",
    "stock", "run", "costs", "origins",
)  # fmt: skip


_WAYS: Mapping[int, str] = {1: "+x", 2: "+y", 3: "+z", -1: "-x", -2: "-y", -3: "-z"}
"""Which way of the cabinet an axis of a part runs."""


def plan_document(
    plan: model.Plan,
    made_by: Mapping[str, Any],
    fingerprint: str,
    sections: Iterable[str] = SECTIONS,
) -> dict[str, Any]:
    """Return the plan, or the named sections of it, as JSON values."""
    writer = _Writer(plan)
    out: dict[str, Any] = {
        "title": plan.job.title,
        "units": plan.job.units,
        "tape": str(plan.job.tape),
    }
    for name in sections:
        out[name] = getattr(writer, name)()
    out["made_by"] = made_by
    out["fingerprint"] = fingerprint
    return out


def to_bytes(document: Any) -> bytes:
    """Return a document as UTF-8 JSON text that ends with a line feed."""
    return orjson.dumps(document, option=orjson.OPT_APPEND_NEWLINE)


class _Writer:
    def __init__(self, plan: model.Plan) -> None:
        self.plan, self.job = plan, plan.job
        self.numbers = Numbers(plan.job.units)
        self.texts = Texts(plan.job.units, plan.job.tape)
        self.pounds = plan.job.units == "in"

    def summary(self) -> list[dict[str, Any]]:
        """Return a line a cabinet."""
        weights = {w.cabinet: w for w in self.plan.weights}
        return [self._summary(c, weights.get(c.id)) for c in self.job.cabinets]

    def _summary(self, cabinet: model.Cabinet, weight: model.Weight | None) -> dict[str, Any]:
        buy: dict[str, dict[str, Any]] = {}
        for line in self.plan.hardware:
            if line.cabinet == cabinet.id:
                row = buy.setdefault(line.item, {"item": line.item, "name": line.name, "quantity": 0})
                row["quantity"] += line.quantity
        sizes = (cabinet.width, cabinet.height, cabinet.depth)
        out: dict[str, Any] = {
            "cabinet": cabinet.id,
            "title": cabinet.title,
            "count": cabinet.count,
            "width": self.numbers[cabinet.width],
            "height": self.numbers[cabinet.height],
            "depth": self.numbers[cabinet.depth],
            "text": " × ".join(self.texts[size] for size in sizes),
        }
        if weight is not None:
            out |= self._mass("mass", weight.mass_kg)
            out["hands"] = hands(weight.mass_kg)
        out["buy"] = [buy[item] for item in sorted(buy)]
        out["stops"] = [
            check.code for check in self.plan.checks if check.level == "stop" and _about(check.subject, cabinet)
        ]
        return out

    def parts(self) -> list[dict[str, Any]]:
        """Return every part."""
        return [self._part(part) for part in self.plan.parts]

    def _part(self, part: model.Part) -> dict[str, Any]:
        numbers, texts, place = self.numbers, self.texts, part.place
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
            "why": {"length": self._why(part.why_length), "width": self._why(part.why_width)},
            "features": [feature_document(f, numbers, texts) for f in part.features],
            "place": {
                "at": point(place.at, numbers),
                "length": _WAYS[place.x],
                "width": _WAYS[place.y],
                "thickness": _WAYS[place.z],
            },
            "edge_band": [self._band(band, part) for band in part.bands],
            "group": part.group,
        }

    def _why(self, terms: tuple[model.Term, ...]) -> list[dict[str, Any]]:
        numbers, texts = self.numbers, self.texts
        return [{"term": t.label, "value": numbers[t.nm], "text": texts[t.nm]} for t in terms]

    def _band(self, band: model.Band, part: model.Part) -> dict[str, Any]:
        box, blank = band.box, part.blank
        sides = {"end-low": box.x1 <= 0, "end-high": box.x0 >= blank.x1}
        sides |= {"edge-low": box.y1 <= 0, "edge-high": box.y0 >= blank.y1}
        edge = next((name for name, here in sides.items() if here), "edge-low")
        along = 0 if edge.startswith("edge") else 1
        return {
            "material": band.material,
            "edge": edge,
            "length": self.numbers[box.size[along]],
            "thickness": self.numbers[box.size[1 - along]],
        }

    def joints(self) -> list[dict[str, Any]]:
        """Return every joint."""
        numbers = self.numbers
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
            }
            for j in self.plan.joints
        ]

    def doors(self) -> list[dict[str, Any]]:
        """Return every door as hung."""
        numbers = self.numbers
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
                **self._mass("mass", d.mass_kg),
            }
            for d in self.plan.doors
        ]

    def hardware(self) -> list[dict[str, Any]]:
        """Return every line of hardware."""
        numbers = self.numbers
        return [
            {
                "item": h.item,
                "name": h.name,
                "cabinet": h.cabinet,
                "for": h.used_for,
                "quantity": h.quantity,
                "at": [point(p, numbers) for p in h.at],
            }
            for h in self.plan.hardware
        ]

    def mounting(self) -> list[dict[str, Any]]:
        """Return every mounting; what its engineering found stands beside its geometry."""
        return [
            {
                **mounting_result(m.result),
                "cabinet": m.cabinet,
                "method": m.method,
                "lift": self.numbers[m.lift],
                "lengths": {name: self.numbers[nm] for name, nm in m.lengths},
                "cautions": m.cautions,
            }
            for m in self.plan.mounting
        ]

    def dry_fit(self) -> dict[str, Any]:
        """Return the dry fit."""
        fit, numbers = self.plan.dry_fit, self.numbers
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

    def checks(self) -> list[dict[str, Any]]:
        """Return every check, and one for each cabinet whose bench text is rounded."""
        return [self._check(check) for check in (*self.plan.checks, *self._rounded())]

    def _check(self, check: model.Check) -> dict[str, Any]:
        is_length = check.unit == model.LENGTH
        return {
            "code": check.code,
            "level": check.level,
            "subject": check.subject,
            "message": check.message,
            "value": self._value(check.value, is_length),
            "limit": self._value(check.limit, is_length),
            "unit": self.job.units if is_length else check.unit,
            "source": check.source,
        }

    def _value(self, value: float | int | str | None, is_length: bool) -> float | int | str | None:
        return self.numbers[round(value)] if is_length and isinstance(value, (int, float)) else value

    def _rounded(self) -> list[model.Check]:
        worst: dict[str, tuple[int, int]] = {}
        for part in self.plan.parts:
            for nm in (part.length, part.width):
                moved = self.texts.moved(nm)
                if moved:
                    count, most = worst.get(part.cabinet, (0, 0))
                    worst[part.cabinet] = (count + 1, max(most, moved))
        half = round(Fraction(NM_PER_UNIT[self.job.units]) * self.job.tape / 2)
        return [
            model.Check(
                cabinet or "loose",
                model.Finding(
                    code="rounded-for-the-tape",
                    level="caution",
                    message=f"{count} sizes are rounded in their bench text to {self.job.tape} {self.job.units}; "
                    "set stops by the number where the last bit matters, and cut mating parts at one setting",
                    value=most,
                    limit=half,
                    unit=model.LENGTH,
                    source="common-practice",
                ),
            )
            for cabinet, (count, most) in worst.items()
        ]

    def steps(self) -> list[dict[str, Any]]:
        """Return the order of work."""
        return [
            {
                "number": s.number,
                "stage": s.stage,
                "do": s.do,
                "parts": s.parts,
                "setting": s.setting,
                "needs": s.needs,
            }
            for s in self.plan.steps
        ]

    def weights(self) -> list[dict[str, Any]]:
        """Return each cabinet's empty mass and its centre in the cabinet frame."""
        return [
            {"cabinet": w.cabinet, **self._mass("mass", w.mass_kg), "centre": point(w.centre, self.numbers)}
            for w in self.plan.weights
        ]

    def workshop(self) -> list[dict[str, Any]]:
        """Return what each cabinet asks of glue, clamps, band and finish, for one of its copies."""
        return [
            {
                "cabinet": w.cabinet,
                "glue_area_mm2": round(w.glue_area_mm2, 1),
                "glue_g": round(w.glue_g, 2),
                "clamp_least_n": round(w.clamp_n[0], 1),
                "clamp_most_n": round(w.clamp_n[1], 1),
                "band_length": self.numbers[w.band_length],
                "finish_area_mm2": round(w.finish_area_mm2, 1),
            }
            for w in self.plan.workshop
        ]

    def stock(self) -> Any:
        """Return the cutting plan, or None where there is none."""
        plan = self.plan.stock
        return None if plan is None else stock_document(plan, self.numbers, self.texts)

    def origins(self) -> dict[str, str]:
        """Return where values that a cabinet does not give itself came from, by their JSON Pointer."""
        return dict(sorted(self.job.origins.items()))

    def run(self) -> Any:
        """Return the run along the wall, or None where no cabinet has a place."""
        run, shared = self.plan.run, self.plan.shared_cleats
        return None if run is None else plain(run_document(run, shared, self.numbers, self.texts))

    def costs(self) -> Any:
        """Return what the job costs by the shop's rates, or None where it gives none."""
        return None if self.plan.costs is None else costs_document(self.plan.costs)

    def _mass(self, name: str, kg: float) -> dict[str, float]:
        out = {f"{name}_kg": round(kg, 3)}
        if self.pounds:
            out[f"{name}_lb"] = round(kg / KG_PER_LB, 2)
        return out


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
