"""What a promise was broken with, as a JSON document that can be tried again: jobs, options, meetings.

A meeting is written without its catalogue: stuffs are named by id, and the catalogue of whoever reads it is put back.
"""

import json
from collections.abc import Mapping
from dataclasses import fields
from typing import Any

from casewright.sdk.materials import Catalogue
from casewright.sdk.methods import Body, Meeting
from casewright.sdk.model import Material
from casewright.sdk.units import exact_text
from casewright.sdk.writer import writer

SHOWN = 400
"""Letters shown of a job or of options."""

_APART = frozenset({"host", "guest", "catalogue", "write", "keep_clear"})


def drawn_document(drawn: Mapping[str, Any]) -> dict[str, Any]:
    """Return what was drawn as JSON values."""
    return {name: _meeting(one) if isinstance(one, Meeting) else one for name, one in drawn.items()}


def drawn_words(drawn: Mapping[str, Any]) -> str:
    """Return what was drawn in a line or two, lengths in mm: the document itself is for `--replay`."""
    return "; ".join(f"{name}: {_in_words(one)}" for name, one in drawn.items())


def _in_words(one: Any) -> str:
    if not isinstance(one, Meeting):
        words = json.dumps(one, ensure_ascii=False, default=str)
        return words if len(words) <= SHOWN else f"{words[:SHOWN]} …"
    lengths = [(f.name, getattr(one, f.name)) for f in fields(one) if f.type is int or f.type == "int"]
    sizes = ", ".join(f"{name} {exact_text(nm)}" for name, nm in lengths)
    flags = f", far_side {one.far_side}, keep_clear at {len(one.keep_clear)}, where {one.where}"
    guest, host = (f"{body.role} ({body.stuff.id})" for body in (one.guest, one.host))
    return f"{one.kind} of {guest} in {host}, {sizes}{flags}"


def drawn_from(document: Mapping[str, Any], catalogue: Catalogue) -> dict[str, Any]:
    """Return what `drawn_document` wrote. Raises `UnknownItemError` for a stuff that the catalogue lacks."""
    return {name: _meeting_from(one, catalogue) if name == "meeting" else one for name, one in document.items()}


def _meeting(meeting: Meeting) -> dict[str, Any]:
    plain = {f.name: getattr(meeting, f.name) for f in fields(meeting) if f.name not in _APART}
    spans = [list(span) for span in meeting.keep_clear]
    bodies = {"host": _body(meeting.host), "guest": _body(meeting.guest)}
    return {**plain, **bodies, "keep_clear": spans, "units": meeting.write.units}


def _body(body: Body) -> dict[str, Any]:
    material = body.material
    return {
        "name": body.name,
        "role": body.role,
        "thickness": body.thickness,
        "material": {"key": material.key, "kind": material.kind, "stuff": material.stuff},
    }


def _meeting_from(document: Mapping[str, Any], catalogue: Catalogue) -> Meeting:
    names = {f.name for f in fields(Meeting)} - _APART
    plain = {name: value for name, value in document.items() if name in names}
    host, guest = (_body_from(document[name], catalogue) for name in ("host", "guest"))
    spans = tuple((low, high) for low, high in document["keep_clear"])
    return Meeting(
        **plain, host=host, guest=guest, catalogue=catalogue, keep_clear=spans, write=writer(document["units"])
    )


def _body_from(document: Mapping[str, Any], catalogue: Catalogue) -> Body:
    thick, stuff = document["thickness"], catalogue.stuff(document["material"]["stuff"])
    return Body(document["name"], document["role"], Material(**document["material"], thickness=thick), stuff, thick)
