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


def test_changes_that_clear_several_stops_alike_are_written_once(registry):
    cure = {
        "words": "a strip", "keeps": True, "cost": None, "unpriced": 0, "parts_changed": 2, "mass_kg": 1.0,
        "clears": 2, "patch": [], "leaves": [], "raises": [],
    }  # fmt: skip
    other = {**cure, "words": "lower drawers", "clears": 1}
    stops = [
        {"check": {"subject": name, "message": "It would tip.", "code": "anti-tip"}, "why_none": "", "cures": cures}
        for name, cures in (("lamps", [cure]), ("bells", [cure]), ("racks", [other]), ("bags", [cure, other]))
    ]
    job = JobInput({"cabinets": []}, registry)
    text = cure_lines({"cures": stops, "tries": 2, "most_tries": 60}, job)
    after = {
        name: text[text.index(f"STOP    {name}: It would tip. [anti-tip]") + 1] for name in ("bells", "racks", "bags")
    }
    assert after["bells"].strip() == "The same change clears it as above for lamps."
    assert after["racks"].strip().startswith("1. lower drawers: ")
    assert after["bags"].strip().startswith("1. a strip: ")
    assert sum("1. a strip: " in line for line in text) == 2
