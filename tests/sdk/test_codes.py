"""Every code that the software can write is listed, at every level it is written at, and no other of its own.

What is expected is read out of the source by Python's own parser: each call that makes a finding, and each range that
an equation is good for.
"""

import ast
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

import casewright.api
import casewright.plugins
import casewright.sdk
import pytest
from casewright.sdk.codes import CODES, Code

BY_NAME = {one.code: one for one in CODES}
FINDING, RANGES = ("Finding", "_finding", "check_least", "check_most"), ("within", "_Support")
LEVELS = ("stop", "caution", "note")
SHARED = {"hinge-apart", "stack-up"}
"""Ranges of equations whose inputs the service makes itself: no job leads outside of them."""


def calls() -> Iterator[tuple[ast.Call, str]]:
    """Yield every call in the source with the name of what is called."""
    for package in (casewright.sdk, casewright.plugins, casewright.api):
        (root, *_) = package.__path__
        for path in sorted(Path(root).rglob("*.py")):
            if {"testing", "template"} & set(path.parts):
                continue
            for node in ast.walk(ast.parse(path.read_text("utf-8"))):
                if isinstance(node, ast.Call):
                    yield node, getattr(node.func, "id", getattr(node.func, "attr", ""))


def given(call: ast.Call, place: int, name: str) -> ast.expr | None:
    named = next((word.value for word in call.keywords if word.arg == name), None)
    return named if named is not None or len(call.args) <= place else call.args[place]


def texts(value: ast.expr | None) -> set[str]:
    return (
        {n.value for n in ast.walk(value) if isinstance(n, ast.Constant) and isinstance(n.value, str)}
        if value
        else set()
    )


@pytest.fixture(scope="module")
def written() -> dict[str, set[str]]:
    """Return each code that stands in the source with the levels that stand beside it."""
    found: defaultdict[str, set[str]] = defaultdict(set)
    for call, name in calls():
        code = given(call, 0, "code")
        if name in (*FINDING, *RANGES) and isinstance(code, ast.Constant) and isinstance(code.value, str):
            found[code.value] |= texts(given(call, 1, "level")) & set(LEVELS) if name in FINDING else set()
    return dict(found)


def test_every_code_in_the_source_is_listed(written: dict[str, set[str]]) -> None:
    assert len(written) > 150
    assert sorted(set(written) - set(BY_NAME) - SHARED) == []


def test_every_level_in_the_source_is_listed(written: dict[str, set[str]]) -> None:
    missing = {code: levels - set(BY_NAME[code].levels) for code, levels in written.items() if code in BY_NAME}
    assert {code: levels for code, levels in missing.items() if levels} == {}


def test_nothing_else_is_listed(written: dict[str, set[str]]) -> None:
    named = {
        "no-stock",
        "stock-defects",
        "anti-tip",
        "anti-tip-leaned-on",
        "check-failed",
    }  # written by a name, not in place
    also = {code for code in BY_NAME if code.startswith("anti-lift-")}  # of what is written of the hanging itself
    assert sorted(set(BY_NAME) - set(written) - named - also) == []
    bare = {code.removeprefix("anti-lift-") for code in also - set(written)}
    assert sorted(bare - set(written) - {"wood"}) == []


@pytest.mark.parametrize("one", CODES, ids=lambda one: one.code)
def test_a_code_says_what_it_means(one: Code) -> None:
    assert one.levels == tuple(level for level in LEVELS if level in one.levels)
    assert one.levels
    assert len(one.meaning) > 8


def test_each_code_stands_once() -> None:
    assert len(BY_NAME) == len(CODES)
