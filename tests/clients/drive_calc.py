"""Drives headless LibreOffice Calc by UNO. Runs under the system's Python, which has the module `uno`.

Arguments: the socket's port and the file to open. Standard input: a JSON list of steps, each a list whose first word
says what to do; standard output: a JSON list of what each step gave.
"""

import json
import os
import sys
import time

import uno
from com.sun.star.beans import PropertyValue
from com.sun.star.connection import NoConnectException

SECONDS_TO_START = 90


def connected(port):
    local = uno.getComponentContext()
    resolver = local.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", local)
    end = time.monotonic() + SECONDS_TO_START
    while True:
        try:
            return resolver.resolve(f"uno:socket,host=127.0.0.1,port={port};urp;StarOffice.ComponentContext")
        except NoConnectException:
            if time.monotonic() > end:
                raise
            time.sleep(0.1)


def value(name, content):
    return PropertyValue(Name=name, Value=content)


class Driver:
    def __init__(self, context, path):
        self.desktop = context.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", context)
        trusted = (value("Hidden", True), value("MacroExecutionMode", 4), value("UpdateDocMode", 3))
        self.document = self.desktop.loadComponentFromURL(uno.systemPathToFileUrl(path), "_blank", 0, trusted)
        self.desktop.setActiveFrame(
            self.document.CurrentController.Frame
        )  # a macro in Python works on the document in front

    def sheet(self, name):
        return self.document.Sheets.getByName(name)

    def put(self, sheet, row, column, text):
        self.sheet(sheet).getCellByPosition(column, row).String = text

    def language(self, language, country):
        locale = self.document.CharLocale
        locale.Language, locale.Country = language, country
        self.document.CharLocale = locale

    def number(self, sheet, row, column, content):
        self.sheet(sheet).getCellByPosition(column, row).Value = content

    def button(self):
        """Return what the one button is bound to: the script it runs when it is pressed."""
        form = self.sheet("Cabinets").DrawPage.Forms.getByIndex(0)
        (event,) = form.getScriptEvents(0)
        return [form.getByIndex(0).Label, event.ListenerType, event.EventMethod, event.ScriptCode]

    def run(self, script):
        provider = self.document.getScriptProvider()
        provider.getScript(script).invoke((), (), ())

    def fill_from_python(self):
        script = "vnd.sun.star.script:cabinets_macro.py$send_cabinets?language=Python&location=user"
        self.run(script)

    def dump(self, sheet):
        cursor = self.sheet(sheet).createCursor()
        cursor.gotoEndOfUsedArea(False)
        end = cursor.RangeAddress
        rows = self.sheet(sheet).getCellRangeByPosition(0, 0, end.EndColumn, end.EndRow).getDataArray()
        return [list(row) for row in rows]

    def remarks(self, sheet):
        notes = self.sheet(sheet).getAnnotations()
        shown_notes = [notes.getByIndex(i) for i in range(notes.Count)]
        return [[one.Position.Row, one.Position.Column, one.String] for one in shown_notes]

    def coloured(self, sheet):
        """Return how many used cells have a background of their own."""
        cursor = self.sheet(sheet).createCursor()
        cursor.gotoEndOfUsedArea(False)
        end = cursor.RangeAddress
        cells = [(x, y) for y in range(end.EndRow + 1) for x in range(end.EndColumn + 1)]
        return sum(self.sheet(sheet).getCellByPosition(x, y).CellBackColor != -1 for x, y in cells)

    def pictures(self, sheet):
        """Return each picture's left and upper edge, width and height, in hundredths of a millimetre."""
        page = self.sheet(sheet).DrawPage
        shapes = [page.getByIndex(i) for i in range(page.Count)]
        kept = [one for one in shapes if one.ShapeType == "com.sun.star.drawing.GraphicObjectShape"]
        return [[one.Position.X, one.Position.Y, one.Size.Width, one.Size.Height] for one in kept]

    def printing(self, sheet):
        """Return how a sheet is printed: landscape, pages wide and tall (0: as many as need be), rows on every page."""
        cells = self.sheet(sheet)
        style = self.document.StyleFamilies.getByName("PageStyles").getByName(cells.PageStyle)
        rows = cells.TitleRows
        titles = rows.EndRow - rows.StartRow + 1 if cells.PrintTitleRows else 0
        return [style.IsLandscape, style.Width > style.Height, style.ScaleToPagesX, style.ScaleToPagesY, titles]

    def page_starts(self, sheet):
        """Return at how many rows a page is made to begin."""
        return sum(one.ManualBreak for one in self.sheet(sheet).getRowPageBreaks())

    def formula(self, sheet, row, column, text):
        cell = self.sheet(sheet).getCellByPosition(column, row)
        cell.NumberFormat = 0
        cell.Formula = text
        self.document.calculateAll()
        return [cell.Value, cell.String, cell.getError()]

    def pdf(self, path):
        self.document.storeToURL(uno.systemPathToFileUrl(path), (value("FilterName", "calc_pdf_Export"),))


def main():
    port, path = sys.argv[1:]
    driver = Driver(connected(port), path)
    try:
        gave = [getattr(driver, name)(*rest) for name, *rest in json.load(sys.stdin)]
    finally:
        driver.document.close(False)
    print(json.dumps(gave), flush=True)
    os._exit(0)  # the bridge's own threads still run: taking the interpreter down under them can crash it


if __name__ == "__main__":
    main()
