"""How cabinets are fixed to the wall: every screw once, at its height over the floor, as long as it is."""

from casewright.api import papers
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.api.papers.drawing.inked import Mark
from casewright.api.papers.drawing.marks import marks
from casewright.api.use.examples import examples
from casewright.sdk.loader import Registry
from casewright.sdk.model import Plan

IN = 25_400_000


def test_every_screw_stands_in_the_table_at_its_height(bay: Plan) -> None:
    (sheet,) = papers.draw(bay, "fixing")
    shown = [one for view in sheet.views for shape in view.shapes for one in getattr(shape, "shows", ())]
    heights = {one.nm for one in shown if one.what == "screw over the floor"}
    screws = [one for mounted in bay.mounting if mounted.result for one in mounted.result.fasteners]
    assert len([one for one in shown if one.what == "screw over the floor"]) == len(screws)
    # Hardware gives the same screws in the cabinet's own frame; the sample hangs at 54 in over the floor.
    case = bay.mounting[0].result.case if bay.mounting[0].result else None
    assert case is not None
    assert case.fastener is not None
    points = {at for line in bay.hardware if line.item == case.fastener.id for at in line.at}
    assert heights <= {54 * IN + z for _, _, z in points}
    edge = next(one.nm for one in shown if one.what == "height of strip, lower edge")
    cleat = next(part for part in bay.parts if part.role == "wall-cleat")
    assert edge == 54 * IN + cleat.place.box(cleat.blank).z0
    lifted = next(one.nm for one in shown if one.what == "height of top when lifted on")
    assert lifted == (54 + 33) * IN + bay.mounting[0].lift


def test_a_screw_is_drawn_as_long_as_it_is(bay: Plan) -> None:
    (sheet,) = papers.draw(bay, "fixing")
    view = next(view for view in sheet.views if view.name == "detail")
    case = bay.mounting[0].result.case if bay.mounting[0].result else None
    assert case is not None
    assert case.fastener is not None
    shanks = [mark for mark in marks(view) if isinstance(mark, Mark) and len(mark.points) == 5]
    long = {round(mark.points[2][0] - mark.points[0][0], 3) for mark in shanks}
    assert round(case.fastener.length / 1e6, 3) in long


def test_a_standing_cabinet_is_fixed_by_its_upper_strip(registry: Registry) -> None:
    # The strip ends under the top, which the 860 mm high case has at 842.3; it is 80 mm wide.
    job = next(one for one in examples() if one.name == "workbench-run").job()
    del job["stock"]
    sheets = papers.draw(make_plan(read_job(job, registry), registry), "fixing")
    shown = [one for sheet in sheets for view in sheet.views for s in view.shapes for one in getattr(s, "shows", ())]
    assert {one.nm for one in shown if one.what == "height of strip, lower edge"} == {762_300_000}
