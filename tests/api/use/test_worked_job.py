"""Two small jobs worked on paper from end to end: sizes, seats, mass, centre, hanging, sag, cost, booklet lines.

Every expected number is arithmetic on the job's own figures and on figures of printed sources, written out beside it;
nothing is taken from a plan. The sources, with what is taken from each:

- birch plywood data sheet (EN 315 class), read: 685 kg/m3 at 18 mm; Finnish birch plywood handbook, from memory:
  mean bending modulus 10 048 N/mm2 at 18 mm.
- FPL-GTR-282 Table 5-3b, read: yellow-poplar G 0.42 at 12 %, modulus 1.58 million psi; eq. 4-6, from memory.
- NDS 2018, read: spruce-pine-fir G 0.42, yellow-poplar 0.43; No. 10 screw 0.190 in, root 0.152, head 0.363, thread
  two thirds of 3 in, F_yb 80 000 psi; F_e 16 600 G^1.84 rounded to 50 psi (3 350 at 0.42, 3 500 at 0.43);
  withdrawal 2850 G² D; pull-through 690 π D_H G² t; C_D 0.9; eq. 12.4-1. Plywood of unknown plies G 0.42, Table
  12.3.3B, from memory. Screws 2.5 D from an edge (commentary, from memory). Lateral with a gap: TR-12, from memory.
- ANSI/KCMA A161.1 5.1, read: a shelf may sag 1/16 in a foot of span. Creep doubles a sag (FPL-GTR-190 ch. 5, read).
"""

import io
import math
import re

import pytest
from pypdf import PdfReader
from worked import CUPBOARD, IN, LB, LBF, SHELF, G, planned, screw_into_spruce, use_of


@pytest.fixture(scope="module")
def shelf(client):
    return planned(client, SHELF)


@pytest.fixture(scope="module")
def cupboard(client):
    return planned(client, CUPBOARD)


def booklet(client, job):
    answer = client.post("/v1/booklet", json=job, headers={"Accept": "application/pdf"})
    return re.sub(r"\s+", " ", " ".join(page.extract_text() for page in PdfReader(io.BytesIO(answer.data)).pages))


def sizes(plan):
    return {p["id"].split("/")[1]: (p["length"], p["width"], p["thickness"]) for p in plan["parts"]}


def seats(plan):
    return {(j["guest"].split("/")[1], j["host"].split("/")[1]): (j["seat"], j["clearance"]) for j in plan["joints"]}


# --- the shelf, in millimetres ---------------------------------------------------------------------------------------

# Side 720 × 320 × 18 = 4 147 200, less two rabbets 9 × 18 × 320 (51 840 each) and a groove 6 × 18 × 320 (34 560).
SHELF_VOLUMES = {
    "side": 4_147_200 - 2 * 51_840 - 34_560,
    "top": 582 * 320 * 18,
    "shelf": 576 * 320 * 18,
    "strip": 564 * 80 * 18,
}
SHELF_VOLUME = 2 * SHELF_VOLUMES["side"] + 2 * SHELF_VOLUMES["top"] + SHELF_VOLUMES["shelf"] + SHELF_VOLUMES["strip"]
SHELF_KG = SHELF_VOLUME * 685e-9
# Front to back all is centred on 160 but the strip, whose 18 mm end at the case's rear: 311.
SHELF_Y = (SHELF_VOLUME * 160 + SHELF_VOLUMES["strip"] * (311 - 160)) / SHELF_VOLUME


def test_shelf_sizes(shelf):
    # Top between the rabbets: 600 − 2 × 18 + 2 × 9 = 582. Shelf: 600 − 2 × 18 + 2 × 6 = 576. Strip: 600 − 2 × 18 = 564.
    assert sizes(shelf) == {
        "side-left": (720, 320, 18), "side-right": (720, 320, 18), "top": (582, 320, 18), "bottom": (582, 320, 18),
        "shelf-1": (576, 320, 18), "strip-top": (564, 80, 18),
    }  # fmt: skip


def test_shelf_seats_and_cuts(shelf):
    # Tops sit 9 (half of 18) in the sides, the shelf 6 as the job says; without fit nothing has room.
    assert seats(shelf) == {
        (guest, host): (9 if guest in ("top", "bottom") else 6, 0)
        for guest in ("top", "bottom", "shelf-1") for host in ("side-left", "side-right")
    } | {("strip-top", "top"): (0, 0)}  # fmt: skip
    # The shelf's underside stands 351 over the bottom's upper face: 18 + 351 = 369 above the floor of the case.
    (side,) = [p for p in shelf["parts"] if p["id"] == "patch/side-left"]
    cuts = {(f["kind"], f["boxes"][0]["at"][0]): f["boxes"][0]["size"] for f in side["features"]}
    assert cuts == {("rabbet", 702): [18, 320, 9], ("rabbet", 0): [18, 320, 9], ("groove", 369): [18, 320, 6]}


def test_shelf_weight_and_centre(shelf):
    # 18 852 480 mm3 × 685 kg/m3 = 12.914 kg.
    assert SHELF_VOLUME == 18_852_480
    (weight,) = shelf["weights"]
    assert weight["mass_kg"] == pytest.approx(12.914, abs=0.0005)
    # Up: sides 4 043 520 at 360 less their groove at 378; tops at 711 and 9; the shelf at 369 + 9 = 378; the strip,
    # under the top, at 720 − 18 − 40 = 662.
    side = 4_043_520 * 360 - 34_560 * 378
    up = 2 * side + 3_352_320 * (711 + 9) + SHELF_VOLUMES["shelf"] * 378 + SHELF_VOLUMES["strip"] * 662
    assert weight["centre"] == pytest.approx([300, SHELF_Y, up / SHELF_VOLUME], abs=1e-5)


def test_shelf_hanging(shelf):
    (answer,) = shelf["mounting"]
    kg = SHELF_KG + 20
    weight = kg * G
    # Contents lie centred in the open case, 160 from its front; the wall is the case's rear, 320 from the front.
    out = 320 - (SHELF_KG * SHELF_Y + 20 * 160) / kg
    assert answer["given"]["centre_out_mm"] == pytest.approx(out)
    assert answer["given"]["centre_x_mm"] == pytest.approx(120 + 300)
    assert answer["given"]["strip_low_mm"] == pytest.approx(720 - 18 - 80)
    assert answer["weight_n"] == pytest.approx(weight)
    # Screws 2.5 × 4.826 = 12.065 from the strip's edges, so their middle stands 622 + 40 = 662 over the bottom edge.
    low, high = 622 + 12.065, 622 + 80 - 12.065
    tie = weight * out / 662
    assert answer["pull_n"] == pytest.approx(tie)
    # About the bottom edge the rows share the moment by their height, but none takes less than its half of the tie;
    # the strip runs from 138 to 702 and crosses the studs at 200 and 600, which halve it.
    rows = [max(tie / 2, weight * out * d / (low**2 + high**2)) / 2 for d in (low, high)]
    # The load stands at 420, the screws' middle at 400: down W/4 ∓ W·20·200/polar, sideways W·20·27.935/polar.
    polar = 4 * (200**2 + 27.935**2)
    shears = [
        math.hypot(weight / 4 + weight * 20 * dx / polar, weight * 20 * 27.935 / polar) for dx in (-200, -200, 200, 200)
    ]
    fasteners = answer["fasteners"]
    assert [(f["at_mm"], f["up_mm"]) for f in fasteners] == [
        (x, pytest.approx(up)) for x in (200, 600) for up in (12.065, 80 - 12.065)
    ]
    assert [f["pull_n"] for f in fasteners] == pytest.approx(rows * 2)
    assert [f["shear_n"] for f in fasteners] == pytest.approx(shears)
    pull_lb, shear_lb = screw_into_spruce(18 / IN, 12.5 / IN, 0.42, 3350)
    assert answer["capacity"]["pull_n"] == pytest.approx(pull_lb * LBF, rel=1e-6)
    assert answer["capacity"]["lateral_n"] == pytest.approx(shear_lb * LBF, rel=1e-6)
    uses = [use_of(p, s, pull_lb * LBF, shear_lb * LBF) for p, s in zip(rows * 2, shears, strict=True)]
    assert [f["use"] for f in fasteners] == pytest.approx(uses, rel=1e-6)
    assert answer["use"] == pytest.approx(0.4436, abs=0.00005)


def test_shelf_sag(shelf):
    # The contents lie on bottom and shelf by their areas, 582 and 576 of 1158; each carries itself too. Span 600 − 36
    # = 564; I = 320 × 18³ / 12; 5 W L³ / (384 E I), doubled by creep. It may sag 564 / 192 = 2.9375.
    sagging = {c["subject"]: (c["value"], c["limit"], c["level"]) for c in shelf["checks"] if c["code"] == "shelf-sag"}
    inertia = 320 * 18**3 / 12
    for name, length in (("bottom", 582), ("shelf-1", 576)):
        load = (20 * length / 1158 + length * 320 * 18 * 685e-9) * G
        sag = 2 * 5 * load * 564**3 / (384 * 10_048 * inertia)
        assert sagging[f"patch/{name}"] == (pytest.approx(sag, abs=1e-6), pytest.approx(2.9375), "note")


def test_shelf_costs(shelf):
    # Parts: 2 × 720 × 320 + 2 × 582 × 320 + 576 × 320 + 564 × 80 = 1 062 720 mm2 of a sheet of 2 976 800: one sheet.
    # 2 grooves × 4 min, 4 rabbets × 5, 7 joints × 7 and hanging 25 min at 42 an hour: 5.60 + 14.00 + 34.30 + 17.50.
    costs = shelf["costs"]
    amounts = {line["item"]: line["amount"] for line in costs["lines"] if line["amount"] is not None}
    assert amounts == {"full": "61.50", "groove": "5.60", "rabbet": "14.00", "joint": "34.30", "hang": "17.50"}
    assert (costs["materials"], costs["work"], costs["total"]) == ("61.50", "71.40", "132.90")
    assert costs["hours"] == pytest.approx((8 + 20 + 49 + 25) / 60, abs=0.00005)
    # Glue: 4 rabbets 320 × (18 + 9) and 2 housings 320 × (18 + 6 + 6) are 53 760 mm2, and the strip under the top
    # 564 × 18 more, 63 912; a 6 mil film of 1.1 g/cm3 is 167.64 g/m2 (common practice, no source): 10.7 g.
    # Finish on all six faces of every part, as if apart.
    counted = {line["item"]: line["quantity"] for line in costs["lines"]}
    assert counted["glue"] == pytest.approx(0.0107, abs=0.00005)
    faces = [(720, 320)] * 2 + [(582, 320)] * 2 + [(576, 320), (564, 80)]
    assert counted["finish"] == pytest.approx(sum(2 * (a * b + 18 * (a + b)) for a, b in faces) / 1e6, abs=0.00005)


def test_shelf_booklet(client):
    text = booklet(client, SHELF)
    for line in (
        "patch 1 600 × 720 × 320 12.9 kg one person",
        # The cut list: number, parts, pieces, length and width for the saw.
        "1 both sides of patch 2 720 320",
        "2 top and bottom of patch 2 582 320",
        "3 shelf 1 of patch 1 576 320",
        "4 hanging strip of patch; length over size till measured: see Take from the work 1 564 80",
        "The terms add up to the size exactly.",
        "2 patch/top, patch/bottom 582 × 320 × 18 mm",
        "cabinet width 600 − left side thickness 18 − right side thickness 18 + rabbet depth, left side 9 + rabbet "
        "depth, right side 9",
        "3 patch/shelf-1 576 × 320 × 18 mm",
        "4 patch/strip-top 564 × 80 × 18 mm",
        "1 full ply 2440 × 1220 × 18 mm 61.50",
        "rabbet 9 0 patch/top into patch/side-left",
        "housed-groove 6 0 patch/shelf-1 into patch/side-left; patch/shelf-1 into patch/side-right",
        "patch 600 _______ × 720 _______ × 320 _______; diagonals alike _______ _______",
        # Glue on 63 912 mm2, at the spread of the worked weights.
        "glue on 639 cm², about 11 g",
        # W = (12.914 + 20) × 9.80665 = 322.8 N; rows and shares as in `test_shelf_hanging`
        "1 200.0 mm 12.1 mm 19 N 73 N 36 %",
        "4 600.0 mm 67.9 mm 20 N 89 N 44 %",
    ):
        assert line in text


# --- the cupboard, in inches -----------------------------------------------------------------------------------------

# Cubic inches. Side 30 × 12 × 3/4 = 270, less three grooves 3/4 × 12 × 1/4 (2.25) and the back's 30 × 3/4 × 1/4
# (5.625), which crosses them in three places of 3/4 × 3/4 × 1/4 (0.140 625). Top and bottom 23 × 12 × 3/4 = 207, less
# 23 × 3/4 × 1/4.
GROOVES = 3 * 2.25 + 5.625 - 3 * 0.140625
SIDE = 270 - GROOVES
TOP = 207 - 23 * 0.75 * 0.25
SHELF_IN3 = 23 * 10.5 * 0.75
BACK = 27.4375 * 22.9375 * 0.75
CLEAT = 22.5 * (3 * 0.75 - 0.75 * 0.75 / 2)
LIFT = 22.5 * 1.5 * 0.75
CUPBOARD_VOLUME = 2 * SIDE + 2 * TOP + SHELF_IN3 + BACK + CLEAT + LIFT
POPLAR = 1000 * 0.42 * 1.12 * IN**3 * 1e-9
"""Kilograms a cubic inch."""
CUPBOARD_KG = CUPBOARD_VOLUME * POPLAR


def cupboard_y():
    """Return how far behind the front the empty cupboard's centre stands, in inches."""
    # The back stands from 12 − 3/4 − 3/4 = 10.5 to 11.25, its centre at 10.875, and so do the grooves for it.
    side = 270 * 6 - 3 * 2.25 * 6 - (5.625 - 3 * 0.140625) * 10.875
    top = 207 * 6 - 23 * 0.75 * 0.25 * 10.875
    # The cabinet cleat stands from 11.25 to 12. A bevel is weighed exactly, but the centre is taken as the strip's
    # before bevelling (`moment_centre` says so): 11.625, where the bevelled strip's own is 11.642.
    cleat = CLEAT * 11.625
    moment = 2 * side + 2 * top + SHELF_IN3 * 5.25 + BACK * 10.875 + cleat + LIFT * 11.25
    return moment / CUPBOARD_VOLUME


def test_cupboard_sizes(cupboard):
    # Top and shelf: 24 − 2 × 3/4 + 2 × 1/4 = 23; the shelf stops at the back: 12 − 1 1/2 = 10 1/2 deep. The back has
    # 1/32 of room in each groove: 22 1/2 + 2 × 7/32 = 22 15/16 by 30 − 3 + 2 × 7/32 = 27 7/16. The cleat fits between
    # the sides, the wall cleat is 1/4 shorter at each end.
    assert sizes(cupboard) == {
        "side-left": (30, 12, 0.75), "side-right": (30, 12, 0.75), "top": (23, 12, 0.75), "bottom": (23, 12, 0.75),
        "shelf-1": (23, 10.5, 0.75), "back": (27.4375, 22.9375, 0.75), "cleat": (22.5, 3, 0.75),
        "wall-cleat": (22, 3, 0.75), "top-strip": (22.5, 1.5, 0.75),
    }  # fmt: skip


def test_cupboard_seats(cupboard):
    grooves = seats(cupboard)
    assert grooves["top", "side-left"] == grooves["shelf-1", "side-right"] == (0.25, 0)
    assert grooves["back", "side-left"] == grooves["back", "top"] == (0.21875, 0.03125)
    # A 45 degree bevel through 3/4 in hooks 3/4 in deep.
    assert grooves["cleat", "wall-cleat"] == (0.75, 0)


def test_cupboard_weight_and_centre(cupboard):
    # Sides 516.09, top and bottom 405.375, shelf 181.125, back 472.01, cleat 44.297, strip 25.3125: 1 644.2 cubic
    # inches of poplar at 470.4 kg/m3, 12.67 kg, 27.9 lb. The wall cleat stays on the wall.
    assert pytest.approx(1644.21, abs=0.005) == CUPBOARD_VOLUME
    (weight,) = cupboard["weights"]
    assert weight["mass_kg"] == pytest.approx(CUPBOARD_KG, abs=0.0005)
    assert weight["mass_lb"] == pytest.approx(CUPBOARD_KG / LB, abs=0.005)
    assert weight["centre"][:2] == pytest.approx([12, cupboard_y()], abs=1e-6)


def test_cupboard_hanging(cupboard):
    (answer,) = cupboard["mounting"]
    kg = CUPBOARD_KG + 40 * LB
    pounds = kg / LB
    # The wall is at 12 in; 40 lb lie half way between the front and the back at 10.5.
    out = 12 - (CUPBOARD_KG * cupboard_y() + 40 * LB * 5.25) / kg
    assert answer["given"]["centre_out_mm"] == pytest.approx(out * IN)
    # The cabinet cleat hangs under the top at 28 1/2, so from 25 1/2; the wall cleat's bevel rises 3/4 into it and it
    # is 3 high: 25 1/2 + 3/4 − 3 = 23 1/4. It runs from 4 + 3/4 + 1/4 = 5 to 27.
    assert answer["given"]["strip_low_mm"] == pytest.approx(23.25 * IN)
    assert answer["given"]["strip_left_mm"] == pytest.approx(5 * IN)
    # Screws stand in the 2 1/4 below the bevel, 2.5 × 0.190 = 0.475 from its edges.
    low, high = 0.475, 2.25 - 0.475
    assert answer["hook"]["needed_n"] == pytest.approx(pounds * LBF * out / (23.25 + 1.125))
    # A bevel of 45 degrees pulls as much as hangs on it, and holds as much before it rides up; friction resists that:
    # with an angle of 16.7 it likely holds W tan 61.7.
    assert answer["hook"]["gives_frictionless_n"] == pytest.approx(pounds * LBF)
    assert answer["hook"]["gives_with_friction_n"] == pytest.approx(pounds * LBF * math.tan(math.radians(61.7)))
    # About its lower edge the cleat is turned by the pull at 3 − 3/8 and the weight at 3/8.
    moment = pounds * (3 - 0.375) + pounds * 0.375
    rows = [max(pounds / 2, moment * d / (low**2 + high**2)) for d in (low, high)]
    # Studs at 7 and 23 have their middle at 15; the load hangs at 4 + 12 = 16: 1/2 ∓ 1 × 8/(2 × 64).
    pulls = [row * share for share in (0.5 - 1 / 16, 0.5 + 1 / 16) for row in rows]
    polar = 4 * (8**2 + 0.65**2)
    shears = [math.hypot(pounds / 4 + pounds * dx / polar, pounds * 0.65 / polar) for dx in (-8, -8, 8, 8)]
    fasteners = answer["fasteners"]
    assert [f["pull_n"] / LBF for f in fasteners] == pytest.approx(pulls)
    assert [f["shear_n"] / LBF for f in fasteners] == pytest.approx(shears)
    pull_holds, shear_holds = screw_into_spruce(0.75, 0.5, 0.43, 3500)
    assert answer["capacity"]["pull_n"] / LBF == pytest.approx(pull_holds, rel=1e-6)
    assert answer["capacity"]["lateral_n"] / LBF == pytest.approx(shear_holds, rel=1e-6)
    uses = [use_of(p, s, pull_holds, shear_holds) for p, s in zip(pulls, shears, strict=True)]
    assert [f["use"] for f in fasteners] == pytest.approx(uses, rel=1e-6)
    # Lifted 3/4 for the hook and 1/8 of play.
    assert answer["lift"] == 0.875


def test_cupboard_sag(cupboard):
    # 40 lb on 23 × 12 and 23 × 10.5: 12/22.5 and 10.5/22.5 of it, and each its own weight. Span 24 − 1 1/2 = 22 1/2;
    # E 1.58 million psi; it may sag 22.5 / 192.
    sagging = {c["subject"]: (c["value"], c["limit"]) for c in cupboard["checks"] if c["code"] == "shelf-sag"}
    for name, deep, volume in (("bottom", 12, TOP), ("shelf-1", 10.5, SHELF_IN3)):
        load = 40 * deep / 22.5 + volume * POPLAR / LB
        sag = 2 * 5 * load * 22.5**3 / (384 * 1.58e6 * deep * 0.75**3 / 12)
        assert sagging[f"tools/{name}"] == (pytest.approx(sag, abs=1e-6), pytest.approx(22.5 / 192, abs=1e-7))


def test_cupboard_booklet(client):
    text = booklet(client, CUPBOARD)
    for line in (
        "tools 1 24 × 30 × 12",
        "27.9 lb",
        # In the cut list each size stands in decimals too: 7/16 = 0.4375 and 15/16 = 0.9375.
        "back of tools 1 27 7/16 27.438 22 15/16 22.938",
        "shelf 1 of tools 1 23 10 1/2 10.5",
        "wall cleat of tools 1 22 3",
        "tools/back 27 7/16 × 22 15/16 × 3/4 in",
        "tools/shelf-1 23 × 10 1/2 × 3/4 in",
        "cabinet depth 12 − back inset and thickness 1 1/2",
        "tools/wall-cleat 22 × 3 × 3/4 in",
        "room between the sides behind the back 22 1/2 − side play, left 1/4 − side play, right 1/4",
        "housed-groove 7/32 1/32 tools/back into tools/side-left",
    ):
        assert line in text
