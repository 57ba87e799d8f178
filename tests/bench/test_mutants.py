"""The drawer of mutants: what it changes in a module, what it leaves alone, and that a draw can be repeated."""

import ast
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

import mutants

LEFT_ALONE = '''
"""A docstring about max(1, 2)."""
import logging
from typing import TYPE_CHECKING, Annotated
if TYPE_CHECKING:
    from x import y
log = logging.getLogger(__name__)
size: Annotated[int, 3]
def f(a: Annotated[int, 1 + 1]) -> Annotated[int, 2]:
    """Another one: 1 < 2."""
    log.info("%s", a + 1)
    f"{a + 1:>{2}}"
'''


def ways(source: str) -> set[tuple[str, str]]:
    """Return (kind, module with the change) of every way to change a module."""
    sites = mutants.Sites(source).sites
    return {(site.kind, mutants.spliced(source, site.node, way)) for site in sites for way in site.ways}


def test_words_annotations_and_logging_are_left_alone():
    assert ways(LEFT_ALONE) == set()


@pytest.mark.parametrize(
    ("source", "kind", "expected"),
    [
        ("a < b", "comparison flipped", {"(a <= b)", "(a >= b)"}),
        ("a is None", "comparison flipped", {"(a is not None)"}),
        ("a + b", "operator", {"(a - b)"}),
        ("a // b", "operator", {"(a * b)"}),
        ("max(a, b)", "max/min", {"min(a, b)"}),
        ("x = 7", "number nudged", {"x = 8"}),
        ("x = 2.0", "number nudged", {"x = 2.2"}),
        ("x = True", "truth negated", {"x = False"}),
        ("not a", "truth negated", {"(a)"}),
        ("a = -b", "sign dropped", {"a = (b)"}),
        ("a and b", "and/or", {"(a or b)"}),
        ("x = f(a, b)", "arguments swapped", {"x = (f(b, a))"}),
        ("x = a[0]", "index off by one", {"x = a[1]"}),
        ("x = a[1:n]", "index off by one", {"x = a[2:n]"}),
        ("a.append(b)", "statement dropped", {"pass"}),
        ("a[b] = c", "statement dropped", {"pass"}),
        ("def f(): return a", "return dropped", {"def f(): return None"}),
        ("'ß', a < b", "comparison flipped", {"'ß', (a <= b)", "'ß', (a >= b)"}),
    ],
)
def test_each_kind_of_change(source, kind, expected):
    assert {text for one, text in ways(source) if one == kind} == expected


def test_a_draw_can_be_repeated_and_every_mutant_is_python():
    first, again = ([*mutants.drawn(mutants.ROOT, 60, 7, mutants.ROOMS)] for _ in range(2))
    assert len(first) == 60
    places = [(path, site.node.lineno, site.node.col_offset, site.kind, way) for path, site, way in first]
    assert places == [(path, site.node.lineno, site.node.col_offset, site.kind, way) for path, site, way in again]
    for path, site, way in first:
        source = (mutants.ROOT / path).read_text()
        changed = mutants.spliced(source, site.node, way)
        assert ast.dump(ast.parse(changed)) != ast.dump(ast.parse(source)), (path, site)


def test_tests_of_the_same_room_come_first_and_then_the_quickest():
    module = "api/casewright/api/stock/choose.py"
    tests = {
        "tests/api/use/test_a.py": {"seconds": 1.0, "lines": {module: [5]}},
        "tests/api/stock/test_b.py": {"seconds": 9.0, "lines": {module: [5, 6]}},
        "tests/api/web/test_c.py": {"seconds": 0.5, "lines": {module: [7]}},
        "tests/api/web/test_d.py": {"seconds": 0.1, "lines": {}},
    }
    first_tests = mutants.tests_of(module, range(5, 6), tests, 20.0)
    assert first_tests == ["tests/api/stock/test_b.py", "tests/api/use/test_a.py"]
    assert mutants.tests_of(module, range(5, 6), tests, 9.5) == ["tests/api/stock/test_b.py"]
    whole_module = mutants.tests_of(module, range(1, 2), tests, 20.0)
    assert whole_module == ["tests/api/stock/test_b.py", "tests/api/web/test_c.py", "tests/api/use/test_a.py"]
