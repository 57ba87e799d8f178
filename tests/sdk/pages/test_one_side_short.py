"""The page on what came out short, followed as a reader would: its job, what is added to it, its commands."""

import json
import re
import shlex

from casewright.api.command.cli import main
from casewright.api.web.pages import page_text

FENCE = re.compile(r'^```(\w+)(?: title="([^"]+)")?\n(.*?)^```$', re.MULTILINE | re.DOTALL)


def test_the_page_followed_as_it_stands(tmp_path, monkeypatch, capsys):
    """Every command prints just what the page shows beneath it."""
    monkeypatch.chdir(tmp_path)
    job, printed, shown = {}, None, 0
    for kind, title, text in FENCE.findall(page_text("one-side-short")):
        if kind == "json":
            job = {**job, "built": json.loads(text)} if title == "built" else json.loads(text)
            (tmp_path / "pumps.json").write_text(json.dumps(job), "utf-8")
        elif kind == "sh":
            program, *arguments = shlex.split(text)
            assert program == "casewright"
            code = main(arguments)
            out = capsys.readouterr()
            printed = out.err if code == 2 else out.out
        else:
            assert printed == text
            shown += 1
    assert shown == 4
