"""Writes `cabinets.fods`, the ready LibreOffice Calc file, from the plain texts beside it.

The file is flat XML: sheets from `cabinets.csv` and `job.csv`, macros from `cabinets.bas` and `host_calc.bas`, one
button that runs `SendCabinets`. Run it after changing any of these; the same texts always give the same bytes.
"""

import csv
from collections.abc import Sequence
from pathlib import Path
from xml.sax.saxutils import escape, quoteattr

HERE = Path(__file__).parent
SERVICE = "http://127.0.0.1:8000"
CAUTION = (
    "Saws and things hung overhead hurt people: read the saw's manual, keep guards on, and put local code and a "
    "licensed practitioner's word before these figures."
)
ANSWERS = {
    "Parts": (18, 34, 26, 18, 17, 17, 17, 17, 19, 11, 20, 20, 22, 24, 26, 46, 46, 14, 16, 16, 16),
    "Hardware": (34, 80, 22, 60, 20),
    "Steps": (15, 15, 20, 18, *(14,) * 8, 11, 13, 28, 28, 26, 26, 16, 16, 28, 84, 40, 46, 14, 16, 12, 14, 11),
    "Costs": (20, 32, 64, 50, 19, 18, 18, 20, 16, 44),
    "Hanging": (22, 36, 24, 28, 18, 18, 18, 12, 17, 17, 15, 40),
    "Checks": (18, 34, 34, 100, 20, 20, 14, 36),
    "Drawings": (30,),
}
"""The sheets that answers fill, and the widths of their columns in mm: cells take as many lines as they need, so that
a sheet as wide as the paper can be read. Drawings is filled with pictures."""
HIDDEN = {"Parts": (3, 9, 15, 16, 19, 20), "Steps": range(3, 21)}
"""Columns that are hidden at first, from 0, so that the rest is read on paper: of parts role, units, reasons and what
is bought or made over size; of steps settings and pieces, which `do` says in words."""
ROW_MM, TALL_MM = 4.5, 11
SPACES = {
    "calcext": "urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0",
    "draw": "urn:oasis:names:tc:opendocument:xmlns:drawing:1.0",
    "fo": "urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0",
    "form": "urn:oasis:names:tc:opendocument:xmlns:form:1.0",
    "number": "urn:oasis:names:tc:opendocument:xmlns:datastyle:1.0",
    "office": "urn:oasis:names:tc:opendocument:xmlns:office:1.0",
    "ooo": "http://openoffice.org/2004/office",
    "script": "urn:oasis:names:tc:opendocument:xmlns:script:1.0",
    "style": "urn:oasis:names:tc:opendocument:xmlns:style:1.0",
    "svg": "urn:oasis:names:tc:opendocument:xmlns:svg-compatible:1.0",
    "table": "urn:oasis:names:tc:opendocument:xmlns:table:1.0",
    "text": "urn:oasis:names:tc:opendocument:xmlns:text:1.0",
    "xlink": "http://www.w3.org/1999/xlink",
}


def styles(widths: set[int]) -> str:
    """Return the styles: column widths, and cells that keep what is typed into them as text."""
    columns = "\n".join(
        f'  <style:style style:name="w{width}" style:family="table-column">'
        f'<style:table-column-properties style:column-width="{width}mm"/></style:style>'
        for width in sorted(widths)
    )
    kind = 'style:family="table-cell" style:parent-style-name="Default" style:data-style-name="as-typed"'
    bold = '<style:text-properties fo:font-weight="bold"/>'
    return (
        " <office:automatic-styles>\n"
        '  <number:text-style style:name="as-typed"><number:text-content/></number:text-style>\n'
        f"{columns}\n"
        '  <style:style style:name="tall" style:family="table-row">'
        f'<style:table-row-properties style:row-height="{TALL_MM}mm" style:use-optimal-row-height="false"/>'
        "</style:style>\n"
        f'  <style:style style:name="typed" {kind}/>\n'
        f'  <style:style style:name="heading" {kind}>{bold}</style:style>\n'
        " </office:automatic-styles>"
    )


def rows_of(name: str) -> list[list[str]]:
    """Return the rows of one of the CSV files here."""
    with (HERE / name).open(encoding="utf-8", newline="") as file:
        return list(csv.reader(file))


def cell(text: str, style: str = "typed") -> str:
    """Return a cell that holds text as it was typed."""
    if not text:
        return f'<table:table-cell table:style-name="{style}"/>'
    kind = 'office:value-type="string" calcext:value-type="string"'
    return f'<table:table-cell table:style-name="{style}" {kind}><text:p>{escape(text)}</text:p></table:table-cell>'


def row(cells: list[str], style: str = "typed", height: str = "") -> str:
    """Return a row of cells."""
    tall = f' table:style-name="{height}"' if height else ""
    return f"   <table:table-row{tall}>{''.join(cell(text, style) for text in cells)}</table:table-row>"


def widths_of(rows: list[list[str]]) -> list[int]:
    """Return the column widths, in mm, that show rows of text; the last column is for problems, and wide."""
    longest = [max(len(each[i]) for each in rows if i < len(each)) for i in range(len(rows[0]))]
    return [*(max(16, 6 + 2 * length) for length in longest[:-1]), 160]


def sheet(name: str, columns: Sequence[int], rows: list[str], shapes: str = "") -> str:
    """Return a sheet; `columns` are the widths of its columns in mm."""
    hidden = HIDDEN.get(name, ())
    widths = "".join(
        f'<table:table-column table:style-name="w{width}"'
        f"{' table:visibility=' + quoteattr('collapse') if at in hidden else ''}"
        ' table:default-cell-style-name="typed"/>'
        for at, width in enumerate(columns)
    )
    body = "\n".join(rows) or "   <table:table-row><table:table-cell/></table:table-row>"
    return f'  <table:table table:name="{name}">\n{shapes}   {widths}\n{body}\n  </table:table>'


def button() -> str:
    """Return the form with its one button, and the shape that shows it on the sheet."""
    link = "vnd.sun.star.script:Standard.Cabinets.SendCabinets?language=Basic&location=document"
    event = (
        '<script:event-listener script:language="ooo:script" script:event-name="form:performaction" '
        f'xlink:href={quoteattr(link)} xlink:type="simple"/>'
    )
    control = (
        '<form:button form:name="send" form:label="Send the cabinets" form:id="send" xml:id="send" '
        'form:control-implementation="ooo:com.sun.star.form.component.CommandButton" form:button-type="push">'
        f"<office:event-listeners>{event}</office:event-listeners></form:button>"
    )
    form = f'<form:form form:name="cabinets" form:apply-filter="true">{control}</form:form>'
    shape = (
        f'<draw:control draw:control="send" draw:z-index="0" svg:x="1mm" svg:y="{3 * ROW_MM + 2}mm" '
        'svg:width="46mm" svg:height="8mm"/>'
    )
    return (
        f'   <office:forms form:automatic-focus="false" form:apply-design-mode="false">{form}</office:forms>\n'
        f"   <table:shapes>{shape}</table:shapes>\n"
    )


def module(name: str, file: str) -> str:
    """Return one macro module."""
    text = (HERE / file).read_text("utf-8")
    return f'    <ooo:module ooo:name="{name}"><ooo:source-code>{escape(text)}</ooo:source-code></ooo:module>'


def document() -> str:
    """Return the file's text."""
    cabinets, job = rows_of("cabinets.csv"), rows_of("job.csv")
    top = [
        row(["Service", SERVICE]),
        row(["Answer", "Not asked yet"]),
        row([CAUTION]),
        row([""], height="tall"),
    ]
    sheets = [
        sheet(
            "Cabinets",
            widths_of(cabinets),
            [*top, row(cabinets[0], "heading"), *map(row, cabinets[1:])],
            button(),
        ),
        sheet("Job", widths_of(job), [row(job[0], "heading"), *map(row, job[1:])]),
        *(sheet(name, widths, []) for name, widths in ANSWERS.items()),
    ]
    spaces = " ".join(f'xmlns:{prefix}="{name}"' for prefix, name in SPACES.items())
    modules = "\n".join((module("Cabinets", "cabinets.bas"), module("Host", "host_calc.bas")))
    parts = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        "<!-- Written by build_cabinets.py; change the texts it reads, not this file. -->",
        f'<office:document {spaces} office:version="1.2"'
        ' office:mimetype="application/vnd.oasis.opendocument.spreadsheet">',
        ' <office:scripts><office:script script:language="ooo:Basic">',
        '  <ooo:libraries><ooo:library-embedded ooo:name="Standard">',
        modules,
        "  </ooo:library-embedded></ooo:libraries></office:script></office:scripts>",
        styles({*widths_of(cabinets), *widths_of(job), *(w for ws in ANSWERS.values() for w in ws)}),
        " <office:body><office:spreadsheet>",
        *sheets,
        " </office:spreadsheet></office:body>",
        "</office:document>",
    ]
    return "\n".join(parts) + "\n"


if __name__ == "__main__":
    (HERE / "cabinets.fods").write_text(document(), encoding="utf-8")
