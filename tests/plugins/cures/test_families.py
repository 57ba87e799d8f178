"""Every other family of cures held to the contract of generators, each on small jobs that stop for its codes."""

import copy
from fractions import Fraction

from casewright.api import cures
from casewright.sdk.testing import CureContract

MATERIALS = {
    "ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18},
    "thin": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 9},
    "oak": {"kind": "board", "stuff": "red-oak", "thickness": 20},
}
GLASS = {"kind": "sheet", "stuff": "float-glass", "thickness": 18}
STUDS = {"at": [100, 506, 912, 1318, 1724], "stuff": "spruce-pine-fir"}


def job(cabinet=None, **more):
    """Return a job of one cabinet of 600 by 700 by 300 mm, with what is given laid over it."""
    one = {"id": "bench", "width": 600, "height": 700, "depth": 300, "case": {"material": "ply", "back": None}}
    one = {**one, **(cabinet or {})}
    return copy.deepcopy({"units": "mm", "materials": MATERIALS, "cabinets": [one], **more})


SLAB = {"style": "slab", "material": "ply"}


def doors(**more):
    """Return a pair of slab doors, with what is given laid over it."""
    return {"space": {"front": "door-pair"}, "doors": {**SLAB, **more}}


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
    # Without a gap no door moves; a bore 2 mm from the edge no hinge allows; 9 mm enter no groove 6.35 mm wide, nor do
    # 18 mm any of an oak frame 20 mm thick; two doors that each lap 12 mm of a divider 18 mm thick lap one another.
    generator = "doors"
    stopping = (
        job(doors(meeting_gap=0)),
        job(doors(hang="inset", gap=0)),
        job(doors(bore_edge=2)),
        job(doors(pull={"item": "bar-96", "from_end": 0})),  # half its holes off the door's end
        job(doors(style="cope-and-stick", material="oak", panel="thin")),
        job(doors(style="cope-and-stick", material="oak", panel="ply")),
        job({"space": {"bays": [{"front": "door"}, {"front": "door"}]}, "doors": {**SLAB, "overlay": 12}}),
        job(
            {"space": {"front": "door", "match": True}, "doors": {"style": "slab", "material": "ply"}}
        ),  # one is no row
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


def row(**wall):
    """Return two cabinets 600 wide side by side from 300 mm, each on cleats, on a wall with studs 406 mm apart."""
    hung = {
        "form": "wall", "width": 600, "height": 600, "depth": 300,
        "case": {"material": "ply", "back": {"material": "ply", "inset": 20}},
        "mounting": {"method": "bevel-cleat", "contents_kg": 5, "fastener": "lag-1-4-3", "height": 120},
    }  # fmt: skip
    whole = job(wall={"studs": {**STUDS, "at": [100 + 406 * n for n in range(10)]}, "lining": 12.7, **wall})
    whole["cabinets"] = [{"id": "a", **copy.deepcopy(hung)}, {"id": "b", **copy.deepcopy(hung)}]
    return whole


PLACES = {"a": [{"x": 300, "z": 1400}], "b": [{"x": 900, "z": 1400}]}
WINDOW = {"id": "light", "kind": "window", "x": 200, "z": 1500, "width": 300, "height": 400, "keep_clear": 20}


def test_a_row_is_moved_past_a_window_together():
    answer = cures(row(cabinets_at=PLACES, obstacles=[WINDOW], corners="left", length=1800))
    (stop,) = [one for one in answer["cures"] if one["check"]["code"] == "obstacle-hit"]
    moves = [{one["path"]: one["value"] for one in cure["patch"]} for cure in stop["cures"]]
    # The window and what is kept clear end at 520, 220 past a's left side; steps of 10.
    assert any(
        move.get("/wall/cabinets_at/a/0/x") == 520 and move.get("/wall/cabinets_at/b/0/x") == 1120 for move in moves
    )


def test_a_first_place_lies_under_the_ceiling_and_hits_nothing():
    answer = cures(row(cabinets_at={"a": PLACES["a"]}, ceiling=2050))
    (stop,) = [one for one in answer["cures"] if one["check"]["code"] == "place-unknown"]
    for cure in stop["cures"]:
        (place,) = [one["value"] for one in cure["patch"] if one["path"] == "/wall/cabinets_at/b"]
        # 600 high under 2050, and 2 in to lift it; beside a, which stands from 300 to 900.
        assert place[0]["z"] <= 2050 - 600 - 50.8
        assert place[0]["x"] >= 900


def test_a_first_place_is_found_before_what_hangs_there():
    """The first of the two fits only between the wall's end and the second, which is 600 from there."""
    answer = cures(row(cabinets_at={"b": [{"x": 600, "z": 1400}]}, length=1250))
    (stop,) = [one for one in answer["cures"] if one["check"]["code"] == "place-unknown"]
    starts = [one["value"][0]["x"] for cure in stop["cures"] for one in cure["patch"] if one["path"].endswith("_at/a")]
    assert set(starts) == {0}


def test_copies_that_are_made_wider_are_set_out_anew_or_made_as_wide_as_their_places():
    """Of two of 650, set 600 apart, the second begins at 650; a wall of 1250 has room for no more than 600 each."""

    def changed(length):
        whole = row(cabinets_at={"a": [{"x": 0, "z": 1400}, {"x": 600, "z": 1400}]}, length=length, corners="both")
        whole["cabinets"] = [{**whole["cabinets"][0], "count": 2, "width": 650}]
        (stop,) = [one for one in cures(whole)["cures"] if one["check"]["code"] == "cabinets-overlap"]
        return [{one["path"]: one["value"] for one in cure["patch"]} for cure in stop["cures"]]

    assert any(one.get("/wall/cabinets_at/a/1/x") == 650 for one in changed(4000))
    assert any(one.get("/cabinets/0/width") == 600 for one in changed(1250))


class TestStandingCures(CureContract):
    generator = "standing"
    stopping = (
        job(
            {"case": {"material": "ply", "back": {"material": "ply", "inset": 20}}},
            wall={"studs": STUDS, "cabinets_at": {"bench": [{"x": 50, "z": 1400}]}},
        ),
        # of what each strip is high for by itself, none holds this: more over one another need higher ones
        job(
            {
                "case": {"material": "ply", "back": {"material": "ply", "inset": 20}},
                "space": {"fixed_shelves": 2},
                "loading": {"shelf_psf": 20},
            },
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
        # a board 60 wide yields no front 700 high: the row of two is glued up of strips
        job(
            {"space": {"front": "door-pair", "match": True}, "doors": {"style": "slab", "material": "oak"}},
            stock={
                "sheets": [{"id": "sheet", "material": "ply", "length": 2440, "width": 1220}],
                "boards": [{"id": "oak-1", "material": "oak", "length": 3000, "width": 60, "surfaced": "all-sides"}],
                "effort": 1,
            },
        ),
    )


def test_the_least_purchase_comes_before_sheets_and_a_row_may_be_given_up():
    # two doors fit offcuts of 720 by 320 one by one, and beside each other no offcut
    offcut = {"id": "left", "material": "ply", "length": 720, "width": 320, "copies": 6}
    space = {"front": "door-pair", "match": True}
    row = {"space": space, "doors": {"style": "slab", "material": "ply", "overlay": 8}}
    answer = cures(job(row, stock={"kerf": 3, "offcuts": [offcut]}))
    (stop,) = [one for one in answer["cures"] if one["check"]["code"] == "no-stock"]
    words = [cure["words"] for cure in stop["cures"]]
    assert words[0].startswith("a piece of ")
    assert words[1] == "fronts cut from wherever they fit"
    assert words[2].startswith("sheets of ply")


class TestPaneCures(CureContract):
    # Glass is neither bored nor loaded in a joiner's shop (common practice, no source).
    generator = "panes"
    stopping = (
        job(doors(material="glass"), materials={**MATERIALS, "glass": GLASS}),
        job({"case": {"material": "ply", "back": {"material": "glass", "inset": 10}}},
            materials={**MATERIALS, "glass": GLASS}),
    )  # fmt: skip


def test_sizes_in_words_are_those_of_a_tape_where_it_shows_them():
    """In inches a size is said by the fraction that is written into the job, not rounded to three decimals."""
    pair = job(doors(meeting_gap=0), units="in", materials={"ply": MATERIALS["ply"] | {"thickness": 0.75}})
    pair["cabinets"][0] |= {"width": 24, "height": 28, "depth": 12}
    (stop,) = cures(pair)["cures"]
    (gap,) = [one for one in stop["cures"] if one["words"].startswith("a meeting gap of ")]
    said = gap["words"].removeprefix("a meeting gap of ").removesuffix(" in")
    assert "/" in said
    assert Fraction(said) == Fraction(gap["patch"][0]["value"])
