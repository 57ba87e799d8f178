"""Two small jobs and a cabinet that are worked on paper, and the printed equations they are worked with.

The sources are named in `test_worked_job`; nothing here is of the code under test.
"""

import math

G, LBF, LB, IN = 9.80665, 4.4482216152605, 0.45359237, 25.4

SHELF = {
    "title": "Puncture shelf",
    "units": "mm",
    "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
    "cabinets": [
        {
            "id": "patch", "form": "wall", "width": 600, "height": 720, "depth": 320,
            "case": {
                "material": "ply", "corner": {"method": "rabbet"}, "back": None,
                "fixed_joint": {"method": "housed-groove", "depth": 6},
            },
            "space": {"fixed_shelves": [351]},
            "mounting": {"method": "screw-strip", "contents_kg": 20, "height": 80, "fastener": "screw-10-3"},
        }
    ],
    "wall": {
        "studs": {"at": [200, 600, 1000], "stuff": "spruce-pine-fir", "width": 38, "depth": 89},
        "lining": 12.5, "ceiling": 2400, "cabinets_at": {"patch": [{"x": 120, "z": 1400}]},
    },
    "shop": {"fit": 0},
    "stock": {"sheets": [{"id": "full", "material": "ply", "length": 2440, "width": 1220, "cost": 61.5}]},
    "rates": {"currency": "EUR", "hour": 42, "minutes": {"joint": 7, "hang": 25, "groove": 4, "rabbet": 5}},
}  # fmt: skip

STAND = {
    "id": "stand", "form": "base", "width": 600, "height": 700, "depth": 300,
    "case": {"material": "ply", "corner": {"method": "rabbet"}, "back": None},
    "space": {"front": "door"},
    "doors": {"style": "slab", "material": "ply", "overlay": 10, "stand_off": 2, "bore_edge": 5},
}  # fmt: skip
"""A cabinet of the shelf's plywood with a slab door 584 × 684, hung on the left, that tips when it is open."""

CUPBOARD = {
    "title": "Repair bay",
    "units": "in",
    "materials": {"poplar": {"kind": "board", "stuff": "yellow-poplar", "thickness": "3/4"}},
    "cabinets": [
        {
            "id": "tools", "form": "wall", "width": 24, "height": 30, "depth": 12,
            "case": {
                "material": "poplar", "corner": {"method": "housed-groove", "depth": "1/4"},
                "top_inset": "3/4", "bottom_inset": "3/4",
                "fixed_joint": {"method": "housed-groove", "depth": "1/4"},
                "back": {
                    "material": "poplar", "inset": "3/4", "joint": {"method": "housed-groove", "depth": "1/4"},
                },
            },
            "space": {"fixed_shelves": 1},
            "mounting": {"method": "bevel-cleat", "contents_lb": 40, "height": 3, "fastener": "screw-10-3"},
        }
    ],
    "wall": {
        "studs": {"at": [7, 23, 39], "stuff": "spruce-pine-fir", "width": "1 1/2", "depth": "3 1/2"},
        "lining": "1/2", "ceiling": 96, "cabinets_at": {"tools": [{"x": 4, "z": 54}]},
    },
    "shop": {"fit": 0},
}  # fmt: skip


def planned(client, job):
    """Return the plan document of a job."""
    answer = client.post("/v1/plan", json=job)
    assert answer.status_code == 200, answer.get_json()
    return answer.get_json()


def screw_into_spruce(side_in, gap_in, side_g, side_f_e):
    """Return (pull, lateral) in lb of a No. 10 × 3 in screw at C_D 0.9, by the printed equations alone."""
    deep = 3 - side_in - gap_in
    withdrawal = 0.9 * 2850 * 0.42**2 * 0.190 * min(2, deep)
    through = 0.9 * 690 * math.pi * 0.363 * side_g**2 * side_in
    # TR-12 mode IIIs, with root diameter 0.152 and K_D 2.2: the screw bends in the stud, the strip crushes.
    q_s, q_m, bend = side_f_e * 0.152, 3350 * 0.152, 80_000 * 0.152**3 / 6
    a, b, c = 1 / (4 * q_s) + 1 / (2 * q_m), side_in / 2 + gap_in, -q_s * side_in**2 / 4 - bend
    return min(withdrawal, through), 0.9 * (-b + math.sqrt(b * b - 4 * a * c)) / (2 * a) / 2.2


def use_of(pull, shear, pull_holds, shear_holds):
    """Return the use by NDS eq. 12.4-1."""
    load, angle = math.hypot(pull, shear), math.atan2(pull, shear)
    both = pull_holds * shear_holds
    return load * (pull_holds * math.cos(angle) ** 2 + shear_holds * math.sin(angle) ** 2) / both
