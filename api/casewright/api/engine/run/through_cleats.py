"""Wall cleats that run on through notched sides: one strip for neighbours, judged with all of them on it and with each.

A cabinet whose mounting leaves its wall strip reaching the case's outside hangs on one strip with the neighbour that
does so too. The strip is listed with the cabinet it begins behind. Copies of one cabinet are notched alike: where one
copy meets none at a side at which another does, its strip ends within it.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from casewright.api.engine.cabinet import CabinetPlan
from casewright.api.engine.construction.answer_rules import LEVELS
from casewright.api.engine.construction.case import LEFT, RIGHT
from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.draft import Draft
from casewright.api.engine.judge.hanging import BESIDE_MM, hanging_checks, mounted_at
from casewright.api.engine.judge.mounting_case import NO_PLACE, spots_of, strips_of
from casewright.api.engine.judge.wall_fasteners import wall_hardware
from casewright.sdk.engineering.hanging import hang
from casewright.sdk.engineering.hanging_case import HangingCase, HangingResult
from casewright.sdk.engineering.hanging_places import one_strip
from casewright.sdk.engineering.units import NM_PER_MM
from casewright.sdk.findings import Finding
from casewright.sdk.geometry import Axis, Box
from casewright.sdk.methods import Hanging
from casewright.sdk.model import Check, HungCabinet, Joint, Part, Term

_OF_EACH = frozenset({"hook-rides-up", "anti-lift-missing", "lift-room", "contents-assumed", "contents-centred"})
"""What is found of each cabinet by itself, whatever else hangs on its strip."""


@dataclass(frozen=True, slots=True)
class _End:
    """One cabinet at one place whose wall strip reaches its outside at an end, left or right."""

    plan: CabinetPlan
    fixing: Hanging
    strip: Draft
    hung: HungCabinet

    @property
    def case(self) -> HangingCase:
        """The cabinet on its own part of the strip."""
        return self.hung.case

    @property
    def ends_at(self) -> tuple[int, int]:
        """Where the strip ends within the case, left and right, in the cabinet frame: short of its sides."""
        drafts, play = self.plan.construction.drafts, self.fixing.end_play
        return drafts[LEFT].box.x1 + play, drafts[RIGHT].box.x0 - play

    @property
    def left(self) -> int:
        """Where the cabinet's frame stands along the wall, in nm."""
        return round(self.case.left_mm * NM_PER_MM)


@dataclass(frozen=True, slots=True)
class _Answer:
    """One place on a shared strip: the cabinet with what is found there, and the strip where it begins behind it."""

    hung: HungCabinet
    strip: Part | None


def joined_cleats(cabinets: Sequence[CabinetPlan]) -> tuple[CabinetPlan, ...]:
    """Return cabinets with the wall strips of neighbours that run through made one; the others as they are."""
    ends = [end for one in cabinets for end in _ends(one)]
    if not ends:
        return tuple(cabinets)
    answers: dict[str, _Answer] = {}
    alone: dict[str, Check] = {}
    numbers: dict[str, int] = {}
    rows = list(_rows(ends))
    met = _met(rows)
    for open_row in rows:
        row = _closed(open_row, met)
        whole = one_strip([end.case for end in row])
        faults = [(end, why) for end, why in _faults(row, whole) if why]
        if faults or isinstance(whole, str):
            alone |= {end.hung.place: Check(end.hung.place, _alone(why)) for end, why in faults}
            continue
        first = row[0].plan.id
        numbers[first] = numbers.get(first, 0) + 1
        answers |= _hung_on_one(row, whole, numbers[first])
    return tuple([_with_answers(one, answers, alone) for one in cabinets])


def _ends(plan: CabinetPlan) -> Iterator[_End]:
    fixing = plan.fixing
    if fixing is None or not any(fixing.through) or spots_of(plan.construction) == NO_PLACE:
        return
    strips = strips_of(plan.construction, fixing)
    for hung in plan.hung:
        if len(strips) == 1:
            yield _End(plan, fixing, strips[0], hung)


def _rows(ends: Sequence[_End]) -> Iterator[list[_End]]:
    """Yield places side by side whose facing ends both run through, from the left."""
    ordered = sorted(ends, key=lambda end: (end.case.bottom_mm, end.case.left_mm))
    row: list[_End] = []
    for end in ordered:
        if row and not _meet(row[-1], end):
            yield row
            row = []
        row.append(end)
    yield row


def _meet(left: _End, right: _End) -> bool:
    apart = right.case.left_mm - (left.case.left_mm + left.case.width_mm)
    near = left.case.bottom_mm == right.case.bottom_mm and 0.0 <= round(apart, 6) <= BESIDE_MM
    return near and left.fixing.through[1] and right.fixing.through[0]


_Met = frozenset[tuple[str, int]]
"""Sides, 0 left and 1 right, at which some copy of a cabinet meets a neighbour's strip, by the cabinet's id."""


def _met(rows: Sequence[Sequence[_End]]) -> _Met:
    pairs = [pair for row in rows for pair in pairwise(row)]
    return frozenset([met for left, right in pairs for met in ((left.plan.id, 1), (right.plan.id, 0))])


def _closed(row: Sequence[_End], met: _Met) -> list[_End]:
    """Return a row whose strip ends within its first and last cabinet, where other copies of these go on through."""
    out = list(row)
    for at, side in ((0, 0), (len(row) - 1, 1)):
        end = out[at]
        if end.fixing.through[side] and (end.plan.id, side) in met:
            out[at] = _shortened(end, side)
    return out


def _shortened(end: _End, side: int) -> _End:
    box = end.strip.box
    by = end.ends_at[0] - box.x0 if side == 0 else box.x1 - end.ends_at[1]
    name = ("left", "right")[side]
    strip = _longer(end.strip, (-1, 1)[side], -by, (Term(f"ends within the {name} side", -by),))
    shorter = replace(end.case.strip, length_mm=end.case.strip.length_mm - by / NM_PER_MM)
    if side == 0:
        shorter = replace(shorter, left_mm=shorter.left_mm + by / NM_PER_MM)
    through = (end.fixing.through[0] and side != 0, end.fixing.through[1] and side != 1)
    hung = replace(end.hung, case=replace(end.case, strip=shorter))
    return replace(end, strip=strip, fixing=replace(end.fixing, through=through), hung=hung)


def _faults(row: Sequence[_End], whole: HangingCase | str) -> Iterator[tuple[_End, str]]:
    """Yield each place with why its strip cannot be made one with its neighbour's; nothing where it can."""
    for number, end in enumerate(row):
        nobody = (
            "no neighbour's wall cleat meets the one that runs through its side: notch the neighbour's facing side, "
            "and both sides of a cabinet that is made more than once"
        )
        open_left = end.fixing.through[0] and number == 0
        open_right = end.fixing.through[1] and number == len(row) - 1
        yield end, nobody if open_left or open_right else whole if isinstance(whole, str) else ""


def _alone(why: str) -> Finding:
    return Finding("cleat-through", "stop", f"The wall cleat cannot run through: {why}.", source="common-practice")


def _hung_on_one(row: Sequence[_End], whole: HangingCase, number: int) -> dict[str, _Answer]:
    """Return what hanging comes to at each place of a row that hangs on one strip, by the place."""
    first, write = row[0], row[0].plan.construction.write
    whole = replace(whole, anti_lift=None, reach_mm=None)
    together = hang(whole, write)
    studs = together.caught_studs_mm if whole.wall.kind == "studs" else whole.wall.studs_at_mm
    places = tuple(end.hung.place for end in row)
    key = first.strip.key if number == 1 else f"{first.strip.key}-{number}"
    strip = _strip(row, key)
    answers: dict[str, _Answer] = {}
    for end in row:
        wall = replace(whole.wall, studs_at_mm=studs or whole.wall.studs_at_mm)
        case = replace(end.case, strip=whole.strip, wall=wall, reach_mm=None)
        result = _worse(hang(case, write), together, len(row))
        hung = HungCabinet(end.hung.place, case, result, places, strip.id)
        answers[end.hung.place] = _Answer(hung, strip if end is first else None)
    return answers


def _worse(alone: HangingResult, together: HangingResult, count: int) -> HangingResult:
    """Return the result of one cabinet by itself with what is worse when all of them hang on the strip."""
    by_code = {finding.code: finding for finding in alone.findings}
    for finding in together.findings:
        if finding.code not in _OF_EACH and _rank(finding) > _rank(by_code.get(finding.code)):
            by_code[finding.code] = finding
    if count > 1:
        by_code["one-cleat"] = _one_cleat(count, together)
    findings = tuple(sorted(by_code.values(), key=lambda finding: LEVELS.index(finding.level)))
    uses = [use for use in (alone.use, together.use) if use is not None]
    worst = together if together.use is not None and together.use == max(uses) else alone
    return replace(
        alone,
        use=max(uses) if len(uses) == 2 else None,
        fasteners=worst.fasteners,
        capacity=worst.capacity,
        likely=worst.likely,
        proofs=worst.proofs,
        findings=findings,
    )


def _one_cleat(count: int, together: HangingResult) -> Finding:
    message = (
        f"{count} cabinets hang on one wall cleat that runs through their notched sides; its fasteners are judged with "
        "all of them on it and with each by itself."
    )
    return Finding("one-cleat", "note", message, together.weight_n, None, "N", "statics")


def _rank(finding: Finding | None) -> tuple[int, float]:
    if finding is None:
        return -1, 0.0
    value = finding.value if isinstance(finding.value, (int, float)) else 0.0
    return len(LEVELS) - LEVELS.index(finding.level), value


def _strip(row: Sequence[_End], key: str) -> Part:
    """Return the one strip, in the frame of the cabinet it begins behind."""
    first = row[0]
    draft = replace(first.strip, key=key)
    for before, end in pairwise(row):
        gap = end.left - before.left - before.strip.box.x1 + end.strip.box.x0
        terms = [Term(f"behind {end.plan.id}", end.strip.box.x1 - end.strip.box.x0)]
        if gap:
            terms.insert(0, Term(f"gap to {end.plan.id}", gap))
        draft = _longer(draft, 1, sum(term.nm for term in terms), tuple(terms))
    return draft.finished(first.plan.id, 1)


def _longer(draft: Draft, way: Axis, by: int, why: tuple[Term, ...]) -> Draft:
    """Return a strip longer at its left (-1) or right end (1), its bevel with it."""
    at = draft.box.high(1) if way > 0 else draft.box.low(1)

    def grown(box: Box) -> Box:
        return box.grown(way, by) if (box.high(1) if way > 0 else box.low(1)) == at else box

    features = [
        replace(
            feature,
            boxes=tuple([grown(box) for box in feature.boxes]),
            wedges=tuple([wedge._replace(box=grown(wedge.box)) for wedge in feature.wedges]),
        )
        for feature in draft.features
    ]
    return replace(draft.grown(way, by, why), features=tuple(features))


def _with_answers(plan: CabinetPlan, answers: Mapping[str, _Answer], alone: Mapping[str, Check]) -> CabinetPlan:
    """Return a cabinet with what was found at its places, its own strip replaced by those that begin behind it."""
    own = [answers.get(hung.place) for hung in plan.hung]
    extra = tuple([alone[hung.place] for hung in plan.hung if hung.place in alone])
    cleats = [one for one in own if one is not None]
    if plan.fixing is None or len(cleats) < len(own) or not cleats:
        return replace(plan, stays=(*plan.stays, *extra)) if extra else plan
    hung = tuple([one.hung for one in cleats])
    (short,) = [draft.key for draft in strips_of(plan.construction, plan.fixing)]
    strips = tuple([one.strip for one in cleats if one.strip is not None])
    parts = (*(part for part in plan.parts if part.id != f"{plan.id}/{short}"), *strips)
    construction = _on_other(plan.construction, f"{plan.id}/{short}", hung[0].cleat)
    return replace(
        plan,
        construction=construction,
        parts=parts,
        hung=hung,
        mounted=tuple([mounted_at(mounted, one) for mounted, one in zip(plan.mounted, hung, strict=True)]),
        stays=hanging_checks(construction, plan.fixing, hung),
        on_wall=wall_hardware(construction, plan.fixing, hung),
    )


def _on_other(built: Construction, short: str, host: str) -> Construction:
    """Return a construction whose hook takes hold of the one strip."""
    joints: list[Joint] = [replace(one, host=host) if one.host == short else one for one in built.joints]
    return replace(built, joints=tuple(joints))
