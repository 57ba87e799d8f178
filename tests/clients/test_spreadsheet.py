"""The Calc file and its macros, run in headless LibreOffice against the real service.

The macro for VBA is run too, in LibreOffice's VBA mode, but for its functions that speak HTTP and read a picture: they
need libraries of another system, so Calc's stand in for them.
"""

import csv
import json
import os
import shutil
import signal
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path
from types import ModuleType
from typing import Any

import casewright.openapi
import pytest
from casewright.api.command import demo
from casewright.api.wire import tables
from modules import module_at

HERE = Path(next(iter(casewright.openapi.__path__))).resolve() / "clients" / "spreadsheet"
SYSTEM_PYTHON = "/usr/bin/python3"
BASIC = "vnd.sun.star.script:Standard.Cabinets.SendCabinets?language=Basic&location=document"
PYTHON = "vnd.sun.star.script:cabinets_macro.py$send_cabinets?language=Python&location=user"
PROBLEM = 17
"""Column of problems in Cabinets, from 0: after its seventeen headings."""

Run = Callable[..., list[Any]]


def builder() -> ModuleType:
    return module_at(HERE / "build_cabinets.py")


def test_the_file_is_what_its_texts_make() -> None:
    assert (HERE / "cabinets.fods").read_text("utf-8") == builder().document(), "run: python build_cabinets.py"


def test_each_column_of_an_answer_has_its_width() -> None:
    widths = builder().ANSWERS
    for sheet, columns in (
        ("Parts", tables.PART_COLUMNS),
        ("Hardware", tables.HARDWARE_COLUMNS),
        ("Steps", tables.STEP_COLUMNS),
        ("Costs", tables.COST_COLUMNS),
        ("Hanging", tables.MOUNTING_COLUMNS),
        ("Checks", tables.CHECK_COLUMNS),
    ):
        assert len(widths[sheet]) == len(columns), sheet
    shown = [name for at, name in enumerate(tables.STEP_COLUMNS) if at not in builder().HIDDEN["Steps"]]
    assert shown == [
        "number", "stage", "machine", "do", "check", "cautions", "needs", "minutes", "start", "finish", "done"
    ]  # fmt: skip


@pytest.mark.parametrize("sheet", ["Parts", "Hardware", "Steps", "Costs", "Hanging", "Checks"])
def test_a_sheet_as_wide_as_the_paper_is_read(sheet: str) -> None:
    """Cells of 10 points, made smaller to come onto a page with margins of 20 mm: 7.5 at least, as the workbook's."""
    wide = sum(w for at, w in enumerate(builder().ANSWERS[sheet]) if at not in builder().HIDDEN.get(sheet, ()))
    for long in (297, 11 * 25.4):
        assert 10 * (long - 40) / wide >= 7.5


def test_cautions_have_room() -> None:
    widths, long = builder().ANSWERS, tables.STEP_COLUMNS.index("cautions")
    assert widths["Steps"][long] > 30  # a column narrower would make each row of a step as high as a page


def test_the_file_names_no_font_colour_or_other_host() -> None:
    text = (HERE / "cabinets.fods").read_text("utf-8")
    body = text[text.index("<office:automatic-styles>") :]
    assert "color" not in body
    assert [line for line in body.split('"') if line.startswith("http")] == []


@pytest.fixture(scope="module")
def calc(tmp_path_factory: pytest.TempPathFactory, needed: Callable[..., None]) -> Iterator[Run]:
    """Return a function that opens a file in a LibreOffice of its own and does steps on it."""
    needed("soffice", "curl")
    has_uno = subprocess.run([SYSTEM_PYTHON, "-c", "import uno"], capture_output=True, check=False)
    if has_uno.returncode:
        if os.environ.get("CI"):
            pytest.fail("python3-uno is not installed; CI installs it")
        pytest.skip("python3-uno is not installed")
    home = tmp_path_factory.mktemp("calc")
    scripts = home / "profile" / "user" / "Scripts" / "python"
    scripts.mkdir(parents=True)
    shutil.copy(HERE / "cabinets_macro.py", scripts)
    port = demo.free_port()
    clean = {"PATH": "/usr/bin:/bin", "HOME": str(home)}
    command = [
        "soffice", "--headless", "--norestore", "--nologo", "--nodefault",
        f"--accept=socket,host=127.0.0.1,port={port};urp;", f"-env:UserInstallation={(home / 'profile').as_uri()}",
    ]  # fmt: skip
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    office = subprocess.Popen(command, env=clean, start_new_session=True, **quiet)  # type: ignore[call-overload]
    number = iter(range(1000))

    def run(*steps: list[Any], text: str | None = None) -> list[Any]:
        path = home / f"cabinets-{next(number)}.fods"
        path.write_text(text if text is not None else (HERE / "cabinets.fods").read_text("utf-8"), "utf-8")
        driver = [SYSTEM_PYTHON, str(Path(__file__).with_name("drive_calc.py")), str(port), str(path)]
        ran = subprocess.run(
            driver, input=json.dumps(steps), env=clean, capture_output=True, text=True, timeout=150, check=False
        )
        assert ran.returncode == 0, ran.stderr
        gave: list[Any] = json.loads(ran.stdout)
        return gave

    try:
        yield run
    finally:
        os.killpg(office.pid, signal.SIGTERM)
        office.wait(timeout=20)


def table(sheet: list[list[Any]]) -> list[dict[str, Any]]:
    """Return the rows of an answer: under its headings, above which stands a warning or nothing."""
    _, headings, *rows = sheet
    return [dict(zip(headings, row, strict=True)) for row in rows]


def job_row(path: str) -> int:
    """Return where a path stands in the sheet of the job."""
    with (HERE / "job.csv").open(newline="", encoding="utf-8") as file:
        return [row[0] for row in csv.reader(file)].index(path)


def test_the_button_runs_the_macro(calc: Run) -> None:
    ((label, _, event, script),) = calc(["button"])
    assert (label, event, script) == ("Send the cabinets", "actionPerformed", BASIC)


@pytest.mark.parametrize("macro", [BASIC, PYTHON], ids=["Basic", "Python"])
def test_right_sizes_in_cells(calc: Run, base: str, macro: str) -> None:
    gave = calc(
        ["put", "Cabinets", 0, 1, base],
        ["put", "Job", job_row("house.mounting.per_stud"), 1, "4"],  # of which the strip has room for three
        ["language", "de", "DE"],  # where a decimal has a comma
        ["put", "Cabinets", 5, 3, "28,0"],
        ["put", "Cabinets", 5, 5, "11,000 in"],
        ["run", macro],
        *(["dump", name] for name in ("Cabinets", "Parts", "Hardware", "Steps", "Checks")),
        *(["coloured", name] for name in ("Cabinets", "Parts", "Checks")),
        ["dump", "Costs"],
        ["dump", "Hanging"],
        ["dump", "Drawings"],
        ["pictures", "Drawings"],
        *(["printing", name] for name in ("Parts", "Drawings")),
        ["page_starts", "Drawings"],
    )
    cabinets, parts, hardware, steps, checks = gave[6:11]
    looked_at(gave[14:])
    assert cabinets[1][1].startswith("Done: ")
    assert [row[PROBLEM] for row in cabinets[4:]] == ["problem", "", ""]
    sizes = {row["id"]: row for row in table(parts)}
    # A side is as high as its cabinet. A rail with loose tenons runs between the stiles: 28 - 2 × 1 3/4 = 24 1/2.
    assert (sizes["tools/side-left"]["length"], sizes["tools/side-left"]["quantity"]) == (33, 2)
    assert (sizes["tools/frame-rail-top"]["length"], sizes["tools/frame-rail-top"]["length_text"]) == (
        24.5,
        "24 1/2 in",
    )
    # The case stands behind a frame 3/4 in thick: 11 - 3/4 = 10 1/4.
    assert sizes["spares/side-left"]["width"] == 10.25
    hinges = {row["cabinet"]: 0 for row in table(hardware)}
    for row in table(hardware):
        hinges[row["cabinet"]] += row["quantity"] if row["item"] == "cup-35" else 0
    assert hinges["tools"] == 2 * hinges["spares"]  # a pair of doors each, and two of the one are made
    assert [row["number"] for row in table(steps)] == sorted(row["number"] for row in table(steps))
    assert {row["level"] for row in table(checks)} <= {"stop", "caution", "note"}
    assert gave[11:14] == [0, 0, 0]
    stops = sum(row["level"] == "stop" for row in table(checks))
    assert stops > 0
    assert f"DO NOT CUT: checks that say stop: {stops}." in cabinets[1][1]
    assert cabinets[1][1].startswith(f"Done: {len(table(parts))} lines of parts. ")
    for sheet in (parts, hardware, steps, *gave[14:16]):
        assert sheet[0][0].startswith(f"STOP: {stops} reason")
        assert not any(sheet[0][1:])
        assert not any("STOP" in str(cell) for row in sheet[1:] for cell in row)


def looked_at(gave: list[Any]) -> None:
    """Check the sheets of costs, hanging and drawings, and how they are printed."""
    costs, hanging, drawings, pictures, parts_printed, drawings_printed, starts = gave
    assert {"stock", "hardware", "total"} <= {row["kind"] for row in table(costs)}
    hung = table(hanging)
    assert {row["cabinet"] for row in hung} == {"tools", "spares"}
    assert all(54 < row["height"] < 90 for row in hung)  # between the bottoms and the tops of the cabinets, in inches
    names = [row[0] for row in drawings if row[0]]
    assert names[0] == "wall 1"
    assert {name.split()[0] for name in names} == {"wall", "elevation", "section"}
    assert len(pictures) == len(names)
    lower = 0
    for left, upper, width, height in pictures:  # below each other, each as large as its sheet: letter, lying
        assert (left, upper >= lower) == (0, True)
        assert (width / 100, height / 100) == pytest.approx((279.4, 215.9), abs=0.5)
        lower = upper + height
    assert parts_printed == [True, True, 1, 0, 2]
    assert drawings_printed == [True, True, 1, 0, 0]
    assert starts == len(pictures) - 1  # a page each


@pytest.mark.parametrize("macro", [BASIC, PYTHON], ids=["Basic", "Python"])
def test_no_warning_without_stops(calc: Run, base: str, macro: str) -> None:
    """The job as it comes; before it another, of which nothing may be left."""
    gave = calc(
        ["put", "Cabinets", 0, 1, base],
        ["put", "Job", job_row("house.mounting.per_stud"), 1, "4"],
        ["run", macro],
        ["put", "Job", job_row("house.mounting.per_stud"), 1, "2"],
        ["run", macro],
        *(["dump", name] for name in ("Cabinets", "Parts", "Hardware", "Steps", "Checks")),
        ["pictures", "Drawings"],
    )
    cabinets, *answers, pictures = gave[5:]
    assert len(pictures) == len({upper for _, upper, _, _ in pictures}) > 3  # those of the first run are taken away
    assert "No check says stop" in cabinets[1][1]
    assert [any(sheet[0]) for sheet in answers] == [False] * 4
    assert "stop" not in {row["level"] for row in table(answers[-1])}
    assert table(answers[0])[0]["cabinet"] == "tools"


@pytest.mark.parametrize("macro", [BASIC, PYTHON], ids=["Basic", "Python"])
def test_problems_stand_beside_what_is_wrong(calc: Run, base: str, macro: str) -> None:
    gave = calc(
        ["put", "Cabinets", 0, 1, base],
        ["run", macro],
        ["put", "Cabinets", 6, 3, "wide"],
        ["put", "Job", 6, 1, "0.7x"],
        ["run", macro],
        *(["dump", name] for name in ("Cabinets", "Job", "Parts")),
        ["remarks", "Cabinets"],
        ["put", "Cabinets", 6, 3, "36"],
        ["put", "Job", 6, 1, "0.709"],
        ["put", "Job", 2, 1, ""],
        ["run", macro],
        *(["dump", name] for name in ("Cabinets", "Job")),
        ["remarks", "Cabinets"],
    )
    cabinets, job, parts, remarks = gave[5:9]
    assert cabinets[1][1].startswith("2 things are wrong")
    assert [row[PROBLEM] for row in cabinets[4:6]] == ["problem", ""]
    assert cabinets[6][PROBLEM].startswith('width needs a length; got "wide".')
    assert "23 5/8" in cabinets[6][PROBLEM]  # what would do
    assert [(row, column) for row, column, _ in remarks] == [(6, 3)]
    assert job[6][2].startswith('materials.case.thickness needs a length; got "0.7x".')
    assert parts == [[""]]  # nothing old is left to be cut from
    cabinets, job, remarks = gave[-3:]
    assert [row[PROBLEM] for row in cabinets[5:]] == ["", ""]
    assert job[2][2].endswith('units is needed. Add "units", one of: in, mm.')
    assert remarks == []


@pytest.mark.parametrize("macro", [BASIC, PYTHON], ids=["Basic", "Python"])
def test_no_geometry_names_its_row_and_silence_is_told(calc: Run, base: str, macro: str) -> None:
    gave = calc(
        ["put", "Cabinets", 0, 1, base],
        ["put", "Cabinets", 6, 3, "3"],  # two stiles of 1 3/4 in leave no opening in a frame 3 in wide
        ["run", macro],
        ["dump", "Cabinets"],
        ["put", "Cabinets", 0, 1, f"http://127.0.0.1:{demo.free_port()}"],
        ["run", macro],
        ["dump", "Cabinets"],
    )
    assert "stile" in gave[3][6][PROBLEM]
    assert gave[3][5][PROBLEM] == ""
    assert gave[6][1][1].startswith("No answer from http://127.0.0.1:")


def test_one_number_by_formula_alone(calc: Run, base: str) -> None:
    query = f"{base}/v1/value?field=length&part=side-left&width=600&depth=300&thickness=18&height="
    gave = calc(
        ["number", "Checks", 0, 0, 720],
        ["formula", "Checks", 0, 1, f'=VALUE(WEBSERVICE("{query}"&A1))'],
        ["formula", "Checks", 0, 2, f'=VALUE(FILTERXML(WEBSERVICE("{query}"&A1&"&as=xml");"//value"))'],
        ["formula", "Checks", 0, 3, f'=VALUE(WEBSERVICE("{query}high"))'],
        ["formula", "Checks", 0, 4, f'=NUMBERVALUE(WEBSERVICE("{query}"&A1&".5");".")'],
    )
    assert [one[0] for one in gave[1:3]] == [720, 720]
    assert gave[3][1] == "#VALUE!"
    assert gave[4][0] == 720.5


def test_the_macro_for_vba(calc: Run, base: str) -> None:
    build = builder()
    host, vba, body = ((HERE / name).read_text("utf-8") for name in ("host_calc.bas", "host_vba.bas", "cabinets.bas"))
    start, drawing, printing = "' Post CSV;", "' Put an SVG picture", "' Print a sheet"
    modules = {
        "Cabinets": "Option VBASupport 1\n" + body,
        "Host": "Option VBASupport 1\n" + vba[: vba.index(start)],
        "Sending": "Option Explicit\n"
        + "".join(
            host[host.index(first) : host.index(after) if after else None]
            for first, after in (("Private Function CellAt", "' The text"), (drawing, printing), (start, ""))
        ),
    }
    text: str = build.document()
    first, after = text.index("    <ooo:module"), text.index("  </ooo:library-embedded>")
    written = "".join(
        f'<ooo:module ooo:name="{name}"><ooo:source-code>{build.escape(source)}</ooo:source-code></ooo:module>'
        for name, source in modules.items()
    )
    gave = calc(
        ["put", "Cabinets", 0, 1, base],
        ["put", "Job", job_row("house.mounting.per_stud"), 1, "4"],
        ["run", BASIC],
        ["dump", "Parts"],
        ["put", "Cabinets", 6, 3, "wide"],
        ["run", BASIC],
        ["dump", "Cabinets"],
        ["remarks", "Cabinets"],
        ["put", "Cabinets", 6, 3, "36"],
        ["run", BASIC],
        ["pictures", "Drawings"],
        ["printing", "Parts"],
        text=text[:first] + written + text[after:],
    )
    assert len(gave[10]) > 3
    assert gave[11][:4] == [True, True, 1, 0]  # rows on every page: Calc passes them over in VBA mode
    assert gave[3][0][0].startswith("STOP: ")
    sizes = {row["id"]: row for row in table(gave[3])}
    assert sizes["tools/side-left"]["length"] == 33
    assert gave[6][6][PROBLEM].startswith('width needs a length; got "wide".')
    assert [(row, column) for row, column, _ in gave[7]] == [(6, 3)]


def test_the_texts_say_the_same_cabinets_as_the_example() -> None:
    with (HERE / "cabinets.csv").open(newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    example = json.loads((HERE.parents[1] / "examples" / "repair-bay.json").read_text("utf-8"))
    outside = [(c["id"], c["width"], c["height"]) for c in example["cabinets"]]
    assert [(row["id"], int(row["width"]), int(row["height"])) for row in rows] == outside
