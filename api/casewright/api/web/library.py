"""What there is to choose from: example jobs, methods, materials, sources, limits, plugins.

Bodies are written once, at start.
"""

from collections.abc import Mapping
from dataclasses import fields
from typing import Any

from casewright.api.job.limits import LIMITS
from casewright.api.job.option_schema import option_schema
from casewright.api.job.schema import JobSchemas
from casewright.api.use.examples import examples
from casewright.api.use.method_pages import catalogue_families, page_path
from casewright.api.web.etag import fixed_json
from casewright.api.wire.plain_record import plain_record
from casewright.sdk.codes import CODES
from casewright.sdk.loader import Registry
from casewright.sdk.methods import CureGenerator, ExtraCheck, HouseStyle, JointMethod, Method
from casewright.sdk.sources import Source
from flask import Blueprint


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
    houses = [{**_entry("houses", h), "defaults": dict(h.defaults)} for h in registry.houses.values()]
    checks = [_entry("checks", c) for c in registry.checks.values()]
    cures = [
        {**_entry("cures", c), "codes": sorted(c.codes), "why_none": dict(c.why_none)} for c in registry.cures.values()
    ]
    catalogue = [
        {
            "family": name,
            "ids": [_id(one) for one in getattr(registry.catalogue, name)],
            "page": _page("catalogue", name),
        }
        for name in catalogue_families(registry.catalogue)
    ]
    return {"methods": rows, "house_styles": houses, "checks": checks, "cures": cures, "catalogue": catalogue}


def _entry(family: str, one: Method | HouseStyle | ExtraCheck | CureGenerator) -> dict[str, Any]:
    return {"id": one.id, "title": one.title, "page": _page(family, one.id)}


def _page(family: str, entry: str) -> str:
    """Return where a page is, by a reference that is relative (RFC 3986) to where `/v1/methods` is answered."""
    return f"../docs/methods/{page_path(family, entry)}"


def _id(one: Any) -> str:
    return one.code if isinstance(one, Source) else one.id


def _method(family: str, method: Method, registry: Registry) -> dict[str, Any]:
    does = sorted(method.does) if isinstance(method, JointMethod) else []
    return {
        **_entry(family, method),
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
