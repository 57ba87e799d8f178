"""Folders of papers: every file that an earlier run can have left is known as such, by the lists of what is written."""

from pathlib import Path

import pytest
from casewright.api.command.demo import PAPERS
from casewright.api.command.outputs import write_folder
from casewright.api.papers.folder import PDF_VIEWS, SVG_VIEWS

VIEWS = [*(f"{view}-{number}.svg" for view in SVG_VIEWS for number in (1, 12)), *(f"{view}s.pdf" for view in PDF_VIEWS)]


@pytest.mark.parametrize("name", sorted({*PAPERS, *VIEWS}))
def test_what_an_earlier_run_wrote_is_replaced(tmp_path: Path, name: str) -> None:
    (tmp_path / name).write_text("of an earlier run")
    write_folder(tmp_path, {"plan.json": b"new"})
    assert [path.name for path in tmp_path.iterdir()] == ["plan.json"]
