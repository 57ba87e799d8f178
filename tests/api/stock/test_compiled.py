"""The packer compiled and the packer as plain Python: the same counted steps, the same answer."""

import json
import os
import subprocess
import sys
from importlib import import_module
from pathlib import Path

import pytest
from casewright.api import stock

NAMES = ("slicing", "search", "levels", "moves", "nooks", "worth")
PROGRAM = r"""
import json, sys
from hashlib import sha256
from importlib.machinery import EXTENSION_SUFFIXES
from importlib.util import spec_from_file_location
from pathlib import Path

names = {f"casewright.api.stock.{name}" for name in ("slicing", "search", "levels", "moves", "nooks", "worth")}

class Sources:
    @staticmethod
    def find_spec(name, path=None, target=None):
        if name in names:
            return spec_from_file_location(name, Path(next(iter(path))) / f"{name.rpartition('.')[2]}.py")

if sys.argv[1] == "plain":
    sys.meta_path.insert(0, Sources)
import casewright.api.stock.search as search
from casewright.api.stock import plan_stock
from stock_jobs import SEED, job

answers = []
for i in range(int(sys.argv[2])):
    plan = plan_stock(job(SEED + 1000 + i, 1 + i % 3))
    answers.append(sha256(repr(plan).encode()).hexdigest())
print(json.dumps({"compiled": search.__file__.endswith(tuple(EXTENSION_SUFFIXES)), "answers": answers}))
"""


def compiled() -> bool:
    return not str(import_module("casewright.api.stock.search").__file__).endswith(".py")


def answers(way: str, many: int) -> dict:
    env = {**os.environ, "PYTHONPATH": str(Path(__file__).parent), "PYTHONHASHSEED": "1" if way == "plain" else "2"}
    ran = subprocess.run([sys.executable, "-c", PROGRAM, way, str(many)], env=env, capture_output=True, text=True)
    assert ran.returncode == 0, ran.stderr
    return json.loads(ran.stdout)


def test_all_modules_are_compiled_from_the_sources_here_or_none_is():
    modules = [import_module(f"casewright.api.stock.{name}") for name in NAMES]
    if not compiled():
        assert all(str(m.__file__).endswith(".py") for m in modules)
        assert "CI" not in os.environ, "the packer is to be compiled here"
        pytest.skip("no compiler was at hand when casewright was installed")
    assert not [m for m in modules if str(m.__file__).endswith(".py")]
    room = Path(stock.__file__).parent  # where some versions of mypyc put what they compile, `__file__` does not say
    for name in NAMES:
        source = room / f"{name}.py"
        made = [one for one in room.glob(f"{name}.*") if one.suffix in (".so", ".pyd")]
        assert made
        assert max(one.stat().st_mtime for one in made) >= source.stat().st_mtime, (
            f"install again: {name}.py is newer than its compiled form"
        )


def test_compiled_and_plain_python_give_the_same_plan(full: bool):
    if not compiled():
        pytest.skip("no compiler was at hand when casewright was installed")
    many = 60 if full else 6
    plain, quick = answers("plain", many), answers("compiled", many)
    assert not plain["compiled"]
    assert quick["compiled"]
    assert plain["answers"] == quick["answers"]
