"""A page for each family of the catalogue: every entry with its figures and their sources."""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from typing import Any

from casewright.api.use.method_pages.options import both
from casewright.api.use.method_pages.tables import cell, source_table, table
from casewright.api.wire.plain_record import LENGTHS
from casewright.sdk.loader import Registry
from casewright.sdk.materials import Catalogue
from casewright.sdk.sources import Source

UNITS = {"_kg_m3": "kg/m³", "_mpa": "MPa", "_kg": "kg", "_n": "N", "_degrees": "degrees", "_minutes": "minutes"}
"""How fields end that hold a quantity, and its unit."""


def catalogue_families(catalogue: Catalogue) -> list[str]:
    """Return the families of the catalogue that hold anything."""
    return [f.name for f in fields(catalogue) if getattr(catalogue, f.name)]


def catalogue_text(registry: Registry, family: str) -> str:
    """Return the Markdown of a family's page. Raises `KeyError` where there is none."""
    if family not in catalogue_families(registry.catalogue):
        raise KeyError(family)
    entries = getattr(registry.catalogue, family)
    lines = [f"# Catalogue: {_words(family)}", "", "What a job may name, and the equations compute with."]
    if isinstance(entries[0], Source):
        lines += ["", *source_table(registry, [one.code for one in entries])]
        return "\n".join([*lines, "", "[All methods](../../methods.md)"]) + "\n"
    cited: dict[str, None] = {}
    for entry in entries:
        cited |= dict.fromkeys(code for _, code in entry.sources)
        lines += ["", f"## {entry.title}", "", f"`{entry.id}`", ""]
        lines += table(["figure", "value", "source"], _rows(entry))
        for name, nested in _nested(entry):
            names = [f.name for f in fields(nested[0])]
            rows = [[_value(one, getattr(row, one)) for one in names] for row in nested]
            lines += ["", f"{_words(name).capitalize()}:", "", *table([_words(one) for one in names], rows)]
    lines += ["", "## Sources", "", *source_table(registry, cited), "", "[All methods](../../methods.md)"]
    return "\n".join(lines) + "\n"


def _rows(entry: Any) -> Iterator[list[str]]:
    """Yield name, value and source of each figure of an entry that has one."""
    sources = dict(entry.sources)
    for f in fields(entry):
        value = getattr(entry, f.name)
        if f.name in ("id", "title", "sources") or value is None or value in ((), ""):
            continue
        if not (isinstance(value, tuple) and is_dataclass(value[0])):
            code = sources.get(f.name, sources.get("*", ""))
            yield [_words(f.name), _value(f.name, value), f"`{code}`" if code else ""]


def _nested(entry: Any) -> Iterator[tuple[str, tuple[Any, ...]]]:
    """Yield the tables that an entry holds."""
    for f in fields(entry):
        value = getattr(entry, f.name)
        if isinstance(value, tuple) and value and is_dataclass(value[0]) and f.name != "sources":
            yield f.name, value


def _words(name: str) -> str:
    """Return the name of a field in words, with the unit that it ends in."""
    for ending, unit in UNITS.items():
        if name.endswith(ending):
            return f"{name.removesuffix(ending).replace('_', ' ')}, {unit}"
    return name.replace("_", " ")


def _value(name: str, value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if name in LENGTHS and isinstance(value, int):
        return both(value)
    if name == "plate_heights":
        return ", ".join(both(nm) for nm in value)
    if isinstance(value, float):
        return f"{value:g}"
    if is_dataclass(value) and not isinstance(value, type):
        return cell(", ".join(f"{_words(f.name)} {_value(f.name, getattr(value, f.name))}" for f in fields(value)))
    if isinstance(value, (list, tuple)):
        return cell(", ".join(_value(name, one) for one in value))
    return cell(str(value))
