"""What wood operations take from a part, worked out apart from the replay: by cells of a grid on the part's blank.

Only the kinematics that `casewright.sdk.model.operations` states are used: from `down` up, from `against` inward, from
`leads` along. Slabs are filled into a grid; slants and bores are compared by where they lie.
"""

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np

WAYS = ("end", "edge", "face")


def span_of(side, near, far, size):
    """Return the axis of a side and a span measured inward from it, as bounds along the axis."""
    way, end = side.split("-")
    i = WAYS.index(way)
    return i, (near, far) if end == "low" else (size[i] - far, size[i] - near)


def taken(step, piece, size):
    """Return what one operation takes from a part of a size: ("slab" | "slant" | "bore", where it lies), or nothing.

    Raises `ValueError` where the sides leave open where that is.
    """
    s = step.setting
    if piece.down is None or piece.against is None:
        raise ValueError("no side")
    if s.turn_deg is not None:  # seen from above as a tilt is seen from the end, from the side at the saw's fence on
        if piece.leads is None:
            raise ValueError("no side at the saw's fence")
        setting = replace(s, fence=s.stop, stop=None, tilt_deg=s.turn_deg, turn_deg=None)
        piece = replace(piece, down=piece.leads, leads=piece.down)
        return taken(replace(step, setting=setting), piece, size)
    if piece.at and s.height is not None and s.tilt_deg is None:
        return [("slab", slab) for slab in pockets(s, piece, size)]
    if piece.at:
        return [("bore", (*bore, s.height, s.end)) for bore in bores(s, piece, size)]
    if s.tilt_deg is not None and s.tilts is not None and s.cutter is not None:
        return [("slant", slot(s, piece, size))]
    up = (s.depth or 0, s.height) if s.tilt_deg is None else (s.depth or 0, (s.depth or 0) + s.height)
    wide = s.cutter or 0 if s.tilt_deg is None else round(s.height * math.tan(math.radians(s.tilt_deg)))
    spans = dict([span_of(piece.down, *up, size), span_of(piece.against, s.fence, s.fence + wide, size)])
    if len(spans) < 2:
        raise ValueError("two sides along one way")
    (run,) = {0, 1, 2} - spans.keys()
    if s.end is None:
        if piece.leads is not None and WAYS.index(piece.leads.split("-")[0]) != run:
            raise ValueError("two sides along one way")
        spans[run] = (0, size[run])
    else:
        spans |= dict([span_of(piece.leads, s.start or 0, s.end, size)])
        if len(spans) < 3:
            raise ValueError("two sides along one way")
    bounds = tuple(spans[i] for i in range(3))
    if s.tilt_deg is None:
        return [("slab", bounds)]
    if s.tilts is None:  # a dovetail cutter's: as wide at its mouth as the cutter
        return [("slant", (bounds, piece.down, piece.against.split("-")[0], s.cutter))]
    upright = (piece.against.endswith("low")) == (s.tilts == "near")
    return [("slant", (bounds, piece.down, piece.against.split("-")[0], upright))]


def slot(setting, piece, size):
    """Return where a slot square into a bevel lies: its middle at the bevel, the ways it goes, its section, its run."""
    if piece.down.split("-")[0] == piece.against.split("-")[0] or setting.tilts != "far":
        raise ValueError("no slot")
    middle = dict([
        span_of(piece.down, setting.depth, setting.depth, size),
        span_of(piece.against, setting.fence, setting.fence, size),
    ])  # fmt: skip
    (run,) = {0, 1, 2} - middle.keys()
    along = (0, size[run]) if setting.end is None else span_of(piece.leads, setting.start or 0, setting.end, size)[1]
    section = (setting.cutter, setting.height, setting.tilt_deg)
    return tuple(sorted(middle.items())), tuple(sorted((piece.down, piece.against))), section, along


def pockets(setting, piece, size):
    """Yield the slab at each place, which begins that far from `against` and from `leads`."""
    ways(piece)
    for across, along in piece.at:
        run = WAYS.index(piece.leads.split("-")[0])
        spans = dict(
            [
                span_of(piece.down, setting.depth or 0, setting.height, size),
                span_of(piece.against, across, across + (setting.cutter or 0), size),
                (run, (0, size[run]))
                if setting.end is None
                else span_of(piece.leads, along, along + setting.end, size),
            ]
        )
        yield tuple(spans[i] for i in range(3))


def ways(piece):
    """Check that each way of a piece is measured from one side."""
    if len({side.split("-")[0] for side in (piece.down, piece.against, piece.leads)}) < 3:
        raise ValueError("two sides along one way")


def bores(setting, piece, size):
    ways(piece)
    i = WAYS.index(piece.down.split("-")[0])
    deep = size[i] if setting.depth is None else min(setting.depth, size[i])
    for place in piece.at:
        centre = dict(span_of(side, d, d, size) for side, d in zip((piece.against, piece.leads), place, strict=True))
        yield (piece.down, deep, setting.cutter, tuple(sorted((i, a) for i, (a, _) in centre.items())))


def wood_taken(part, steps):
    """Return all that operations take from a part: its bores and slants, and its slabs by bounds."""
    size = (part.length, part.width, part.thickness)
    out = {"slab": set(), "slant": set(), "bore": set()}
    for step in steps:
        for piece in step.on:
            if piece.part == part.id and piece.down is not None:
                for kind, where in taken(step, piece, size):
                    out[kind].add(where)
    return out


def alike(part, one, other):
    """Return whether two sets of cuts take the same wood from a part."""
    if one["slant"] != other["slant"] or one["bore"] != other["bore"]:
        return False
    size = (part.length, part.width, part.thickness)
    marks = []
    for i in range(3):
        edges = {0, size[i]}
        for bounds in one["slab"] | other["slab"]:
            edges.update(min(max(b, 0), size[i]) for b in bounds[i])
        marks.append(sorted(edges))
    middles = [np.array([a + b for a, b in pairwise(m)], dtype=float) / 2 for m in marks]
    return bool((filled(middles, one["slab"]) == filled(middles, other["slab"])).all())


def filled(middles, slabs):
    grid = np.zeros([len(m) for m in middles], dtype=bool)
    for bounds in slabs:
        inside = [(low < m) & (m < high) for m, (low, high) in zip(middles, bounds, strict=True)]
        grid |= inside[0][:, None, None] & inside[1][None, :, None] & inside[2][None, None, :]
    return grid
