"""Every default that the published document names is accepted where it is written, and changes nothing.

Each object of jobs that use most of the document gets, key by key, the default of what it leaves out; the job read is
then the same record, but for the note of where its values came from.
"""

import copy
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest
from casewright.api.job.document import read_job
from casewright.api.use.examples import examples
from casewright.api.web.openapi import openapi_document
from casewright.sdk.loader import Registry

Path = tuple[str | int, ...]

WIDE: dict[str, Any] = {
    "units": "mm",
    "materials": {
        "ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18},
        "thin": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 6},
        "oak": {"kind": "board", "stuff": "red-oak", "thickness": 20},
    },
    "cabinets": [
        {
            "id": "stand",
            "form": "base",
            "width": 900,
            "height": 860,
            "depth": 560,
            "case": {"material": "ply", "pins": {}, "back": {"material": "ply"}},
            "base": {"kind": "plinth", "height": 100},
            "counter": {"material": "oak"},
            "drawers": {"material": "ply"},
            "loading": {},
            "ends": {},
            "doors": {"style": "slab", "pull": {"item": "bar-96"}},
            "space": {"tiers": [{"front": "drawer"}, {"bays": [{"front": "door"}, {}]}]},
        },
        {
            "id": "hung",
            "width": 600,
            "height": 700,
            "depth": 300,
            "case": {"material": "ply"},
            "face_frame": {"material": "oak"},
            "mounting": {"method": "bevel-cleat"},
            "doors": {"style": "cope-and-stick", "material": "oak", "panel": "thin"},
            "space": {"front": "door"},
        },
    ],
    "wall": {
        "studs": {"at": [100, 500, 900], "stuff": "douglas-fir-larch"},
        "cabinets_at": {"hung": [{"x": 100, "z": 1400, "fillers": {"left": {"material": "ply"}}}]},
        "obstacles": [{"id": "box", "x": 2000, "z": 300, "width": 70, "height": 120}],
    },
    "shop": {"glue": {}, "accuracy": {}, "finish": [{"what": "oil"}]},
    "climate": {},
    "stock": {
        "milling": {},
        "sheets": [{"id": "sheet", "material": "ply", "length": 2440, "width": 1220}],
        "offcuts": [{"id": "rest", "material": "ply", "length": 900, "width": 400}],
        "boards": [{"id": "board", "material": "oak", "length": 2400, "width": 150}],
    },
    "rates": {},
    "loose_parts": [{"id": "lid", "material": "ply", "length": 500, "width": 300}],
    "built": [{"cabinet": "stand", "part": "top", "measure": "length", "value": 864}],
}


def objects(value: Any, schema: Any, document: Any, at: Path = ()) -> Iterator[tuple[Path, dict[str, Any]]]:
    """Yield every object of a job with its place and the properties that the document has for it."""
    for one in followed(schema, document, value):
        if isinstance(value, list) and "items" in one:
            for i, inner in enumerate(value):
                yield from objects(inner, one["items"], document, (*at, i))
        if isinstance(value, dict):
            known = one.get("properties", {})
            if known:
                yield at, known
            for key, inner in value.items():
                deeper = known.get(key, one.get("additionalProperties"))
                if isinstance(deeper, dict):
                    yield from objects(inner, deeper, document, (*at, key))


def followed(schema: Any, document: Any, value: Any) -> list[Any]:
    """Return the schemas that a value may be of: references followed, branches of a choice picked by its tag."""
    if "$ref" in schema:
        return followed(document["components"]["schemas"][schema["$ref"].rpartition("/")[2]], document, value)
    if "discriminator" in schema:
        tag = schema["discriminator"]["propertyName"]
        word = value.get(tag) if isinstance(value, dict) else None
        reference = schema["discriminator"]["mapping"].get(word)
        return followed({"$ref": reference}, document, value) if reference else []
    several = schema.get("anyOf") or schema.get("oneOf")
    found = [one for each in several for one in followed(each, document, value)] if several else [schema]
    found = [one for one in found if not isinstance(value, dict) or tagged_alike(one, value)]
    return found[:1] if isinstance(value, dict) and len(found) > 1 else found


def tagged_alike(schema: Any, value: dict[str, Any]) -> bool:
    tags = {key: one["const"] for key, one in schema.get("properties", {}).items() if "const" in one}
    return all(value.get(key) == word for key, word in tags.items())


def put(job: dict[str, Any], at: Path, key: str, value: Any) -> dict[str, Any]:
    changed = copy.deepcopy(job)
    target: Any = changed
    for step in at:
        target = target[step]
    target[key] = value
    return changed


JOBS = [("wide", WIDE), *((one.name, one.job()) for one in examples())]


@pytest.mark.parametrize(("name", "job"), JOBS, ids=[name for name, _ in JOBS])
def test_a_default_written_changes_nothing(name: str, job: dict[str, Any], registry: Registry) -> None:
    document = openapi_document(registry)
    as_left_out = replace(read_job(job, registry), origins={})
    tried = 0
    for at, properties in objects(job, {"$ref": "#/components/schemas/Job"}, document):
        target: Any = job
        for step in at:
            target = target[step]
        house = isinstance(job.get("house"), dict) and at[:1] in (("cabinets",), ("house",))
        for key, one in properties.items():
            if "default" not in one or one["default"] is None or key in target or house:
                continue
            written = replace(read_job(put(job, at, key, one["default"]), registry), origins={})
            assert written == as_left_out, f"/{'/'.join(map(str, at))}/{key}: {one['default']!r}"
            tried += 1
    assert tried > (100 if name == "wide" else 10)
