"""Sheets as DXF R2010: model space in job units at true size, and a paper layout for each sheet.

Every true-size view stands in model space with its own origin, one to the right of another; the paper layout holds
the furniture in mm and a window on each view at its scale. Dimensions are true ones: their numbers measure the drawing,
running ones as ordinates from their datum, and each shows the lines, solids and text of the other writers.
"""

import os
import tempfile
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from io import BytesIO, TextIOWrapper
from math import fsum
from typing import Any

from casewright.api.papers import text as metrics
from casewright.api.papers.drawing.inked import AnyMark, Label, Mark, Round
from casewright.api.papers.drawing.marks import Measure, box_of, marks, measures, unmeasured
from casewright.api.papers.drawing.shapes import Kind, Sheet, View

CACHES = ("XDG_CACHE_HOME", "XDG_CONFIG_HOME")


@contextmanager
def _cache_elsewhere() -> Iterator[None]:
    """Let imports in this block keep their caches in a temporary folder that is gone after it.

    The library looks for fonts as it is imported and writes what it finds to the user's cache. A service may run as a
    user without a home, on a read-only file system; nothing here needs that cache.
    """
    before = {name: os.environ.get(name) for name in CACHES}
    with tempfile.TemporaryDirectory(prefix="casewright-") as folder:
        os.environ.update(dict.fromkeys(CACHES, folder))
        try:
            yield
        finally:
            for name, value in before.items():
                if value is None:
                    del os.environ[name]
                else:
                    os.environ[name] = value


with _cache_elsewhere():
    from ezdxf import units
    from ezdxf._options import options
    from ezdxf.document import Drawing
    from ezdxf.enums import TextEntityAlignment
    from ezdxf.filemanagement import new

LAYERS = {
    Kind.WIDE: ("outlines", "CONTINUOUS", 50),
    Kind.NARROW: ("thin-lines", "CONTINUOUS", 25),
    Kind.FINE: ("hatching", "CONTINUOUS", 13),
    Kind.HIDDEN: ("hidden", "HIDDEN-LINES", 25),
    Kind.CENTRE: ("centre-lines", "CHAIN-LINES", 25),
}
TEXT_LAYER, DIMENSIONS = "text", "dimensions"
LINEAR, ORDINATE, OWN_BLOCK, ALONG_X = 0, 6, 32, 64
"""Kinds of dimensions, and flags: a block for this dimension alone, an ordinate along x (DXF reference, group 70)."""
STYLES = {False: ("plain", "DejaVuSansCondensed.ttf"), True: ("bold", "DejaVuSansCondensed-Bold.ttf")}
MM_PER = {"in": 25.4, "mm": 1.0}
_ALIGN = {
    "start": TextEntityAlignment.LEFT,
    "middle": TextEntityAlignment.CENTER,
    "end": TextEntityAlignment.RIGHT,
}


def to_dxf(sheets: Sheet | Iterable[Sheet]) -> bytes:
    """Return sheets as one DXF. The same sheets always give the same bytes."""
    pages = [sheets] if isinstance(sheets, Sheet) else list(sheets)
    doc = document(pages[0].units)
    _add_layers(doc, pages[0].units)
    unit = MM_PER[pages[0].units]
    right: float | None = None
    for number, sheet in enumerate(pages, start=1):
        layout: Any = doc.layout("Layout1") if number == 1 else doc.layouts.new(f"Sheet {number}")
        layout.page_setup((sheet.width, sheet.height), margins=(0, 0, 0, 0), units="mm", name="plain")
        for view in sheet.views:
            drawn = list(marks(view))
            if view.furniture:
                _add(layout, drawn, 1.0, 1.0, (view.at[0], view.at[1]))
                continue
            box = _bounds(drawn, view)
            move = 0.0 if right is None else right + 50.0 - box[0]
            _add(doc.modelspace(), list(unmeasured(view)), unit, view.scale, (move, 0.0))
            for measure in measures(view):
                _dimension(doc, measure, unit, view.scale, move)
            _window(layout, view, box, unit, move)
            right = box[2] + move
    return written(doc)


def document(job_units: str) -> Drawing:
    """Return a document without entities or layers of its own: its units and styles of text."""
    options.write_fixed_meta_data_for_testing = True
    doc = new("R2010", units=units.IN if job_units == "in" else units.MM)
    doc.header["$MEASUREMENT"] = 0 if job_units == "in" else 1
    doc.header["$LUNITS"] = 2
    doc.header["$LTSCALE"] = 1.0
    for name, file in STYLES.values():
        doc.styles.add(name, font=file)
    return doc


def _add_layers(doc: Drawing, job_units: str) -> None:
    """Add the layers and line types of drawings."""
    mm = 1 / MM_PER[job_units]
    for kind, (layer, linetype, weight) in LAYERS.items():
        if kind.dashes:
            pattern = [d * mm * (1 if i % 2 == 0 else -1) for i, d in enumerate(kind.dashes)]
            doc.linetypes.add(linetype, [fsum(abs(p) for p in pattern), *pattern])
        doc.layers.add(layer, color=7, linetype=linetype if kind.dashes else "CONTINUOUS", lineweight=weight)
    doc.layers.add(TEXT_LAYER, color=7)
    doc.layers.add(DIMENSIONS, color=7)


def _bounds(drawn: Sequence[AnyMark], view: View) -> tuple[float, float, float, float]:
    """Return the box round a view's marks in true size, mm."""
    xs: list[float] = []
    ys: list[float] = []
    for mark in drawn:
        if isinstance(mark, Mark):
            xs += [p[0] for p in mark.points]
            ys += [p[1] for p in mark.points]
        elif isinstance(mark, Round):
            xs += [mark.centre[0] - mark.radius, mark.centre[0] + mark.radius]
            ys += [mark.centre[1] - mark.radius, mark.centre[1] + mark.radius]
        else:
            at_paper = Label(
                (mark.at[0] * view.scale, mark.at[1] * view.scale),
                mark.text, mark.height, mark.anchor, mark.angle, mark.bold,
            )  # fmt: skip
            box = box_of(at_paper)
            xs += [box[0] / view.scale, box[2] / view.scale]
            ys += [box[1] / view.scale, box[3] / view.scale]
    if not xs:
        return (0.0, 0.0, 1.0, 1.0)
    return (min(xs), min(ys), max(xs), max(ys))


def _add(space: Any, drawn: Sequence[AnyMark], unit: float, scale: float, move: tuple[float, float]) -> None:
    """Add marks (in mm) to a space drawn in units of `unit` mm; paper sizes are divided by `scale`."""
    dx, dy = move

    def at(p: tuple[float, float]) -> tuple[float, float]:
        return ((p[0] + dx) / unit, (p[1] + dy) / unit)

    for mark in drawn:
        if isinstance(mark, Label):
            _text(space, mark, at(mark.at), mark.height / scale / unit)
            continue
        attributes: dict[str, Any] = {"layer": LAYERS[mark.kind][0]}
        if mark.kind.dashes:
            attributes["ltscale"] = 1 / scale
        if isinstance(mark, Round):
            if mark.end - mark.start >= 360:
                space.add_circle(at(mark.centre), mark.radius / unit, dxfattribs=attributes)
            else:
                space.add_arc(at(mark.centre), mark.radius / unit, mark.start, mark.end, dxfattribs=attributes)
        elif mark.solid and len(mark.points) in (3, 4):
            points = [at(p) for p in mark.points]
            if len(points) == 4:
                points[2], points[3] = points[3], points[2]
            space.add_solid(points, dxfattribs=attributes)
        elif len(mark.points) == 2:
            space.add_line(at(mark.points[0]), at(mark.points[1]), dxfattribs=attributes)
        else:
            space.add_lwpolyline([at(p) for p in mark.points], close=mark.closed, dxfattribs=attributes)


def _dimension(doc: Drawing, measure: Measure, unit: float, scale: float, right: float) -> None:
    """Add a true dimension to model space; its block holds the marks that it shows."""

    def at(u: float, v: float) -> tuple[float, float]:
        x, y = (u, v) if measure.along == "x" else (v, u)
        return ((x + right) / unit, y / unit)

    block: Any = doc.blocks.new_anonymous_block(type_char="D")
    _add(block, measure.marks, unit, scale, (right, 0.0))
    (label,) = (mark for mark in measure.marks if isinstance(mark, Label))
    attributes: dict[str, Any] = {
        "layer": DIMENSIONS,
        "geometry": block.name,
        "text": plain_text(label.text),
        "text_midpoint": ((label.at[0] + right) / unit, label.at[1] / unit),
        "actual_measurement": abs(measure.b - measure.a) / unit,
    }
    if measure.running:
        attributes |= {
            "dimtype": ORDINATE | OWN_BLOCK | (ALONG_X if measure.along == "x" else 0),
            "defpoint": at(measure.a, measure.base),
            "defpoint2": at(measure.b, measure.base),
            "defpoint3": at(measure.b, measure.line),
        }
    else:
        attributes |= {
            "dimtype": LINEAR | OWN_BLOCK,
            "angle": 0.0 if measure.along == "x" else 90.0,
            "defpoint": at(measure.b, measure.line),
            "defpoint2": at(measure.a, measure.base),
            "defpoint3": at(measure.b, measure.base),
        }
    space: Any = doc.modelspace()
    space.new_entity("DIMENSION", attributes)


def _text(space: Any, label: Label, at: tuple[float, float], height: float) -> None:
    words = plain_text(label.text)
    if words:
        made = space.add_text(
            words,
            height=height,
            rotation=label.angle,
            dxfattribs={"layer": TEXT_LAYER, "style": STYLES[label.bold][0]},
        )
        made.set_placement(at, align=_ALIGN[label.anchor])


def plain_text(text: str) -> str:
    """Return text with nothing in it that DXF reads as a code: no `%%` signs, carets or control characters."""
    words = metrics.clean(text).replace("^", "ˆ")
    while "%%" in words:
        words = words.replace("%%", "% %")
    return words


def _window(layout: Any, view: View, box: tuple[float, float, float, float], unit: float, left: float) -> None:
    width, high = max(box[2] - box[0], 1e-3), max(box[3] - box[1], 1e-3)
    centre = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
    layout.add_viewport(
        center=(view.at[0] + view.scale * centre[0], view.at[1] + view.scale * centre[1]),
        size=(width * view.scale, high * view.scale),
        view_center_point=((centre[0] + left) / unit, centre[1] / unit),
        view_height=high / unit,
        status=2,
    )


def written(doc: Drawing) -> bytes:
    """Return a document as bytes, whatever order its library keeps sets in."""
    for name in sorted(doc.entitydb.dxf_types_in_use()):  # the library adds them in a set's order
        doc.classes.add_class(name)
    out = BytesIO()
    stream = TextIOWrapper(out, encoding="utf-8", newline="\n", errors="replace")
    doc.write(stream)
    stream.flush()
    return out.getvalue()
