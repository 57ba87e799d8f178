"""Every code under which the software can say stop has a generator of cures, or a reason why no change can cure it.

The codes are read from the source: what is made a finding whose level may be a stop, bounds that stop, and the ranges
of the equations that judge what hangs and stands.
"""

import ast
from collections.abc import Iterator
from pathlib import Path

import casewright.api
import casewright.plugins
import casewright.sdk
import pytest
from casewright.sdk.loader import load

ROOTS = [Path(next(iter(package.__path__))) for package in (casewright.api, casewright.sdk, casewright.plugins)]
APART = ("testing", "template")
RANGES = ("hanging", "placement", "withdrawal", "yielding", "bearing", "adjust", "load_path")
"""Modules of engineering whose ranges become stops under their own codes, where hanging and tipping are judged."""


def modules() -> Iterator[tuple[Path, ast.Module]]:
    for root in ROOTS:
        for path in sorted(root.rglob("*.py")):
            if not set(APART) & set(path.relative_to(root).parts):
                yield path, ast.parse(path.read_text("utf-8"))


def called(call: ast.Call) -> str:
    return call.func.id if isinstance(call.func, ast.Name) else getattr(call.func, "attr", "")


def arguments(call: ast.Call, *names: str) -> dict[str, ast.expr]:
    given = dict(zip(names, call.args, strict=False))
    return {**given, **{word.arg: word.value for word in call.keywords if word.arg}}


def may_stop(level: ast.expr | None, function: ast.AST) -> bool:
    """Return whether the level of a finding may be stop: anything but words that are other levels.

    A name stands for all that its function sets it to; one that is not set there may be anything.
    """
    values = [level]
    if isinstance(level, ast.Name):
        values = [value for value in _set_to(level.id, function) if value is not None]
    words = {one.value for value in values if value for one in ast.walk(value) if isinstance(one, ast.Constant)}
    return "stop" in words or not words & {"caution", "note"}


def _set_to(name: str, function: ast.AST) -> Iterator[ast.expr | None]:
    for node in ast.walk(function):
        if isinstance(node, (ast.AnnAssign, ast.Assign)):
            targets = [node.target] if isinstance(node, ast.AnnAssign) else node.targets
            if any(isinstance(one, ast.Name) and one.id == name for target in targets for one in ast.walk(target)):
                yield node.value


def calls(tree: ast.Module) -> Iterator[tuple[ast.Call, ast.AST]]:
    """Yield every call with the function it stands in, or the module."""
    inside: dict[ast.AST, ast.AST] = {}
    for node in ast.walk(tree):
        home = node if isinstance(node, ast.FunctionDef) else inside.get(node, tree)
        inside |= dict.fromkeys(ast.iter_child_nodes(node), home)
        if isinstance(node, ast.Call):
            yield node, home


def named(code: ast.expr, constants: dict[str, str]) -> str | None:
    if isinstance(code, ast.Constant):
        return str(code.value)
    return constants.get(code.id) if isinstance(code, ast.Name) else None


def codes() -> set[str]:
    stops: set[str] = set()
    for path, tree in modules():
        constants = {
            node.targets[0].id: node.value.value
            for node in tree.body
            if isinstance(node, ast.Assign)
            and isinstance(node.targets[0], ast.Name)
            and isinstance(node.value, ast.Constant)
            and isinstance(node.value.value, str)
        }
        for call, function in calls(tree):
            name = called(call)
            code: str | None = None
            if name == "Finding":
                given = arguments(call, "code", "level")
                code = named(given["code"], constants) if may_stop(given.get("level"), function) else None
            elif name in ("check_least", "check_most"):
                bound = arguments(call, "code", "message", "value", "bound").get("bound")
                stopping = isinstance(bound, ast.Call) and (len(bound.args) > 1 or "stop" in arguments(bound))
                code = named(call.args[0], constants) if stopping else None
            elif name == "_Support" or (name in ("within", "OutsideLimits") and path.stem.startswith(RANGES)):
                code = named(call.args[0], constants)
            if code is not None:
                stops.add(code)
    return stops


EVERY = sorted(codes())
LISTED = {code for one in load(discover="built-in").cures.values() for code in (*one.codes, *one.why_none)}


def test_the_source_names_codes() -> None:
    assert len(EVERY) > 60
    assert {"fastener-use", "clash", "no-stock", "thin-tongue", "strip-height"} <= set(EVERY)


@pytest.mark.parametrize("code", EVERY)
def test_a_code_that_stops_has_a_generator_or_a_reason(code: str) -> None:
    assert code in LISTED, (
        f"{code}: list it in the codes, or with a reason in why_none, of a generator in plugins/cures"
    )
