"""One small drawing model, in mm, and three writers of it: SVG, DXF and PDF."""

from casewright.api.documents.drawing.dxf import to_dxf
from casewright.api.documents.drawing.overlap import overlaps
from casewright.api.documents.drawing.pdf import to_pdf
from casewright.api.documents.drawing.shapes import Sheet
from casewright.api.documents.drawing.svg import to_svg

__all__ = ["Sheet", "overlaps", "to_dxf", "to_pdf", "to_svg"]
