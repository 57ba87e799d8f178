"""Tables and jobs in Markdown."""

import json
from collections.abc import Iterable, Sequence
from typing import Any

from casewright.sdk.loader import Registry
from casewright.sdk.sources import Source

WIDE = 84
"""Letters of a line of JSON that is not broken."""


def cell(text: str) -> str:
    """Return text as it may stand in a cell."""
    return " ".join(text.split()).replace("|", "\\|")


def table(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> list[str]:
    """Return the lines of a table."""
    lines = [f"| {' | '.join(heads)} |", "|" + "---|" * len(heads)]
    return [*lines, *(f"| {' | '.join(row)} |" for row in rows)]


def source_table(registry: Registry, codes: Iterable[str]) -> list[str]:
    """Return a table of the documents of some codes; nothing where there is none."""
    sources = [registry.sources[code] for code in codes if code in registry.sources]
    rows = [[f"`{s.code}`", cell(_cited(s)), s.provenance, cell(s.note)] for s in sources]
    return table(["code", "document", "how it is known", "note"], rows) if rows else []


def _cited(source: Source) -> str:
    return ", ".join(word for word in (source.title, source.edition, source.clause) if word)


def compact_json(value: Any, indent: str = "") -> str:
    """Return a value as JSON, what fits one line on one line."""
    line = json.dumps(value, ensure_ascii=False)
    if len(indent) + len(line) <= WIDE or not isinstance(value, (dict, list)) or not value:
        return line
    deeper = indent + "  "
    if isinstance(value, dict):
        rows = [f"{json.dumps(key, ensure_ascii=False)}: {compact_json(one, deeper)}" for key, one in value.items()]
    else:
        rows = [compact_json(one, deeper) for one in value]
    opening, closing = "{}" if isinstance(value, dict) else "[]"
    return f"{opening}\n{deeper}" + f",\n{deeper}".join(rows) + f"\n{indent}{closing}"
