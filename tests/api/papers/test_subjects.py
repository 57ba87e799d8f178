"""A drawing can be asked for one thing at a time, by what `subjects` lists, and of nothing else."""

import pytest
from casewright.api import papers
from casewright.api.papers import UnknownSubjectError


@pytest.mark.parametrize("view", [v for v in papers.VIEWS if v != "wall"])
def test_each_subject_is_drawn_alone(bay, view):
    subjects = papers.subjects(bay, view)
    assert subjects
    names = {sheet.name for sheet in papers.draw(bay, view)}
    for subject in subjects:
        sheets = papers.draw(bay, view, subject=subject)
        assert sheets, subject
        if view != "template":  # its sheets name their kind, not their doors
            assert {sheet.name for sheet in sheets} <= names
            assert len(sheets) <= len(papers.draw(bay, view))


@pytest.mark.parametrize("view", [v for v in papers.VIEWS if v != "wall"])
def test_what_is_not_there_is_refused_with_what_is(bay, view):
    with pytest.raises(UnknownSubjectError) as caught:
        papers.draw(bay, view, subject="no-such-thing")
    assert set(caught.value.known) <= set(papers.subjects(bay, view))
    assert caught.value.known


def test_a_template_of_one_door_names_that_door(bay):
    door = papers.subjects(bay, "template")[-1]
    (first, *_) = papers.draw(bay, "template", subject=door)
    words = " ".join(s.text for v in first.views for s in v.shapes if hasattr(s, "text"))
    assert f"For 1 door: {door}" in words
