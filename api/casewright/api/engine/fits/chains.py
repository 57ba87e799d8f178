"""Chains of sizes between two faces of a cabinet: through the parts, and from part to part where they touch."""

import heapq
from collections import defaultdict
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import count
from operator import itemgetter

from casewright.api.engine.fits.set_ups import SetUp, SetUps
from casewright.sdk.geometry import Box
from casewright.sdk.model import Accuracy, Action, FitLink, Joint, Part

Face = tuple[str, int, str]
"""A part's id, where a face of it lies along the axis, in the cabinet frame, and the set-up that cut it, if any did."""
Making = Callable[[], FitLink]
"""What makes a link once it is gone along: few of the links between faces ever are."""
_Way = tuple[tuple[Making, bool], ...]
"""Links on the way, and whether each is gone along as it is."""
BESIDE = 1_000_000
"""A guest whose face lies this near to one of its host, in nm, lies in its groove or flush with it."""


_Span = tuple[Face, Face, Making | None]
"""From one face to another: a link, or `None` where the two touch."""
_Wasted = tuple[Face, Sequence[Box]]
"""A face, and what was cut away before it where a cut left it, in the cabinet frame."""


@dataclass(frozen=True, slots=True)
class Faces:
    """Every face of a cabinet's parts across one axis, and what lies between them."""

    axis: int
    spans: Mapping[Face, Sequence[tuple[Face, Making | None, bool]]]
    """From each face the faces that something leads to: the link, and whether it is gone along as it is."""
    wastes: Mapping[Face, Sequence[Box]]
    """What was cut away before each face that a cut left, in the cabinet frame."""

    def face(self, part: str, at: int, guest: Box) -> Face:
        """Return the face of a part that lies somewhere along the axis and was cut for a guest; else its own end."""
        there = [(face, wastes) for face, wastes in self.wastes.items() if face[:2] == (part, at)]
        return next(iter(_cut_for(there, guest)), (part, at, ""))

    def chain(self, first: Face, second: Face, without: Collection[str] = ()) -> tuple[FitLink, ...] | None:
        """Return the links from one face to another: the fewest cuts, and of equals the fewest faces.

        It goes through no part of `without`. Their lengths sum to the distance. `None` where nothing fastened leads
        from one to the other.
        """
        order = count()
        waiting: list[tuple[int, int, int, Face, _Way]] = [(0, 0, next(order), first, ())]
        reached: set[Face] = set()
        while waiting:
            cuts, hops, _, face, links = heapq.heappop(waiting)
            if face == second:
                return tuple([make() if ahead else backwards(make()) for make, ahead in links])
            if face in reached or face[0] in without:
                continue
            reached.add(face)
            for other, make, ahead in self.spans.get(face, ()):
                if other not in reached:
                    further = (*links, (make, ahead)) if make else links
                    heapq.heappush(waiting, (cuts + (make is not None), hops + 1, next(order), other, further))
        return None


def faces_across(
    axis: int,
    own: Sequence[Part],
    boxes: Mapping[str, Box],
    joints: Sequence[Joint],
    work: tuple[SetUps, Accuracy],
) -> Faces:
    """Return the faces of one cabinet's parts across an axis of it (1 across, 2 deep, 3 up).

    `boxes` are the parts' own before any cut, in the cabinet frame; `work` is how they are made.
    """
    set_ups, accuracy = work
    spans: list[_Span] = []
    wastes: defaultdict[Face, list[Box]] = defaultdict(list)
    for part in own:
        for span, waste in _in_part(axis, part, set_ups, accuracy):
            spans.append(span)
            if waste is not None:
                wastes[span[1]].append(waste)
    faces: defaultdict[str, list[_Wasted]] = defaultdict(list)
    for face in dict.fromkeys([face for span in spans for face in span[:2]]):
        faces[face[0]].append((face, wastes.get(face, ())))
    for joint in joints:
        if joint.host in faces and joint.guest in faces and not joint.clearance:
            host = _cut_for(faces[joint.host], boxes[joint.guest])
            guest = _cut_for(faces[joint.guest], boxes[joint.host])
            spans += _touching(axis, joint, (host, guest), boxes, accuracy)
    jointed = {part for joint in joints for part in (joint.host, joint.guest)}
    for part in own:
        if part.id not in jointed and abs(part.place.x) != axis:
            spans += _laid_against(axis, part.id, boxes)
    by_face: defaultdict[Face, list[tuple[Face, Making | None, bool]]] = defaultdict(list)
    for first, second, make in spans:
        by_face[first].append((second, make, True))
        by_face[second].append((first, make, False))
    return Faces(axis, by_face, wastes)


def _cut_for(faces: Sequence[_Wasted], other: Box) -> list[Face]:
    """Return the faces of a part that meet another: of those that cuts left in one place, where most of it lies."""
    if not any(map(itemgetter(1), faces)):
        return [face for face, _ in faces]
    rooms = [max([waste.shared(other) for waste in wastes]) if wastes else None for _, wastes in faces]
    most: dict[int, int] = {}
    for (face, _), room in zip(faces, rooms, strict=True):
        if room is not None:
            most[face[1]] = max(room, most.get(face[1], 1))
    return [face for (face, _), room in zip(faces, rooms, strict=True) if room is None or room == most[face[1]]]


def backwards(link: FitLink) -> FitLink:
    """Return a link as it counts gone along the other way, or where its distance is taken away."""
    return FitLink(link.part, -link.nm, link.half_width, link.set_up, link.action, link.step, -link.factor)


def _in_part(axis: int, part: Part, set_ups: SetUps, accuracy: Accuracy) -> Iterator[tuple[_Span, Box | None]]:
    """Yield the spans of one part: its size, and from its sides to the faces of its cuts and bands.

    With those of cuts goes what they take of it, in the cabinet frame.
    """
    name, at = part.id, part.place.at[axis - 1]
    own, sign = _own_axis(part, axis)
    size = (part.length, part.width, part.thickness)[own - 1]

    def link(low: int, high: int, set_up: SetUp) -> FitLink:
        nm = sign * (high - low)
        half, way = accuracy.of(set_up.action), 1 if nm >= 0 else -1
        return FitLink(name, nm, half, set_up.name, set_up.action, set_up.step, way)

    def span(low: int, high: int, make: Making, cut: str = "") -> _Span:
        return (name, at + sign * low, ""), (name, at + sign * high, cut), make

    yield span(0, size, lambda: link(0, size, set_ups.size(part, own))), None
    for face in set_ups.faces(part, own):
        if 0 < face.at < size:
            low, high = (size, size - face.at) if face.side.high else (0, face.at)
            yield span(low, high, partial(link, low, high, face.set_up), face.set_up.name), face.waste
    for band in part.bands:
        low, high = band.box.low(own), band.box.high(own)
        banded = SetUp(f"band {band.material}", Action.BAND)
        if high == 0:
            yield span(0, low, partial(link, 0, low, banded)), None
        elif low == size:
            yield span(size, high, partial(link, size, high, banded)), None


def _own_axis(part: Part, axis: int) -> tuple[int, int]:
    """Return the part's own axis along one of its cabinet, and 1 where both run the same way, else -1."""
    ways = (part.place.x, part.place.y, part.place.z)
    own = [abs(way) for way in ways].index(axis) + 1
    return own, 1 if ways[own - 1] > 0 else -1


def _touching(
    axis: int, joint: Joint, faces: tuple[Sequence[Face], Sequence[Face]], boxes: Mapping[str, Box], accuracy: Accuracy
) -> Iterator[_Span]:
    """Yield where a joint's two parts bear on one another, whose guest does not float.

    Along the way it is pressed home they bear at shoulders where there are any, or else where the guest ends. Across
    it the guest lies as its groove lets it, or flush by hand; where neither is so, it is set to a mark. `faces` are
    those of host and guest, without those that are cut for other parts.
    """
    box, (own, others) = boxes[joint.guest], faces
    low, high = box.low(axis), box.high(axis)
    if axis == abs(joint.press):
        common = {face[1] for face in own} & {face[1] for face in others}
        borne = _borne(common, (low, high), joint.press > 0)
        if borne:
            yield from ((a, b, None) for at in borne for a in own for b in others if a[1] == b[1] == at)
            return
    beside = []
    for end in (low, high):
        near = [(abs(face[1] - end), face) for face in own if end - BESIDE <= face[1] <= end + BESIDE]
        beside += [(face, (joint.guest, end, "")) for _, face in sorted(near)[:1]]
    action = Action.FIT if beside else Action.MARK
    ends = (joint.host, boxes[joint.host][axis - 1], ""), (joint.guest, low, "")
    for first, second in beside or [ends]:
        nm = second[1] - first[1]
        half, way = accuracy.of(action), 1 if nm >= 0 else -1
        yield first, second, partial(FitLink, joint.guest, nm, half, f"{joint.id} {axis}", action, None, way)


def _borne(common: Iterable[int], guest: tuple[int, int], forward: bool) -> list[int]:
    """Return where a guest bears that is pressed home: at its shoulders, or at the end that goes first."""
    faces = sorted(common)
    return [at for at in faces if at not in guest] or [at for at in faces if at == guest[forward]]


def _laid_against(axis: int, part: str, boxes: Mapping[str, Box]) -> Iterator[_Span]:
    """Yield where a part without a joint, such as a bead, is fixed flat against others; never at its ends."""
    box, low, high = boxes[part], axis - 1, axis + 2
    j, k = [way for way in range(3) if way != low]
    for other, beside in boxes.items():
        over = box[j] < beside[j + 3] and beside[j] < box[j + 3] and box[k] < beside[k + 3] and beside[k] < box[k + 3]
        if over:
            for at in {box[low], box[high]} & {beside[low], beside[high]}:
                yield (part, at, ""), (other, at, ""), None


def ends(part: Part, box: Box, axis: int) -> tuple[int, int]:
    """Return where a part begins and ends along an axis of its cabinet, bands and all; `box` is its own there."""
    for band in part.bands:
        box = box.around(part.place.box(band.box))
    return box.low(axis), box.high(axis)
