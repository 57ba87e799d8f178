"""Five booklets as they are printed: how large type is, nothing over anything or off the page, what is asked of them.

A turn is to open the booklet at a page that the page before names, or to leaf to the next one.
"""

import io
import re
import subprocess
from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache
from math import hypot
from pathlib import Path
from typing import Any, NamedTuple
from xml.etree import ElementTree

import pytest
import samples
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.cards import Card, cards
from casewright.sdk.model import Operation
from casewright.sdk.units import tape_text
from pypdf import PdfReader

BLOCK = {"Scale", "Lengths in", "Sheet", "Plan", "Number", "Owner", "Drawn by", "Approved by", "Date"}
"""Names of the cells of a title block."""

SECTIONS = (
    "Buy and gather", "Cabinets", "Cut list", "Cutting", "Settings and the order of work", "Drilling",
    "Joints, cut through", "Dry fit and glue-up", "At the bench and at the wall", "Take from the work", "Wall",
    "Appendix: ", "Templates",
)  # fmt: skip
"""How the sections of a booklet are called."""

EDGE = 4.0 * 72 / 25.4
"""What a usual printer cannot reach of a page, points."""

POPPLER = "{http://www.w3.org/1999/xhtml}"

pytestmark = pytest.mark.parametrize("name", samples.FIVE)


class Word(NamedTuple):
    """A word of a page and the box round it, points from the upper left corner."""

    text: str
    x0: float
    y0: float
    x1: float
    y1: float


class Printed(NamedTuple):
    """What stands on a page, and each run of it with its size in points."""

    text: str
    runs: tuple[tuple[float, str], ...]


@lru_cache(maxsize=len(samples.FIVE))
def printed(name: str) -> tuple[Printed, ...]:
    return tuple(_printed(page) for page in PdfReader(io.BytesIO(samples.booklet(name))).pages)


def _printed(page: Any) -> Printed:
    runs: list[tuple[float, str]] = []

    def visit(text: str, cm: list[float], tm: list[float], _font: object, size: float) -> None:
        if text.strip():
            along = (tm[0] * cm[0] + tm[1] * cm[2], tm[0] * cm[1] + tm[1] * cm[3])
            runs.append((size * hypot(*along), text.strip()))

    text = page.extract_text(visitor_text=visit)
    return Printed(re.sub(r"[ \t]+", " ", text), tuple(runs))


def texts(name: str) -> list[str]:
    return [page.text for page in printed(name)]


@lru_cache(maxsize=len(samples.FIVE))
def contents(name: str) -> dict[str, int]:
    """Return the page of each section, as the first page lists them."""
    found = re.findall(r"^(\d+) ?(\D.*)$", texts(name)[0], re.MULTILINE)
    return {words.strip(): int(number) for number, words in found if words.strip().startswith(SECTIONS)}


def section(name: str, heading: str) -> range:
    """Return the pages of a section, from 1."""
    first = contents(name)[heading]
    later = [page for page in contents(name).values() if page > first]
    return range(first, min(later, default=len(texts(name)) + 1))


def read(name: str, pages: Sequence[int]) -> str:
    return re.sub(r"\s+", " ", " ".join(texts(name)[page - 1] for page in pages))


def tight(words: str) -> str:
    return re.sub(r"\s+", "", words)


def test_type_is_nine_points_and_in_title_blocks_and_appendix_seven(name: str) -> None:
    appendix = min(page for words, page in contents(name).items() if words.startswith("Appendix"))
    for number, page in enumerate(printed(name), start=1):
        for size, text in page.runs:
            assert size > 6.95, (number, size, text)
            assert size > 8.95 or number >= appendix or text in BLOCK, (number, size, text)


def test_the_pages_before_the_appendix_can_be_carried(name: str) -> None:
    # What a booklet for the bench may have at most, by its purpose: the demo's three cabinets, one small cabinet.
    most = {"demo": 22, "box": 8}
    appendix = min(page for words, page in contents(name).items() if words.startswith("Appendix"))
    assert appendix - 1 <= most.get(name, 25)


def test_nothing_is_cut_short(name: str) -> None:
    appendix = min(page for words, page in contents(name).items() if words.startswith("Appendix"))
    assert "…" not in read(name, range(1, appendix))


def test_no_word_lies_over_another_or_off_the_page(name: str, needed: Callable[..., None], tmp_path: Path) -> None:
    needed("pdftotext")
    (tmp_path / "b.pdf").write_bytes(samples.booklet(name))
    subprocess.run(["pdftotext", "-bbox", str(tmp_path / "b.pdf"), str(tmp_path / "b.html")], check=True)
    pages = list(ElementTree.parse(tmp_path / "b.html").iter(f"{POPPLER}page"))
    assert len(pages) == len(texts(name))
    for number, page in enumerate(pages, start=1):
        wide, high = float(page.get("width", "0")), float(page.get("height", "0"))
        words = sorted((_word(one) for one in page), key=lambda word: word.y0)
        for i, a in enumerate(words):
            assert a.x0 >= EDGE, (number, a)
            assert a.y0 >= EDGE, (number, a)
            assert a.x1 <= wide - EDGE, (number, a)
            assert a.y1 <= high - EDGE, (number, a)
            for b in words[i + 1 :]:
                if b.y0 >= a.y1:
                    break
                assert b.x0 >= a.x1 or a.x0 >= b.x1, (number, a, b)


def _word(one: ElementTree.Element) -> Word:
    """Return a word with the box of its ink, about: a font's line is higher than its letters."""
    x0, y0, x1, y1 = (float(one.get(key, "0")) for key in ("xMin", "yMin", "xMax", "yMax"))
    thin = 0.28 * min(x1 - x0, y1 - y0)
    return Word(one.text or "", x0 + thin, y0 + thin, x1 - thin, y1 - thin)


def test_a_parts_size_is_one_or_two_turns_away(name: str) -> None:
    plan = samples.plan(name)
    pages = section(name, "Cut list")
    assert len(pages) <= 2
    words = tight(read(name, pages))
    for part in plan.parts:
        long, wide = (
            tape_text(nm, plan.job.units, plan.job.tape).removesuffix(f" {plan.job.units}")
            for nm in (part.length, part.width)
        )
        # A row has its count, then length and width as the tape shows them, decimals of each behind it.
        assert re.search(rf"{_size(long)}[0-9.]*?{_size(wide)}", words), part.id


def _size(tape: str) -> str:
    """Return a pattern of a length: `27 19/64`, or decimals without the zeros that say nothing."""
    return re.escape(tight(re.sub(r"\.0$", "", tape)))


def test_what_is_set_next_stands_on_the_first_page_with_its_page(name: str) -> None:
    plan = samples.plan(name)
    first = texts(name)[0]
    ahead = [step.number for step in plan.steps if step.number not in plan.job.done][:4]
    listed = read(name, [1])
    for number in ahead:
        assert re.search(rf"\b{number} {re.escape(plan.steps[number - 1].do[:20])}", listed)
    # The pages are written last, once all are known: the numbers at the end of the page, in the order of the steps.
    numbers = [int(line) for line in first.splitlines() if re.fullmatch(r"\d+", line.strip())]
    cabinets = list(_on_pages(name))
    written = numbers[-len(ahead) - len(cabinets) :]
    for number, page in zip(ahead, written, strict=False):
        assert re.search(rf"☐ ?{number}\b", read(name, [page])), (number, page)
    # Behind them the pages that each cabinet is drawn, glued and put up on, row by row.
    for words, page in zip(cabinets, written[len(ahead) :], strict=True):
        assert words in read(name, [page]), (words, page)


def _on_pages(name: str) -> Iterator[str]:
    """Yield what stands on the pages that the first page names of each cabinet, in the order it names them."""
    facts = Facts(samples.plan(name))
    for cabinet in facts.cabinets:
        yield f"{cabinet}: "
        first = next(one for card in cards(facts) for one in _steps(card) if cabinet in _cabinets(facts, one))
        yield first.do[:20]
        hung = [one for one in facts.plan.steps if one.action == "hang" and cabinet in _cabinets(facts, one)]
        yield from [one.do[:20] for one in hung[:1]]


def _steps(card: Card) -> tuple[Operation, ...]:
    return (card.steps[0], *(steps[0] for steps in card.again))


def _cabinets(facts: Facts, step: Operation) -> set[str]:
    return {facts.parts[part].cabinet for part in step.parts}


def test_the_outline_lists_the_sections_and_the_drawings_of_each_cabinet(name: str) -> None:
    reader = PdfReader(io.BytesIO(samples.booklet(name)))
    found: dict[str, int] = {}
    for entry in reader.outline:
        for one in entry if isinstance(entry, list) else [entry]:
            found.setdefault(str(one.title), reader.get_destination_page_number(one) + 1)
    assert {words: found[words] for words in contents(name)} == contents(name)
    for cabinet in samples.plan(name).job.cabinets:
        drawn = {words: page for words, page in found.items() if words.startswith((f"{cabinet.id}:", f"{cabinet.id} "))}
        assert drawn
        assert all(words in read(name, [page]) for words, page in drawn.items())


def test_where_a_screw_goes_into_the_wall_is_two_turns_away(name: str) -> None:
    plan = samples.plan(name)
    facts = Facts(plan)
    results = [facts.hanging(one.id, copy) for one in plan.job.cabinets for copy in range(one.count)]
    fasteners = [fastener for one in results if one is not None for fastener in one.fasteners]
    if not fasteners:
        assert "Wall" not in contents(name) or any(check.level == "stop" for check in plan.checks)
        return
    first = contents(name)["Wall"]
    words = read(name, [first, first + 1])
    assert "From the wall's left" in words
    for fastener in fasteners:
        at = tape_text(round(fastener.at_mm * 1e6), plan.job.units, plan.job.tape)
        assert tight(re.sub(r"\.0\b", "", at)) in tight(words), at


def test_what_goes_in_first_is_two_turns_away(name: str) -> None:
    """The section lists its cards with their pages, where there are several; each says the order."""
    plan = samples.plan(name)
    pages = section(name, "Dry fit and glue-up")
    made = cards(Facts(plan))
    assert made
    words = read(name, [pages[0]])
    if len(made) > 1:
        numbers = [int(line) for line in texts(name)[pages[0] - 1].splitlines() if re.fullmatch(r"\d+", line.strip())]
        listed = numbers[-len(made) :]
        for card, page in zip(_by_rows(made), listed, strict=True):
            assert re.search(rf"\b{card.steps[0].number}\b.*{re.escape(card.steps[0].do[:12])}", read(name, [page]))
    else:
        assert "In this order: 1 " in words


def _by_rows(found: Sequence[Any]) -> list[Any]:
    """Return cards as a list in three columns is drawn: row by row."""
    lines = -(-len(found) // 3)
    return [found[i + lines * column] for i in range(lines) for column in range(3) if i + lines * column < len(found)]


def test_what_to_buy_is_one_or_two_turns_away(name: str) -> None:
    plan = samples.plan(name)
    pages = section(name, "Buy and gather")
    assert len(pages) <= 2
    words = tight(read(name, pages))
    assert plan.stock is not None
    for row in plan.stock.buy:
        assert tight(f"{row.quantity}{row.stock}") in words
    for line in plan.hardware:
        assert tight(line.name) in words


def test_every_section_that_the_first_page_lists_begins_where_it_says(name: str) -> None:
    for words, page in contents(name).items():
        if words not in ("Cabinets", "Cutting", "Wall", "Templates, to be printed at 100 %"):
            assert tight(words) in tight(texts(name)[page - 1])
