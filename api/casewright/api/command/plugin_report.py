"""What `plugin check` found, as a folder: what was drawn, refusals, tracebacks, pictures, failing draws to replay."""

import json
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from casewright.api.command.plugins_named import shown_name
from casewright.sdk.fields import units_in_force
from casewright.sdk.joinery.halves import halves
from casewright.sdk.loader import Registry
from casewright.sdk.methods import Fit, Meeting
from casewright.sdk.testing.drawn import drawn_document
from casewright.sdk.testing.quick import Trial

SHOWN = 10
"""Most refusals of a method that are listed, those met oftenest first."""


@dataclass(frozen=True, slots=True)
class Tried:
    """One plugin as it was checked: the registry that holds it, if it loads, and what came of its contracts."""

    name: str
    registry: Registry | None = None
    trials: tuple[Trial, ...] = ()
    unloaded: int = 0

    @property
    def wrong(self) -> int:
        """How many problems it has."""
        return self.unloaded + sum(bool(trial.wrong) for trial in self.trials)


def write_report(out: Path, word: str, tried: Sequence[Tried]) -> Path:
    """Write the report of plugins into a folder and return its page; what a promise failed with stands beside it.

    `word` is what the command line named them by; methods are drawn from the registry that holds each.
    """
    out.mkdir(parents=True, exist_ok=True)
    lines = [f"# {shown_name(word)}: what was tried", "", _summary([trial for one in tried for trial in one.trials])]
    for one in tried:
        assert one.registry is not None
        for family, method in dict.fromkeys((trial.family, trial.method) for trial in one.trials):
            own = [trial for trial in one.trials if (trial.family, trial.method) == (family, method)]
            _forget(out, family, method)
            lines += ["", f"## {method} ({family})", "", "| promise | drawn and tried | |", "|---|---|---|"]
            lines += [f"| {row.promise} | {_drawn_of(row)} | {'**PROBLEM**' if row.wrong else 'ok'} |" for row in own]
            lines += _refusals(own)
            lines += [line for row in own if row.wrong for line in _problem(out, word, row, one.registry)]
            lines += _drawn(out, one.registry, family, method)
    page = out / "report.md"
    page.write_text("\n".join(lines) + "\n", "utf-8")
    return page


def _forget(out: Path, family: str, method: str) -> None:
    """Remove what an earlier report wrote of a promise that failed."""
    for ending in ("json", "svg"):
        (out / f"{family}-{method}-failing.{ending}").unlink(missing_ok=True)


def _summary(trials: Sequence[Trial]) -> str:
    wrong = sum(bool(trial.wrong) for trial in trials)
    tried = sum(tally.tried for trial in trials for tally in trial.tallies)
    return f"{len(trials)} promises tried with {tried} draws; problems: {wrong}."


def _drawn_of(trial: Trial) -> str:
    rows = [f"{t.tried} {t.what}, {sum(t.refusals.values())} refused" for t in trial.tallies]
    return "; ".join(rows)


def _refusals(trials: Sequence[Trial]) -> list[str]:
    """Return what was refused and how often, over all promises of a method."""
    met: Counter[str] = Counter()
    for tally in (tally for trial in trials for tally in trial.tallies):
        met.update(tally.refusals)
    if not met:
        return []
    lines = ["", "Refused:", ""]
    for words, count in sorted(met.items(), key=lambda row: (-row[1], row[0]))[:SHOWN]:
        lines.append(f"- {count} times: {' '.join(words.split()) or 'no answer'}")
    return [*lines, *([f"- and {len(met) - SHOWN} more"] if len(met) > SHOWN else [])]


def _problem(out: Path, word: str, trial: Trial, registry: Registry) -> Iterator[str]:
    """Yield a problem's lines, and write what it was met with to files."""
    yield from ("", f"### PROBLEM{f' at {trial.at}' if trial.at else ''}", "")
    yield from (f"- rule: {trial.promise}", f"- got: {trial.wrong}", f"- fix: {trial.fix}")
    if trial.broken_by:
        file = out / f"{trial.family}-{trial.method}-failing.json"
        file.write_text(json.dumps(failing_document(trial), indent=2, ensure_ascii=False, default=str) + "\n", "utf-8")
        yield from ("", f"What it failed with: [{file.name}]({file.name}); try it again with", "")
        yield from ("```sh", f"casewright plugin check {word} --replay {file}", "```")
        picture = _picture(out, trial, registry)
        if picture:
            yield from ("", f"![the draw that fails]({picture})")
    if trial.trace:
        yield from ("", "```text", trial.trace.rstrip(), "```")


def failing_document(trial: Trial) -> dict[str, Any]:
    """Return what a promise failed with, as `replay` of the testing kit reads it."""
    drawn = drawn_document(trial.broken_by)
    return {"family": trial.family, "method": trial.method, "test": trial.test, "drawn": drawn}


def _picture(out: Path, trial: Trial, registry: Registry) -> str:
    """Draw what a promise failed with and return the file's name; empty where it cannot be drawn."""
    from casewright.api.papers.drawing.svg import to_svg
    from casewright.api.papers.views.meeting import meeting_sheet

    meeting = trial.broken_by.get("meeting")
    if not isinstance(meeting, Meeting):
        return ""
    method = getattr(registry, trial.family)[trial.method]
    try:
        fit = method.fit(meeting, _read(method.options, trial.broken_by.get("options", {})))
        words = f"{method.title}: {meeting.kind}, as it fails"
        sheet = meeting_sheet(words, meeting, fit, halves(meeting, fit))
    except Exception:  # what fails is drawn without its cuts
        sheet = meeting_sheet(f"{method.title}: {meeting.kind}, no fit", meeting, Fit(), halves(meeting, Fit()))
    file = f"{trial.family}-{trial.method}-failing.svg"
    (out / file).write_text(to_svg(sheet), "utf-8")
    return file


def _read(options: Any, document: Mapping[str, Any]) -> dict[str, Any]:
    with units_in_force("mm"):
        return dict(options().load(dict(document)))


def _drawn(out: Path, registry: Registry, family: str, method: str) -> list[str]:
    """Draw a method with its usual options; nothing where it cannot be."""
    from casewright.api.papers.drawing.svg import to_svg
    from casewright.api.use.method_pages import pictures_of

    if family not in ("joints", "boxes", "doors", "mountings"):
        return []
    lines = ["", "With its usual options:", ""]
    try:
        for picture, sheet in pictures_of(registry, family, method):
            file = f"{family}-{method}-{picture}.svg"
            (out / file).write_text(to_svg(sheet), "utf-8")
            lines.append(f"![{picture}]({file})\n")
    except Exception as error:  # a plugin's fault is told above
        lines.append(f"It cannot be drawn: {error}")
    return lines
