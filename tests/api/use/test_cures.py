"""The search for cures: what counts as one, in what order they stand, and how tries are shared and bounded.

Generators here are made for the tests. Their figures are worked by hand beside each check.
"""

import copy
from dataclasses import replace

import orjson
import pytest
from casewright.api import cures as cures_of
from casewright.api.job import limits
from casewright.api.use.cures import ENOUGH, find_cures
from casewright.api.use.job_input import JobInput
from casewright.api.use.planning import Planner
from casewright.sdk.errors import PluginFaultError
from casewright.sdk.findings import Finding
from casewright.sdk.loader import load
from casewright.sdk.methods import Change, CureGenerator, ExtraCheck
from casewright.sdk.patching import patch_setting

JOB = {
    "units": "mm",
    "materials": {"mdf": {"kind": "sheet", "stuff": "mdf", "thickness": 20}},
    "cabinets": [{"id": "bench", "width": 600, "height": 700, "depth": 300, "case": {"material": "mdf", "back": None}}],
    "loose_parts": [
        {"id": "lid", "material": "mdf", "length": 500, "width": 300},
        {"id": "lip", "material": "mdf", "length": 400, "width": 300},
    ],
    "stock": {
        "sheets": [{"id": "sheet", "material": "mdf", "length": 2440, "width": 1220, "cost": 10}],
        "kerf": 3,
        "effort": 1,
    },
    "rates": {"currency": "EUR"},
}
LID, LIP = ("loose_parts", 0, "length"), ("loose_parts", 1, "length")
WIDTH = ("loose_parts", 0, "width")


class TooLong(ExtraCheck):
    """Stops for a loose part over 450 mm long, and for one under 100 mm; says a caution for one under 200 mm."""

    id, title = "too-long", "Too long"

    def find(self, design):
        for part in design.parts:
            if part.id.startswith("loose/"):
                if part.length > 450_000_000:
                    yield part.id, Finding("too-long", "stop", "too long")
                if part.length < 100_000_000:
                    yield part.id, Finding("too-short", "stop", "too short")
                elif part.length < 200_000_000:
                    yield part.id, Finding("rather-short", "caution", "rather short")


class Checks:
    """A plugin of the check, and of generators made from functions."""

    def __init__(self, *generators):
        self.generators = generators

    def registry(self, check=None):
        registry = load(discover="built-in")
        cures = {one.id: one for one in self.generators}
        return replace(registry, checks={"too-long": check or Extra()}, cures=cures)


class Extra(TooLong):
    def find(self, design):
        return tuple(super().find(design))


def generator(propose, name="made", codes=("too-long",), why_none=None):
    class Made(CureGenerator):
        def changes(self, stop):
            return propose(stop)

    Made.id, Made.title, Made.codes, Made.why_none = name, name, frozenset(codes), why_none or {}
    return Made()


def cut(stop, to, words=None, **more):
    return Change(words or f"to {to}", patch_setting(stop.document, (LID, to)), **more)


def found(*generators, job=JOB, progress=None, check=None):
    planner = Planner(Checks(*generators).registry(check))
    more = {} if progress is None else {"progress": progress}
    return find_cures(planner, JobInput(job, planner.registry), **more)


def test_a_change_of_more_operations_than_a_patch_may_have_is_passed_over():
    def propose(stop):
        (one,) = cut(stop, 450).patch
        yield Change("all in one", (one,) * 101)
        yield Change("as many as may be", (one,) * 100)

    (row,) = found(generator(propose)).stops
    assert [cure.words for cure in row.cures] == ["as many as may be"]


def test_only_a_change_that_clears_its_stop_and_adds_none_is_a_cure():
    def propose(stop):
        yield cut(stop, 480)  # still too long
        yield cut(stop, 90)  # another stop instead
        yield cut(stop, -1)  # cannot be read
        yield Change("no such place", ({"op": "remove", "path": "/nowhere"},))
        yield Change("too much at once", patch_setting(stop.document, (LID, 450), (LIP, 451)))  # one for one
        yield cut(stop, 450)

    (row,) = found(generator(propose)).stops
    assert (row.check.code, row.check.subject) == ("too-long", "loose/lid")
    assert row.tried == 6
    assert [cure.words for cure in row.cures] == ["to 450"]
    assert row.why_none == ""


def test_without_a_cure_the_nearest_change_says_what_it_adds():
    def propose(stop):
        yield cut(stop, 480)
        narrow = (("stock", "sheets", 0, "width"), 90)  # no part is so narrow: nothing can be cut of it
        yield Change("a slat", patch_setting(stop.document, (LID, 440), narrow))

    (row,) = found(generator(propose)).stops
    assert row.cures == ()
    why = "None of 2 changes tried clears this. Nearest: a slat; that clears it, but then: "
    assert row.why_none.startswith(why)
    assert "of mdf cannot be cut" in row.why_none.removeprefix(why)


def test_what_one_change_brings_another_clears_and_both_are_one_cure():
    """Cut to 90 the lid is too short, and made 300 long after that it is neither."""

    def propose(stop):
        if stop.check.code == "too-short":
            yield Change("but not so short", patch_setting(stop.document, (LID, 300)))
        else:
            yield cut(stop, 90, "cut off", keeps=False)

    (row,) = found(generator(propose, codes=("too-long", "too-short"))).stops
    (cure,) = row.cures
    assert cure.words == "cut off; and but not so short"
    assert [one["value"] for one in cure.patch] == [90, 300]
    assert (cure.keeps, cure.leaves, row.tried) == (False, (), 2)


def test_a_stop_without_a_cure_has_more_tried_after_its_nearest_change():
    """Cut to 90 the lid is too short, and so it is from 80 to 90; the twelfth length, 300, is well."""

    def propose(stop):
        if stop.check.code == "too-short":
            yield from (cut(stop, to) for to in (*range(80, 91), 300))
        else:
            yield cut(stop, 95)

    (row,) = found(generator(propose, codes=("too-long", "too-short"))).stops
    assert [cure.words for cure in row.cures] == ["to 95; and to 300"]
    assert row.tried == 13


def test_a_cure_that_leaves_another_stop_there_says_so_and_comes_last():
    class Wide(Extra):
        def find(self, design):
            wide = [one for one in design.parts if one.id == "loose/lid" and one.width > 250_000_000]
            return (*super().find(design), *[(one.id, Finding("too-wide", "stop", "too wide")) for one in wide])

    def propose(stop):
        yield cut(stop, 450)
        yield Change("less of both", patch_setting(stop.document, (LID, 440), (LIP, 100), (WIDTH, 200)), keeps=False)

    (row,) = [row for row in found(generator(propose), check=Wide()).stops if row.check.code == "too-long"]
    assert [(cure.words, [left.code for left in cure.leaves]) for cure in row.cures] == [
        ("less of both", []),
        ("to 450", ["too-wide"]),
    ]


def test_cures_are_ranked_by_what_is_kept_then_cost_then_parts_then_mass():
    def propose(stop):
        thick = (("materials", "mdf", "thickness"), 21)
        yield cut(stop, 400, "less asked", keeps=False)
        yield Change("all thicker", patch_setting(stop.document, (LID, 400), thick))
        yield cut(stop, 420, "one part")
        yield Change("dearer", patch_setting(stop.document, (LID, 410), (("stock", "sheets", 0, "cost"), 12.5)))

    (row,) = found(generator(propose)).stops
    assert [cure.words for cure in row.cures] == ["one part", "all thicker", "dearer"]
    one, thicker, dearer = row.cures
    # One sheet of 10 holds all of it; at 12.50 it is 2.50 more. Four parts of the case and two loose ones.
    assert [str(cure.cost) for cure in row.cures] == ["0.00", "0.00", "2.50"]
    assert [cure.parts for cure in row.cures] == [1, 6, 1]
    assert (one.mass_kg, dearer.mass_kg) == (0, 0)  # loose parts hang in no cabinet
    assert thicker.mass_kg > 0


def test_a_cure_says_what_it_raises_and_how_many_stops_it_clears():
    job = copy.deepcopy(JOB)
    job["loose_parts"][1]["length"] = 460

    def propose(stop):
        yield Change("both", patch_setting(stop.document, (LID, 150), (LIP, 440)))

    lid, lip = found(generator(propose), job=job).stops
    for row in (lid, lip):
        (cure,) = row.cures
        assert cure.clears == 2
        assert [(check.code, check.subject) for check in cure.raises] == [("rather-short", "loose/lid")]


def test_a_change_is_planned_once_for_all_stops_and_tries_are_bounded():
    job = copy.deepcopy(JOB)
    job["loose_parts"][1]["length"] = 460
    steps = []
    endless = generator(lambda stop: (cut(stop, 451 + n / 10) for n in range(1000)))
    cures = found(endless, job=job, progress=lambda *step: steps.append(step))
    lid, lip = cures.stops
    assert cures.tries == limits.CURE_TRIES
    assert lid.tried == lip.tried == limits.CURE_TRIES
    assert lid.why_none == f"None of {limits.CURE_TRIES} changes tried clears this."
    reported = [step for step in steps if step[0] == "cures"]
    assert [done for _, done, _ in reported] == list(range(limits.CURE_TRIES + 1))
    assert {of for _, _, of in reported} == {limits.CURE_TRIES}


def test_stops_take_turns():
    job = copy.deepcopy(JOB)
    job["loose_parts"][1]["length"] = 460

    def propose(stop):
        at = LID if stop.check.subject == "loose/lid" else LIP
        for n in range(100):
            yield Change(f"{n}", patch_setting(stop.document, (at, 500 + n)))

    lid, lip = found(generator(propose), job=job).stops
    assert abs(lid.tried - lip.tried) <= 1


def test_enough_is_enough():
    cures = found(generator(lambda stop: (cut(stop, 450 - n) for n in range(50))))
    assert cures.tries == ENOUGH
    assert [cure.words for cure in cures.stops[0].cures] == ["to 450", "to 449", "to 448"]


def test_why_there_is_none():
    assert found().stops[0].why_none == "No change is known that clears a stop of this kind."
    fact = generator(lambda stop: (), codes=(), why_none={"too-long": "Measure it."})
    assert found(fact).stops[0].why_none == "Measure it."
    assert found(generator(lambda stop: [cut(stop, 470)])).stops[0].why_none == "The change tried does not clear this."


def test_a_material_that_is_short_is_asked_for():
    job = copy.deepcopy(JOB)
    job["cabinets"] = []
    job["loose_parts"] = [{**JOB["loose_parts"][0], "length": 400, "quantity": 40}]
    job["stock"]["sheets"][0]["copies"] = 1  # one on hand; what is bought has no number of copies

    def propose(stop):
        bought = {**JOB["stock"]["sheets"][0], "id": "bought", "copies": None}
        yield Change("more", patch_setting(stop.document, (("stock", "sheets", "-"), bought)))

    (row,) = found(generator(propose, codes=("no-stock",)), job=job).stops
    assert (row.check.code, row.check.subject) == ("no-stock", "/materials/mdf")
    # A sheet of 2440 × 1220 holds 24 of 400 × 300 along its grain (6 × 4): 16 of 40 are left over.
    assert row.check.value == 16
    (cure,) = row.cures
    assert str(cure.cost) == "10.00"


@pytest.mark.parametrize(
    "propose",
    [
        lambda stop: 1 / 0,
        lambda stop: ["lid"],
        lambda stop: [Change("", ())],
        lambda stop: [Change("bad", ({"op": "put", "path": "/a"},))],
        lambda stop: [Change("bad", ({"op": "add", "path": "/a", "value": {1, 2}},))],
        lambda stop: [Change("bad", [{"op": "remove", "path": "/a"}])],
    ],
)
def test_a_generator_that_fails_is_named(propose):
    with pytest.raises(PluginFaultError, match="made"):
        found(generator(propose))


def test_a_job_without_stops_needs_no_cure_and_text_is_read_too(job):
    answer = cures_of(orjson.dumps(job).decode())
    assert (answer["stops"], answer["cures"], answer["tries"]) == (0, [], 0)
    assert answer == cures_of(job)
