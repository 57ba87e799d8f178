"""What a pile yields, as it leaves: the best few jobs, what each comes to, and what none is worth more than."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from casewright.api.job.ranges import Aim, PileQuestion, Range
from casewright.api.wire.described import flag, number, one, record, rows, size, text, texts, whole, word
from casewright.api.wire.lengths import Document
from casewright.api.wire.plan_document import answer_document, plan_document, stop_count
from casewright.api.wire.plan_schema import Summary, answer_schema
from casewright.api.wire.stock_schema import StockAfter, StockLacking, StockPurchase
from casewright.sdk.model import Check, Job, Plan
from marshmallow import Schema

SECTIONS = ("summary", "checks", "stock")
LITRE_MM3 = 10**6
CUBIC_FOOT_MM3 = 304.8**3
SQUARE_FOOT_M2 = 0.3048**2


@dataclass(frozen=True, slots=True)
class PileAnswer:
    """A job that the pile yields: its document, the values its ranges have, its worth, and its whole plan."""

    document: Any
    values: tuple[float | int, ...]
    worth: tuple[int, ...]
    plan: Plan
    ranges: tuple[Range, ...]


@dataclass(frozen=True, slots=True)
class PileResult:
    """The answers, best first, the bound on what any is worth (None: none is possible), and how many were tried.

    Where there is no answer, `least` is the plan of the least sizes, which says what the pile has too little of.
    """

    question: PileQuestion
    job: Job
    answers: tuple[PileAnswer, ...]
    bound: tuple[int, ...] | None
    tried: int
    least: Plan | None = None


RangeValue = record(
    "RangeValue",
    "A range of the job, and the value it has in an answer.",
    pointer=text("JSON Pointer into the job"),
    value=number("the value, a length in the job's units or a count"),
)

_VOLUMES = {
    "volume_l": "outside volume of all cabinets in litres",
    "volume_cu_ft": "the same in cubic feet, of jobs in inches",
    "parts_area_m2": "area of all parts in square metres",
    "parts_area_sq_ft": "the same in square feet, of jobs in inches",
}
_OF_INCHES = ("volume_cu_ft", "parts_area_sq_ft")

FromStockBound = record(
    "FromStockBound",
    "What no job of the ranges is worth more than, over the stated grid.",
    possible=flag("whether any is possible"),
    **{name: number(about, required=False) for name, about in _VOLUMES.items()},
    how=text("how it is known"),
)


def from_stock_view(job: type[Schema]) -> type[Schema]:
    """Return the schema of the answer of `/v1/from-stock`, whose jobs are of a schema."""
    answer = record(
        "FromStockAnswer",
        "A whole job, what its plan comes to, what it buys, and the stock after it.",
        values=rows(RangeValue, "the values its ranges have"),
        changed=size("by how much sizes of a fixed job are changed in all", required=False),
        job=one(job, "the job"),
        summary=rows(Summary, "a line a cabinet"),
        stops=texts("codes of its stops"),
        **{name: number(about, required=name not in _OF_INCHES) for name, about in _VOLUMES.items()},
        use=number("share of the area cut that becomes parts"),
        buy=rows(StockPurchase, "what to buy"),
        after=one(StockAfter),
        best=flag("proved: no job of the ranges is worth more"),
    )
    return answer_schema(
        "FromStockView",
        "The best few jobs that the stock yields; the stops are those of the first.",
        aim=word("what is aimed at", *Aim),
        answers=rows(answer, "the best first"),
        bound=one(FromStockBound),
        lacking=rows(StockLacking, "without answers: what the least sizes lack"),
        not_on_hand=texts("ids of stock that was not counted on: of no stated number of copies"),
        tries=whole("jobs tried"),
    )


def stop_codes(checks: Iterable[Check]) -> frozenset[str]:
    """Return the codes of the stops among checks."""
    return frozenset(check.code for check in checks if check.level == "stop")


def outside_volume(job: Job) -> int:
    """Return the outside volume of all cabinets of a job in cubic nanometres."""
    return sum(one.count * one.width * one.height * one.depth for one in job.cabinets)


def from_stock_document(result: PileResult, made_by: Mapping[str, Any], fingerprint: str) -> Document:
    """Return the result as JSON values."""
    inches = result.job.units == "in"
    answer = {
        "aim": result.question.aim,
        "answers": [_answer(one, result, inches) for one in result.answers],
        "bound": _bound(result, inches),
        "lacking": _lacking(result.least),
        "not_on_hand": _not_on_hand(result),
        "tries": result.tried,
    }
    stops = stop_count(result.answers[0].plan.checks) if result.answers else 0
    return answer_document(result.job, stops, answer, (made_by, fingerprint))


def _lacking(least: Plan | None) -> list[Document]:
    if least is None or least.stock is None:
        return []
    written = plan_document(least, {}, "", ("stock",))
    return list(written["stock"]["lacking"])


def _not_on_hand(result: PileResult) -> list[str]:
    """Return the ids of stock that is only to be bought, where an answer may buy none."""
    if not result.question.aim.on_hand_only or result.job.stock is None:
        return []
    return [piece.id for piece in result.job.stock.pieces if piece.copies is None]


def _answer(answer: PileAnswer, result: PileResult, inches: bool) -> Document:
    plan = answer.plan
    written = plan_document(plan, {}, "", SECTIONS)
    stock = written["stock"]
    area = sum(part.length * part.width * part.quantity for part in plan.parts)
    return {
        "values": [
            {"pointer": one.pointer, "value": value} for one, value in zip(answer.ranges, answer.values, strict=True)
        ],
        **_changed(answer, result),
        "job": answer.document,
        "summary": written["summary"],
        "stops": sorted(stop_codes(plan.checks)),
        **_volume(outside_volume(plan.job) / 1e18, inches),
        **_area(area / 1e18, inches),
        "use": stock["use"],
        "buy": stock["buy"],
        "after": stock["after"],
        "best": bool(result.bound and answer.worth and answer.worth[0] >= result.bound[0]),
    }


def _changed(answer: PileAnswer, result: PileResult) -> Document:
    """Return by how much the sizes of a fixed job are changed in all, in job units."""
    if result.question.aim is not Aim.LEAST_CHANGE:
        return {}
    pairs = zip(answer.ranges, answer.values, strict=True)
    return {"changed": sum(abs(float(one.values[0]) - float(value)) for one, value in pairs)}


def _volume(mm3: float, inches: bool) -> Document:
    out: Document = {"volume_l": mm3 / LITRE_MM3}
    return {**out, "volume_cu_ft": mm3 / CUBIC_FOOT_MM3} if inches else out


def _area(m2: float, inches: bool) -> Document:
    out: Document = {"parts_area_m2": m2}
    return {**out, "parts_area_sq_ft": m2 / SQUARE_FOOT_M2} if inches else out


def _bound(result: PileResult, inches: bool) -> Document:
    how = "the area and the longest parts that the stock holds, at the steps given; smaller is taken to need no more"
    if result.question.aim is Aim.LEAST_CHANGE:
        return {"possible": bool(result.answers), "how": "nothing is proved of changes"}
    if result.bound is None:
        return {"possible": False, "how": how}
    if result.question.aim is Aim.LEAST_LEFT:
        return {"possible": True, **_area(result.bound[0] / 1e18, inches), "how": how}
    return {"possible": True, **_volume(float(result.bound[0]), inches), "how": how}
