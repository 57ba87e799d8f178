"""Joints of narrow parts: a fastener that does not fit is refused, and what the refusal offers works."""

import re
from collections.abc import Iterator
from itertools import product
from typing import Any

import pytest
from casewright.api import plan
from casewright.sdk.errors import NoGeometryError, Problem

FASTENED = ("biscuit", "dowel", "loose-tenon", "pocket-screw", "screwed-butt")


def _job(case: dict[str, Any], **cabinet: Any) -> dict[str, Any]:
    ply = {"kind": "sheet", "stuff": "birch-plywood"}
    return {
        "units": "mm",
        "materials": {"ply": {**ply, "thickness": 18}, "thin": {**ply, "thickness": 6}},
        "cabinets": [
            {
                "id": "bench",
                "form": "base",
                "width": 600,
                "height": 800,
                "depth": 560,
                "case": {"material": "ply", "back": {"material": "thin", "inset": 12}, **case},
                **cabinet,
            }
        ],
    }


def _refusals(job: dict[str, Any]) -> tuple[Problem, ...]:
    try:
        plan(job)
    except NoGeometryError as error:
        return error.problems
    return ()


def _refusal(job: dict[str, Any]) -> Problem | None:
    return next(iter(_refusals(job)), None)


def _stretchers() -> Iterator[tuple[str, int, dict[str, Any]]]:
    yield from product(FASTENED, (20, 24, 30, 40, 70, 80), [{}, {"count": 2}])
    yield from product(("screwed-butt",), (20, 24), [{"gauge": 14}])


@pytest.mark.parametrize(("method", "width", "options"), list(_stretchers()))
def test_a_narrow_stretcher_is_joined_or_refused_with_a_width_that_works(
    method: str, width: int, options: dict[str, Any]
) -> None:
    """No method answers a cut outside its part; widening the stretcher as the refusal says is enough."""
    case = {"top_kind": "stretchers", "stretcher": width, "corner": {"method": method, **options}}
    refused = _refusals(_job(case))
    if not refused:
        return
    assert all("bottom_corner" in one.fix for one in refused)
    widths = [re.search(r"Make stretcher \w+ ([\d.]+) mm or more along the joint", one.fix) for one in refused]
    assert all(widths), refused
    enough = max(float(wide[1]) for wide in widths if wide)
    assert not _refusals(_job({**case, "stretcher": enough}))


def test_stretchers_take_another_joint_than_the_bottom() -> None:
    """A housing in the middle of a board suits a bottom that stands in, and no stretcher at the sides' ends."""
    grooved = {"method": "housed-groove"}
    case = {"top_kind": "stretchers", "corner": grooved, "bottom_inset": 30}
    refused = _refusal(_job(case))
    assert refused is not None
    assert "stretcher front" in refused.fix
    assert "bottom_corner" in refused.fix
    assert "top_inset" in refused.fix
    assert _refusal(_job({**case, "corner": {"method": "rabbet"}, "bottom_corner": grooved})) is None
    inset = re.search(r"set top_inset to ([\d.]+) mm", refused.fix)
    assert inset
    assert _refusal(_job({**case, "top_inset": float(inset[1])})) is None


@pytest.mark.parametrize("up", [0, 2, 6])
@pytest.mark.parametrize("method", ["housed-groove", "rabbet", "applied"])
def test_a_drawers_bottom_is_refused_with_what_works(up: int, method: str) -> None:
    drawers = {"material": "ply", "bottom": "thin", "front": "ply", "bottom_up": up, "bottom_joint": {"method": method}}
    case = {"corner": {"method": "dowel"}}
    inside = {"space": {"front": "drawer", "drawers": 3}}
    refused = _refusal(_job(case, drawers=drawers, **inside))
    if refused is None:
        assert (up == 0) == (method == "rabbet") or (up > 0 and method == "housed-groove")
        return
    other = re.search(r"the method ([\w-]+)", refused.fix)
    assert other
    if method == "applied":
        assert "`bottom_up` of 6 mm" in refused.fix
        cured = {**drawers, "bottom_up": 6, "bottom_joint": {"method": other[1]}}
    elif up:
        cured = {**drawers, "bottom_joint": {"method": other[1]}}
    else:
        set_up = re.search(r"set bottom_up to ([\d.]+) mm", refused.fix)
        assert set_up
        cured = {**drawers, "bottom_up": float(set_up[1]), "bottom_joint": {"method": "housed-groove"}}
    assert _refusal(_job(case, drawers=cured, **inside)) is None


@pytest.mark.parametrize("thickness", [5, 6, 8, 12])
def test_a_dowel_that_is_offered_fits(thickness: int) -> None:
    """Dowels of the catalogue begin at 6 mm: in thinner stock none is offered, else one that fits is named."""
    job = _job({"corner": {"method": "rabbet"}}, space={"front": "drawer", "drawers": 3})
    job["materials"]["box"] = {"kind": "sheet", "stuff": "birch-plywood", "thickness": thickness}
    corner = {"method": "box-dowel", "dowel": "dowel-12-40"}
    drawers = {"material": "box", "bottom": "thin", "front": "ply", "corner": corner}
    job["cabinets"][0]["drawers"] = drawers
    refused = _refusal(job)
    assert refused is not None
    offered = re.search(r"Use (dowel-[\w-]+)", refused.fix)
    assert bool(offered) == (thickness > 6)
    if offered:
        corner["dowel"] = offered[1]
        assert _refusal(job) is None
