"""Cautions of screws and holes that run into cuts: what each says to do is done to generated jobs, and it is gone.

The jobs are drawn by a seed, each always the same: bays with doors and shelves, their joints bored or cut for loose
pieces. What a caution says to do is read from its words, as a person at the bench reads it.
"""

import copy
import random
import re

import pytest

CODES = ("plate-meets-cut", "plate-meets-plate", "holes-meet")
BORED = ("pocket-screw", "screwed-butt", "dowel", "loose-tenon", "biscuit", "housed-groove")
SEEDS, JOBS_FULL = (5, 17, 22, 69, 74, 82, 99, 105, 119, 162), 400
"""Jobs of the default run, which have such cautions, and how many are drawn with `--full`."""


def drawn(seed):
    """Return a cabinet, its case and the materials of a job."""
    draw = random.Random(seed)
    bays = []
    for _ in range(draw.choice((2, 2, 3))):
        bay = {"front": "door", "hinge_side": draw.choice(("left", "right"))} if draw.random() < 0.8 else {}
        if draw.random() < 0.15:
            bay = {"front": "door-pair"}
        shelf = 244 + 32 * draw.randrange(-4, 8) + draw.choice((0, 0, 3, 12))  # its screws beside pins of the next bay
        bay |= draw.choice(({}, {"loose_shelves": 2}, {"loose_shelves": 1}, {"fixed_shelves": [shelf]}))
        bays.append(bay)
    doors = {"style": "slab", "material": "case", "hinges": draw.choice((2, 3)), "overlay": 7, "meeting_gap": 3}
    cabinet = {"width": draw.randrange(900, 1400, 50), "depth": draw.choice((264, 264, 320, 320, 300)), "doors": doors}
    cabinet |= {"height": draw.randrange(650, 950, 10), "space": {"bays": bays}}
    case = {"corner": {"method": draw.choice(("rabbet", "rabbet", "dowel", "screwed-butt", "pocket-screw"))}}
    case |= {"back": {"material": "case", "inset": 20}, "fixed_joint": {"method": draw.choice(BORED)}}
    case |= {"pins": {"from_front": draw.choice((37, 65, 65))}}
    thick = {"kind": "sheet", "stuff": "birch-plywood", "thickness": draw.choice((15, 18, 24, 24))}
    return cabinet, case, {"case": thick}


def followed(job, message):
    """Return the job with what a caution says to do done to it, or nothing where it names no one change."""
    cabinet, case, materials = copy.deepcopy(job)
    if joint := re.search(r"set `case\.(\w+)` to ([\w-]+)", message):
        case[joint[1]] = {"method": joint[2]}
    elif door := re.search(r"hinge door-(\d+) on its (left|right)", message):
        fronts = [one for bay in cabinet["space"]["bays"] for one in [bay] * (1 + (bay.get("front") == "door-pair"))]
        fronts = [one for one in fronts if "front" in one]
        fronts[int(door[1]) - 1]["hinge_side"] = door[2]
    elif thick := re.search(r"stuff ([\d.]+) mm thick", message):
        materials["case"]["thickness"] = float(thick[1])
    else:
        return None
    return cabinet, case, materials


def test_what_a_caution_says_to_do_ends_it(planned, full):
    done = dict.fromkeys(CODES, 0)
    for seed in range(JOBS_FULL) if full else SEEDS:
        job = drawn(seed)
        plan = planned(job[0], job[1], materials=job[2])
        stops = {(one.code, one.subject) for one in plan.checks if one.level == "stop"}
        for check in [one for one in plan.checks if one.code in CODES]:
            what, _, fix = check.message.partition("; ")
            changed = followed(job, fix)
            assert changed is not None, (seed, check.message)
            after = planned(changed[0], changed[1], materials=changed[2])
            about = [one.message.partition("; ")[0] for one in after.checks if one.code == check.code]
            assert what not in about, (seed, check.message)
            assert {(one.code, one.subject) for one in after.checks if one.level == "stop"} <= stops, (seed, fix)
            done[check.code] += 1
    assert all(done.values()), done


@pytest.mark.parametrize(("thickness", "meet"), [(21, True), (22, False)])
def test_two_pairs_on_one_divider_want_it_thick(planned, thickness, meet):
    """11 mm of screw from each side are 22; a pair's door cannot hinge on its other side."""
    stuff = {"case": {"kind": "sheet", "stuff": "birch-plywood", "thickness": thickness}}
    doors = {"style": "slab", "material": "case", "hinges": 2, "overlay": 7, "meeting_gap": 3}
    cabinet = {"width": 1200, "space": {"bays": [{"front": "door-pair"}, {"front": "door-pair"}]}, "doors": doors}
    case = {"corner": {"method": "rabbet"}, "back": {"material": "case", "inset": 20}}
    found = [one.message for one in planned(cabinet, case, materials=stuff).checks if one.code == "plate-meets-plate"]
    assert [one.endswith("make the case of stuff 22 mm thick or more") for one in found] == ([True] if meet else [])
