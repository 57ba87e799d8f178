"""The `casewright` command: it runs what its arguments name, and says what went wrong.

Exit codes are those that `EXIT_CODES` tells.
"""

import argparse
import os
import sys
from collections.abc import Sequence

from casewright.api.command.exits import FAILED, UNUSABLE
from casewright.api.command.inputs import RefusedError
from casewright.api.command.parser import parser
from casewright.sdk.errors import CasewrightError, PluginFaultError, ProblemsError, RefusedStartError

EXTRAS = {
    **dict.fromkeys(("apispec", "flask", "gunicorn", "markdown_it"), "web"),
    **dict.fromkeys(("ezdxf", "manifold3d", "numpy", "openpyxl", "reportlab", "segno", "trimesh"), "papers"),
}
"""Libraries that the base install lacks, and the extra that brings each."""


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
