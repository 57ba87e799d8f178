"""Drawings as they are asked for: the same bytes again, hostile text harmless, what there is not refused."""

import io
import re
from collections.abc import Callable
from xml.etree import ElementTree

import ezdxf
import pytest
from casewright.api import papers as documents
from casewright.api.papers.drawing.shapes import Sheet
from casewright.sdk.model import Plan

SVG = "{http://www.w3.org/2000/svg}"


def read_dxf(data: bytes) -> ezdxf.document.Drawing:
    return ezdxf.read(io.StringIO(data.decode("utf-8")))


@pytest.mark.parametrize("view", documents.VIEWS)
def test_hostile_text_does_nothing(plan: Callable[[str], Plan], view: str) -> None:
    for sheet in documents.draw(plan("hostile"), view, fingerprint="<b>&\x07")[:3]:
        text = documents.to_svg(sheet)
        root = ElementTree.fromstring(text)
        assert {node.tag.removeprefix(SVG) for node in root.iter()} <= {"svg", "title", "rect", "g", "path", "text"}
        assert not any(name.startswith("on") or "href" in name for node in root.iter() for name in node.attrib)
        assert not re.search("[\x00-\x08\x0b-\x1f\u202e]", text)
        doc = read_dxf(documents.to_dxf(sheet))
        assert not doc.audit().errors
        for layout in doc.layouts:
            assert not any("%%" in e.dxf.text or "^" in e.dxf.text for e in layout.query("TEXT"))
        pdf = documents.to_pdf([sheet])
        for word in (b"/JavaScript", b"/JS", b"/URI", b"/Launch", b"/OpenAction"):
            assert word not in pdf


@pytest.mark.parametrize("write", [documents.to_dxf, documents.to_pdf, lambda s: documents.to_svg(s[0]).encode()])
def test_same_sheets_same_bytes(bay: Plan, write: Callable[[tuple[Sheet, ...]], bytes]) -> None:
    first, second = documents.draw(bay, "section"), documents.draw(bay, "section")
    assert write(first) == write(second)


def test_unknown_subjects_and_papers_are_refused(bay: Plan) -> None:
    with pytest.raises(documents.UnknownSubjectError, match="tools/side-left"):
        documents.draw(bay, "part", subject="tools/side")
    with pytest.raises(ValueError, match="letter"):
        documents.draw(bay, "part", paper="B5")
    for view in documents.VIEWS:
        for subject in documents.subjects(bay, view):
            assert documents.draw(bay, view, subject=subject)
