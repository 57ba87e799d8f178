"""The commands that plan a job: what of the plan is printed, or written into a folder."""

import argparse
import sys
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from casewright.api.command.exits import DONE, STOPPED
from casewright.api.command.inputs import RefusedError, is_table, job_bytes, json_bytes
from casewright.api.job.marks import marks_named
from casewright.sdk.errors import ProblemsError

if TYPE_CHECKING:
    from casewright.api.use.job_input import JobInput
    from casewright.api.use.planning import Planned, Planner
    from casewright.api.wire.tables import TableForm

VIEWS = ("plan", "parts", "joints", "doors", "hardware", "mounting", "checks", "steps", "stock", "run", "costs", "fits")


def plan(chosen: argparse.Namespace) -> int:
    """Plan a job and print what matters, or write all files of it."""
    from casewright.api.command import bench_text
    from casewright.api.command.outputs import write_folder
    from casewright.api.command.overview import show
    from casewright.api.command.progress_bar import Bar
    from casewright.api.use.cures import stop_cures
    from casewright.api.wire.plan_document import to_bytes
    from casewright.api.wire.tables import costs_csv, hardware_csv, parts_csv

    if chosen.out is None:
        return _print_plan(chosen)
    if chosen.view != "plan" or chosen.format:
        raise RefusedError("--out writes all views; leave --view and --format out, or --out")
    planner, job = _job(chosen)
    with Bar(None if chosen.quiet else sys.stderr) as bar:
        planned = planner.both(job, progress=bar)
        cures = stop_cures(planner, job, planned.plan, bar)
    plan = planned.document
    from casewright.api.papers.folder import papers  # the libraries of papers, where papers are written

    form = _table_form(chosen, job)
    stops = bench_text.stop_lines(plan)
    lines = [
        *stops,
        *bench_text.cut_list_lines(plan),
        "",
        *bench_text.reason_lines(plan),
        "",
        *bench_text.check_lines(plan),
    ]
    files = {
        "plan.json": to_bytes(plan),
        "parts.csv": parts_csv(plan, form),
        "hardware.csv": hardware_csv(plan, form),
        "costs.csv": costs_csv(plan, form),
        "cut-list.txt": _text(lines),
        "steps.txt": _text([*stops, *bench_text.step_lines(plan)]),
        **papers(planned.plan, plan["fingerprint"], cures),
    }
    write_folder(chosen.out, files, force=chosen.force)
    if chosen.quiet:
        return _verdict(plan)
    words = {(row.check.code, row.check.subject): row.cures[0].words for row in cures if row.cures}
    show(plan, (str(chosen.out), list(files)), (chosen.reasons, chosen.checks, chosen.steps), words)
    return _verdict(plan)


def _print_plan(chosen: argparse.Namespace) -> int:
    """Print a plan, or one view of it, and write nothing."""
    from casewright.api.command import bench_text
    from casewright.api.command.overview import show
    from casewright.api.wire.plan_document import to_bytes
    from casewright.api.wire.tables import TABLES

    texts = {
        "parts": bench_text.cut_list_lines,
        "steps": bench_text.step_lines,
        "checks": bench_text.check_lines,
    }
    view: str = chosen.view
    form = chosen.format or ("text" if view == "plan" or view in texts else "csv" if view in TABLES else "json")
    if form == "csv" and view not in TABLES:
        raise RefusedError(f"{view} is no table; --format csv is for --view {', '.join(TABLES)}")
    if form == "text" and view != "plan" and view not in texts:
        raise RefusedError(f"{view} is not written as text; add --format json")
    planned, job = _planned(chosen, quiet=chosen.quiet)
    plan = planned.document
    if form == "json":
        whose = {key: plan[key] for key in ("title", "units", "tape", "stops")}
        sys.stdout.buffer.write(to_bytes(plan if view == "plan" else {**whose, view: plan[view]}))
    elif form == "csv":
        sys.stdout.buffer.write(TABLES[view](plan, _table_form(chosen, job)))
    elif view in texts:
        print("\n".join([*bench_text.stop_lines(plan), *texts[view](plan)]))
    else:
        show(plan, ("", []), (chosen.reasons, chosen.checks, chosen.steps), {})
    sys.stdout.flush()
    return _verdict(plan)


def check(chosen: argparse.Namespace) -> int:
    """Plan a job and print its checks."""
    from casewright.api.command import bench_text
    from casewright.api.command.window import columns

    plan = _planned(chosen)[0].document
    print("\n".join(bench_text.check_lines(plan, columns())))
    return _verdict(plan)


def built(chosen: argparse.Namespace) -> int:
    """Plan a job and print what follows from what is built."""
    from casewright.api.command.built_text import built_lines

    plan = _planned(chosen)[0].document
    print("\n".join(built_lines(plan)))
    return _verdict(plan)


def cures(chosen: argparse.Namespace) -> int:
    """Print the changes that clear the stops of a job."""
    from casewright.api.command.cure_text import cure_lines
    from casewright.api.command.progress_bar import Bar
    from casewright.api.command.window import columns
    from casewright.api.use.cures import cures_document

    planner, job = _job(chosen)
    with Bar(sys.stderr) as bar:
        document = cures_document(planner, job, bar)
    print("\n".join(cure_lines(document, job, columns())))
    return STOPPED if document["stops"] else DONE


def _verdict(plan: dict[str, Any]) -> int:
    from casewright.api.command.bench_text import stop_words

    stops = [check for check in plan["checks"] if check["level"] == "stop"]
    if stops:
        print(f"{stop_words(len(stops))}; see the checks, or try: casewright cures.", file=sys.stderr)
        return STOPPED
    return DONE


def _planned(chosen: argparse.Namespace, *, quiet: bool = False) -> "tuple[Planned, JobInput]":
    """Return the plan of the job in a file, or on standard input, showing progress on a terminal, and the job."""
    from casewright.api.command.progress_bar import Bar

    planner, job = _job(chosen)
    with Bar(None if quiet else sys.stderr) as bar:
        return planner.both(job, progress=bar), job


def _table_form(chosen: argparse.Namespace, job: "JobInput") -> "TableForm":
    from casewright.api.wire.tables import table_form

    return table_form(marks_named(chosen.delimiter, chosen.decimal), job.marks)


def _job(chosen: argparse.Namespace) -> "tuple[Planner, JobInput]":
    """Return the job in a file, or on standard input, not yet read, and what plans it."""
    from casewright.api.use.job_input import JobInput
    from casewright.api.use.loading import installed
    from casewright.api.use.planning import Planner

    body = job_bytes(chosen.job)
    planner = Planner(installed())
    if not is_table(chosen.job, body):
        return planner, JobInput.from_json(body, planner.registry)
    return planner, JobInput.from_table(body, planner.registry, marks_named(chosen.delimiter, chosen.decimal))


def _text(lines: list[str]) -> bytes:
    return ("\n".join(lines) + "\n").encode("utf-8")


def from_stock(chosen: argparse.Namespace) -> int:
    """Print the jobs that the stock yields, and write them into a folder where one is named."""
    import json

    from casewright.api.command.pile_text import pile_lines
    from casewright.api.command.progress_bar import Bar
    from casewright.api.command.window import columns
    from casewright.api.job.ranges import read_question
    from casewright.api.job.strict_json import read_json
    from casewright.api.use.from_stock import from_stock_answer
    from casewright.api.use.loading import installed
    from casewright.api.use.planning import Planner

    body = json_bytes(chosen.job)
    question = {"job": read_json(body), "aim": chosen.aim, "answers": chosen.answers}
    planner = Planner(installed())
    try:
        with Bar(sys.stderr) as bar:
            document = from_stock_answer(read_question(question, planner.registry), planner, bar)
    except ProblemsError as error:
        raise type(error)(*(replace(one, pointer=_in_file(one.pointer)) for one in error.problems)) from error
    print("\n".join(pile_lines(document, columns())))
    if chosen.out is not None:
        chosen.out.mkdir(parents=True, exist_ok=True)
        for number, answer in enumerate(document["answers"], start=1):
            text = json.dumps(answer["job"], indent=2, ensure_ascii=False)
            (chosen.out / f"job-{number}.json").write_text(f"{text}\n", "utf-8")
    return DONE if document["answers"] else STOPPED


def _in_file(pointer: str) -> str:
    """Return the place of a problem in the file of the job, or the option it is about."""
    return pointer.removeprefix("/job") if pointer.startswith("/job") else pointer.replace("/", "--", 1)
