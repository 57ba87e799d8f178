"""One small drawing model, in mm, and three writers of it: SVG, DXF and PDF."""

from casewright.api.papers.drawing.dxf import to_dxf
from casewright.api.papers.drawing.pdf import to_pdf
from casewright.api.papers.drawing.shapes import Sheet
from casewright.api.papers.drawing.svg import to_svg

__all__ = ["Sheet", "to_dxf", "to_pdf", "to_svg"]
