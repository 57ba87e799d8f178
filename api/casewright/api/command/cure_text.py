"""Cures as plain text for a terminal: each stop, what was tried, and each cure with its figures and what to change."""

from collections.abc import Mapping
from textwrap import wrap
from typing import Any

from casewright.api.command.bench_text import WIDTH
from casewright.api.command.change_text import change_lines
from casewright.api.papers.pointer_words import about
from casewright.api.use.job_input import JobInput


def cure_lines(document: Mapping[str, Any], job: JobInput, width: int = WIDTH) -> list[str]:
    """Return the cures of every stop of a document of cures of a job."""
    stops = document["cures"]
    cabinets = {one["id"]: int(one.get("count", 1)) for one in job.document.get("cabinets", ())}
    if not stops:
        return ["No stops: nothing to cure."]
    lines: list[str] = []
    written: list[tuple[Any, str]] = []
    for stop in stops:
        check, cures = stop["check"], stop["cures"]
        subject = about(check["subject"], cabinets)
        lines += wrap(f"STOP    {subject}: {check['message']} [{check['code']}]", width, subsequent_indent=" " * 8)
        if stop["why_none"]:
            lines += wrap(stop["why_none"], width, initial_indent=" " * 8, subsequent_indent=" " * 8)
        before = next((other for same, other in written if same == cures), None) if cures else None
        if before is not None:
            text = "The same change clears it" if len(cures) == 1 else f"The same {len(cures)} changes clear it"
            lines += wrap(f"{text} as above for {before}.", width, initial_indent=" " * 8, subsequent_indent=" " * 8)
            continue
        written.append((cures, subject))
        for number, cure in enumerate(cures, start=1):
            lines += _cure(number, cure, document, job, cabinets, width)
    lines.append(f"{document['tries']} changes tried, of at most {document['most_tries']}.")
    return lines


def _cure(
    number: int,
    cure: Mapping[str, Any],
    document: Mapping[str, Any],
    job: JobInput,
    cabinets: Mapping[str, int],
    width: int,
) -> list[str]:
    """Return one cure: its figures, what to change, what stop it leaves and what cautions it raises."""
    text = f"{number}. {cure['words']}: {_figures(cure, document)}"
    lines = wrap(text, width, initial_indent="     ", subsequent_indent=" " * 8)
    for text in change_lines(cure["patch"], job):
        lines += wrap(text, width, initial_indent=" " * 8, subsequent_indent=" " * 10)
    for left in cure["leaves"]:
        text = f"leaves this stop there: {left['message']} [{left['code']}]"
        lines += wrap(text, width, initial_indent=" " * 8, subsequent_indent=" " * 8)
    raised: dict[str, list[str]] = {}
    for caution in cure["raises"]:
        raised.setdefault(caution["message"], []).append(about(caution["subject"], cabinets))
    for message, where in raised.items():
        text = f"raises: {', '.join(where)}: {message}"
        lines += wrap(text, width, initial_indent=" " * 8, subsequent_indent=" " * 8)
    return lines


def _figures(cure: Mapping[str, Any], document: Mapping[str, Any]) -> str:
    """Return what a cure costs more, makes otherwise and weighs more, and how many stops it clears."""
    figures = [] if cure["keeps"] else ["gives up something asked for"]
    if cure["cost"] is not None:
        extra = f" and {cure['unpriced']} unpriced" if cure["unpriced"] else ""
        figures.append(f"costs {_signed(float(cure['cost']))} {document['currency'] or ''}".rstrip() + extra)
    figures.append(_count(cure["parts_changed"], "part", "made otherwise"))
    mass, unit = (cure["mass_lb"], "lb") if "mass_lb" in cure else (cure["mass_kg"], "kg")
    figures.append(f"{_signed(mass)} {unit}")
    if cure["clears"] > 1:
        figures.append(f"clears {cure['clears']} stops")
    return ", ".join(figures)


def _signed(value: float) -> str:
    return f"{value:+.2f}" if value else "0"


def _count(count: int, what: str, how: str) -> str:
    return f"{count} {what}{'' if count == 1 else 's'} {how}"
