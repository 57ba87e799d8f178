"""Cuts as they stand in a plan document, measured from the part's datum corner along length, width, thickness."""

from casewright.api.wire.lengths import Document, Numbers, Texts
from casewright.sdk.geometry import Box, Point
from casewright.sdk.model import Feature, Side
from casewright.sdk.units import bit_text

AXES = ("length", "width", "thickness")
FACES = {(side.axis if side.high else -side.axis): side.value for side in Side}
"""What the sides that axes point out of are called: the same words as the keys of a part's `sides`."""


def feature_document(feature: Feature, numbers: Numbers, texts: Texts) -> Document:
    """Return one cut as JSON values.

    `face` is where the cutter enters. `at` and `size` give each box of waste; a groove or rabbet also has its
    `depth`, the axis it is `along`, its `width` across that axis and its `offset` there from the datum.
    """
    out: Document = {"kind": feature.kind, "for": feature.label, "face": FACES[feature.entry]}
    if feature.joint:
        out["joint"] = feature.joint
    if feature.boxes:
        out["boxes"] = [_box(box, numbers) for box in feature.boxes]
        _add_cut(out, feature, feature.boxes[0], numbers, texts)
    if feature.holes:
        first = feature.holes[0]
        out["diameter"], out["depth"] = numbers[first.diameter], numbers[first.depth]
        out["at"] = [point(hole.mouth, numbers) for hole in feature.holes]
        count = f"{len(feature.holes)} holes " if len(feature.holes) > 1 else ""
        across = bit_text(first.diameter, texts.units, texts.tape)
        out["text"] = f"{count}{across} across, {texts[first.depth]} deep"
    if feature.wedges:
        out["wedges"] = [
            {**_box(w.box, numbers), "along": AXES[abs(w.along) - 1], "corner": [FACES[c] for c in w.corner]}
            for w in feature.wedges
        ]
    if feature.angle_deg is not None:
        out["angle_deg"] = feature.angle_deg
        out.setdefault("text", f"slants {feature.angle_deg:g} degrees from square")
    return out


def _add_cut(out: Document, feature: Feature, box: Box, numbers: Numbers, texts: Texts) -> None:
    """Add the sizes of a cut whose first box of waste is `box`."""
    into = abs(feature.entry)
    deep = box[into + 2] - box[into - 1]
    if feature.run is None:
        sizes = [box[axis + 2] - box[axis - 1] for axis in (1, 2, 3) if axis != into]
        out["depth"] = numbers[deep]
        out["text"] = f"{texts[sizes[0]]} × {texts[sizes[1]]}, {texts[deep]} deep"
        return
    run = abs(feature.run)
    if run == into:
        out["depth"] = numbers[deep]
        out["text"] = f"{texts[deep]} deep"
        return
    across = 6 - run - into
    width, offset = box[across + 2] - box[across - 1], box[across - 1]
    out["along"] = AXES[run - 1]
    out["offset"] = numbers[offset]
    out["width"] = numbers[width]
    out["depth"] = numbers[deep]
    out["text"] = f"{texts[width]} wide, {texts[deep]} deep, {texts[offset]} from {FACES[-across]}"


def _box(box: Box, numbers: Numbers) -> Document:
    x0, y0, z0, x1, y1, z1 = box
    return {
        "at": [numbers[x0], numbers[y0], numbers[z0]],
        "size": [numbers[x1 - x0], numbers[y1 - y0], numbers[z1 - z0]],
    }


def point(at: Point, numbers: Numbers) -> list[float | int]:
    """Return a point as three numbers in job units."""
    x, y, z = at
    return [numbers[x], numbers[y], numbers[z]]
