"""The macro SendCabinets in Python, for LibreOffice Calc: put this file in the user's Scripts/python folder.

It reads and fills the same sheets as the macro in `cabinets.bas` (see there for their layout), with nothing but
Python's standard library. Run it from Tools, Macros, or give the button the macro `send_cabinets`.
"""

import csv
import io
import json
import os
import re
import tempfile
import urllib.error
import urllib.request
from pathlib import Path

from com.sun.star.awt import Point
from com.sun.star.beans import PropertyValue
from com.sun.star.table import CellRangeAddress
from com.sun.star.table.CellVertJustify2 import TOP

HEADINGS, JOB_FIRST, ANSWER_HEADINGS = 4, 1, 1  # rows counted from 0
ANSWERS = {
    "Steps": "steps",  # takes the whole plan, which the service keeps for the others
    "Parts": "parts",
    "Hardware": "hardware",
    "Costs": "costs",
    "Hanging": "mounting",
    "Checks": "checks",
}
PICTURES, DRAWN, MOST_PICTURES = "Drawings", ("wall", "elevation", "section"), 12
MOST_WRAPPED = 1500  # rows: longer sheets keep a line a row, as heights of all take minutes; on paper read the workbook
PICTURE = "com.sun.star.drawing.GraphicObjectShape"
TYPED = re.compile(r"-?[0-9]+,[0-9]+\s*[^0-9.,\s]{0,2}")
EVERYTHING = 1 + 2 + 4 + 8 + 16  # com.sun.star.sheet.CellFlags: numbers, dates, text, remarks, formulas


def send_cabinets(*_):
    """Send the cabinet rows and fill the answer sheets; called by the button or by hand."""
    fill(XSCRIPTCONTEXT.getDocument())  # noqa: F821  given to every macro by LibreOffice


def fill(document):
    """Do the work on a document."""
    sheets = document.Sheets
    cabinets, job = sheets.getByName("Cabinets"), sheets.getByName("Job")
    headings = _headings(cabinets)
    _empty_answers(sheets)
    _empty_problems(cabinets, job, headings)
    table = _table(document, headings)
    address = _text(cabinets, 0, 1).rstrip("/")
    for name, view in ANSWERS.items():
        try:
            answer = _post(f"{address}/v1/{view}?as=csv", table)
        except urllib.error.HTTPError as error:
            _empty_answers(sheets)
            _refused(cabinets, job, headings, error.code, error.read().decode("utf-8", "replace"))
            return
        except (OSError, ValueError) as error:
            _empty_answers(sheets)
            _say(cabinets, f"No answer from {address}; is the service running? {error}")
            return
        _fill_sheet(sheets.getByName(name), answer)
        _print(document, sheets.getByName(name), ANSWER_HEADINGS)
    _draw(document, address, table)
    checks = sheets.getByName("Checks")
    levels = [_text(checks, row, 0) for row in range(ANSWER_HEADINGS + 1, _last(checks) + 1)]
    stops, cautions = levels.count("stop"), levels.count("caution")
    verdict = f"No check says stop; cautions to read in Checks: {cautions}."
    if stops:
        verdict = f"DO NOT CUT: checks that say stop: {stops}. See Checks."
    _say(cabinets, f"Done: {_last(sheets.getByName('Parts')) - ANSWER_HEADINGS} lines of parts. {verdict}")


def _post(url, table):
    request = urllib.request.Request(url, data=table, headers={"Content-Type": "text/csv; charset=utf-8"})
    with urllib.request.urlopen(request, timeout=60) as answer:
        return answer.read().decode("utf-8")


def _draw(document, address, table):
    """Put every sheet of some drawings below each other, each under its name, but for those the job has none of."""
    sheet, row, count = document.Sheets.getByName(PICTURES), 0, 0
    for view in DRAWN:
        page = 1
        while count < MOST_PICTURES:
            try:
                svg = _post(f"{address}/v1/drawings/{view}?as=svg&page={page}", table)
            except (OSError, ValueError):
                break
            _put(sheet, row, 0, f"{view} {page}")
            row, page, count = _picture(document, sheet, row + 1, svg) + 1, page + 1, count + 1
    if count == MOST_PICTURES:
        _put(sheet, row, 0, "The booklet has every drawing.")
    _print(document, sheet, -1)


def _picture(document, sheet, row, svg):
    """Put a picture on a sheet, its upper edge that of a row; return the first row under it.

    Its name stands in the row above, where a page begins.
    """
    handle, name = tempfile.mkstemp(suffix=".svg")
    with os.fdopen(handle, "w", encoding="utf-8") as file:
        file.write(svg)
    shape = document.createInstance(PICTURE)
    sheet.DrawPage.add(shape)
    context = XSCRIPTCONTEXT.getComponentContext()  # noqa: F821  given to every macro by LibreOffice
    provider = context.ServiceManager.createInstanceWithContext("com.sun.star.graphic.GraphicProvider", context)
    shape.Graphic = provider.queryGraphic((PropertyValue(Name="URL", Value=Path(name).as_uri()),))
    os.unlink(name)
    size = shape.Graphic.Size100thMM
    top = sheet.getCellByPosition(0, row).Position.Y
    shape.Position, shape.Size = Point(0, top), size
    sheet.Rows.getByIndex(row - 1).IsStartOfNewPage = row > 1
    while top + size.Height > sheet.getCellByPosition(0, row).Position.Y:
        row += 1
    return row


def _print(document, sheet, headings):
    """Print a sheet in landscape, as wide as the paper, its rows to `headings` on every page; -1: a picture a page."""
    if headings < 0:
        _own_pages(document, sheet)
    style = document.StyleFamilies.getByName("PageStyles").getByName(sheet.PageStyle)
    if not style.IsLandscape:
        size = (style.Width, style.Height)
        style.IsLandscape = True
        style.Height, style.Width = size
    style.ScaleToPagesX, style.ScaleToPagesY = 1, 0
    if headings >= 0:
        style.PrintGrid = True  # text that fills its column ends where the next begins
        used = sheet.createCursor()
        used.gotoEndOfUsedArea(True)
        if used.Rows.Count <= MOST_WRAPPED:
            used.IsTextWrapped = True
            used.VertJustify = TOP
            sheet.getCellByPosition(0, 0).IsTextWrapped = False  # the warning, which goes on over the cells beside it
            used.Rows.OptimalHeight = True
        sheet.setTitleRows(CellRangeAddress(0, 0, 0, 0, headings))
        sheet.setPrintTitleRows(True)


def _own_pages(document, sheet):
    """Give a sheet of pictures pages of their size, with room for the row of a name and for printers' edges."""
    styles = document.StyleFamilies.getByName("PageStyles")
    if not styles.hasByName(sheet.Name):
        styles.insertByName(sheet.Name, document.createInstance("com.sun.star.style.PageStyle"))
    sheet.PageStyle = sheet.Name
    style = styles.getByName(sheet.Name)
    style.HeaderIsOn = style.FooterIsOn = False
    style.LeftMargin = style.RightMargin = 2000
    style.TopMargin = style.BottomMargin = 1000
    for i in range(sheet.DrawPage.Count):
        shape = sheet.DrawPage.getByIndex(i)
        if shape.ShapeType == PICTURE:
            style.IsLandscape = True
            style.Width, style.Height = shape.Size.Width, shape.Size.Height


def _text(sheet, row, column):
    cell = sheet.getCellByPosition(column, row)
    if cell.Type.value == "VALUE":
        return format(cell.Value, ".15g")
    return cell.String.strip()


def _given(document, sheet, row, column):
    """Return the text of a cell; a number typed as text has a point, in a language with a decimal comma too."""
    text = _text(sheet, row, column)
    locale = XSCRIPTCONTEXT.getComponentContext().ServiceManager.createInstance("com.sun.star.i18n.LocaleData2")  # noqa: F821
    comma = locale.getLocaleItem(document.CharLocale).decimalSeparator == ","
    return text.replace(",", ".") if comma and TYPED.fullmatch(text) else text


def _put(sheet, row, column, text):
    sheet.getCellByPosition(column, row).String = text


def _say(cabinets, words):
    _put(cabinets, 1, 1, words)


def _last(sheet):
    cursor = sheet.createCursor()
    cursor.gotoEndOfUsedArea(False)
    return cursor.RangeAddress.EndRow


def _headings(cabinets):
    """Return the headings before `problem`; its column is as many."""
    rows = []
    while (word := _text(cabinets, HEADINGS, len(rows))) not in ("", "problem"):
        rows.append(word)
    return rows


def _remark(sheet, row, column, text):
    remarks = sheet.getAnnotations()
    for i in reversed(range(remarks.Count)):
        place = remarks.getByIndex(i).Position
        if (place.Row, place.Column) == (row, column):
            remarks.removeByIndex(i)
    if text:
        remarks.insertNew(sheet.getCellByPosition(column, row).CellAddress, text)


def _empty_answers(sheets):
    for name in (*ANSWERS, PICTURES):
        sheet = sheets.getByName(name)
        sheet.clearContents(EVERYTHING)
        sheet.removeAllManualPageBreaks()
        for i in reversed(range(sheet.DrawPage.Count)):
            shape = sheet.DrawPage.getByIndex(i)
            if shape.ShapeType == PICTURE:
                sheet.DrawPage.remove(shape)


def _empty_problems(cabinets, job, headings):
    remarks = cabinets.getAnnotations()
    for i in reversed(range(remarks.Count)):
        remarks.removeByIndex(i)
    for row in range(HEADINGS + 1, _last(cabinets) + 1):
        _put(cabinets, row, len(headings), "")
    for row in range(JOB_FIRST, _last(job) + 1):
        _put(job, row, 2, "")


def _table(document, headings):
    """Return the job as CSV: the cabinet rows, and the job's values as columns of the first of them."""
    cabinets, job = document.Sheets.getByName("Cabinets"), document.Sheets.getByName("Job")
    given = [(_text(job, row, 0), _given(document, job, row, 1)) for row in range(JOB_FIRST, _last(job) + 1)]
    given = [(path, value) for path, value in given if path and value]
    rows = [[*headings, *(f"job.{path}" for path, _ in given)]]
    values = [value for _, value in given]
    for row in range(HEADINGS + 1, _last(cabinets) + 1):
        cells = [_given(document, cabinets, row, column) for column in range(len(headings))]
        if any(cells):
            cells, values = [*cells, *values], []
        rows.append(cells)
    out = io.StringIO(newline="")
    csv.writer(out).writerows(rows)
    return out.getvalue().encode("utf-8")


def _fill_sheet(sheet, text):
    """Fill a sheet; a row under the headings with its first cell alone is a warning, and goes above them."""
    headings, *rows = csv.reader(io.StringIO(text, newline=""))
    warning = rows.pop(0) if rows and rows[0][0] and not any(rows[0][1:]) else []
    rows = [warning, headings, *rows]
    width = max(map(len, rows))
    data = [tuple(_value(cell) for cell in [*row, *[""] * (width - len(row))]) for row in rows]
    sheet.getCellRangeByPosition(0, 0, width - 1, len(data) - 1).setDataArray(tuple(data))


def _value(cell):
    """Return a number where the cell is one; an apostrophe that shields text from being a formula is taken off."""
    digits = cell.removeprefix("-").replace(".", "", 1)
    if digits.isascii() and digits.isdigit() and len(cell) <= 25:
        return float(cell)
    return cell[1:] if cell[:1] == "'" and cell[1:2] in "=+-@" else cell


def _refused(cabinets, job, headings, status, body):
    try:
        problems = json.loads(body)["errors"]
    except (ValueError, KeyError, TypeError):
        problems = []
    if not problems:
        _say(cabinets, f"The service answered {status}: {body[:300]}")
        return
    paths = {f"job.{_text(job, row, 0)}": row for row in range(JOB_FIRST, _last(job) + 1)}
    first = ""
    for one in problems:
        words = f"needs {one['rule']}; got {one['got']}. {one['fix']}"
        if one["rule"] == "needed":
            words = f"is needed. {one['fix']}"
        row, column = one.get("row", 0), one.get("column", "")
        words = f"{one['pointer'] if column in ('', 'job.') else column.removeprefix('job.')} {words}".strip()
        first = first or (f"row {HEADINGS + row}: {words}" if row > 1 and not column.startswith("job.") else words)
        if column.startswith("job."):
            if column not in paths:  # a row for what is missing
                paths[column] = _last(job) + 1
                _put(job, paths[column], 0, column.removeprefix("job."))
            _add(job, paths[column], 2, words)
            continue
        if row and column in headings:
            _remark(cabinets, HEADINGS + row - 1, headings.index(column), words)
        if row > 1:
            _add(cabinets, HEADINGS + row - 1, len(headings), words)
    count = "1 thing is wrong" if len(problems) == 1 else f"{len(problems)} things are wrong"
    _say(cabinets, f"{count}; see the problem columns of Cabinets and Job. First, {first}")


def _add(sheet, row, column, words):
    _put(sheet, row, column, f"{_text(sheet, row, column)} {words}".strip())


g_exportedScripts = (send_cabinets,)  # noqa: N816  the name LibreOffice looks for
