"""The context: a method's refusal finds its place, no room is refused, and of the job only what a cabinet may read."""

from dataclasses import replace

import pytest
from casewright.api.engine.construction.context import job_of
from casewright.api.job.document import read_job
from casewright.sdk.errors import NoGeometryError, PluginFaultError
from casewright.sdk.methods import CannotError
from casewright.sdk.units import mm


def test_a_refusal_is_a_problem_at_its_place_and_anything_else_the_plugins_fault(building):
    context = building().context

    def refuses():
        raise CannotError("a rule", "got", "fix it", "depth")

    with pytest.raises(NoGeometryError) as caught:
        context.call("joints", "dowel", "/cabinets/0/case/corner", refuses)
    assert caught.value.problems[0].pointer == "/cabinets/0/case/corner/depth"

    with pytest.raises(PluginFaultError) as fault:
        context.call("joints", "dowel", "/x", lambda: 1 // 0)
    assert (fault.value.plugin, fault.value.method) == ("joint-dowel", "dowel")
    assert "ZeroDivisionError" in fault.value.fault


def test_no_room_is_refused_at_zero_too_in_the_units_of_the_job(building):
    metric = building().context
    context = replace(metric, job=replace(metric.job, units="in"))
    context.require_room(1, "/x", "room", "fix")
    with pytest.raises(NoGeometryError) as caught:
        context.require_room(0, "/x", "room", "fix")
    assert caught.value.problems[0].got == "0 in"


def test_of_the_wall_a_cabinet_sees_its_own_places_and_none_without_a_mounting(document, registry):
    places = {"bay": [{"x": 100, "z": 1400}]}
    plain = read_job(document(wall={"cabinets_at": places}), registry)
    assert job_of(plain, plain.cabinets[0]).wall is None
    hung = document({"mounting": {"method": "screw-strip"}}, wall={"cabinets_at": places})
    job = read_job(hung, registry)
    wall = replace(job.wall, cabinets_at={**job.wall.cabinets_at, "other": ()})
    seen = job_of(replace(job, wall=wall), job.cabinets[0]).wall
    assert [(spot.x, spot.z) for spot in seen.cabinets_at["bay"]] == [(mm(100), mm(1400))]
    assert list(seen.cabinets_at) == ["bay"]
