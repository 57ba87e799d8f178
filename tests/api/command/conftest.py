"""A job in a file, as the command line reads it."""

import json
from pathlib import Path
from typing import Any

import pytest


@pytest.fixture
def job_file(tmp_path: Path, job: dict[str, Any]) -> Path:
    path = tmp_path / "job.json"
    path.write_text(json.dumps(job))
    return path
