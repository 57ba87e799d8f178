"""What a pile yields as plain text for a terminal: each job with its sizes, what it leaves, and the bound."""

from collections.abc import Mapping
from textwrap import wrap
from typing import Any

from casewright.api.command.bench_text import WIDTH


def pile_lines(document: Mapping[str, Any], width: int = WIDTH) -> list[str]:
    """Return the answers of a document of a pile, best first, and what none is worth more than."""
    bound = document["bound"]
    if document["aim"] != "least-change" and not bound["possible"]:
        return wrap(f"Nothing: proved by {bound['how']}. Add stock, or give smaller least sizes.", width)
    lines = []
    for number, answer in enumerate(document["answers"], start=1):
        sizes = ", ".join(f"{one['at']} {one['value']}" for one in answer["values"])
        if "changed" in answer:
            sizes += f" (less by {answer['changed']:g} {document['units']} in all)"
        best = "; none is better" if answer["best"] else ""
        lines += wrap(f"{number}. {sizes}: {_worth(answer)}{best}", width, subsequent_indent="   ")
        for row in answer["summary"]:
            lines.append(f"   {row['cabinet']}: {row['count']} of {row['text']}")
        if answer["stops"]:
            lines += wrap(f"stops: {', '.join(answer['stops'])}", width, initial_indent="   ")
        lines += [f"   buy {row['quantity']} of {row['stock']}" for row in answer["buy"]]
        left = [row["id"] for row in answer["after"]["offcuts"]]
        lines += wrap(f"offcuts after it: {', '.join(left) or 'none'}", width, initial_indent="   ")
    if not document["answers"]:
        lines.append("Nothing was found.")
    if document["aim"] == "least-change":
        return [*lines, f"{document['tried']} changes were tried."]
    most = f"No job of these ranges is worth more than {_worth(bound)}, by {bound['how']}."
    return [*lines, *wrap(f"{most} {document['tried']} places were tried.", width)]


def _worth(row: Mapping[str, Any]) -> str:
    """Return what an answer or the bound is worth, in the job's system."""
    words = []
    if "volume_cu_ft" in row:
        words.append(f"{row['volume_cu_ft']:.2f} cu ft outside")
    elif "volume_l" in row:
        words.append(f"{row['volume_l']:.1f} l outside")
    if "parts_area_m2" in row and not words:
        words.append(f"{row['parts_area_m2']:.3f} m2 of parts")
    return ", ".join(words)
