"""Rules for what is built that a schema cannot state: whose size it is, and that no piece is measured twice."""

from collections import Counter
from collections.abc import Mapping, Sequence
from typing import Any

from casewright.api.job.problems import Findings, Phrase, advice
from casewright.sdk import model
from casewright.sdk.errors import pointer_to


def check_built(job: model.Job, rows: Sequence[Mapping[str, Any]], findings: Findings) -> None:
    """Note every rule that the entries of `built` break by themselves; what the plan has to say of them comes later.

    `rows` are the entries as read.
    """
    counts = {cabinet.id: cabinet.count for cabinet in job.cabinets}
    for number, row in enumerate(rows):
        _either(pointer_to("built", number), row, findings)
    for mistake in job.mistakes:
        if mistake.cabinet not in counts:
            fix = advice(mistake.cabinet, counts)
            _note(findings, f"{mistake.pointer}/cabinet", "a known cabinet id", mistake.cabinet, fix)
        elif mistake.copy is not None and mistake.copy > counts[mistake.cabinet]:
            rule = f"a copy from 1 to {counts[mistake.cabinet]}, the cabinet's count"
            _note(findings, f"{mistake.pointer}/copy", rule, mistake.copy, "Give one of these.")
    for size in job.built:
        if size.cabinet not in counts:
            _note(findings, f"{size.pointer}/cabinet", "a known cabinet id", size.cabinet, advice(size.cabinet, counts))
            continue
        _of_what(size, findings)
        _how_many(size, counts[size.cabinet], findings)
    _each_piece_once(job, counts, findings)


def _either(pointer: str, row: Mapping[str, Any], findings: Findings) -> None:
    """Note an entry that is neither a size nor a mistake, or both, or lacks what that needs."""
    if ("measure" in row) == ("mistake" in row):
        fix = 'Write "measure" with a "value", or "mistake" with the part.'
        got = Phrase("both") if "measure" in row else None
        _note(findings, f"{pointer}/measure", "a measure or a mistake", got, fix)
        return
    needs_value = "measure" in row or row["mistake"] == model.Mistake.MEETS_NEIGHBOUR
    if needs_value and "value" not in row:
        fix = "Give what was measured."
        _note(findings, f"{pointer}/value", f"the value of {row.get('measure') or row['mistake']}", None, fix)
    if "mistake" in row and "part" not in row:
        _note(findings, f"{pointer}/part", f"the part or door of {row['mistake']}", None, 'Name it, such as "door-1".')


def _note(findings: Findings, pointer: str, rule: str, got: object, fix: str) -> None:
    findings.add(pointer, rule, got, fix, beyond_schema=True)


def _of_what(size: model.BuiltSize, findings: Findings) -> None:
    if not size.measure.of_case and size.part is None:
        fix = 'Name the part, for example "part": "side-left".'
        _note(findings, f"{size.pointer}/part", f"the part whose {size.measure} was measured", None, fix)
    if size.measure.of_case and size.part is not None:
        fix = 'Leave out "part", or measure its length, width or thickness.'
        _note(findings, f"{size.pointer}/part", f"no part: {size.measure} is of the case", size.part, fix)


def _how_many(size: model.BuiltSize, copies: int, findings: Findings) -> None:
    if size.copy is not None and size.copy > copies:
        rule = f"a copy from 1 to {copies}, the cabinet's count"
        _note(findings, f"{size.pointer}/copy", rule, size.copy, 'Give one of these, or change "count" of the cabinet.')
    if size.count is None:
        return
    if size.copy is not None or size.measure.of_case:
        rule = "a count of loose parts that belong to no copy yet"
        fix = 'Leave out "count", or leave out "copy" where the parts are still loose.'
        _note(findings, f"{size.pointer}/count", rule, size.count, fix)
    elif size.count > copies:
        fix = "Give no more than there are of this part."
        _note(findings, f"{size.pointer}/count", f"at most {copies}, one for each copy", size.count, fix)


def _each_piece_once(job: model.Job, counts: dict[str, int], findings: Findings) -> None:
    """Note a size that is measured twice at one place, and more pieces measured than there are."""
    first: dict[tuple[object, ...], str] = {}
    pieces: Counter[tuple[object, ...]] = Counter()
    for size in job.built:
        what, copies = (size.cabinet, size.part, size.measure, size.at), counts.get(size.cabinet, 0)
        if size.count is None:
            key = (*what, size.copy)
            if key in first:
                fix = f"{first[key]} has it; keep one of them, or say `at` which place each was measured."
                _note(findings, size.pointer, "each thing measured once at a place", size.measure, fix)
                continue
            first[key] = size.pointer
        pieces[what] += size.count or (copies if size.copy is None else 1)
        if pieces[what] > copies >= (size.count or 1):
            fix = "Take entries out, or make their counts smaller."
            most = "one piece in all" if copies == 1 else f"{copies} pieces in all, one for each copy"
            _note(findings, size.pointer, f"at most {most}", pieces[what], fix)
