"""The page's scripts that need no browser, by their own tests in Node: places in the text, suggestions, tidy text."""

import re
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

TESTS = sorted(Path(__file__).parent.glob("*.test.mjs"))


@pytest.mark.parametrize("script", TESTS, ids=lambda path: path.name)
def test_a_script_does_as_its_tests_say(script: Path, needed: Callable[..., None]) -> None:
    needed("node")
    ran = subprocess.run(["node", "--test", str(script)], capture_output=True, text=True, timeout=60, check=False)
    assert ran.returncode == 0, ran.stdout + ran.stderr
    wanted = len(re.findall(r"^test\(", script.read_text("utf-8"), re.MULTILINE))
    assert re.findall(r"^(?:# |ℹ )pass (\d+)$", ran.stdout, re.MULTILINE) == [str(wanted)]
