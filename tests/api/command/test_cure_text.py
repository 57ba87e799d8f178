"""Cures as a terminal prints them: places in words, and what several places raise alike said once."""

from casewright.api.command.cure_text import cure_lines
from casewright.api.use.job_input import JobInput


def at(place, **more):
    return {"subject": f"/wall/cabinets_at/pair/{place}", "message": "The wood may split.", **more}


def test_places_are_named_in_words_and_a_caution_of_several_is_said_once(registry):
    cure = {
        "words": "longer screws", "keeps": True, "cost": None, "unpriced": 0, "parts_changed": 0, "mass_kg": 0.0,
        "clears": 1, "patch": [], "leaves": [], "raises": [at(0), at(1)],
    }  # fmt: skip
    stop = {"check": at(1, code="fastener-use"), "why_none": "", "cures": [cure]}
    job = JobInput({"cabinets": [{"id": "pair", "count": 2}]}, registry)
    text = "\n".join(cure_lines({"cures": [stop], "tries": 1, "most_tries": 60}, job))
    assert "STOP    pair 2 on the wall: " in text
    assert "raises: pair 1 on the wall, pair 2 on the wall: The wood may split." in text
    assert text.count("raises: ") == 1
