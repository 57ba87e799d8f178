"""Mutants of the code that computes, and which of them no test notices: `python tests/bench/mutants.py --seed 1`.

Draws as many mutants as asked for (`--count 80`) from the rooms below with a seed, so that any run can be repeated: a
comparison flipped, + for -, * for /, max for min, a number nudged, a truth negated, a return or a statement dropped,
two arguments swapped, an index off by one, `and` for `or`. Never in docstrings, annotations, f-strings or logging.

The tree is copied to a temporary folder, without compiled modules, and only the copy is changed. First every test file
runs once alone under a tracer, which gives its processor time and the lines it executes; one that does not pass there
is left out. This map is kept in `--map`: remove it after the code or the tests change. A mutant is then run against the
test files that execute its line, those that mirror its room first, the quickest first, until one fails or `--limit`
seconds of tests are spent; a line at module level, which runs on import, is tried with the test files that execute any
function of its module. The run is written as lines of JSON to `--out`, with the mutation and the tests run, and as a
table on standard output. A survivor is either equivalent (no answer can tell it from the original) or shows a missing
test: a reader decides.

One process at a time, for hours: `nice -n 10`.
"""

from __future__ import annotations

import argparse
import ast
import difflib
import json
import os
import random
import re
import resource
import shutil
import subprocess
import sys
import tempfile
import threading
from collections.abc import Iterator, Sequence
from copy import deepcopy
from dataclasses import dataclass
from importlib.util import cache_from_source
from pathlib import Path
from types import CodeType, FrameType
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
API = "api/casewright/api"
ROOMS = [f"{API}/{room}" for room in ("engine", "stock", "papers", "wire")] + ["sdk/casewright/sdk/engineering"]
WITHOUT = ("tests/bench/", "tests/clients/", "tests/deploy/", "tests/api/web/test_schemathesis.py")
"""Tests that start servers and other programs: slow, and about other things."""
SLOWEST_FILE = 120
"""Processor seconds a test file may take under the tracer; a slower one is left out, and the run says which."""

# --- the tracer, as a pytest plugin --------------------------------------------------------------------------------

_lines: dict[int, tuple[CodeType, set[int]]] = {}
"""Of each function seen, by the identity of its code: the code (kept alive) and its lines not yet executed."""


def _trace(frame: FrameType, event: str, arg: object) -> Any:
    code = frame.f_code
    if not code.co_filename.startswith(os.environ["MUTANTS_TREE"]) or not code.co_flags & 1:  # 1: a function's code
        return None
    if id(code) not in _lines:
        _lines[id(code)] = (code, {line for *_, line in code.co_lines() if line})
    remaining = _lines[id(code)][1]
    remaining.discard(code.co_firstlineno)

    def each_line(frame: FrameType, event: str, arg: object) -> Any:
        remaining.discard(frame.f_lineno)
        frame.f_trace_lines = bool(remaining)
        return each_line

    return each_line if remaining else None


def pytest_configure() -> None:
    """Draw the same examples in every run, shrink none, and trace where that is asked for."""
    from hypothesis import Phase, settings

    settings.register_profile("mutants", derandomize=True, database=None, phases=[Phase.explicit, Phase.generate])
    settings.load_profile("mutants")
    if "MUTANTS_LINES" in os.environ:
        threading.settrace(_trace)
        sys.settrace(_trace)


def pytest_unconfigure() -> None:
    """Write the lines executed, by file."""
    sys.settrace(None)
    if "MUTANTS_LINES" not in os.environ:
        return
    executed: dict[str, set[int]] = {}
    for code, remaining in _lines.values():
        name = str(Path(code.co_filename).relative_to(os.environ["MUTANTS_TREE"]))
        executed.setdefault(name, set()).update({n for *_, n in code.co_lines() if n} - remaining)
    Path(os.environ["MUTANTS_LINES"]).write_text(json.dumps({k: sorted(v) for k, v in executed.items()}))


# --- where a module can be changed -----------------------------------------------------------------------------------

COMPARISONS: dict[type, tuple[type, ...]] = {
    ast.Lt: (ast.LtE, ast.GtE), ast.LtE: (ast.Lt, ast.Gt), ast.Gt: (ast.GtE, ast.LtE), ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,), ast.NotEq: (ast.Eq,), ast.Is: (ast.IsNot,), ast.IsNot: (ast.Is,),
    ast.In: (ast.NotIn,), ast.NotIn: (ast.In,),
}  # fmt: skip
OPERATORS: dict[type, type] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.FloorDiv: ast.Mult, ast.Mod: ast.Mult,
}  # fmt: skip
NAMES = {"max": "min", "min": "max"}
LOGGING = {"log", "logger", "logging", "warnings"}


@dataclass(frozen=True)
class Site:
    """A place that can be changed, the ways it can be, and the lines of the statement around it."""

    kind: str
    node: ast.expr | ast.stmt
    ways: tuple[str, ...]
    lines: range


class Sites(ast.NodeVisitor):
    """Collects the places of a module in the order they stand in."""

    def __init__(self, source: str) -> None:
        self.sites: list[Site] = []
        self.lines = range(0)
        self.visit(ast.parse(source))

    def add(self, kind: str, node: ast.expr | ast.stmt, *ways: ast.AST | str) -> None:
        texts = tuple(way if isinstance(way, str) else f"({ast.unparse(way)})" for way in ways)
        self.sites.append(Site(kind, node, texts, self.lines))

    def changed(self, node: Any, **fields: object) -> Any:
        out = deepcopy(node)
        for name, value in fields.items():
            setattr(out, name, value)
        return out

    def visit(self, node: ast.AST) -> None:
        if isinstance(node, ast.stmt):
            body = getattr(node, "body", None) or getattr(node, "cases", None)
            last = node.lineno if body else node.end_lineno or node.lineno
            self.lines = range(node.lineno, last + 1)
        super().visit(node)

    def visit_FunctionDef(self, node: ast.FunctionDef) -> None:
        for part in [*node.args.defaults, *filter(None, node.args.kw_defaults), *node.body]:
            self.visit(part)

    def visit_ClassDef(self, node: ast.ClassDef) -> None:
        for part in node.body:
            self.visit(part)

    def visit_AnnAssign(self, node: ast.AnnAssign) -> None:
        if node.value:
            self.visit(node.value)

    def visit_JoinedStr(self, node: ast.JoinedStr) -> None:
        """Words, whose places Python 3.11 does not give."""

    def visit_Expr(self, node: ast.Expr) -> None:
        if isinstance(node.value, ast.Call) and ast.unparse(node.value.func).split(".")[0] not in LOGGING:
            self.add("statement dropped", node, "pass")
        if not isinstance(node.value, ast.Constant):
            self.generic_visit(node)

    def visit_Assign(self, node: ast.Assign) -> None:
        if all(isinstance(target, ast.Attribute | ast.Subscript) for target in node.targets):
            self.add("statement dropped", node, "pass")
        self.generic_visit(node)

    def visit_AugAssign(self, node: ast.AugAssign) -> None:
        self.add("statement dropped", node, "pass")
        if type(node.op) in OPERATORS:
            self.add("operator", node, ast.unparse(self.changed(node, op=OPERATORS[type(node.op)]())))
        self.visit(node.value)

    def visit_Return(self, node: ast.Return) -> None:
        if node.value and not (isinstance(node.value, ast.Constant) and node.value.value is None):
            self.add("return dropped", node, "return None")
            self.visit(node.value)

    def visit_If(self, node: ast.If) -> None:
        if ast.unparse(node.test) == "TYPE_CHECKING":
            return
        if not isinstance(node.test, ast.Compare):
            self.add("truth negated", node.test, ast.UnaryOp(ast.Not(), node.test))
        self.generic_visit(node)

    def visit_UnaryOp(self, node: ast.UnaryOp) -> None:
        if isinstance(node.op, ast.Not | ast.USub):
            self.add("truth negated" if isinstance(node.op, ast.Not) else "sign dropped", node, node.operand)
        self.generic_visit(node)

    def visit_Compare(self, node: ast.Compare) -> None:
        ways = [
            self.changed(node, ops=[*node.ops[:k], other(), *node.ops[k + 1 :]])
            for k, op in enumerate(node.ops)
            for other in COMPARISONS[type(op)]
        ]
        self.add("comparison flipped", node, *ways)
        self.generic_visit(node)

    def visit_BinOp(self, node: ast.BinOp) -> None:
        words = any(isinstance(side, ast.JoinedStr) or _is_text(side) for side in (node.left, node.right))
        if type(node.op) in OPERATORS and not words:
            self.add("operator", node, self.changed(node, op=OPERATORS[type(node.op)]()))
        self.generic_visit(node)

    def visit_BoolOp(self, node: ast.BoolOp) -> None:
        other = ast.Or() if isinstance(node.op, ast.And) else ast.And()
        self.add("and/or", node, self.changed(node, op=other))
        self.generic_visit(node)

    def visit_Call(self, node: ast.Call) -> None:
        if ast.unparse(node.func).split(".")[0] in LOGGING:
            return
        if isinstance(node.func, ast.Name) and node.func.id in NAMES:
            self.add("max/min", node.func, NAMES[node.func.id])
        plain = [k for k, arg in enumerate(node.args) if not isinstance(arg, ast.Starred)]
        pairs = [k for k in plain if k + 1 in plain and ast.dump(node.args[k]) != ast.dump(node.args[k + 1])]
        if pairs and ast.unparse(node.func) not in ("max", "min", "isinstance", "cast"):
            a = node.args
            ways = [self.changed(node, args=[*a[:k], a[k + 1], a[k], *a[k + 2 :]]) for k in pairs]
            self.add("arguments swapped", node, *ways)
        self.generic_visit(node)

    def visit_Subscript(self, node: ast.Subscript) -> None:
        parts = [node.slice.lower, node.slice.upper] if isinstance(node.slice, ast.Slice) else [node.slice]
        for part in parts:
            if isinstance(part, ast.Constant) and type(part.value) is int:
                self.add("index off by one", part, str(part.value + 1))
            elif part is not None:
                self.visit(part)
        self.visit(node.value)

    def visit_Constant(self, node: ast.Constant) -> None:
        if isinstance(node.value, bool):
            self.add("truth negated", node, str(not node.value))
        elif isinstance(node.value, int):
            self.add("number nudged", node, str(node.value + 1))
        elif isinstance(node.value, float):
            by = 1.1 if abs(node.value) > 1e-5 else 1000  # a tolerance a little wider is no other program
            self.add("number nudged", node, f"{node.value * by or 1.0:.9g}")


def _is_text(node: ast.AST) -> bool:
    return isinstance(node, ast.Constant) and isinstance(node.value, str)


def spliced(source: str, node: ast.expr | ast.stmt, text: str) -> str:
    """Return the source with another text in the place of a node; the columns of a node count bytes."""
    rows = source.encode().splitlines(keepends=True)
    assert node.end_lineno is not None
    start = sum(map(len, rows[: node.lineno - 1])) + node.col_offset
    end = sum(map(len, rows[: node.end_lineno - 1])) + (node.end_col_offset or 0)
    whole = b"".join(rows)
    return (whole[:start] + text.encode() + whole[end:]).decode()


# --- the runs --------------------------------------------------------------------------------------------------------


def copied(into: Path) -> Path:
    """Copy the tree, without what is compiled or kept from earlier runs."""
    left_out = shutil.ignore_patterns(".git", ".venv", "*.so", "__pycache__", ".*_cache", ".hypothesis", "*.egg-info")
    return Path(shutil.copytree(ROOT, into / "tree", ignore=left_out, symlinks=True))


def run(tree: Path, files: Sequence[str], seconds: int, **more: str) -> tuple[str, str]:
    """Run test files in the copy, to the first failure: "passed", "failed" or "time", and the end of the output."""
    paths = [str(tree / folder) for folder in ("api", "sdk", "plugins", "tests/bench")]
    env = {**os.environ, "PYTHONPATH": os.pathsep.join(paths), "MUTANTS_TREE": f"{tree}{os.sep}", **more}
    command = [sys.executable, "-m", "pytest", "-q", "-x", "-n0", "-p", "mutants", "-p", "no:cacheprovider", *files]
    hard = (seconds, seconds + 5)
    try:
        done = subprocess.run(
            command, cwd=tree, env=env, capture_output=True, text=True, timeout=20 * seconds,
            preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CPU, hard),
        )  # fmt: skip
    except subprocess.TimeoutExpired:
        return "time", ""
    result = "passed" if done.returncode == 0 else "time" if done.returncode < 0 else "failed"
    return result, done.stdout[-3000:] + done.stderr[-1000:]


def spent() -> float:
    """Return the processor seconds of all programs run so far, which other work on the machine does not change."""
    usage = resource.getrusage(resource.RUSAGE_CHILDREN)
    return usage.ru_utime + usage.ru_stime


def mapped(tree: Path, kept: Path, folders: Sequence[str]) -> dict[str, Any]:
    """Run every test file alone under the tracer; return, of those that pass, the seconds and the lines by module."""
    kept.touch()
    rows = [json.loads(line) for line in kept.read_text().splitlines()]
    for path in sorted(path for path in (tree / "tests").rglob("test_*.py")):
        name = path.relative_to(tree).as_posix()
        if not name.startswith(tuple(folders)) or name.startswith(WITHOUT) or any(row["name"] == name for row in rows):
            continue
        lines, before = tree / "lines.json", spent()
        result, output = run(tree, [name], SLOWEST_FILE, MUTANTS_LINES=str(lines))
        executed = json.loads(lines.read_text()) if result == "passed" else {}
        executed = {module: seen for module, seen in executed.items() if module.startswith(tuple(ROOMS))}
        rows.append({"name": name, "result": result, "seconds": round(spent() - before, 1), "lines": executed})
        with kept.open("a") as out:
            out.write(json.dumps(rows[-1]) + "\n")
        print(f"{result} in {rows[-1]['seconds']} s: {name}", output[-300:] if result == "failed" else "", flush=True)
    return {row["name"]: row for row in rows if row["result"] == "passed" and row["name"].startswith(tuple(folders))}


def tests_of(path: str, lines: range, tests: dict[str, Any], limit: float) -> list[str]:
    """Return the test files to try a changed line with: those of its room first, the quickest first."""
    by_module = {name: set(test["lines"][path]) for name, test in tests.items() if path in test["lines"]}
    names = [name for name, executed in by_module.items() if executed & set(lines)] or list(by_module)
    room = "tests/" + re.sub(r"/casewright/(api|sdk)/", "/", str(Path(path).parent)) + "/"
    names = names or [name for name in tests if name.startswith(room)]
    names.sort(key=lambda name: (not name.startswith(room), tests[name]["seconds"], name))
    chosen, seconds = [], 0.0
    for name in names:
        seconds += tests[name]["seconds"]
        if seconds <= limit or not chosen:
            chosen.append(name)
    return chosen


def drawn(tree: Path, count: int, seed: int, rooms: Sequence[str]) -> Iterator[tuple[Path, Site, str]]:
    """Draw places over all modules of the rooms, each as likely as any other, and one of the ways to change each."""
    rng = random.Random(seed)
    paths = sorted(path for room in rooms for path in (tree / room).rglob("*.py"))
    places = [(path, site) for path in paths for site in Sites(path.read_text()).sites]
    for path, site in rng.sample(places, min(count, len(places))):
        yield path.relative_to(tree), site, rng.choice(site.ways)


def main() -> None:
    """Draw, run and write."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--count", type=int, default=80)
    parser.add_argument("--seed", type=int, required=True)
    parser.add_argument("--rooms", nargs="*", default=ROOMS, help="folders to draw from")
    parser.add_argument("--tests", nargs="*", default=["tests"], help="folders of the tests to try mutants with")
    parser.add_argument("--limit", type=float, default=240.0, help="processor seconds of tests a mutant is tried with")
    parser.add_argument("--map", type=Path, default=Path("mutants-map.jsonl"))
    parser.add_argument("--out", type=Path, default=Path("mutants.jsonl"))
    options = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="mutants-") as folder:
        tree = copied(Path(folder))
        tests = mapped(tree, options.map, options.tests)
        rows = []
        for path, site, way in drawn(tree, options.count, options.seed, options.rooms):
            source = (tree / path).read_text()
            mutant = spliced(source, site.node, way)
            diff = list(difflib.unified_diff(source.splitlines(), mutant.splitlines(), n=0, lineterm=""))[3:]
            files = tests_of(path.as_posix(), site.lines, tests, options.limit)
            cached = Path(cache_from_source(str(tree / path)))
            before = spent()
            try:
                (tree / path).write_text(mutant)
                cached.unlink(missing_ok=True)
                allowed = 30 + round(2 * sum(tests[name]["seconds"] for name in files))
                result, output = run(tree, files, allowed) if files else ("passed", "")
            finally:
                (tree / path).write_text(source)
                cached.unlink(missing_ok=True)
            first = re.search(r"^(?:FAILED|ERROR) (\S+)", output, re.MULTILINE)
            row = {
                "place": f"{path}:{site.node.lineno}", "kind": site.kind, "diff": diff,
                "result": "survived" if result == "passed" else "killed",
                "by": first[1] if first else result, "tests": files, "seconds": round(spent() - before, 1),
            }  # fmt: skip
            rows.append(row)
            with options.out.open("a") as out:
                out.write(json.dumps({"seed": options.seed, **row}) + "\n")
            print(f"{row['result']:9} {row['place']} ({site.kind}) by {row['by']}", *diff, sep="\n    ", flush=True)
    survived = sum(row["result"] == "survived" for row in rows)
    print(f"{len(rows)} mutants, seed {options.seed}: {len(rows) - survived} killed, {survived} survived")


if __name__ == "__main__":
    main()
