"""The commands, their arguments and what the help says of each."""

import argparse
from pathlib import Path
from typing import TypeAlias

from casewright.api.command import docs_cli, plan_cli, plugin_cli, service_cli
from casewright.api.command.completion import SHELLS
from casewright.api.command.exits import EXIT_CODES
from casewright.api.job.marks import DECIMALS, DELIMITERS

A_JOB = "a JSON or CSV file, or - for either on standard input"

_Commands: TypeAlias = "argparse._SubParsersAction[argparse.ArgumentParser]"


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
    _add_others(commands, top)
    plugin_cli.add_to(commands)
    for one in commands.choices.values():
        one.epilog, one.formatter_class = EXIT_CODES, argparse.RawDescriptionHelpFormatter
    return top


def _add_service(commands: _Commands) -> None:
    one = _command(commands, "serve", "serve the REST API")
    one.add_argument("--host", help="address to listen on; CASEWRIGHT_HOST or 127.0.0.1")
    one.add_argument("--port", type=_port, help="port, 1 to 65535; CASEWRIGHT_PORT or 8000")
    one.add_argument("--workers", type=_workers, help="0: one more than the cores; CASEWRIGHT_WORKERS or 0")
    one.set_defaults(run=service_cli.serve)

    one = _command(commands, "demo", "start the service, send it the example job, show and keep the answer")
    one.add_argument(
        "--out", type=Path, default=Path("casewright-out"), help="folder to write to (default: casewright-out)"
    )
    _add_more(one)
    one.set_defaults(run=service_cli.demo)


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
    one.set_defaults(run=plan_cli.from_stock)


def _add_others(commands: _Commands, top: argparse.ArgumentParser) -> None:
    one = _command(commands, "openapi", "print the OpenAPI document of the built-in methods")
    one.add_argument("--out", type=Path, help="write it to this file instead")
    one.add_argument("--types", type=Path, help="write its jobs and plans as Python's typed dictionaries to this file")
    one.set_defaults(run=service_cli.openapi)

    one = _command(commands, "migrate", "print a job of an earlier version in the form that is read today")
    one.add_argument("job", help="a JSON file, or - for standard input")
    one.set_defaults(run=service_cli.migrate)

    one = _command(commands, "completion", "print what lets a shell complete this command line")
    one.add_argument("shell", choices=SHELLS, help="source the output in this shell")
    one.set_defaults(run=service_cli.completion, commands=top)

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
