"""Text made safe for paper and measured."""

import io
import re
from collections.abc import Callable
from dataclasses import replace

from casewright.api import papers as documents
from casewright.api.papers.text import MISSING, cannot_draw, clean, fitted, fitted_end, runs, width, wrapped
from casewright.sdk.model import Plan
from pypdf import PdfReader


def words(data: bytes) -> str:
    return re.sub(r"\s+", " ", " ".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages))


def test_other_scripts_are_drawn_or_boxed(plan: Callable[[str], Plan]) -> None:
    assert not cannot_draw("Żółw Ωμέγα Щука 自転車 자전거 ½ ⌀ ☐ −")
    assert cannot_draw("ᚱ")
    assert "".join(run.text for run in runs("a ᚱᚢ")) == "a " + 2 * MISSING
    assert "自転車修理場" in words(documents.booklet(plan("smallest"), ""))


def test_a_title_that_runs_left_is_shaped_and_can_be_searched(plan: Callable[[str], Plan]) -> None:
    smallest = plan("smallest")
    named = replace(smallest, job=replace(smallest.job, title="ورشة الدراجات"))
    text = words(documents.booklet(named, ""))
    assert {"ورشة", "الدراجات"} <= set(text.split())
    assert documents.labels(named)


def test_text_is_cleaned_and_fitted() -> None:
    assert clean("a\x00\x1b[31m\u202eb\ud800\n c") == "a [31mb c"
    drawn = fitted("a long line of text that does not fit", 2.5, 20.0)
    assert drawn.endswith("…")
    assert width(drawn, 2.5) <= 20.0
    assert len(clean("x" * 900)) == 400


def test_an_id_is_cut_at_its_beginning_and_broken_after_a_stroke() -> None:
    name = "cupboard-for-wheels/door-1/stile-left"
    cut = fitted_end(name, 2.5, 30.0)
    assert cut.startswith("…")
    assert name.endswith(cut[1:])
    assert width(cut, 2.5) <= 30.0
    assert width("…" + name[-len(cut) :], 2.5) > 30.0  # one letter more has no room
    assert fitted_end("top", 2.5, 30.0) == "top"
    lines = wrapped(name, 2.5, 30.0, 4)
    assert "".join(lines) == name
    assert all(line[-1] in "/-" for line in lines[:-1])


def test_text_is_broken_at_spaces_into_the_lines_there_are() -> None:
    text = "one two three four five six"
    whole = width(text, 2.5)
    assert wrapped(text, 2.5, whole, 3) == [text]
    lines = wrapped(text, 2.5, whole * 0.4, 3)
    assert " ".join(lines) == text
    assert len(lines) == 3
    assert all(width(line, 2.5) <= whole * 0.4 for line in lines)
    # One line too few: the last is cut to what fits.
    short = wrapped(text, 2.5, whole * 0.4, 2)
    assert len(short) == 2
    assert short[1].endswith("…")
