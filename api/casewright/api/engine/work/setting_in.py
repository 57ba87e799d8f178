"""Words for setting parts in: where from, into what of what stands there, where the glue goes, what is put in first."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from casewright.api.engine.work.assembly import Insertion
from casewright.api.engine.work.naming import joined, title
from casewright.api.engine.work.on_bench import OnBench, side_towards
from casewright.api.engine.work.steps import Steps
from casewright.api.engine.work.together import Together
from casewright.sdk.geometry import Axis, opposite
from casewright.sdk.model import Feature, FeatureKind, Joint, Part, Side

__all__ = ["Seating", "in_order", "merged", "short_name", "where_from"]

ROOMS: Mapping[FeatureKind, str] = {
    "groove": "groove",
    "rabbet": "rabbet",
    "notch": "notch",
    "mortise": "mortise",
    "loose-mortise": "mortise",
    "biscuit-slot": "slot",
    "spline-slot": "slot",
    "dovetail": "dovetail slot",
    "hole": "hole",
}
"""What a part is let into, by the kind of cut; nothing where it only stands against, as where screws hold it."""


def short_name(part: Part) -> str:
    """Return the name of a part among those it is put together with."""
    name = title(part).removesuffix(f" of {part.group.replace('-', ' ')}")
    return name if name[-1].isdigit() else f"the {name}"


def in_order(together: Together) -> str:
    """Return the parts of a sub-assembly in the order in which they go together."""
    by_id = {part.id: part for part in together.parts}
    order = together.order
    first = [order.first] if order.first else list(order.locked)
    names = [*first, *(part for step in order.insertions for part in step.parts)]
    return f"{', '.join(short_name(by_id[name]) for name in names[:-1])}, and last {short_name(by_id[names[-1]])}"


def merged(insertions: Sequence[Insertion], together: Together) -> Iterator[list[Insertion]]:
    """Yield insertions, those that follow one another and are alike in all but the part together.

    Alike are single parts of one role that move the same way into the same parts and do not meet each other.
    """
    roles = {part.id: part.role for part in together.parts}
    met: dict[str, set[str]] = {name: set() for name in roles}
    for joint in together.joints:
        met[joint.host].add(joint.guest)
        met[joint.guest].add(joint.host)
    run: list[Insertion] = []
    for one in insertions:
        if run and not (
            len(one.parts) == len(run[0].parts) == 1
            and one.legs == run[0].legs
            and roles[one.parts[0]] == roles[run[0].parts[0]]
            and met[one.parts[0]] == met[run[0].parts[0]]
        ):
            yield run
            run = []
        run.append(one)
    if run:
        yield run


@dataclass(frozen=True, slots=True)
class Seating:
    """One part that is set in: the joints it closes with what stands there, and by their ids the cuts let into."""

    part: Part
    by_id: Mapping[str, Part]
    joints: Sequence[Joint]
    rooms: Mapping[str, Sequence[Feature]]

    @classmethod
    def of(cls, together: Together, part: Part, there: Iterable[str], screws: Collection[str]) -> "Seating":
        """Return how a part sits among those that stand there; `screws` are the ids of what only holds it there."""
        standing = frozenset(there)
        joints = [joint for joint in together.joints if _other(joint, part.id) in standing]
        by_id = {one.id: one for one in together.parts}
        screwed = {line.used_for for line in together.hardware if line.item in screws}
        rooms = {one.id: _rooms(by_id[one.host], by_id[one.guest], one, screwed) for one in joints}
        return cls(part, by_id, joints, rooms)

    @property
    def into(self) -> tuple[str, ...]:
        """The parts it meets in a joint, each once."""
        return tuple(dict.fromkeys(_other(joint, self.part.id) for joint in self.joints))

    @property
    def glue(self) -> tuple[Side, ...]:
        """Its sides that take glue, each once."""
        glued = [joint for joint in self.joints if joint.glue_area_mm2 > 0]
        ways = [joint.press if joint.guest == self.part.id else opposite(joint.press) for joint in glued]
        return tuple(dict.fromkeys(side_towards(self.part, way) for way in ways))

    def place(self, alike: int = 1) -> str:
        """Return into, over or against what it is set, as one of some that are set in alike."""
        own = [joint for joint in self.joints if joint.guest == self.part.id]
        over = [joint for joint in self.joints if joint.host == self.part.id]
        words = []
        for room, joints in self._by_room(own):
            names = joined([short_name(self.by_id[joint.host]) for joint in joints])
            rooms = _places({ft for one in joints for ft in self.rooms[one.id]})
            words.append(f"into the {_plural(room, rooms * alike)} of {names}" if room else f"against {names}")
        for room, joints in self._by_room(over):
            names = joined([short_name(self.by_id[joint.guest]) for joint in joints])
            rooms = _places({ft for joint in joints for ft in self.rooms[joint.id]})
            goes = "goes" if len(joints) == 1 else "go"
            words.append(f"over {names}, which {goes} into its {_plural(room, rooms)}" if room else f"against {names}")
        return ", and ".join(words) or "in its place"

    @property
    def let_in(self) -> tuple[Joint, ...]:
        """The joints in which it is let into something, or something into it: it does not only stand against it."""
        return tuple([joint for joint in self.joints if self.rooms[joint.id]])

    def slides(self, way: Axis) -> bool:
        """Return whether it runs along what it is let into, moved a way."""
        return any(abs(joint.press) != abs(way) for joint in self.let_in)

    def spread(self, steps: Steps, each: str = "its") -> str:
        """Return where glue is spread for it, and where none may be; nothing where none is."""
        glued = [joint for joint in self.joints if joint.glue_area_mm2 > 0]
        if not glued:
            return ""
        sides, words = steps.words.sides[self.part.id], []
        own = [side_towards(self.part, joint.press) for joint in glued if joint.guest == self.part.id]
        if own:
            words.append(f"on {each} {joined(list(dict.fromkeys(sides[side] for side in own)))}")
        guests = [short_name(self.by_id[joint.guest]) for joint in glued if joint.host == self.part.id]
        free = [_other(joint, self.part.id) for joint in self.joints if joint.glue_area_mm2 <= 0]
        one = len(guests) == 1
        if all(self.rooms[joint.id] for joint in glued if joint.host == self.part.id):
            meets = "goes in" if one else "go in"
        else:
            meets = "meets it" if one else "meet it"
        if guests:
            words.append(f"where {joined(guests) if free else 'it' if one else 'they'} {meets}")
        none = f", none on {joined([short_name(self.by_id[name]) for name in free])}" if free else ""
        return f"glue {' and '.join(words)}{none}"

    def _by_room(self, joints: Sequence[Joint]) -> list[tuple[str, list[Joint]]]:
        """Return joints by what the guest is let into."""
        by_room: dict[str, list[Joint]] = {}
        for joint in joints:
            rooms = self.rooms[joint.id]
            by_room.setdefault(ROOMS[rooms[0].kind] if rooms else "", []).append(joint)
        return list(by_room.items())


def where_from(steps: Steps, insertion: Insertion, bench: OnBench) -> str:
    """Return where parts come from and, of further moves, where they go and how far."""
    first, *others = insertion.legs
    words = [bench.source(first.way) + ("" if first.by is None else f" by {steps.text(int(first.by))}")]
    words += [bench.target(leg.way) + ("" if leg.by is None else f" by {steps.text(int(leg.by))}") for leg in others]
    return ", then ".join(words)


def _rooms(host: Part, guest: Part, joint: Joint, screwed: Collection[str]) -> list[Feature]:
    """Return the cuts of a host that a guest is let into: those of their joint, or else those that it stands in.

    What the screws of a joint that is `screwed` go through is no room for the guest.
    """
    own = [feature for feature in host.features if feature.joint == joint.id and feature.kind in ROOMS]
    own = [feature for feature in own if not (feature.kind == "hole" and joint.id in screwed)]
    if own:
        return own
    shared = [feature for feature in host.features if not feature.joint and feature.kind in ROOMS]
    if not shared:
        return []
    wood = guest.place.box(guest.blank)
    return [feature for feature in shared if any(host.place.box(box).meets(wood) for box in feature.boxes)]


def _places(features: Iterable[Feature]) -> int:
    return sum(len(feature.holes) or len(feature.boxes) for feature in features)


def _plural(noun: str, count: int) -> str:
    return f"{noun}s" if count > 1 else noun


def _other(joint: Joint, name: str) -> str:
    return joint.host if joint.guest == name else joint.guest if joint.host == name else ""
