"""Clients made from the OpenAPI document by two general tools: type-checked, and they plan the demo.

`generate.py` beside this runs four more.
"""

import importlib.util
import os
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from casewright.api import plan
from casewright.api.use.examples import example_job

sys.path.insert(0, str(Path(__file__).parent))

import generate


@pytest.mark.parametrize(
    ("package", "make"),
    [("openapi_python_client", generate.python_client), ("datamodel_code_generator", generate.models)],
)
def test_a_generated_client_plans_the_demo(
    package: str, make: Callable[[generate.Run, Path, str, Path], str], base: str, tmp_path: Path
) -> None:
    if importlib.util.find_spec(package) is None:
        if os.environ.get("CI"):
            pytest.fail(f"{package} is not installed; CI installs it")
        pytest.skip(f"{package} is not installed")
    whole = plan(example_job())
    words = make(generate.runner(tmp_path), tmp_path, base, Path(sys.executable).parent)
    assert words.split() == [str(len(whole["parts"])), str(whole["stops"])]
