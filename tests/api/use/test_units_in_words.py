"""Words speak in the job's units: no millimetre or newton in an inch job, no inch in a metric one, no nanometre at all.

Jobs of both systems are drawn (wall and standing cabinets, with wall, stock and rates), planned, and everything that
speaks is read: the texts of the plan document, the cells of its tables, the text on its papers, and the rule, the
value got and the fix of every refusal. The default run takes a recorded smaller count; `pytest --full` runs 500.
"""

import csv
import io
import re
from collections.abc import Callable, Iterator
from dataclasses import fields
from typing import Any

import pytest
from casewright.api.job.problems import shown
from casewright.api.papers import VIEWS, booklet, draw, labels, workbook
from casewright.api.papers.drawing.shapes import Dimension, Text
from casewright.api.use.planning import Planner, make
from casewright.api.wire.tables import checks_csv, hardware_csv, parts_csv, steps_csv
from casewright.sdk.errors import ProblemsError
from casewright.sdk.loader import Registry, load
from casewright.sdk.model import Plan
from casewright.sdk.testing.drawing import over
from casewright.sdk.testing.forms import standing_jobs
from casewright.sdk.testing.strategies import jobs
from hypothesis import strategies as st
from openpyxl import load_workbook
from pypdf import PdfReader

PLANS, PLANS_FULL = 40, 500
PAPERS, PAPERS_FULL = 6, 40
REFUSALS, REFUSALS_FULL = 150, 2000

METRIC = re.compile(
    r"\d\s?(?:[mck]?m[23²³]?|mm2/m|k?N|N/mm2?|N·mm?|Nmm?|kg(?:/m3)?|g|[MGk]?Pa)(?!\w)"
    r"|(?<!\w)(?:mm[23²³]?|cm[23²³]|N·mm?|kN|MPa|millimet\w*|newtons?|kilograms?)(?!\w)"
)
INCHES = re.compile(
    r"\d\s?(?:lbf?|lbf·in|sq ft|ft|psi|oz|inch(?:es)?)(?!\w)"
    r"|\d in(?=\s*(?:[,.;:)×\]]|$))"  # `in` ends a size here; before another word it may be the preposition
    r"|(?<!\w)(?:inch(?:es)?|pounds?|lbf)(?!\w)"
)
NANOMETRES = re.compile(r"(?<!\w)nm(?!\w)|nanomet|(?<![\w.,])\d{6,}(?![\w])")
"""A size of a cabinet in nanometres has six digits and more (0.1 mm is 100000 nm); no other whole number here has."""

BY_NAME = re.compile(
    r"brad 18 ga × [\d /]+ in"  # sold by this size, as the screws of the catalogue are
    r'|name a unit: "600 mm"'  # says that a job in inches may hold lengths in mm as well
    r'|Write "1/64" or another power of two in inches; 1, 0\.5, 0\.1 or 0\.01 in mm\.'  # the tapes of both systems
    r"|^a number from 0 to (?:100000|1000000000)$"  # the bound of a count or of money
    r"|\b\d+(?:\.5)? mm bit\b|⌀ \d+(?:\.5)? mm|Cutters and bits[^:]*: [^A-Z]*"  # bits, by the size they are sold in
    r"|\b\d+(?:\.5)? mm across(?=, )"  # holes of a part's features, made with such bits
    r"|plate \d+ mm high for"  # hinge plates, likewise
    r"|\d\.\d{3} g\b"  # the letter of a row of holes after a place of it; masses in g have no decimals
    r"|\d places 32 mm apart"  # the step of the jigs that rows of holes are bored with
)
"""What may name a unit of the other system, each for the reason beside it."""

UNSPOKEN = frozenset({
    "origins",  # JSON Pointers and the names of house styles
    "made_by", "fingerprint",
    "unit",  # names the unit of the number beside it, for programs; tables and papers are held to the job's
    "amount", "rate", "materials", "work", "total", "hours",  # of costs: money and hours as decimal text
    "source",  # a code; titles of sources keep the units their authors wrote
})  # fmt: skip
"""Keys of the plan document whose texts are for programs."""


def foreign(units: str, text: str, products: "re.Pattern[str]") -> str | None:
    """Return the first quantity of a text that is in a unit of the other system or in nanometres, and what is by it."""
    bare = BY_NAME.sub("…", products.sub("…", text))
    for pattern in (METRIC if units == "in" else INCHES, NANOMETRES):
        hit = pattern.search(bare)
        if hit:
            return bare[max(0, hit.start() - 60) : hit.end() + 20]
    return None


def products_of(registry: Registry) -> "re.Pattern[str]":
    """Return what matches the names of catalogue entries: they are names, in the units they are sold by."""
    catalogue = registry.catalogue
    titles = {entry.title for field in fields(catalogue) for entry in getattr(catalogue, field.name)}
    return re.compile("|".join(map(re.escape, sorted(titles, key=len, reverse=True))))


Texts = Iterator[tuple[str, str]]
"""Pairs of where a text stands and the text."""


def texts(value: Any, where: str = "") -> Texts:
    """Yield every text of a JSON value that speaks to people, with its path."""
    if isinstance(value, dict):
        for key, inner in value.items():
            if key not in UNSPOKEN:
                yield from texts(inner, f"{where}.{key}")
    elif isinstance(value, (list, tuple)):
        for inner in value:
            yield from texts(inner, where)
    elif isinstance(value, str):
        yield where, value


def cells(document: dict[str, Any]) -> Texts:
    """Yield every cell of the tables of a plan document; a check's figures stand with their unit."""
    for name, table in (("parts", parts_csv), ("hardware", hardware_csv), ("steps", steps_csv)):
        for row in csv.DictReader(io.StringIO(table(document).decode(), newline="")):
            yield from ((f"{name}.csv {column}", cell) for column, cell in row.items())
    for row in csv.DictReader(io.StringIO(checks_csv(document).decode(), newline="")):
        yield "checks.csv message", row["message"]
        yield "checks.csv value", f"{row['value']} {row['unit']}"


def sheets(plan: Plan) -> Texts:
    """Yield every text on the drawings of a plan."""
    for view in VIEWS:
        for sheet in draw(plan, view):
            for shape in (shape for drawn in sheet.views for shape in drawn.shapes):
                if isinstance(shape, (Text, Dimension)):
                    yield f"drawing {view}", shape.text


def pages(plan: Plan) -> Texts:
    """Yield every page of booklet and labels as a reader of PDF extracts them, and every cell of the workbook."""
    for name, content in (("booklet", booklet(plan, "")), ("labels", labels(plan))):
        yield from ((name, " ".join(page.extract_text().split())) for page in PdfReader(io.BytesIO(content)).pages)
    for sheet in load_workbook(io.BytesIO(workbook(plan))):
        for row in sheet.iter_rows(values_only=True):
            yield from ((f"workbook {sheet.title}", str(cell)) for cell in row if cell is not None)


NO_LENGTHS = frozenset({"count", "share", "loose_shelves", "copies", "contents_kg", "cost", "hour", "effort"})
"""Keys of drawn jobs whose numbers are no lengths; `fixed_shelves` counts where it is a whole number."""


def in_inches(value: Any, key: str = "") -> Any:
    """Return a job drawn in mm as a job in inches: its lengths say their own unit."""
    if isinstance(value, dict):
        return {k: "in" if k == "units" else in_inches(inner, k) for k, inner in value.items()}
    if isinstance(value, list):
        return [in_inches(inner, "listed" if key == "fixed_shelves" else key) for inner in value]
    counts = key in NO_LENGTHS or key == "fixed_shelves"
    return f"{value} mm" if isinstance(value, (int, float)) and not isinstance(value, bool) and not counts else value


@st.composite
def whole_jobs(draw: st.DrawFn) -> dict[str, Any]:
    """Draw a job of either system with one or two cabinets, and mostly with wall, stock and rates."""
    job = draw(st.one_of(jobs(cabinets=2), standing_jobs()))
    if job["units"] == "mm" and draw(st.booleans()):
        job = in_inches(job)
    if draw(st.integers(0, 3)):
        studs = {"at": [f"{x} mm" for x in range(100, 4000, draw(st.sampled_from([400, 406, 610])))]}
        behind = draw(st.sampled_from([{"studs": studs, "lining": "12.7 mm"}, {"masonry": {}}, {}]))
        ceiling = f"{draw(st.integers(2000, 2600))} mm"
        places = {
            c["id"]: [{"x": f"{900 * i} mm", "z": "0 mm" if "form" in c else f"{draw(st.integers(900, 1500))} mm"}]
            for i, c in enumerate(job["cabinets"])
        }
        for cabinet in job["cabinets"]:
            cabinet["count"] = 1
            if cabinet.get("mounting") and draw(st.booleans()):
                cabinet["mounting"]["contents_kg"] = draw(st.integers(5, 120))
        job["wall"] = {**behind, "ceiling": ceiling, "length": "4000 mm", "corners": "both", "cabinets_at": places}
    if draw(st.booleans()):
        sheet = {"id": "full", "length": "2440 mm", "width": "1220 mm", "cost": 61.5}
        job["stock"] = {"sheets": [{**sheet, "id": m, "material": m} for m in ("case", "thin")], "effort": 1}
    if draw(st.booleans()):
        job["rates"] = {"currency": "EUR", "hour": 30, "minutes": {"joint": 2}}
    return job


def leaves(value: Any) -> Iterator[Any]:
    """Yield every value of a job that is no object and no array, and every key."""
    if isinstance(value, dict):
        yield from value
        for inner in value.values():
            yield from leaves(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from leaves(inner)
    else:
        yield value


def numbers(value: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """Yield the path of every number in a job, and of every length that says its unit."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from numbers(inner, (*path, key))
    elif isinstance(value, list):
        for i, inner in enumerate(value):
            yield from numbers(inner, (*path, i))
    elif isinstance(value, (int, float)) or (isinstance(value, str) and value.endswith(" mm")):
        yield path


@st.composite
def spoilt_jobs(draw: st.DrawFn) -> dict[str, Any]:
    """Draw a job of which one number is far too small, too large, or of the wrong kind."""
    job = draw(whole_jobs())
    *steps, last = draw(st.sampled_from(list(numbers(job))))
    at: Any = job
    for step in steps:
        at = at[step]
    factor = draw(st.sampled_from([-1, 0, 0.01, 0.2, 3, 30, 1e4]))
    whole = at[last]
    at[last] = f"{float(whole.removesuffix(' mm')) * factor:g} mm" if isinstance(whole, str) else whole * factor
    return job


@pytest.fixture(scope="module")
def registry() -> Registry:
    return load(discover="built-in")


@pytest.fixture(scope="module")
def check(registry: Registry) -> Callable[[str, Texts], None]:
    """Return a function that fails with every text that speaks in foreign units."""
    products = products_of(registry)

    def look(units: str, words: Texts) -> None:
        hits = {f"{where}: {hit}" for where, text in words if (hit := foreign(units, text, products))}
        assert not hits, f"in a job in {units}:\n" + "\n".join(sorted(hits))

    return look


def refusal(error: ProblemsError, job: dict[str, Any]) -> Texts:
    """Yield what a refusal says; a value of the job shown as it was sent is the sender's own words."""
    as_sent = {shown(value) for value in leaves(job)}
    for problem in error.problems:
        yield "rule", problem.rule
        yield "fix", problem.fix
        if problem.got not in as_sent:
            yield "got", problem.got


def test_what_the_reader_of_words_takes_for_a_foreign_unit(registry: Registry) -> None:
    products = products_of(registry)
    for units, text in [
        ("in", "sags 7.3 mm after years"),
        ("in", "hold it down with 37 N."),
        ("in", "glue on 884 cm², about 15 g"),
        ("mm", "9.10 mm (0.358 in) thick"),
        ("mm", "1.5 lb each"),
        ("mm", "a width of 18000000"),
        ("in", "stands 12000 nm off"),
    ]:
        assert foreign(units, text, products) is not None, text
    for units, text in [
        ("in", "dowel 8 × 35 mm holes, shelf 4 to divider 1"),
        ("mm", "wood screw No. 8 × 1 1/4 in, drawer front from inside"),
        ("in", "a cleat 3 1/2 in high, No. 10 screws"),
        ("mm", "put 4 in each corner"),
        ("mm", "719.5 mm, 1234 hours"),
    ]:
        assert foreign(units, text, products) is None, text


def test_plans_and_tables_speak_in_the_units_of_their_job(registry, check, full) -> None:
    systems = set()

    def one(job: dict[str, Any]) -> None:
        try:
            plan = make(job, registry)
        except ProblemsError as error:
            check(job["units"], refusal(error, job))
            return
        systems.add(job["units"])
        document = Planner(registry).write(plan, "")
        check(job["units"], texts(document))
        check(job["units"], cells(document))

    over(PLANS_FULL if full else PLANS, "jobs", one, job=whole_jobs())
    assert systems == {"in", "mm"}


def test_papers_speak_in_the_units_of_their_job(registry, check, full) -> None:
    def one(job: dict[str, Any]) -> None:
        try:
            plan = make(job, registry)
        except ProblemsError:
            return
        check(job["units"], sheets(plan))
        check(job["units"], pages(plan))

    over(PAPERS_FULL if full else PAPERS, "jobs", one, job=whole_jobs())


def test_refusals_speak_in_the_units_of_their_job(registry, check, full) -> None:
    refused = []

    def one(job: dict[str, Any]) -> None:
        try:
            plan = make(job, registry)
        except ProblemsError as error:
            refused.append(error)
            check(job["units"], refusal(error, job))
            return
        check(job["units"], texts(Planner(registry).write(plan, "")))

    count = REFUSALS_FULL if full else REFUSALS
    over(count, "jobs", one, job=spoilt_jobs())
    assert len(refused) > count / 10
