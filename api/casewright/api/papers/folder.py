"""The papers of a plan as files, for a folder or an archive. A plan that has nothing of a kind has no such file."""

from collections.abc import Sequence

from casewright.api.papers import booklet, draw, labels, model, outlines, to_pdf, to_svg, workbook
from casewright.sdk.model import Plan
from casewright.sdk.model.cures import StopCures

SVG_VIEWS = ("elevation", "section", "wall", "fixing")
PDF_VIEWS = ("part", "door", "layout", "template")


def papers(plan: Plan, fingerprint: str, cures: Sequence[StopCures] = ()) -> dict[str, bytes]:
    """Return file names and contents: drawings, booklet with the cures of stops, labels, workbook, model."""
    files: dict[str, bytes] = {"booklet.pdf": booklet(plan, fingerprint, cures=cures)}
    for view in SVG_VIEWS:
        for number, sheet in enumerate(draw(plan, view, fingerprint=fingerprint), start=1):
            files[f"{view}-{number}.svg"] = to_svg(sheet).encode()
    for view in PDF_VIEWS:
        sheets = draw(plan, view, fingerprint=fingerprint)
        if sheets:
            files[f"{view}s.pdf"] = to_pdf(sheets)
    if plan.parts:
        files["outlines.dxf"] = outlines(plan)
    files["labels.pdf"] = labels(plan, fingerprint)
    files["workbook.xlsx"] = workbook(plan)
    files["model.glb"] = model(plan)
    return files
