"""A plan as plain text for a terminal or a printed page: cut list with reasons, checks, order of work."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from itertools import groupby
from textwrap import wrap
from typing import Any

from casewright.api.engine.work.cautions import always
from casewright.api.engine.work.schedule import ranges, time_text
from casewright.api.job.cells import CellProblem
from casewright.api.papers.pointer_words import about
from casewright.api.wire.tables import reason
from casewright.sdk.errors import Problem
from casewright.sdk.model import Machine

WIDTH = 110
_ORDER = {"stop": 0, "caution": 1, "note": 2}


def table(heading: Sequence[str], rows: Iterable[Sequence[str]], right: frozenset[int] = frozenset()) -> list[str]:
    """Return a table as lines, columns two spaces apart; `right` names columns set flush right."""
    cells = [list(map(str, row)) for row in rows]
    widths = [max(len(row[i]) for row in [list(heading), *cells]) for i in range(len(heading))]

    def line(row: Sequence[str]) -> str:
        set_ = (c.rjust(w) if i in right else c.ljust(w) for i, (c, w) in enumerate(zip(row, widths, strict=True)))
        return "  ".join(set_).rstrip()

    return [line(heading), line(["-" * w for w in widths]), *map(line, cells)]


def _people(count: int) -> str:
    return "1 person" if count == 1 else f"{count} people"


def subject_words(plan: Mapping[str, Any], check: Mapping[str, Any]) -> str:
    """Return in words what a check of a plan document is about."""
    planned = {one["cabinet"]: one["planned"] for one in plan["built"]["cabinets"]} if plan.get("built") else {}
    counts: Counter[str] = Counter()
    for row in plan["summary"]:
        counts[planned.get(row["cabinet"], row["cabinet"])] += row["count"]
    return about(check["subject"], counts)


def stop_words(count: int) -> str:
    """Return in words that a plan has so many stops."""
    return f"STOP: {count} reason{'' if count == 1 else 's'} not to cut"


def stop_lines(plan: Mapping[str, Any], width: int = WIDTH) -> list[str]:
    """Return what stands over every text of a plan with stops: how many, and each with what it is about."""
    stops = [check for check in plan["checks"] if check["level"] == "stop"]
    if not stops:
        return []
    lines = [f"{stop_words(len(stops))}:"]
    for check in stops:
        lines += wrap(
            f"{subject_words(plan, check)}: {check['message']}", width, initial_indent="  ", subsequent_indent="    "
        )
    return [*lines, ""]


def summary_lines(plan: Mapping[str, Any], width: int = WIDTH) -> list[str]:
    """Return a line a cabinet; where the table is wider than `width`, its cells one after another."""
    rows = []
    for one in plan["summary"]:
        mass = f"{one['mass_lb']:.0f} lb" if "mass_lb" in one else f"{one['mass_kg']:.1f} kg"
        hands = _people(one["hands"])
        stops = (f"{n} × {code}" if n > 1 else code for code, n in Counter(one["stops"]).items())
        rows.append([one["cabinet"], str(one["count"]), one["text"], mass, hands, ", ".join(stops) or "none"])
    heading = ["cabinet", "made", "width × height × depth", "mass each", "to lift", "stops"]
    lines = table(heading, rows, frozenset({1}))
    if max(map(len, lines)) <= width:
        return lines
    texts = (", ".join(f"{head} {cell}" for head, cell in zip(heading[1:], row[1:], strict=True)) for row in rows)
    return [
        line
        for row, text in zip(rows, texts, strict=True)
        for line in wrap(f"{row[0]}: {text}", width, subsequent_indent="    ")
    ]


def cut_list_lines(plan: Mapping[str, Any]) -> list[str]:
    """Return the cut list, sizes for the bench."""
    rows = [
        [p["id"], str(p["quantity"]), *(p["text"][k] for k in ("length", "width", "thickness")), p["material"]]
        for p in plan["parts"]
    ]
    heading = ["part", "pieces", "length", "width", "thickness", "material"]
    if any(p["no_stock"] for p in plan["parts"]):
        heading.append("no stock yet for")
        rows = [[*row, str(p["no_stock"] or "")] for row, p in zip(rows, plan["parts"], strict=True)]
    if any(p["built"] for p in plan["parts"]):
        heading.append("cut already")
        rows = [[*row, str(p["built"] or "")] for row, p in zip(rows, plan["parts"], strict=True)]
    if any(p["over_size"] for p in plan["parts"]):
        heading.append("over size")
        rows = [[*row, " and ".join(p["over_size"])] for row, p in zip(rows, plan["parts"], strict=True)]
    return table(heading, rows, frozenset({1, 2, 3, 4, 6, 7}))


def reason_lines(plan: Mapping[str, Any], width: int = WIDTH) -> list[str]:
    """Return the reason of every length and width in exact numbers; parts with the same ones stand together."""
    seen: dict[tuple[str, str, str, str], list[str]] = {}
    for part in plan["parts"]:
        why = part["why"]
        key = (_size(part["length"]), reason(why["length"]), _size(part["width"]), reason(why["width"]))
        seen.setdefault(key, []).append(part["id"])
    lines: list[str] = []
    for (length, why_length, wide, why_wide), ids in seen.items():
        lines += wrap(", ".join(ids), width)
        for name, size, why in (("length", length, why_length), ("width", wide, why_wide)):
            lines += wrap(f"{name} {size} = {why}", width, initial_indent="    ", subsequent_indent="        ")
    return lines


def check_lines(plan: Mapping[str, Any], width: int = WIDTH) -> list[str]:
    """Return every check, stops first."""
    lines: list[str] = []
    for check in sorted(plan["checks"], key=lambda c: _ORDER[c["level"]]):
        figures = []
        if check["value"] is not None:
            figures.append(f"{_figure(check['value'])} {check['unit']}".rstrip())
        if check["limit"] is not None:
            figures.append(f"limit {_figure(check['limit'])} {check['unit']}".rstrip())
        tail = f" [{', '.join(figures)}]" if figures else ""
        source = f" ({check['source']})" if check["source"] else ""
        text = f"{check['level'].upper():8}{subject_words(plan, check)}: {check['message']}{tail}{source}"
        lines += wrap(text, width, subsequent_indent=" " * 8)
    return lines


def step_lines(plan: Mapping[str, Any], width: int = WIDTH) -> list[str]:
    """Return the work, stage by stage: what to do, how each piece lies, what to check, what to mind.

    What to mind at a machine whatever is done there stands under the stage's heading, once, and not at its steps.
    """
    machines = dict.fromkeys(step["machine"] for step in plan["steps"] if step["machine"] != Machine.BY_HAND)
    lines = wrap(f"Machines: {', '.join(map(_spaced, machines))}.", width) if machines else []
    schedule = plan["schedule"]
    lines += wrap(time_line(schedule), width)
    for stage, group in groupby(plan["steps"], key=lambda step: step["stage"]):
        steps = list(group)
        lines += ["", _spaced(stage).capitalize()]
        for machine in dict.fromkeys(Machine(step["machine"]) for step in steps):
            if general := always(machine):
                text = f"! At the {_spaced(machine)}: {' '.join(general)}"
                lines += wrap(text, width, initial_indent="  ", subsequent_indent="    ")
        lines += [line for step in steps for line in _step_lines(step, schedule["hands_on"] > 0, width)]
    return lines


def _step_lines(step: Mapping[str, Any], timed: bool, width: int) -> list[str]:
    notes = [f"after {', '.join(map(str, step['needs']))}"] if step["needs"] else []
    if "minutes" in step:
        notes.append(time_text(step["minutes"]))
    if timed and "start" in step:
        notes.append(f"from {time_text(step['start'])} on")
    after = f" ({'; '.join(notes)})" if notes else ""
    check = f" Check: {step['check']}." if step["check"] else ""
    done = "[done] " if "done" in step else ""
    lines = wrap(f"{step['number']:3}. {done}{step['do']}.{check}{after}", width, subsequent_indent="     ")
    if "meanwhile" in step:
        text = f"Meanwhile {ranges(step['meanwhile'])} can be done."
        lines += wrap(text, width, initial_indent="       ", subsequent_indent="         ")
    for line in step["lines"]:
        lines += wrap(line, width, initial_indent="       ", subsequent_indent="         ")
    general = always(Machine(step["machine"]))
    if special := [text for text in step["cautions"] if text not in general]:
        lines += wrap(f"! {' '.join(special)}", width, initial_indent="       ", subsequent_indent="         ")
    return lines


def _spaced(word: str) -> str:
    return word.replace("-", " ")


def time_line(schedule: Mapping[str, Any]) -> str:
    """Return in one sentence how long what is left of the work takes one person, and what is not known of it."""
    finish, hands_on, untimed = schedule["finish"], schedule["hands_on"], schedule["untimed"]
    left = "1 step" if schedule["left"] == 1 else f"{schedule['left']} steps"
    text = f"{left} to do; the earliest finish for one person is {time_text(finish)} from the start"
    text += f", {time_text(hands_on)} of it work by hand" if hands_on else ", of which only what has to wait is known"
    steps, count = ("1 step has", "counts") if untimed == 1 else (f"{untimed} steps have", "count")
    return f"{text}. {steps} no time by the shop's rates and {count} as nothing." if untimed else f"{text}."


def problem_lines(problems: Iterable[Problem], width: int = WIDTH) -> list[str]:
    """Return problems, each with its place and what to do."""
    lines: list[str] = []
    for problem in problems:
        place = problem.pointer or "the document"
        if isinstance(problem, CellProblem):
            place = f"row {problem.row}, column {problem.column or '-'}"
        text = f"{place}: needs {problem.rule}; got {problem.got}. {problem.fix}"
        if problem.rule == "needed":
            text = f"{place}: is needed. {problem.fix}"
        lines += wrap(text, width, subsequent_indent="    ")
    return lines


def _size(value: float) -> str:
    return f"{value:.10g}"


def _figure(value: Any) -> str:
    return f"{value:.4g}" if isinstance(value, float) else str(value)
