"""What the tests of HTTP share."""

import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from casewright.api.web.problems import KINDS


@pytest.fixture(scope="session")
def is_problem() -> Callable[[Any, str], dict[str, Any]]:
    """Return a function that asserts an answer to be a problem of a kind, and gives its body."""

    def check(answer: Any, name: str) -> dict[str, Any]:
        assert answer.mimetype == "application/problem+json"
        body: dict[str, Any] = answer.get_json()
        kind = KINDS[name]
        assert (body["type"], body["status"], answer.status_code) == (kind.type, kind.status, kind.status)
        assert body["title"]
        assert body["detail"]
        assert isinstance(body["errors"], list)
        return body

    return check


@pytest.fixture(scope="session")
def browser_folder(tmp_path_factory: pytest.TempPathFactory, needed: Callable[..., None]) -> Path:
    """Return a folder that holds the scripts for the browser and what they need from npm."""
    needed("chromium", "node", "npm")
    folder = tmp_path_factory.mktemp("browser")
    for path in (Path(__file__).parent / "browser").iterdir():
        shutil.copy(path, folder)
    command = ["npm", "install", "--silent", "--no-audit", "--no-fund", "--ignore-scripts"]
    got = subprocess.run(command, cwd=folder, capture_output=True, text=True, timeout=240, check=False)
    assert got.returncode == 0, got.stderr
    return folder
