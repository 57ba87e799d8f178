"""What makes each paper of a plan: the drawing of every view, the booklet, labels, workbook and solid model.

Everything is pure: the same plan always gives the same bytes, whatever the clock says.
"""

from collections.abc import Mapping, Sequence

from casewright.api.papers.blocks import outlines
from casewright.api.papers.drawing import Sheet, to_dxf, to_pdf, to_svg
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.booklet import booklet as _booklet
from casewright.api.papers.pages.labels import label_sheets
from casewright.api.papers.solid_model import model
from casewright.api.papers.views.common import UnknownSubjectError
from casewright.api.papers.views.door import door
from casewright.api.papers.views.drilling import drilling
from casewright.api.papers.views.elevation import elevation
from casewright.api.papers.views.fixing import fixing
from casewright.api.papers.views.isometric import isometric
from casewright.api.papers.views.joint import joint
from casewright.api.papers.views.layout import layout
from casewright.api.papers.views.page import PAPERS, finish, paper_for
from casewright.api.papers.views.part import part
from casewright.api.papers.views.section import section
from casewright.api.papers.views.template import template
from casewright.api.papers.views.wall import wall
from casewright.api.papers.workbook import workbook
from casewright.sdk.model import Plan
from casewright.sdk.model.cures import StopCures

__all__ = [
    "MEDIA_TYPES",
    "PAPERS",
    "VIEWS",
    "Sheet",
    "UnknownSubjectError",
    "booklet",
    "draw",
    "labels",
    "model",
    "outlines",
    "subjects",
    "to_dxf",
    "to_pdf",
    "to_svg",
    "workbook",
]

_DRAWERS = {
    "elevation": elevation,
    "section": section,
    "isometric": isometric,
    "part": part,
    "door": door,
    "layout": layout,
    "wall": wall,
    "fixing": fixing,
    "joint": joint,
    "drilling": drilling,
    "template": template,
}

VIEWS: tuple[str, ...] = tuple(_DRAWERS)
"""The drawings there are."""

MEDIA_TYPES: Mapping[str, str] = {
    "svg": "image/svg+xml",
    "dxf": "image/vnd.dxf",
    "pdf": "application/pdf",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    "glb": "model/gltf-binary",
    "zip": "application/zip",
}
"""What the writers give: `to_svg`, `to_dxf`, `to_pdf`; `booklet` and `labels` (pdf); `workbook`; `model`."""


def draw(
    plan: Plan, view: str, *, subject: str | None = None, paper: str | None = None, fingerprint: str = ""
) -> tuple[Sheet, ...]:
    """Return a drawing's sheets.

    `view` is one of `VIEWS`. `subject` is what to draw, all of it where None: a cabinet id for elevation, section,
    isometric, fixing, joint and drilling, a part id for part, a door id or `<cabinet>/face-frame` for door, a
    layout's number for layout, a cabinet or door id for template; wall takes none. `paper` is one of `PAPERS` (A4 for
    a job in mm, letter for one in inches). The answer is empty where the plan has nothing of that kind.

    Raises `KeyError` for a view, `UnknownSubjectError` for a subject and `ValueError` for a paper that there is not.
    """
    facts = Facts(plan)
    chosen = paper_for(facts, paper)
    return finish(facts, _DRAWERS[view](facts, subject, chosen), chosen, fingerprint)


def subjects(plan: Plan, view: str) -> tuple[str, ...]:
    """Return what `draw` may be asked for as `subject` of a view, in the order of the plan."""
    facts = Facts(plan)
    doors = [leaf.id for leaf in plan.doors]
    frames = [f"{c}/face-frame" for c in facts.cabinets if any(p.group == "face-frame" for p in facts.of(c))]
    every: dict[str, Sequence[str]] = {
        "part": list(facts.parts),
        "door": [*frames, *doors],
        "layout": [str(one.number) for one in facts.layouts],
        "wall": [],
        "template": [*dict.fromkeys(leaf.cabinet for leaf in plan.doors), *doors],
    }
    return tuple(every.get(view, list(facts.cabinets)))


def booklet(plan: Plan, fingerprint: str, paper: str | None = None, cures: Sequence[StopCures] = ()) -> bytes:
    """Return the booklet as PDF; `fingerprint` stands on every page, `cures` of its stops on the first.

    Raises `ValueError` for an unknown paper.
    """
    return _booklet(plan, fingerprint, paper_for(Facts(plan), paper), cures)


def labels(plan: Plan, fingerprint: str = "", paper: str | None = None) -> bytes:
    """Return sheets of part labels as PDF, a label for each piece. Raises `ValueError` for an unknown paper."""
    facts = Facts(plan)
    return to_pdf(label_sheets(facts, paper_for(facts, paper), fingerprint))
