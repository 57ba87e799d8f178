"""What leaves the service of the worked jobs: cuts, summaries, reasons and tables, worked by hand from the job.

The sizes are those of `test_worked_job` in tests/api/use.
"""

import copy
import csv
import io

import pytest
from casewright.sdk.model.fits import HALF_WIDTHS
from worked import CUPBOARD, SHELF, STAND, planned


@pytest.fixture(scope="module")
def both(client):
    """Return the plan of the shelf and of a cabinet with a door, side by side in one job."""
    job = copy.deepcopy(SHELF)
    job["cabinets"].append(STAND)
    return planned(client, job)


def part(plan, key):
    (one,) = [p for p in plan["parts"] if p["id"] == key]
    return one


def table(client, view, job):
    answer = client.post(f"/v1/{view}", json=job, headers={"Accept": "text/csv"})
    return list(csv.DictReader(io.StringIO(answer.get_data(as_text=True), newline="")))


def test_cuts_across_a_side(both):
    # Rabbets 18 wide, 9 deep at 702 and 0 from the lower end; the groove 18 wide, 6 deep at 369.
    cuts = part(both, "patch/side-left")["features"]
    assert [(f["kind"], f["along"], f["offset"], f["width"], f["depth"]) for f in cuts] == [
        ("rabbet", "width", 702, 18, 9), ("rabbet", "width", 0, 18, 9), ("groove", "width", 369, 18, 6),
    ]  # fmt: skip
    # The left side lies with its inner face down, the right one with it up.
    assert {f["face"] for f in cuts} == {"face-low"}
    assert {f["face"] for f in part(both, "patch/side-right")["features"]} == {"face-high"}
    assert cuts[2]["text"] == "18.0 mm wide, 6.0 mm deep, 369.0 mm from end-low"
    assert cuts[2]["boxes"] == [{"at": [369, 0, 0], "size": [18, 320, 6]}]


def test_hinge_cups_of_a_door(both):
    # Centres 17.5 + 5 from the hinge edge, 80 from both ends; 7.19 million mm3 of birch plywood at 685 kg/m3 weigh
    # 4.93 kg, so two hinges do (to 5 kg, published charts). Bored 12.5 deep from the back.
    door = part(both, "stand/door-1/slab")
    (cups,) = [f for f in door["features"] if f.get("diameter") == 35]
    along = door["length"]
    assert along == 684
    assert cups["depth"] == 12.5
    assert sorted(at[0] for at in cups["at"]) == [80, 604]
    assert {at[1] for at in cups["at"]} in ({22.5}, {584 - 22.5})
    assert cups["text"] == "2 holes 35.0 mm across, 12.5 mm deep"


def test_the_bevel_of_a_cleat(client):
    plan = planned(client, CUPBOARD)
    (bevel,) = part(plan, "tools/wall-cleat")["features"]
    # The wall cleat is 22 × 3 × 3/4: the wedge of 3/4 by 3/4 lies along its upper edge.
    assert bevel["angle_deg"] == 45
    assert bevel["text"] == "slants 45 degrees from square"
    (wedge,) = bevel["wedges"]
    assert (wedge["at"], wedge["size"], wedge["along"]) == ([0, 2.25, 0], [22, 0.75, 0.75], "length")


def test_a_line_a_cabinet(both):
    shelf, stand = both["summary"]
    assert (shelf["width"], shelf["height"], shelf["depth"]) == (600, 720, 320)
    assert shelf["text"] == "600.0 mm × 720.0 mm × 320.0 mm"
    # 12.9 kg is under the 15 that one may lift; two hinges to buy.
    assert (shelf["hands"], shelf["stops"]) == (1, [])
    assert stand["stops"] == ["anti-tip"]
    assert {row["item"]: row["quantity"] for row in stand["buy"]}["cup-35"] == 2


def test_reasons_in_one_line(client):
    rows = {row["id"]: row for row in table(client, "parts", CUPBOARD)}
    assert rows["tools/wall-cleat"]["why_length"] == (
        "room between the sides behind the back 22.5 - side play, left 0.25 - side play, right 0.25"
    )
    assert rows["tools/shelf-1"]["why_width"] == "cabinet depth 12 - back inset and thickness 1.5"
    assert (rows["tools/back"]["length"], rows["tools/back"]["length_text"]) == ("27.4375", "27 7/16 in")


def test_cut_steps_in_working_order(client):
    # One sheet: two rips at 320, then every length at its own distance, the strip last. Each distance is set once.
    # Perfect work, so that the strip does not wait to be measured for.
    job = {**SHELF, "shop": {**SHELF.get("shop", {}), "accuracy": dict.fromkeys([*HALF_WIDTHS, "sheet"], 0)}}
    rows = table(client, "stock", job)
    made = {}
    for row in rows:
        made.setdefault(float(row["fence"] or row["stop"]), set()).update((row["keeps"], row["leaves"]))
    assert {"patch/side-left", "patch/side-right"} <= made[720]
    assert {"patch/top", "patch/bottom"} <= made[582]
    assert "patch/shelf-1" in made[576]
    assert "patch/strip-top" in made[80]
    numbers = [int(row["number"]) for row in rows]
    assert numbers == sorted(numbers)
    document = planned(client, job)
    quoted = {cut["step"]: cut["fence"] for layout in document["stock"]["layouts"] for cut in layout["cuts"]}
    settings = {step["number"]: step["setting"] for step in document["steps"]}
    assert quoted == {number: settings[number].get("fence", settings[number].get("stop")) for number in set(numbers)}


def test_checks_come_stops_first(client, both):
    job = copy.deepcopy(SHELF)
    job["cabinets"].append(STAND)
    rows = table(client, "checks", job)
    levels = [row["level"] for row in rows]
    assert levels == sorted(levels, key=["stop", "caution", "note"].index)
    assert levels[0] == "stop"
    assert len(rows) == len(both["checks"])
