"""What commands are tried with: a job in a file, and a plugin that is begun."""

import json
import sys
from pathlib import Path
from typing import Any

import pytest
from casewright.api.command.cli import main


@pytest.fixture
def job_file(tmp_path: Path, job: dict[str, Any]) -> Path:
    path = tmp_path / "job.json"
    path.write_text(json.dumps(job))
    return path


@pytest.fixture
def made(tmp_path, monkeypatch, capsys):
    """Return the folder of a new plugin; what importing it leaves behind is undone."""
    monkeypatch.setattr(sys, "path", list(sys.path))
    before = set(sys.modules)
    assert main(["plugin", "new", "ladder-joint", "--into", str(tmp_path)]) == 0
    capsys.readouterr()
    yield tmp_path / "ladder-joint"
    for name in set(sys.modules) - before:
        del sys.modules[name]
