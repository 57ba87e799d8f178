"""The `casewright` command.

Exit codes are those that `EXIT_CODES` tells.
"""

import argparse
import os
import sys
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TypeAlias

from casewright.api.command import docs_cli, plan_cli, plugin_cli
from casewright.api.command.completion import SHELLS
from casewright.api.command.exits import DONE, EXIT_CODES, FAILED, STOPPED, UNUSABLE
from casewright.api.command.inputs import RefusedError, json_bytes
from casewright.api.job.marks import DECIMALS, DELIMITERS
from casewright.sdk.errors import CasewrightError, PluginFaultError, ProblemsError, RefusedStartError

A_JOB = "a JSON or CSV file, or - for either on standard input"
EXTRAS = {
    **dict.fromkeys(("apispec", "flask", "gunicorn", "markdown_it"), "web"),
    **dict.fromkeys(("ezdxf", "manifold3d", "numpy", "openpyxl", "reportlab", "segno", "trimesh"), "papers"),
}
"""Libraries that the base install lacks, and the extra that brings each."""


_Commands: TypeAlias = "argparse._SubParsersAction[argparse.ArgumentParser]"


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command and return its exit code."""
    top = parser()
    if not (sys.argv[1:] if arguments is None else arguments):
        top.print_help(sys.stderr)
        return UNUSABLE
    chosen = top.parse_args(arguments)
    try:
        code: int = chosen.run(chosen)
    except ProblemsError as error:
        _say_problems(error, chosen)
        return UNUSABLE
    except (RefusedStartError, PluginFaultError) as error:
        print(f"casewright: {error}", file=sys.stderr)
        return FAILED
    except RefusedError as error:
        print(f"casewright: {error}", file=sys.stderr)
        return UNUSABLE
    except BrokenPipeError:  # whoever reads has read enough, as `head` has; not all was said, so it is not done
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FAILED
    except OSError as error:
        print(f"casewright: {_of_files(error, getattr(chosen, 'job', ''))}", file=sys.stderr)
        return UNUSABLE
    except ModuleNotFoundError as error:
        extra = EXTRAS.get((error.name or "").partition(".")[0])
        if extra is None:
            raise
        print(f"casewright: {error.name} is not installed; pip install 'casewright[{extra}]'", file=sys.stderr)
        return FAILED
    except CasewrightError as error:
        print(f"casewright: {error}", file=sys.stderr)
        return FAILED
    return code


def parser() -> argparse.ArgumentParser:
    """Return the parser of the command line."""
    top = argparse.ArgumentParser(
        prog="casewright",
        description="Cabinets computed: sizes, joints, checks, papers.",
        epilog=EXIT_CODES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    top.add_argument("--version", action=_Version, nargs=0, help="print the version and leave")
    commands = top.add_subparsers(required=True, metavar="COMMAND")

    _add_service(commands)
    _add_planning(commands)
    _add_others(commands)
    plugin_cli.add_to(commands)
    for one in commands.choices.values():
        one.epilog, one.formatter_class = EXIT_CODES, argparse.RawDescriptionHelpFormatter
    return top


def _add_service(commands: _Commands) -> None:
    one = _command(commands, "serve", "serve the REST API")
    one.add_argument("--host", help="address to listen on; CASEWRIGHT_HOST or 127.0.0.1")
    one.add_argument("--port", type=_port, help="port, 1 to 65535; CASEWRIGHT_PORT or 8000")
    one.add_argument("--workers", type=_workers, help="0: one more than the cores; CASEWRIGHT_WORKERS or 0")
    one.set_defaults(run=_serve)

    one = _command(commands, "demo", "start the service, send it the example job, show and keep the answer")
    one.add_argument(
        "--out", type=Path, default=Path("casewright-out"), help="folder to write to (default: casewright-out)"
    )
    _add_more(one)
    one.set_defaults(run=_demo)


def _add_planning(commands: _Commands) -> None:
    one = _command(commands, "plan", "plan a job; print what matters, or one view, or write all its files")
    _add_job(one)
    one.add_argument("--out", type=Path, help="folder to write all views to; its files of an earlier run are replaced")
    one.add_argument("--force", action="store_true", help="write though the folder holds other files")
    one.add_argument("--view", choices=plan_cli.VIEWS, default="plan", help="what of the plan to print")
    one.add_argument(
        "--format",
        choices=("text", "json", "csv"),
        help="print the view as this (default: text, or csv or json where it has none)",
    )
    one.add_argument("--quiet", action="store_true", help="print no progress, and nothing beside --out")
    _add_more(one)
    one.set_defaults(run=plan_cli.plan)

    one = _command(commands, "check", "plan a job and print its checks; nothing is written")
    _add_job(one)
    one.set_defaults(run=plan_cli.check)

    one = _command(commands, "cures", "try changes that clear the stops of a job, and print those that do")
    _add_job(one)
    one.set_defaults(run=plan_cli.cures)

    one = _command(commands, "built", "print what comes out otherwise by what is built, and what no longer fits")
    _add_job(one)
    one.set_defaults(run=plan_cli.built)

    one = _command(commands, "from-stock", "find the best jobs, of ranges of sizes, that the stock yields")
    one.add_argument("job", help="a JSON file of a job with ranges, or - for JSON on standard input")
    one.add_argument(
        "--aim", default="largest", help="largest, least-bought, least-left or least-change (default: largest)"
    )
    one.add_argument("--answers", type=int, default=3, help="how many jobs at most, 1 to 5 (default: 3)")
    one.add_argument("--out", type=Path, help="folder to write the jobs to, as job-1.json and so on")
    one.set_defaults(run=_from_stock)


def _add_others(commands: _Commands) -> None:
    one = _command(commands, "openapi", "print the OpenAPI document of the built-in methods")
    one.add_argument("--out", type=Path, help="write it to this file instead")
    one.add_argument("--types", type=Path, help="write its jobs and plans as Python's typed dictionaries to this file")
    one.set_defaults(run=_openapi)

    one = _command(commands, "migrate", "print a job of an earlier version in the form that is read today")
    one.add_argument("job", help="a JSON file, or - for standard input")
    one.set_defaults(run=_migrate)

    one = _command(commands, "completion", "print what lets a shell complete this command line")
    one.add_argument("shell", choices=SHELLS, help="source the output in this shell")
    one.set_defaults(run=_completion)

    one = _command(commands, "docs", "print a page for people, list them, or write them all to a folder")
    one.add_argument("page", nargs="?", help="a page of the list, such as tutorial or methods/joints/dowel")
    one.add_argument("--out", type=Path, help="folder to write every page to, as HTML with pictures")
    one.set_defaults(run=docs_cli.docs)


def _command(commands: _Commands, name: str, about: str) -> argparse.ArgumentParser:
    """Add a command, which says of itself what the list of commands says."""
    return commands.add_parser(name, help=about, description=f"{about[0].upper()}{about[1:]}.")


def _add_job(one: argparse.ArgumentParser) -> None:
    """Add the job, and how it is written where it is a table."""
    one.add_argument("job", help=A_JOB)
    one.add_argument("--delimiter", choices=list(DELIMITERS), help="mark between cells of CSV read and printed")
    one.add_argument("--decimal", choices=list(DECIMALS), help="decimal mark of CSV read and printed")


def _add_more(one: argparse.ArgumentParser) -> None:
    for name, what in (("reasons", "what each size comes from"), ("checks", "every check"), ("steps", "every step")):
        one.add_argument(f"--{name}", action="store_true", help=f"print {what} too")


class _Version(argparse.Action):
    """Prints the version; what finds it is imported only then."""

    def __call__(self, parser: argparse.ArgumentParser, *_: object) -> None:
        """Print it and leave."""
        from casewright.api.wire.made_by import SOFTWARE, software_version

        print(SOFTWARE, software_version())
        parser.exit()


def _port(word: str) -> int:
    if not word.isascii() or not word.isdigit() or not 1 <= int(word) <= 65535:
        raise argparse.ArgumentTypeError(f"a port is a whole number from 1 to 65535, not {word!r}")
    return int(word)


def _workers(word: str) -> int:
    if not word.isascii() or not word.isdigit() or int(word) > 256:
        raise argparse.ArgumentTypeError(f"workers are a whole number from 0 to 256, not {word!r}")
    return int(word)


def _serve(chosen: argparse.Namespace) -> int:
    from casewright.api.web.serve import serve

    given = {"host": chosen.host, "port": chosen.port, "workers": chosen.workers}
    serve({name: value for name, value in given.items() if value is not None})
    return DONE


def _demo(chosen: argparse.Namespace) -> int:
    from casewright.api.command import demo

    try:
        return demo.run(chosen.out, (chosen.reasons, chosen.checks, chosen.steps))
    except demo.DemoError as error:
        print(f"casewright demo: {error}", file=sys.stderr)
        return FAILED


def _migrate(chosen: argparse.Namespace) -> int:
    import json

    from casewright.api.job.migration import migrated
    from casewright.api.job.strict_json import read_json
    from casewright.api.use.loading import installed

    made = migrated(read_json(json_bytes(chosen.job)), installed())
    print(json.dumps(made.document, indent=2, ensure_ascii=False))
    for place in made.taken_out:
        print(f"casewright: {place}: null taken out; it means nothing there", file=sys.stderr)
    for place, name in made.renamed.items():
        print(f"casewright: {place}: is {name} now", file=sys.stderr)
    return DONE


def _from_stock(chosen: argparse.Namespace) -> int:
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


def _completion(chosen: argparse.Namespace) -> int:
    from casewright.api.command.completion import completion

    print(completion(parser(), chosen.shell), end="")
    return DONE


def _openapi(chosen: argparse.Namespace) -> int:
    from casewright.api.web.openapi import openapi_text
    from casewright.sdk.loader import load

    text = openapi_text(load(discover="built-in"))
    if chosen.types is not None:
        import json

        from casewright.api.wire.typed import typed_source

        chosen.types.write_text(typed_source(json.loads(text)), encoding="utf-8")
        if chosen.out is None:
            return DONE
    if chosen.out is None:
        sys.stdout.write(text)
    else:
        chosen.out.write_text(text, encoding="utf-8")
    return DONE


def _of_files(error: OSError, job: str) -> str:
    """Say what to do about a file or folder that cannot be read or written; `job` is that of the job, if any."""
    name = error.filename or "the file"
    if isinstance(error, FileNotFoundError) and str(name) != job:
        return f"{name} cannot be written: there is no folder to write it to; make it, or name another"
    if isinstance(error, FileNotFoundError):
        return f"{name} is not there; name a job file (JSON or CSV), or - to send JSON by standard input"
    if isinstance(error, IsADirectoryError):
        return f"{name} is a folder; name a job file in it"
    if isinstance(error, (FileExistsError, NotADirectoryError)):
        return f"{name} is a file; --out names a folder, which is made where it is not there"
    return f"{error.strerror or error}: {name}"


def _say_problems(error: ProblemsError, chosen: argparse.Namespace) -> None:
    from casewright.api.command.bench_text import problem_lines

    print(f"casewright: {getattr(chosen, 'job', 'the job')} cannot be used:", file=sys.stderr)
    print("\n".join(problem_lines(error.problems)), file=sys.stderr)


if __name__ == "__main__":
    sys.exit(main())
