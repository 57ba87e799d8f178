"""Pages that work a job with commands, followed as a reader would: the job, what is added to it, each command."""

import json
import re
import shlex

import pytest
from casewright.api.command.cli import main
from casewright.api.web.pages import page_text

FENCE = re.compile(r'^```(\w+)(?: title="([^"]+)")?\n(.*?)^```$', re.MULTILINE | re.DOTALL)


def _added(job, title, value):
    """Return the job with what a block adds to it, or the job that the block is."""
    if title == "built":
        return {**job, "built": value}
    return {**job, "stock": {"offcuts": value}} if title == "offcuts" else value


@pytest.mark.parametrize(("page", "commands"), [("one-side-short", 4), ("from-stock", 2), ("spreadsheet", 1)])
def test_a_page_followed_as_it_stands(page, commands, tmp_path, monkeypatch, capsys):
    """Every command prints just what the page shows beneath it."""
    monkeypatch.chdir(tmp_path)
    job, printed, shown = {}, None, 0
    for kind, title, text in FENCE.findall(page_text(page)):
        if kind == "json":
            job = _added(job, title, json.loads(text))
            (tmp_path / "pumps.json").write_text(json.dumps(job), "utf-8")
        elif title:
            (tmp_path / title).write_text(text, "utf-8")
        elif kind == "sh":
            program, *arguments = shlex.split(text)
            assert program == "casewright"
            code = main(arguments)
            out = capsys.readouterr()
            printed = (out.err if code == 2 else out.out).replace("\r\n", "\n")  # CSV has the line ends of RFC 4180
        else:
            assert printed == text
            shown += 1
    assert shown == commands
