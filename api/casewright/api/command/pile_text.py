"""What a pile yields as plain text for a terminal: each job with its sizes, what it leaves, and the bound."""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from textwrap import wrap
from typing import Any, NamedTuple

from casewright.api.command.bench_text import WIDTH
from casewright.api.job.ranges import NUMBERS
from casewright.sdk.units import Units, parse_length, tape_text

INDENT = "   "


def pile_lines(document: Mapping[str, Any], width: int = WIDTH) -> list[str]:
    """Return the answers of a document of a pile, best first, and what none is worth more than."""
    bound, aim = document["bound"], document["aim"]
    if aim != "least-change" and not bound["possible"]:
        proved = f"Nothing: the stock does not yield even the least sizes, proved by {bound['how']}."
        texts = [f"{proved} Add stock, or give smaller least sizes.", *_wanting(document)]
        return [line for text in texts for line in wrap(text, width, subsequent_indent=INDENT)]
    lines: list[str] = []
    for number, answer in enumerate(document["answers"], start=1):
        for text in _answer(number, answer, document):
            lines += wrap(text, width, subsequent_indent=2 * INDENT, break_on_hyphens=False)
    if not document["answers"]:
        lines.append("No change was found that saves or ends anything." if aim == "least-change" else "None was found.")
        lines += [line for text in _wanting(document) for line in wrap(text, width, subsequent_indent=INDENT)]
    if aim == "least-change":
        return [*lines, f"{document['tries']} changes were tried."]
    most = f"None of these ranges can come to more than {_worth(bound, aim)}: {bound['how']}."
    return [*lines, *wrap(f"{most} {document['tries']} places in the ranges were tried.", width)]


def _wanting(document: Mapping[str, Any]) -> Iterator[str]:
    """Yield what the least sizes lack of each material, and the stock that was not counted on."""
    for row in document["lacking"]:
        bought = [f"{one['quantity']} more of {one['length_text']} × {one['width_text']}" for one in row["buy"]]
        would_do = f"; {' and '.join(bought)} would do" if bought else ""
        pieces = f"{row['parts']} piece{'' if row['parts'] == 1 else 's'}"
        yield f"{row['material']}, {row['thickness_text']}: {pieces} not yielded{would_do}"
    if document["not_on_hand"]:
        yield f'{", ".join(document["not_on_hand"])}: not counted on; give "copies" to say how many are on hand'


def _answer(number: int, answer: Mapping[str, Any], document: Mapping[str, Any]) -> Iterator[str]:
    """Yield the lines of an answer, those after the first indented."""
    head = _worth(answer, document["aim"])
    if "changed" in answer:
        head = f"{', '.join(_changes(answer))}, {answer['changed']:g} {document['units']} less in all"
    yield f"{number}. {head}{'; none is better' if answer['best'] else ''}"
    for at, row in enumerate(answer["summary"]):
        cabinet = f"{row['cabinet']}: {row['count']} of {row['text']}"
        yield f"{INDENT}{', '.join([cabinet, *_numbers(answer, at)])}"
    yield from (f"{INDENT}{line}" for line in _on_wall(answer, document))
    if answer["stops"]:
        yield f"{INDENT}stops: {', '.join(answer['stops'])}"
    yield from (f"{INDENT}buy {row['quantity']} of {row['stock']}" for row in answer["buy"])
    after = answer["after"]
    left = [
        f"{row['id']}{_copies(row)} ({_bench(row['length'], document)} × {_bench(row['width'], document)})"
        for kind in ("offcuts", "boards", "sheets")
        for row in after[kind]
    ]
    yield f"{INDENT}on hand after it: {', '.join(left) or 'nothing'}"


class _Placed(NamedTuple):
    """A cabinet on the wall: its name, and the ends of it along the wall and up it, in nm."""

    name: str
    left: int
    right: int
    low: int
    high: int


def _on_wall(answer: Mapping[str, Any], document: Mapping[str, Any]) -> Iterator[str]:
    """Yield what the places on the wall, which stay where the job puts them, leave open between neighbours."""
    wall = answer["job"].get("wall")
    if not wall:
        return
    if not wall.get("cabinets_at"):
        yield "no place on the wall is kept: give each cabinet its place for these sizes"
        return
    units: Units = document["units"]
    placed = sorted(_placed(wall["cabinets_at"], answer["summary"], units), key=lambda one: one.left)
    for one in placed:
        beside = [
            other for other in placed if other.left >= one.right and one.low < other.high and other.low < one.high
        ]
        other = min(beside, key=lambda each: each.left, default=None)
        if other is not None and other.left > one.right:
            gap, near = (tape_text(nm, units, Fraction(document["tape"])) for nm in (other.left - one.right, one.right))
            cure = f"with {other.name} at {near} there is none"
            yield f"on the wall {gap} left between {one.name} and {other.name}; {cure}"


def _placed(places: Mapping[str, Any], summary: Sequence[Mapping[str, Any]], units: Units) -> Iterator[_Placed]:
    sizes = {row["cabinet"]: row for row in summary}
    for cabinet, spots in places.items():
        width, height = (parse_length(sizes[cabinet][key], units) for key in ("width", "height"))
        for number, spot in enumerate(spots, start=1):
            x, z = (parse_length(spot.get(key, 0), units) for key in ("x", "z"))
            name = cabinet if len(spots) == 1 else f"{cabinet} {number}"
            yield _Placed(name, x, x + width, z, z + height)


def _bench(size: float, document: Mapping[str, Any]) -> str:
    """Return a length for the bench, in the units and to the step of the job's tape."""
    units: Units = document["units"]
    return tape_text(parse_length(size, units), units, Fraction(document["tape"]))


def _copies(row: Mapping[str, Any]) -> str:
    return f" × {row['copies']}" if row["copies"] != 1 else ""


def _numbers(answer: Mapping[str, Any], cabinet: int) -> Iterator[str]:
    """Yield the numbers of shelves that were chosen for a cabinet, each with the bay or tier it is of."""
    for row in answer["values"]:
        _, what, *path, name = row["pointer"].split("/")
        if what == "cabinets" and path[0] == str(cabinet) and name in NUMBERS - {"count"}:
            inner = [f"{kind.removesuffix('s')} {int(at) + 1}" for kind, at in zip(path[2::2], path[3::2], strict=True)]
            where = f" in {', '.join(inner)}" if inner else ""
            shelves = "shelf" if row["value"] == 1 else "shelves"
            yield f"{row['value']:g} {name.partition('_')[0]} {shelves}{where}"


def _changes(answer: Mapping[str, Any]) -> Iterator[str]:
    """Yield each size that was changed, and to what, by its cabinet."""
    names = [row["cabinet"] for row in answer["summary"]]
    for row in answer["values"]:
        _, _, at, key = row["pointer"].split("/")
        yield f"{names[int(at)]} {key} {row['value']:g}"


def _worth(row: Mapping[str, Any], aim: str) -> str:
    """Return what an answer or the bound is worth by its aim, in the job's system."""
    if aim == "least-left":
        in_feet = "parts_area_sq_ft" in row
        return f"{row['parts_area_sq_ft']:.1f} sq ft of parts" if in_feet else f"{row['parts_area_m2']:.3f} m² of parts"
    return f"{row['volume_cu_ft']:.2f} cu ft outside" if "volume_cu_ft" in row else f"{row['volume_l']:.1f} l outside"
