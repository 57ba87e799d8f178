"""Details of joints: alike ones once, true to size, dimensioned by what is cut."""

from casewright.api import papers
from casewright.api.papers.drawing.inked import Label, Mark
from casewright.api.papers.drawing.marks import marks
from casewright.api.papers.drawing.shapes import Kind
from casewright.sdk.model import Plan


def test_each_kind_of_joint_is_drawn_once_and_dimensioned(bay: Plan) -> None:
    sheets = papers.draw(bay, "joint")
    words = [
        mark.text for sheet in sheets for view in sheet.views if view.name == "words" for mark in marks(view)
        if isinstance(mark, Label)
    ]  # fmt: skip
    methods = {joint.method.replace("-", " ") for joint in bay.joints if joint.seat}
    for method in methods:
        assert any(line.startswith(f"{method}:") for line in words), method
    parts = {part.id: part for part in bay.parts}
    seats = {joint.id: joint.seat for joint in bay.joints}
    for sheet in sheets:
        for view in sheet.views:
            for one in (shown for shape in view.shapes for shown in getattr(shape, "shows", ())):
                if one.subject in seats:
                    assert one.nm == seats[one.subject]
                    continue
                sizes = {
                    box.high(axis) - box.low(axis)
                    for feature in parts[one.subject].features for box in feature.boxes for axis in (1, 2, 3)
                }  # fmt: skip
                assert one.nm in sizes


def test_a_groove_is_drawn_as_deep_as_it_is_cut(bay: Plan) -> None:
    """One detail is the top in its groove in the side: a step in the side's outline as deep as the groove."""
    joint = next(one for one in bay.joints if one.method == "housed-groove")
    host = next(part for part in bay.parts if part.id == joint.host)
    groove = next(f for f in host.features if f.joint == joint.id)
    deep = min(groove.boxes[0].high(axis) - groove.boxes[0].low(axis) for axis in (1, 2, 3)) / 1e6
    views = [view for sheet in papers.draw(bay, "joint") for view in sheet.views if view.name == "detail"]
    strokes = [mark for view in views for mark in marks(view) if isinstance(mark, Mark)]
    lines = [mark.points for mark in strokes if len(mark.points) == 2 and mark.kind is Kind.WIDE]
    assert any(abs(abs(a[0] - b[0]) - deep) < 1e-6 and a[1] == b[1] for a, b in lines)
