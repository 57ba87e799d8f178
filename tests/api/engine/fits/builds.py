"""A shop that is a little off: parts of a plan cut by its steps with an error a setting, and pushed together as solids.

It knows nothing of chains. Parts are boxes less what each step takes; along one axis, across the cabinet, each distance
that a machine is set to has one error for all that is cut there, and so has each material's thickness. Parts are
pushed to the left, one after another, until wood meets wood.
"""

from collections import defaultdict

from casewright.sdk.geometry import Box
from casewright.sdk.model import Action

ACROSS = 1
SAWN = (Action.RIP, Action.CROSSCUT)
SLABS = (Action.GROOVE, Action.RABBET, Action.TENON, Action.NOTCH)


class Shop:
    """One plan's work with its errors, drawn anew for every build."""

    def __init__(self, plan, chance):
        self.plan, self.chance = plan, chance
        self.parts = {part.id: part for part in plan.parts}
        self.accuracy = plan.job.shop.accuracy
        self.errors = {}
        self.sawn = defaultdict(dict)
        """By part and axis, the step that sizes it."""
        self.cuts = defaultdict(list)
        for step in plan.steps:
            for piece in step.on:
                if step.action in SAWN:
                    axis = 1 if step.action is Action.CROSSCUT else 2
                    self.sawn[piece.keeps.split(", ")[0]][axis] = step
                elif step.action in SLABS:
                    self.cuts[piece.part].append((step, piece))

    def build(self):
        """Begin a build: no error is drawn yet."""
        self.errors.clear()

    def error(self, what, action):
        """Return the error of one setting in this build: normal, 3 σ wide at most."""
        if what not in self.errors:
            half = self.accuracy.of(action)
            self.errors[what] = half * max(-1.0, min(1.0, self.chance.gauss(0.0, 1 / 3)))
        return self.errors[what]

    def size(self, part, own):
        """Return what a part measures along its own axis."""
        nominal = (part.length, part.width, part.thickness)[own - 1]
        if own == 3:
            return nominal + self.error(part.material, None)
        step = self.sawn[part.id][own]
        return nominal + self.error((step.number, "distance"), step.action)

    def solid(self, name):
        """Return the boxes that a part is made of, in the cabinet frame, its low end where the plan has it."""
        part = self.parts[name]
        ways = (part.place.x, part.place.y, part.place.z)
        own = next(number for number, way in enumerate(ways, start=1) if abs(way) == ACROSS)
        sizes = [part.length, part.width, part.thickness]
        sizes[own - 1] = self.size(part, own)
        cells = [Box(0, 0, 0, *sizes)]
        for step, piece in self.cuts[name]:
            waste = self.waste(sizes, own, step, piece)
            cells = [cell for one in cells for cell in less(one, waste)]
        placed = [part.place.box(cell) for cell in cells]
        low = min(cell.x0 for cell in placed)
        return [cell.moved(part.place.box(part.blank).x0 - low) for cell in placed]

    def waste(self, sizes, own, step, piece):
        """Return what one step takes of a part, in its frame; its settings are off along axis `own` alone."""
        spans = [(0, sizes[0]), (0, sizes[1]), (0, sizes[2])]
        setting = step.setting
        ways = [(piece.down, 0, setting.height or 0, "height")]
        if setting.cutter:
            begins = setting.fence or 0
            ways.append((piece.against, begins, begins + setting.cutter, "fence"))
        for side, start, end, name in ways:
            off = self.error((step.number, name), step.action) if side.axis == own else 0
            start, end = (start and start + off), end + off
            size = sizes[side.axis - 1]
            spans[side.axis - 1] = (size - end, size - start) if side.high else (start, end)
        (x0, x1), (y0, y1), (z0, z1) = spans
        return Box(x0, y0, z0, x1, y1, z1)

    def pushed(self, names):
        """Return the boxes of parts pushed together to the left, by part: each until it meets one that stands there."""
        nominal = {name: self.parts[name].place.box(self.parts[name].blank).x0 for name in names}
        out = {}
        for name in sorted(names, key=lambda one: (nominal[one], one)):
            own = self.solid(name)
            shifts = [a.x1 - b.x0 for cells in out.values() for a in cells for b in own if before(a, b)]
            out[name] = [cell.moved(max(shifts, default=0)) for cell in own]
        return out

    def across(self, names):
        """Return how wide parts are, pushed together."""
        cells = [cell for solid in self.pushed(names).values() for cell in solid]
        return max(cell.x1 for cell in cells) - min(cell.x0 for cell in cells)

    def opening(self, names, item):
        """Return the room between parts pushed together, on the line through the middle of an item."""
        part = self.parts[item]
        box = part.place.box(part.blank)
        x, y, z = ((box[i] + box[i + 3]) / 2 for i in range(3))
        cells = [cell for solid in self.pushed(names).values() for cell in solid]
        beside = [cell for cell in cells if cell.y0 < y < cell.y1 and cell.z0 < z < cell.z1]
        return min(cell.x0 for cell in beside if cell.x0 > x) - max(cell.x1 for cell in beside if cell.x1 < x)


NEAR = 5_000_000
"""Faces farther apart than this as planned, in nm, are no two that meet."""


def before(a, b):
    """Return whether one box, pushed right, would meet another."""
    beside = a.y0 < b.y1 and b.y0 < a.y1 and a.z0 < b.z1 and b.z0 < a.z1
    return beside and a.x1 <= b.x0 + NEAR


def less(box, waste):
    """Return boxes that fill what of a box lies outside another."""
    if not box.meets(waste):
        return [box]
    out, left = [], list(box)
    for i in range(3):
        if waste[i] > left[i]:
            out.append(Box(*[waste[i] if j == i + 3 else v for j, v in enumerate(left)]))
            left[i] = waste[i]
        if waste[i + 3] < left[i + 3]:
            out.append(Box(*[waste[i + 3] if j == i else v for j, v in enumerate(left)]))
            left[i + 3] = waste[i + 3]
    return out
