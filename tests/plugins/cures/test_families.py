"""Every other family of cures held to the contract of generators, each on small jobs that stop for its codes."""

import copy

from casewright.sdk.testing import CureContract

MATERIALS = {
    "ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18},
    "thin": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 9},
    "oak": {"kind": "board", "stuff": "red-oak", "thickness": 20},
}
STUDS = {"at": [100, 506, 912, 1318, 1724], "stuff": "spruce-pine-fir"}


def job(cabinet=None, **more):
    """Return a job of one cabinet of 600 by 700 by 300 mm, with what is given laid over it."""
    one = {"id": "bench", "width": 600, "height": 700, "depth": 300, "case": {"material": "ply", "back": None}}
    one = {**one, **(cabinet or {})}
    return copy.deepcopy({"units": "mm", "materials": MATERIALS, "cabinets": [one], **more})


def doors(**more):
    """Return a pair of slab doors, with what is given laid over it."""
    return {"space": {"front": "door-pair"}, "doors": {"style": "slab", "material": "ply", **more}}


class TestJointCures(CureContract):
    # Grooves half the wood deep from both sides of a divider leave none (trade arithmetic, no source).
    generator = "joints"
    stopping = (
        job(
            {
                "case": {"material": "ply", "back": None, "fixed_joint": {"method": "housed-groove", "depth": 9}},
                "space": {"bays": [{"fixed_shelves": 1}, {"fixed_shelves": 1}]},
            }
        ),
        job({"case": {"material": "ply", "back": None, "corner": {"method": "loose-tenon"}}},
            shop={"machines": ["table-saw", "crosscut-sled", "drill"]}),
    )  # fmt: skip


class TestDoorCures(CureContract):
    # Without a gap no door moves; a bore 2 mm from the edge no hinge allows; 9 mm enter no groove 6.35 mm wide.
    generator = "doors"
    stopping = (
        job(doors(meeting_gap=0)),
        job(doors(hang="inset", gap=0)),
        job(doors(bore_edge=2)),
        job(doors(style="cope-and-stick", material="oak", panel="thin")),
    )


class TestPlaceCures(CureContract):
    generator = "places"
    stopping = (
        job(
            {"form": "base", "base": {"kind": "plinth", "height": 100}},
            wall={
                "studs": STUDS,
                "length": 3000,
                "cabinets_at": {"bench": [{"x": 200, "z": 0}]},
                "obstacles": [{"id": "pipe", "kind": "pipe", "x": 150, "z": 0, "width": 100, "height": 2000}],
            },
        ),
        job(
            {"form": "base", "base": {"kind": "plinth", "height": 100}, "height": 900},
            wall={"studs": STUDS, "ceiling": 880, "cabinets_at": {"bench": [{"x": 200, "z": 0}]}},
        ),
    )


class TestStandingCures(CureContract):
    generator = "standing"
    stopping = (
        job(
            {"case": {"material": "ply", "back": {"material": "ply", "inset": 20}}},
            wall={"studs": STUDS, "cabinets_at": {"bench": [{"x": 50, "z": 1400}]}},
        ),
    )


class TestStockCures(CureContract):
    generator = "stock"
    stopping = (
        job(
            stock={
                "sheets": [{"id": "sheet", "material": "ply", "length": 800, "width": 400, "copies": 1}],
                "effort": 1,
            }
        ),
    )
