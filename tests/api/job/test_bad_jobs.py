# ruff: noqa: E501 - the table reads best with one job a row
"""Bad jobs through the app: each names the place, the rule, what was got and what to do."""

import json
from collections.abc import Callable
from copy import deepcopy
from typing import Any

import pytest
from casewright.api.job.document import read_job
from casewright.api.use.loading import installed
from casewright.sdk.errors import ProblemsError
from flask.testing import FlaskClient

Job = dict[str, Any]


def put(*steps: Any, **_: Any) -> Callable[[Job], None]:
    """Return a change that puts the last step as the value at the path of the others; `...` takes it out."""
    *path, last, value = steps

    def change(job: Job) -> None:
        at: Any = job
        for step in path:
            at = at[step]
        if value is ...:
            del at[last]
        else:
            at[last] = value

    return change


def cab(*steps: Any) -> Callable[[Job], None]:
    return put("cabinets", 0, *steps)


def more(*changes: Callable[[Job], None]) -> Callable[[Job], None]:
    def change(job: Job) -> None:
        for one in changes:
            one(job)

    return change


DOORS = {"style": "cope-and-stick", "panel": "thin"}
DEEP_SPACE: Any = {}
for _ in range(10):
    DEEP_SPACE = {"tiers": [DEEP_SPACE]}
SHEET = {"id": "a", "material": "ply", "length": 2440, "width": 1220}

BAD, UNUSABLE, IMPOSSIBLE = "bad-document", "unusable-job", "no-geometry"

TABLE: list[tuple[str, Callable[[Job], None], str, str, str, str, str]] = [
    # what is wrong, change, kind, pointer, words of the rule, of what was got, of the fix
    ("no units", put("units", ...), BAD, "/units", "needed", "nothing", '"units"'),
    ("other units", put("units", "cm"), BAD, "/units", "one of in, mm", '"cm"', "words"),
    ("title is a number", put("title", 5), BAD, "/title", "text", "5", "quotes"),
    ("title too long", put("title", "x" * 201), BAD, "/title", "200 characters", "xxx", "Shorten"),
    ("title with a line break", put("title", "a\nb"), BAD, "/title", "control characters", "a", "Remove"),
    ("unknown key", put("cabinet", []), BAD, "/cabinet", "a known key", '"cabinet"', '"cabinets"'),
    ("unknown key in a cabinet", cab("widht", 5), BAD, "/cabinets/0/widht", "a known key", '"widht"', '"width"'),
    ("a key of the job in a cabinet", cab("stock", {}), BAD, "/cabinets/0/stock", "a known key", '"stock"', '"/stock"'),
    ("a key of the job in a material", put("materials", {"ply": {"kind": "sheet", "stuff": "mdf", "thickness": 18, "rates": {}}}), BAD, "/materials/ply/rates", "a known key", '"rates"', '"/rates"'),
    ("unknown key in the case", cab("case", "bak", None), BAD, "/cabinets/0/case/bak", "a known key", "bak", '"back"'),
    ("cabinets is an object", put("cabinets", {}), BAD, "/cabinets", "an array", "an object", "array"),
    ("cabinet is text", put("cabinets", ["x"]), BAD, "/cabinets/0", "an object", '"x"', "braces"),
    ("no id", cab("id", ...), BAD, "/cabinets/0/id", "needed", "nothing", '"id"'),
    ("id with a slash", cab("id", "a/b"), BAD, "/cabinets/0/id", "digits, dots", "a/b", 'Write "a-b".'),
    ("count as text", cab("count", "2"), BAD, "/cabinets/0/count", "whole number from 1 to 500", '"2"', "quotes"),
    ("half a cabinet", cab("count", 2.5), BAD, "/cabinets/0/count", "whole number", "2.5", "fraction"),
    ("no cabinet", cab("count", 0), BAD, "/cabinets/0/count", "from 1", "0", "bounds"),
    ("too many", cab("count", 501), BAD, "/cabinets/0/count", "to 500", "501", "bounds"),
    ("count true", cab("count", True), BAD, "/cabinets/0/count", "whole number", "true", "number"),
    ("width is words", cab("width", "wide"), BAD, "/cabinets/0/width", "a length", '"wide"', "600"),
    ("width true", cab("width", True), BAD, "/cabinets/0/width", "a length", "true", "600"),
    ("width null", cab("width", None), BAD, "/cabinets/0/width", "a value", "null", "Give a value."),
    ("width negative", cab("width", -600), BAD, "/cabinets/0/width", "from 50 to 6000 mm", "-600", "bounds"),
    ("width negative text", cab("width", "-5"), BAD, "/cabinets/0/width", "from 50", '"-5"', "bounds"),
    ("width of 1 mm", cab("width", 1), UNUSABLE, "/cabinets/0/width", "from 50 to 6000 mm", "1", "bounds"),
    ("width of 20 ft", cab("width", "20 ft"), UNUSABLE, "/cabinets/0/width", "to 6000 mm", '"20 ft"', "bounds"),
    ("a fraction over zero", cab("width", "3/0"), UNUSABLE, "/cabinets/0/width", "a length", "3/0", "600"),
    ("no width", cab("width", ...), UNUSABLE, "/cabinets/0/width", "needed", "nothing", '"house"'),
    ("no case", cab("case", ...), UNUSABLE, "/cabinets/0/case", "needed", "nothing", '"case"'),
    ("no case material", cab("case", "material", ...), UNUSABLE, "/cabinets/0/case/material", "needed", "nothing", "Add"),
    ("form unknown", cab("form", "hanging"), BAD, "/cabinets/0/form", "one of wall, base, tall", "hanging", "words"),
    (
        "joint unknown",
        cab("case", "corner", {"method": "dowels"}),
        BAD,
        "/cabinets/0/case/corner/method",
        "a known corner joint",
        "dowels",
        '"dowel"',
    ),
    (
        "joint unnamed",
        cab("case", "corner", {"depth": 5}),
        BAD,
        "/cabinets/0/case/corner/method",
        "needed",
        "nothing",
        "Name a corner joint",
    ),
    ("joint is text", cab("case", "corner", "dowel"), BAD, "/cabinets/0/case/corner", "an object", "dowel", "method"),
    (
        "joint that does not do corners",
        cab("case", "corner", {"method": "applied"}),
        BAD,
        "/cabinets/0/case/corner/method",
        "a known corner joint",
        "applied",
        "one of",
    ),
    (
        "option unknown",
        cab("case", "corner", {"method": "housed-groove", "dept": 5}),
        BAD,
        "/cabinets/0/case/corner/dept",
        "a known key",
        "dept",
        '"depth"',
    ),
    (
        "option not a length",
        cab("case", "corner", {"method": "housed-groove", "depth": "deep"}),
        BAD,
        "/cabinets/0/case/corner/depth",
        "a length",
        '"deep"',
        "600",
    ),
    ("style unknown", cab("doors", {"style": "slabb"}), BAD, "/cabinets/0/doors/style", "a known door style", "slabb", '"slab"'),
    (
        "door option of another style",
        cab("doors", {"style": "slab", "stile": 50}),
        BAD,
        "/cabinets/0/doors/stile",
        "a known key",
        "stile",
        "style",
    ),
    ("mounting unknown", cab("mounting", {"method": "nails"}), BAD, "/cabinets/0/mounting/method", "a known mounting", "nails", "bevel-cleat"),
    ("mass as text", cab("mounting", {"method": "bevel-cleat", "contents_kg": "40"}), BAD, "/cabinets/0/mounting/contents_kg", "a number from 0", '"40"', "quotes"),
    (
        "mass twice",
        cab("mounting", {"method": "bevel-cleat", "contents_kg": 40, "contents_lb": 88}),
        UNUSABLE,
        "/cabinets/0/mounting/contents_lb",
        "never both",
        "both",
        "Keep one",
    ),
    ("thickness zero", put("materials", "ply", "thickness", 0), UNUSABLE, "/materials/ply/thickness", "from 0.1 to 200", "0", "bounds"),
    ("no thickness", put("materials", "ply", "thickness", ...), BAD, "/materials/ply/thickness", "needed", "nothing", "Add"),
    ("stuff unknown", put("materials", "ply", "stuff", "birch-ply"), UNUSABLE, "/materials/ply/stuff", "a known stuff", "birch-ply", '"birch-plywood"'),
    ("a board of plywood", put("materials", "oak", "stuff", "birch-plywood"), UNUSABLE, "/materials/oak/stuff", "sold as a board", "birch-plywood, a sheet", '"kind": "sheet"'),
    ("material key with a space", put("materials", "my ply", {"kind": "sheet", "stuff": "mdf", "thickness": 18}), BAD, "/materials/my ply", "digits, dots", "my ply", 'Write "my-ply".'),
    ("material unknown", cab("case", "material", "plly"), UNUSABLE, "/cabinets/0/case/material", "a key of `materials`", "plly", '"ply"'),
    ("id of other letters", cab("id", "Größe 2"), BAD, "/cabinets/0/id", "letters A to Z", "Größe", '"Grosse-2"'),
    ("id of no letter", cab("id", "柜子"), BAD, "/cabinets/0/id", "letters A to Z", "柜子", '"a-1"'),
    ("material of other letters", cab("case", "material", "-3"), BAD, "/cabinets/0/case/material", "letters A to Z", "-3", 'one of "materials"'),
    (
        "frame without a board",
        more(put("materials", {key: {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18} for key in ("ply", "thin")}), cab("face_frame", {"material": "ply"})),
        UNUSABLE,
        "/cabinets/0/face_frame/material",
        "a board",
        "ply, a sheet",
        'Add a board to "materials"',
    ),
    ("strips higher than the room", more(cab("space", {"fixed_shelves": [500]}), cab("mounting", {"method": "screw-strip", "height": 200})), IMPOSSIBLE, "/cabinets/0/mounting/height", "", "200 mm high", "less than "),
    ("case of banding", cab("case", "material", "edge"), UNUSABLE, "/cabinets/0/case/material", "sheet or board", "edge, a band", "ply"),
    ("band of sheet", cab("case", "shelf_band", "ply"), UNUSABLE, "/cabinets/0/case/shelf_band", "a band", "ply, a sheet", "edge"),
    ("frame of sheet", cab("face_frame", {"material": "ply"}), UNUSABLE, "/cabinets/0/face_frame/material", "a board", "ply, a sheet", "oak"),
    ("hinge unknown", cab("doors", {**DOORS, "hinge": "cup-25"}), UNUSABLE, "/cabinets/0/doors/hinge", "a known hinge", "cup-25", '"cup-35"'),
    ("pull unknown", cab("doors", {**DOORS, "pull": {"item": "bar-97"}}), UNUSABLE, "/cabinets/0/doors/pull/item", "a known pull", "bar-97", '"bar-96"'),
    ("panel missing", cab("doors", {"style": "cope-and-stick"}), UNUSABLE, "/cabinets/0/doors/panel", "need", "null", '"panel"'),
    ("a door and no doors", cab("space", {"front": "door"}), UNUSABLE, "/cabinets/0/space/front", "doors described", '"door"', '"doors"'),
    ("bays and tiers", cab("space", {"bays": [{}], "tiers": [{}]}), UNUSABLE, "/cabinets/0/space", "bays, or tiers", "bays", "inside"),
    ("tiers and a front", cab("space", {"tiers": [{}], "front": "door"}), UNUSABLE, "/cabinets/0/space", "bays, or tiers", "front", "into"),
    ("size and share", cab("space", {"tiers": [{"size": 99, "share": 1}]}), UNUSABLE, "/cabinets/0/space/tiers/0/share", "never both", "1", '"share"'),
    ("no tiers", cab("space", {"tiers": []}), BAD, "/cabinets/0/space/tiers", "an array of 1", "an array of 0", "Give 1 to"),
    ("too deep", cab("space", DEEP_SPACE), UNUSABLE, "/cabinets/0/space" + "/tiers/0" * 9, "8 deep", "9", "less deeply"),
    ("shelves as words", cab("space", {"fixed_shelves": "two"}), BAD, "/cabinets/0/space/fixed_shelves", "list of heights", '"two"', "[200, 400]"),
    ("a shelf height as words", cab("space", {"fixed_shelves": [200, "x"]}), BAD, "/cabinets/0/space/fixed_shelves/1", "a length", '"x"', "600"),
    ("the same id twice", put("cabinets", [{"id": "a"}, {"id": "a"}]), UNUSABLE, "/cabinets/1/id", "of its own", "a", 'such as "a-2"'),
    ("nothing to make", put("cabinets", []), UNUSABLE, "/cabinets", "needed", "nothing", "Add a cabinet or a loose part."),
    ("places do not number count", put("wall", {"cabinets_at": {"bench": [{"x": 0, "z": 0}] * 2}}), UNUSABLE, "/wall/cabinets_at/bench", "count, 1", "2 places", "count"),
    ("a place for no cabinet", put("wall", {"cabinets_at": {"bensh": [{"x": 0, "z": 0}]}}), UNUSABLE, "/wall/cabinets_at/bensh", "a known cabinet id", "bensh", '"bench"'),
    ("studs out of order", put("wall", {"studs": {"at": [900, 500], "stuff": "spruce-pine-fir"}}), UNUSABLE, "/wall/studs/at", "left to right", "500 mm after 900 mm", "Sort"),
    ("studs of plywood", put("wall", {"studs": {"at": [500], "stuff": "mdf"}}), UNUSABLE, "/wall/studs/stuff", "for studs", "mdf", "one of"),
    ("tape of the other units", put("tape", "1/64"), UNUSABLE, "/tape", "in mm", "1/64", "1/10"),
    ("tape unknown", put("tape", "1/3"), BAD, "/tape", "tape division", "1/3", "1/64"),
    ("house style unknown", put("house", {"style": "ours"}), UNUSABLE, "/house/style", "house style", "ours", "leave it out"),
    ("house unknown key", put("house", {"id": "x"}), BAD, "/house/id", "a known key", "id", "Write"),
    ("house bad value", put("house", {"case": {"top_inset": "x"}}), BAD, "/house/case/top_inset", "a length", '"x"', "600"),
    ("house bad reference", put("house", {"case": {"shelf_band": "edgee"}}), UNUSABLE, "/house/case/shelf_band", "a band", "edgee", '"edge"'),
    ("stock of unknown material", put("stock", {"sheets": [{"id": "a", "material": "plly", "length": 2440, "width": 1220}]}), UNUSABLE, "/stock/sheets/0/material", "a sheet", "plly", "ply"),
    ("an id of stock twice", put("stock", {"sheets": [SHEET], "offcuts": [SHEET]}), UNUSABLE, "/stock/offcuts/0/id", "of its own", "a", "/stock/sheets/0 has it"),
    ("effort 9", put("stock", {"effort": 9}), BAD, "/stock/effort", "from 1 to 5", "9", "bounds"),
    ("loose part of banding", put("loose_parts", [{"id": "a", "material": "edge", "length": 100, "width": 50}]), UNUSABLE, "/loose_parts/0/material", "sheet or board", "edge, a band", "ply"),
    ("grain unknown", put("loose_parts", [{"id": "a", "material": "ply", "length": 100, "width": 50, "grain": "up"}]), BAD, "/loose_parts/0/grain", "along-length", "up", "words"),
    (
        "housed groove with no wood outside it",
        more(cab("case", "top_inset", 0), cab("case", "bottom_inset", 0)),
        IMPOSSIBLE,
        "/cabinets/0/case/corner",
        "",
        "",
        "rabbet",
    ),
    ("tiers larger than the inside", cab("space", {"tiers": [{"size": 500}, {"size": 500}]}), IMPOSSIBLE, "/cabinets/0/space", "", "", ""),
    ("frame that fills the front", cab("face_frame", {"material": "oak", "stile": 310}), IMPOSSIBLE, "/cabinets/0/face_frame", "", "", ""),
]  # fmt: skip


@pytest.mark.parametrize(
    ("change", "kind", "pointer", "rule", "got", "fix"), [row[1:] for row in TABLE], ids=[row[0] for row in TABLE]
)
def test_bad_job(
    client: FlaskClient,
    changed: Callable[[Callable[[Job], None]], Job],
    change: Callable[[Job], None],
    kind: str,
    pointer: str,
    rule: str,
    got: str,
    fix: str,
) -> None:
    answer = client.post("/v1/plan", json=changed(change))
    assert answer.mimetype == "application/problem+json"
    body = answer.get_json()
    assert (answer.status_code, body["type"]) == (400 if kind == BAD else 422, f"/problems/{kind}")
    found = (
        [e for e in body["errors"] if e["pointer"].startswith(pointer)]
        if kind == IMPOSSIBLE
        else [e for e in body["errors"] if e["pointer"] == pointer]
    )
    assert found, body["errors"]
    entry = found[0]
    assert rule in entry["rule"]
    assert got in entry["got"]
    assert fix in entry["fix"]
    assert all(entry[key] for key in ("rule", "got", "fix"))


FRONT = put("cabinets", 0, "space", {"front": "door"})
SMALL = {"id": "b", "width": 600, "height": 700, "depth": 300, "case": {"material": "ply"}}
TWO_PLACED = {"cabinets_at": {"b": [{"x": 0, "z": 0}], "c": [{"x": 700, "z": 0}]}}
SHEET = {"id": "s", "material": "ply", "length": 2440, "width": 1220}
FOLLOWED: list[tuple[Callable[[Job], None], str, Callable[[Job], None]]] = [
    # what is wrong, the fix in words, what a person then does
    (put("units", "MM"), 'Write "mm".', put("units", "mm")),
    (cab("form", "Wall "), 'Write "wall".', cab("form", "wall")),
    (cab("form", "x"), "Write one of these words.", cab("form", "tall")),
    (cab("count", "2"), "Write a whole number without quotes.", cab("count", 2)),
    (cab("count", 2.5), "Write it without a fraction.", cab("count", 2)),
    (cab("count", 0), "Give one within these bounds.", cab("count", 1)),
    (cab("width", -600), "Give one within these bounds.", cab("width", 50)),
    (cab("width", ...), 'Add "width" to the cabinet or to "house".', put("house", {"width": 600})),
    (cab("case", "material", ...), 'Add "material" to the cabinet or to "house", in "case".', put("house", {"case": {"material": "ply"}})),
    (cab("id", ""), "Write something.", cab("id", "b")),
    (cab("id", " 1/a "), 'Write "1-a".', cab("id", "1-a")),
    (cab("case", "material", "ply "), 'Write "ply".', cab("case", "material", "ply")),
    (cab("case", "ply"), 'Write an object in braces with "material".', cab("case", {"material": "ply"})),
    (cab("case", "corner", "dowel"), 'Write {"method": "dowel"}.', cab("case", "corner", {"method": "dowel"})),
    (cab("case", "corner", 5), 'Write {"method": "…"} with one of: biscuit, dowel,', cab("case", "corner", {"method": "biscuit"})),
    (cab("doors", {"styel": "slab"}), 'Write "style".', cab("doors", {"style": "slab"})),
    (cab("title", None), "Give a value, or leave the key out.", more()),
    (put("cabinets", {"id": "a"}), "Write an array in square brackets.", put("cabinets", [SMALL])),
    (put("cabinets", []), "Add a cabinet or a loose part.", put("cabinets", [SMALL])),
    (FRONT, 'Add "doors" to the cabinet: {"style": "plank-and-batten"}.', more(FRONT, cab("doors", {"style": "plank-and-batten"}))),
    (cab("space", {"fixed_shelves": "two"}), "over the floor: [200, 400].", cab("space", {"fixed_shelves": [200, 400]})),
    (put("materials", "ply", "stuff", "18 mm"), 'such as "birch-plywood"', put("materials", "ply", "stuff", "birch-plywood")),
    (put("stock", {"sheets": [{**SHEET, "count": 2}]}), "Write one of: copies, cost,", put("stock", {"sheets": [{**SHEET, "copies": 2}]})),
    (put("rates", {"hour": "48"}), "Write a number without quotes.", put("rates", {"hour": 48})),
    (put("done", [1, None]), "Give a value, or take it out.", put("done", [1])),
    (cab("width", 720000), "Give one within these bounds.", cab("width", 6000)),
    (cab("name", "Bench"), "or leave it out.", more()),
    (cab("widht", 500), 'Leave it out: "width" is here already.', more()),
    (cab("doors", {"stile": 60}), "one of: cope-and-stick, mitred-frame, mortise-and-tenon; only", cab("doors", {"style": "cope-and-stick", "stile": 60, "panel": "thin"})),
    (cab("doors", {"colour": 60}), "or leave it out.", cab("doors", {"style": "slab"})),
    (cab("case", "fixed_joint", {"method": 5, "depth": 6}), "Write one of: housed-groove, sliding-dovetail, tongue-in-groove.", cab("case", "fixed_joint", {"method": "housed-groove", "depth": 6})),
    (cab("case", "fixed_joint", {"depth": 6}), "Name a tee joint, one of: housed-groove, sliding-dovetail, tongue-in-groove.", cab("case", "fixed_joint", {"method": "tongue-in-groove", "depth": 6})),
    (cab("case", "material", "sheet"), 'Write one of: oak, ply, thin; or add a sheet or board named "sheet" to "materials".', more(cab("case", "material", "sheet"), put("materials", "sheet", {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}))),
    (more(put("cabinets", [SMALL, SMALL]), put("wall", TWO_PLACED)), '/cabinets/0 has it; write another, such as "c".', more(put("cabinets", [SMALL, {**SMALL, "id": "c"}]), put("wall", TWO_PLACED))),
]  # fmt: skip


@pytest.mark.parametrize(("change", "fix", "follow"), FOLLOWED, ids=[row[1] for row in FOLLOWED])
def test_a_fix_in_words_works_when_it_is_followed(
    small: Job, change: Callable[[Job], None], fix: str, follow: Callable[[Job], None]
) -> None:
    """The commonest problems of jobs with one fault: each is cleared by what it says, and no other comes instead."""
    bad, good = deepcopy(small), deepcopy(small)
    change(bad)
    with pytest.raises(ProblemsError) as caught:
        read_job(bad, installed())
    assert [fix in problem.fix for problem in caught.value.problems] == [True]
    follow(good)
    assert read_job(good, installed())


def test_a_cabinet_that_lacks_something_is_still_known(small: Job) -> None:
    """Its places on the wall are not laid to it as those of a cabinet that is not there."""
    del small["cabinets"][0]["height"]
    small["wall"] = {"cabinets_at": {small["cabinets"][0]["id"]: [{"x": 0, "z": 0}]}}
    with pytest.raises(ProblemsError) as caught:
        read_job(small, installed())
    assert [problem.pointer for problem in caught.value.problems] == ["/cabinets/0/height"]


def test_the_table_is_as_long_as_promised() -> None:
    assert len(TABLE) >= 40


def test_the_small_job_itself_is_sound(client: FlaskClient, small: Job) -> None:
    answer = client.post("/v1/plan", json=small)
    assert answer.status_code == 200
    assert not [c for c in answer.get_json()["checks"] if c["level"] == "stop"]


def test_all_problems_come_at_once(client: FlaskClient, small: Job) -> None:
    small["cabinets"][0] |= {"count": "2", "widht": 3, "height": "tall"}
    small["materials"]["ply"]["thickness"] = None
    pointers = [e["pointer"] for e in client.post("/v1/plan", json=small).get_json()["errors"]]
    assert set(pointers) == {
        "/materials/ply/thickness",
        "/cabinets/0/count",
        "/cabinets/0/widht",
        "/cabinets/0/height",
    }


def test_out_of_bounds_and_unknown_references_come_at_once(client: FlaskClient, small: Job) -> None:
    small["cabinets"][0] |= {"height": "20 ft"}
    small["cabinets"][0]["case"]["material"] = "plly"
    body = client.post("/v1/plan", json=small).get_json()
    assert body["status"] == 422
    assert [e["pointer"] for e in body["errors"]] == ["/cabinets/0/height", "/cabinets/0/case/material"]


@pytest.mark.parametrize("document", [[], "job", 5, None, True])
def test_a_document_that_is_no_object(client: FlaskClient, document: Any) -> None:
    sent = json.dumps(document)
    body = client.post("/v1/plan", data=sent, content_type="application/json").get_json()
    assert body["status"] == 400
    assert [(e["pointer"], e["rule"]) for e in body["errors"]] == [("", "an object")]
