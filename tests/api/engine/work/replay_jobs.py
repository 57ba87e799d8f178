"""Generated jobs for the replay: every form, method, mounting and the plugin template, with and without stock."""

from typing import Any

from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.sdk.errors import NoGeometryError
from casewright.sdk.model import Plan
from casewright.sdk.testing import Using, jobs, registry_with
from casewright.sdk.testing.drawing import Declined
from casewright.sdk.testing.forms import CORNERS, standing_jobs
from casewright.sdk.testing.strategies import Document
from hypothesis import strategies as st
from modules import TEMPLATE, module_at

REGISTRY = registry_with(module_at(TEMPLATE))
AT_THE_END = ("rabbet", "mitre-spline")
"""Corner joints for tops and bottoms at the very ends of the sides."""


def uses() -> list[Using]:
    """Return every joint in every place it fits, every door and every mounting."""
    every = [Using()]
    for method in REGISTRY.joints.values():
        for kind in sorted(method.does):
            inset = 0 if kind == "corner" and method.id in AT_THE_END else None
            every.append(Using(**{kind: {"method": method.id}}, top_inset=inset))
    every += [Using(doors={"style": style}) for style in REGISTRY.doors]
    every += [Using(mounting={"method": mounting}) for mounting in REGISTRY.mountings]
    return every


KINDS = {"template": 1, "hung": 5, "base": 1, "tall": 1}
"""The kinds of job, with how many of each there are in as many jobs as all of them."""


@st.composite
def work_jobs(draw: st.DrawFn, kind: str | None = None) -> Document:
    """Draw a job of a kind, or of any; half of them with stock to cut from."""
    kind = kind or draw(st.sampled_from([kind for kind, share in KINDS.items() for _ in range(share)]))
    if kind == "template":
        job = draw(jobs(Using(corner={"method": "shop-plugin"}), cabinets=2))
        for cabinet in job["cabinets"]:
            cabinet["case"] |= {"top_inset": "30 mm", "bottom_inset": "30 mm"}  # wood on both sides of a housing
    elif kind == "hung":
        job = draw(jobs(draw(st.sampled_from(uses())), cabinets=2))
    else:
        job = draw(standing_jobs(forms=[kind]))
        job["cabinets"][0]["drawers"]["corner"] = {"method": draw(st.sampled_from(CORNERS))}
    shop = job.setdefault("shop", {})
    shop["groove_cutters"] = draw(st.sampled_from([[], ["1/4 in", "1/2 in"], ["6 mm", "10 mm", "12 mm"]]))
    for material in job["materials"].values():
        if material["kind"] == "board" and draw(st.booleans()):
            material["widest"] = "120 mm"
    if draw(st.booleans()):
        job["stock"] = _stock(draw, job["materials"])
    return job


def _stock(draw: st.DrawFn, materials: Document) -> Document:
    """Draw stock for every sheet and board, by sheets and offcuts or, for a board, by rough boards."""
    out: Document = {"sheets": [], "offcuts": [], "boards": []}
    for key, material in materials.items():
        if material["kind"] == "sheet":
            grain = draw(st.sampled_from(["along-length", "along-width", "free"]))
            row = {"material": key, "grain": grain}
            size = draw(st.sampled_from([("2440 mm", "1220 mm"), ("3050 mm", "1525 mm")]))
            copies = draw(st.sampled_from([None, None, 1]))
            out["sheets"].append({"id": f"{key}-sheet", **row, "length": size[0], "width": size[1], "copies": copies})
            if draw(st.booleans()):
                sizes = [f"{draw(st.integers(300, 1200))} mm", f"{draw(st.integers(200, 800))} mm"]
                out["offcuts"].append(
                    {"id": f"{key}-offcut", **row, "length": sizes[0], "width": sizes[1], "copies": 1}
                )
        elif material["kind"] == "board":
            row = {"id": f"{key}-board", "material": key, "length": "3000 mm"}
            thickness = draw(st.sampled_from([{}, {"thickness": "32 mm"}]))
            surfaced = draw(st.sampled_from([{}, {"surfaced": "two-faces"}, {"surfaced": "all-sides"}]))
            out["boards"].append({**row, "width": f"{draw(st.integers(100, 280))} mm", **thickness, **surfaced})
    out["kerf"] = draw(st.sampled_from(["1/8 in", "3 mm", "2.2 mm"]))
    out["edge_trim"] = draw(st.sampled_from([0, "3 mm", "15 mm"]))
    if draw(st.booleans()):
        out["milling"] = draw(st.sampled_from([{"length": "25 mm", "width": "6 mm"}, {"width": "4 mm"}]))
    out["order"] = draw(st.sampled_from(["by-setting", "by-sheet"]))
    if draw(st.sampled_from([False, False, True])):
        out["pieces_at_hand"] = 3
    out["effort"] = 1
    return out


def planned(job: dict[str, Any]) -> Plan:
    """Return the plan of a drawn job; one that cannot be built is drawn again."""
    try:
        return make_plan(read_job(job, REGISTRY), REGISTRY)
    except NoGeometryError:
        raise Declined from None
