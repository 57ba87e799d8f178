"""A question to a pile as it is read: where ranges stand, what values they have, what is refused and where."""

import pytest
from casewright.api.job import limits
from casewright.api.job.ranges import Aim, read_question
from casewright.sdk.errors import BadDocumentError


def body(units="mm", house=None, **more):
    job = {"units": units, "cabinets": [{"id": "a", **more}]}
    return {"job": {**job, "house": house} if house else job}


def refused(document, registry):
    with pytest.raises(BadDocumentError) as error:
        read_question(document, registry)
    return [(problem.pointer, problem.rule) for problem in error.value.problems]


def test_ranges_are_read_where_they_may_stand(registry):
    space = {
        "bays": [{"fixed_shelves": {"least": 1, "most": 3}}, {"loose_shelves": {"least": 0, "most": 4, "step": 2}}]
    }
    question = read_question(
        body(
            "in",
            {"depth": {"least": 10, "most": "11 1/4"}},
            width={"least": 20, "most": 22},
            count={"least": 1, "most": 2},
            space=space,
        ),
        registry,
    )
    assert question.aim is Aim.LARGEST
    # halves of an inch where no step is given; the greatest is left out where no step meets it
    assert {one.pointer: one.values for one in question.ranges} == {
        "/house/depth": (10, 10.5, 11),
        "/cabinets/0/count": (1, 2),
        "/cabinets/0/width": (20, 20.5, 21, 21.5, 22),
        "/cabinets/0/space/bays/0/fixed_shelves": (1, 2, 3),
        "/cabinets/0/space/bays/1/loose_shelves": (0, 2, 4),
    }
    job = question.job((2, 1, 4, 0, 1))
    assert job["house"] == {"depth": 11}
    assert (job["cabinets"][0]["width"], job["cabinets"][0]["count"]) == (22, 2)
    assert job["cabinets"][0]["space"] == {"bays": [{"fixed_shelves": 1}, {"loose_shelves": 2}]}


def test_a_step_in_another_unit_and_metric_default(registry):
    (one,) = read_question(body(width={"least": "20 in", "most": "21 in", "step": "1/2 in"}), registry).ranges
    assert one.values == (508, 520.7, 533.4)
    (one,) = read_question(body(width={"least": 500, "most": 520}), registry).ranges
    assert one.values == (500, 510, 520)


@pytest.mark.parametrize(
    ("document", "place"),
    [
        ([], ""),
        ({"aim": "largest"}, "/job"),
        ({**body(width={"least": 1, "most": 2}), "aim": "widest"}, "/aim"),
        ({**body(width={"least": 1, "most": 2}), "answers": 9}, "/answers"),
        ({**body(width={"least": 1, "most": 2}), "goal": 1}, "/goal"),
        (body(width=300), "/job"),
        (body(width={"least": 300}), "/job/cabinets/0/width/most"),
        (body(width={"least": 300, "most": 400, "by": 1}), "/job/cabinets/0/width/by"),
        (body(width={"least": 400, "most": 300}), "/job/cabinets/0/width"),
        (body(width={"least": "wide", "most": 300}), "/job/cabinets/0/width/least"),
        (body(width={"least": 300, "most": 400, "step": 0}), "/job/cabinets/0/width/step"),
        (body(width={"least": 300, "most": 900, "step": 1}), "/job/cabinets/0/width/step"),
        (body(count={"least": 1, "most": 2.5}), "/job/cabinets/0/count/most"),
    ],
)
def test_what_is_wrong_is_named_by_its_place(document, place, registry):
    assert place in [pointer for pointer, _ in refused(document, registry)]


def test_more_ranges_than_the_limit_are_refused(registry):
    cabinets = [{"id": f"c{i}", "width": {"least": 300, "most": 310}} for i in range(limits.RANGES + 1)]
    assert ("/job", f"at most {limits.RANGES} ranges") in refused(
        {"job": {"units": "mm", "cabinets": cabinets}}, registry
    )
