"""What there is to choose from: example jobs, methods, materials, sources, limits, plugins.

Bodies are written once, at start.
"""

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from typing import Any

from casewright.api.job.limits import LIMITS
from casewright.api.job.option_schema import option_schema
from casewright.api.job.schema import JobSchemas
from casewright.api.use.examples import examples
from casewright.api.web.etag import fixed_json
from casewright.sdk.codes import CODES
from casewright.sdk.loader import Registry
from casewright.sdk.methods import JointMethod, Method
from casewright.sdk.units import MM
from flask import Blueprint

_LENGTHS = frozenset({
    "nominal", "least", "most", "up_to", "door_up_to", "cup_diameter", "bore", "bore_depth", "edge_least",
    "edge_usual", "edge_most", "screw_spacing", "screw_behind", "plate_setback", "plate_pitch", "from_door_end",
    "side_adjustment", "height_adjustment", "depth_out", "depth_in", "depth_adjustment",
    "wide_door_from", "spacing", "hole_diameter", "projection", "diameter", "root", "head",
    "length", "washer", "tip", "hole_depth", "pitch", "setback", "side_room", "height", "first_hole", "slack",
    "thickness", "width", "constant",
})  # fmt: skip
"""Catalogue fields that hold lengths in nm; they leave as millimetres, the unit in the name."""


def blueprint(schemas: JobSchemas) -> Blueprint:
    """Return the routes, each with its body written already."""
    routes = Blueprint("library", __name__)
    for name, document in documents(schemas).items():
        routes.add_url_rule(f"/v1/{name}", name.replace("/", "-"), fixed_json(document), methods=["GET"])
    return routes


def documents(schemas: JobSchemas) -> dict[str, Any]:
    """Return what each path answers."""
    registry = schemas.registry
    return {
        "examples": example_jobs(),
        "methods": methods(registry),
        "materials": materials(registry),
        "sources": {"sources": [plain_record(source) for source in registry.sources.values()]},
        "limits": {"limits": [plain_record(limit) for limit in LIMITS]},
        "plugins": plugins(schemas),
        "checks/codes": {"codes": codes(registry)},
    }


def documents_shown(every: dict[str, Any]) -> dict[str, Any]:
    """Return each path's answer cut short, as an example of it: one entry of each list, and small ones."""
    shown: dict[str, Any] = _first(every)
    shown["examples"]["examples"][0]["job"] = {"units": "mm"}
    for method in shown["methods"]["methods"]:
        method["options"] = {"type": "object", "properties": {}, "additionalProperties": False}
    shown["materials"] = {name: [] for name in shown["materials"]} | {"pins": shown["materials"]["pins"]}
    return shown


def _first(document: Any) -> Any:
    if isinstance(document, dict):
        return {key: _first(inner) for key, inner in document.items()}
    return [_first(inner) for inner in document[:1]] if isinstance(document, list) else document


def example_jobs() -> dict[str, Any]:
    """Return the example jobs by name and title."""
    jobs = [(example.name, example.job()) for example in examples()]
    return {"examples": [{"name": name, "title": job.get("title", name), "job": job} for name, job in jobs]}


def methods(registry: Registry) -> dict[str, Any]:
    """Return every method with the JSON Schema of its options."""
    families: Mapping[str, Mapping[str, Method]] = {
        "joints": registry.joints,
        "doors": registry.doors,
        "boxes": registry.boxes,
        "mountings": registry.mountings,
    }
    rows = [_method(family, m, registry) for family, known in families.items() for m in known.values()]
    houses = [{"id": h.id, "title": h.title, "defaults": dict(h.defaults)} for h in registry.houses.values()]
    checks = [{"id": c.id, "title": c.title} for c in registry.checks.values()]
    cures = [
        {"id": c.id, "title": c.title, "codes": sorted(c.codes), "why_none": dict(c.why_none)}
        for c in registry.cures.values()
    ]
    return {"methods": rows, "house_styles": houses, "checks": checks, "cures": cures}


def _method(family: str, method: Method, registry: Registry) -> dict[str, Any]:
    does = sorted(method.does) if isinstance(method, JointMethod) else []
    return {
        "id": method.id,
        "title": method.title,
        "family": family,
        "does": does,
        "plugin": registry.owner(family, method.id),
        "options": option_schema(method.options),
    }


def materials(registry: Registry) -> dict[str, Any]:
    """Return the catalogue: stuffs, hinges, pulls and fasteners; lengths in millimetres."""
    catalogue = registry.catalogue
    return {f.name: [plain_record(entry) for entry in getattr(catalogue, f.name)] for f in fields(catalogue)}


def codes(registry: Registry) -> list[dict[str, Any]]:
    """Return every code of a check of the service's own, with the generators that know what may cure it."""
    return [
        {
            "code": entry.code,
            "levels": list(entry.levels),
            "meaning": entry.meaning,
            "cures": [cure.id for cure in registry.cures.values() if entry.code in cure.codes],
        }
        for entry in CODES
    ]


def plugins(schemas: JobSchemas) -> dict[str, Any]:
    """Return every installed plugin, loaded or not, and methods left out because their options clash."""
    rows = [
        {
            "name": p.name,
            "distribution": p.distribution,
            "version": p.version,
            "status": p.status,
            "cause": p.cause,
            "methods": list(p.methods),
        }
        for p in schemas.registry.plugins
    ]
    note = "Plugins run with the full rights of the service: installing one is trusting it."
    return {"plugins": rows, "left_out": list(schemas.faults), "note": note}


def plain_record(value: Any) -> Any:
    """Return a frozen record as JSON values; lengths in nm become millimetres."""
    if is_dataclass(value) and not isinstance(value, type):
        out: dict[str, Any] = {}
        for f in fields(value):
            inner = getattr(value, f.name)
            if f.name == "sources":
                out["sources"] = dict(inner)
            elif f.name == "plate_heights":
                out["plate_heights_mm"] = [nm / MM for nm in inner]
            elif f.name in _LENGTHS and (inner is None or isinstance(inner, int)):
                out[f"{f.name}_mm"] = None if inner is None else inner / MM
            else:
                out[f.name] = plain_record(inner)
        return out
    if isinstance(value, (list, tuple)):
        return [plain_record(item) for item in value]
    return value
