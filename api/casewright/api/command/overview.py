"""What a terminal shows of a plan: some thirty lines as wide as its window, and the files by what they are for."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from textwrap import wrap
from typing import Any

from casewright.api.command.bench_text import (
    check_lines,
    reason_lines,
    step_lines,
    stop_words,
    subject_words,
    summary_lines,
    time_line,
)
from casewright.api.command.window import columns

MOST = 6
"""Stops, cautions and rows of stock that are shown; of more their number is."""

NARROWEST = 40
"""Columns that a window is taken to have at least."""

USES: Mapping[str, tuple[str, ...]] = {
    "to carry to the bench": ("booklet.pdf", "labels.pdf", "templates.pdf", "steps.txt", "cut-list.txt"),
    "drawings": (".svg", "parts.pdf", "doors.pdf", "layouts.pdf"),
    "for machines and modellers": (".dxf", ".glb"),
    "for a spreadsheet": (".xlsx", ".csv"),
    "for programs": (".json",),
}
"""What files are for, by their names or how these end."""

CAUTION = (
    "Saws and things hung overhead hurt people: read the saw's manual, keep guards on, and put local code and a "
    "licensed practitioner's word before these figures."
)


def overview_lines(
    plan: Mapping[str, Any], files: tuple[str, Sequence[str]], width: int, cures: Mapping[tuple[str, str], str]
) -> list[str]:
    """Return what is shown of a plan written into a folder as files; `cures` are in words by code and subject."""
    width = max(width, NARROWEST)
    lines = [*wrap(f"{plan['title'] or 'Untitled job'}, plan {plan['fingerprint'][:12]}", width), ""]
    lines += summary_lines(plan, width)
    sections = (
        ("", _stops(plan, cures)),
        ("Mind", _cautions(plan)),
        ("Sizes", [_sizes(plan)]),
        ("Buy", _buying(plan)),
        ("Time", [time_line(plan["schedule"])]),
        ("Proved", [_proved(plan)]),
        (f"In {files[0]}", _by_use(files[1])),
    )
    lines += ["", *(line for title, texts in sections for line in _section(title, texts, width))]
    return [*lines, *wrap(f"More: --reasons, --checks, --steps. {CAUTION}", width)]


def show(
    plan: Mapping[str, Any],
    files: tuple[str, Sequence[str]],
    more: tuple[bool, bool, bool],
    cures: Mapping[tuple[str, str], str],
) -> None:
    """Print a plan's overview; `more` tells whether its reasons, checks and steps are wanted too."""
    width = columns()
    lines = more_lines(plan, more, width)
    print("\n".join([*overview_lines(plan, files, width, cures), *([""] if lines else []), *lines]))


def more_lines(plan: Mapping[str, Any], more: tuple[bool, bool, bool], width: int) -> list[str]:
    """Return the reasons, the checks and the steps, those wanted, each under its heading."""
    sections = (("Reasons", reason_lines), ("Checks", check_lines), ("Steps", step_lines))
    lines: list[str] = []
    for (title, made), wanted in zip(sections, more, strict=True):
        if wanted:
            lines += ["", title, "=" * len(title), *made(plan, max(width, NARROWEST))]
    return lines[1:]


def _section(title: str, texts: Iterable[str], width: int) -> Iterator[str]:
    """Yield a section: its title before its first line, each text wrapped."""
    head = f"{title}: " if title else ""
    for i, text in enumerate(texts):
        start = head if i == 0 else "  " if title else ""
        yield from wrap(start + text, width, subsequent_indent="  ")


def _stops(plan: Mapping[str, Any], cures: Mapping[tuple[str, str], str]) -> list[str]:
    stops = [check for check in plan["checks"] if check["level"] == "stop"]
    if not stops:
        return ["Go: no check stops this work."]
    alike: dict[tuple[str, ...], list[Mapping[str, Any]]] = {}
    for check in stops:
        code, subject = check["code"], check["subject"]
        cure = cures.get((code, subject))
        alike.setdefault((code, cure) if cure else (code, subject, check["message"]), []).append(check)
    groups = list(alike.values())
    out = [f"{stop_words(len(stops))}:"]
    for first, *others in groups[:MOST]:
        more = f"; and {len(others)} more alike" if others else ""
        out.append(f"{subject_words(plan, first)}: {first['message']}{more}")
        cure = cures.get((first["code"], first["subject"]))
        out += [f"tried, and clears {'them' if others else 'it'}: {cure}"] if cure else []
    rest = sum(map(len, groups[MOST:]))
    return [*out, *([f"and {rest} more"] if rest else [])]


def _cautions(plan: Mapping[str, Any]) -> list[str]:
    alike: dict[str, dict[str, None]] = {}
    count: dict[str, int] = {}
    for check in plan["checks"]:
        if check["level"] == "caution":
            alike.setdefault(check["message"], {})[subject_words(plan, check)] = None
            count[check["message"]] = count.get(check["message"], 0) + 1
    if not alike:
        return ["no check gave a caution"]
    out = [
        f"{f'{count[message]} × ' if count[message] > 1 else ''}{', '.join(subjects)}: {message}"
        for message, subjects in list(alike.items())[:MOST]
    ]
    return [*out, *([f"and {len(alike) - MOST} more"] if len(alike) > MOST else [])]


def _sizes(plan: Mapping[str, Any]) -> str:
    parts = plan["parts"]
    sizes = {tuple(part[key] for key in ("material", "length", "width", "thickness", "grain")) for part in parts}
    pieces = sum(part["quantity"] for part in parts)
    return (
        f"{_count(len(sizes), 'size')}, {_count(pieces, 'piece')} of {_count(len({s[0] for s in sizes}), 'material')}"
    )


def _buying(plan: Mapping[str, Any]) -> list[str]:
    stock = plan["stock"]
    rows = stock["buy"] if stock else []
    bought = [f"{row['quantity']} × {row['stock']}, {row['length_text']} × {row['width_text']}" for row in rows]
    more = f"; and {len(bought) - MOST} more kinds" if len(bought) > MOST else ""
    stuff = "; ".join(bought[:MOST]) + more if bought else "no stock" if stock else "the job gives no stock"
    kinds = len({line["item"] for line in plan["hardware"]})
    out = [f"{stuff}; {_count(kinds, 'kind')} of hardware"]
    short = sum(row["quantity"] for row in stock["short"]) if stock else 0
    if short:
        out.append(f"the stock listed does not yield {_count(short, 'piece')}")
    costs = plan["costs"]
    if costs["total"] is None:
        out.append("no prices")
    else:
        rest = f"for what has a price, {_count(costs['missing'], 'line')} have none" if costs["missing"] else "in all"
        out.append(" ".join(filter(None, (costs["total"], costs["currency"], rest))))
    return out


def _proved(plan: Mapping[str, Any]) -> str:
    fit = plan["dry_fit"]
    seated = sum(1 for seat in fit["seats"] if seat["seated"])
    tried = (
        f"{_count(fit['pairs_checked'], 'pair')} of parts tried dry, {seated} of {_count(len(fit['seats']), 'joint')}"
    )
    tried += f" seated, {_count(len(fit['clashes']), 'clash', 'clashes')}"
    faults = sum(1 for check in plan["checks"] if check["code"] == "work-not-carried-out")
    how = f"with {_count(faults, 'fault')}" if faults else "and make every piece as planned"
    return f"{tried}; {_count(len(plan['steps']), 'step')} replayed from the stock on, {how}"


def _by_use(names: Sequence[str]) -> Iterator[str]:
    left = list(names)
    for use, ends in USES.items():
        alike = [name for name in left if name.endswith(ends)]
        left = [name for name in left if name not in alike]
        if alike:
            yield f"{use}: {', '.join(_numbered(alike))}"
    if left:
        yield f"also: {', '.join(left)}"


def _numbered(names: Sequence[str]) -> list[str]:
    """Return names of files, those that differ in a number alone as the first and the last of them."""
    series: dict[str, list[str]] = {}
    for name in names:
        series.setdefault(re.sub(r"-[0-9]+\.", "-.", name), []).append(name)
    return [text for run in series.values() for text in (run if len(run) <= MOST else [f"{run[0]} to {run[-1]}"])]


def _count(count: int, one: str, many: str = "") -> str:
    return f"{count} {one}" if count == 1 else f"{count} {many or one + 's'}"
