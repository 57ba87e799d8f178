"""What must hold for every fit, refusal and plan, as assertions that say what is wrong."""

import re
from collections.abc import Collection, Container, Iterable
from math import isfinite
from typing import get_args

from casewright.sdk.geometry import Axis, Box
from casewright.sdk.methods import CannotError, Fit
from casewright.sdk.model import Feature, FeatureKind, Finding, HardwareUse, Level, Part, Plan, total
from casewright.sdk.sources import SOURCES
from casewright.sdk.units import Units, exact_text

_RAW_NM = 100_000
"""A length of a finding from here on was meant in nm: 0.1 mm of them, or 100 m."""

_FOREIGN: dict[Units, re.Pattern[str]] = {
    "in": re.compile(r"\d\s*(?:nm|mm|cm|mm2|m2|N|kg)\b"),
    "mm": re.compile(r"\d\s*(?:nm|lb|lbf|sq ft)\b|\d in\b(?! (?:a|an|the|\d))"),
}
"""What a message in a job's units does not hold; "2 in 18 mm" counts things and is no length."""


def assert_fit(fit: object) -> None:
    """Assert that an answer is a fit of whole nm, whose reason sums to its growth exactly."""
    assert isinstance(fit, Fit), f"fit() answered {type(fit).__name__}, not a Fit"
    for name in ("growth", "seat", "clearance"):
        value = getattr(fit, name)
        assert type(value) is int, f"{name} is {value!r}; lengths are whole nm (int)"
    assert fit.clearance >= 0, f"clearance is {fit.clearance}, below zero"
    for name in ("why", "host", "guest", "hardware", "findings"):
        assert isinstance(getattr(fit, name), tuple), f"{name} is a {type(getattr(fit, name)).__name__}, not a tuple"
    for term in fit.why:
        assert type(term.nm) is int, f"the term {term.label!r} is {term.nm!r}; lengths are whole nm (int)"
        assert term.label, "a term of the reason has no label"
    assert total(fit.why) == fit.growth, (
        f"the reason sums to {exact_text(total(fit.why))}, growth is {exact_text(fit.growth)}"
    )
    assert isfinite(fit.glue_area_mm2), f"glue area is {fit.glue_area_mm2!r}"
    assert fit.glue_area_mm2 >= 0, f"glue area is {fit.glue_area_mm2!r} mm2"
    for feature in (*fit.host, *fit.guest):
        _assert_whole(feature)


def _assert_whole(feature: Feature) -> None:
    kinds, axes = get_args(FeatureKind), get_args(Axis)
    assert feature.kind in kinds, f"{feature.label} is of the kind {feature.kind!r}; kinds are {', '.join(kinds)}"
    assert feature.entry in axes, f"{feature.label} has the entry {feature.entry!r}; an axis is one of {axes}"
    lengths = [n for box in feature.boxes for n in box]
    lengths += [n for wedge in feature.wedges for n in wedge.box]
    for hole in feature.holes:
        lengths += [*hole.mouth, hole.diameter, hole.depth]
        assert hole.diameter > 0, f"{feature.label}: a hole of diameter {hole.diameter}"
        assert hole.depth > 0, f"{feature.label}: a hole {hole.depth} deep"
    assert lengths, f"{feature.label} takes nothing away"
    for n in lengths:
        assert type(n) is int, f"{feature.label} holds {n!r}; lengths are whole nm (int)"
    for box in feature.waste_boxes:
        assert box.volume > 0, f"{feature.label} has a box without volume: {_sizes(box.size)}"


def assert_extras(
    hardware: Iterable[HardwareUse], findings: Iterable[Finding], known: Container[str] = SOURCES
) -> None:
    """Assert that hardware is named and counted and that findings have a level, words and a source among `known`."""
    for use in hardware:
        assert use.item, "hardware has no id"
        assert use.name, f"hardware {use.item!r} has no name"
        assert use.count > 0, f"{use.count} of {use.item}"
    for finding in findings:
        assert finding.level in get_args(Level), f"{finding.code} has the level {finding.level!r}"
        assert finding.code, "a finding has no code"
        assert finding.message, f"finding {finding.code} has no message"
        for value in (finding.value, finding.limit):
            raw = finding.unit == "mm" and isinstance(value, (int, float)) and abs(value) >= _RAW_NM
            assert not raw, f"finding {finding.code} gives {value} mm; a length in nm has the unit LENGTH"
        assert not finding.source or finding.source in known, (
            f"finding {finding.code} cites {finding.source!r}, which casewright.sdk.sources does not list; "
            "a trade habit is `common-practice`"
        )


def assert_listed(findings: Iterable[Finding], sources: Collection[str]) -> None:
    """Assert that a method which lists its sources cites no other."""
    for finding in findings:
        there = not sources or not finding.source or finding.source in sources
        assert there, f"finding {finding.code} cites {finding.source!r}, which `sources` of the method does not list"


def assert_refusal(error: CannotError, options: Iterable[str]) -> None:
    """Assert that a refusal says the rule, what was got and what would do, and blames an option there is.

    What was got may be white space, for it may be the job's own words; the rule and the fix may not.
    """
    for name in ("rule", "got", "fix"):
        value = getattr(error, name)
        assert isinstance(value, str), f"a refusal's {name} is {value!r}, not text"
        assert value if name == "got" else value.strip(), f"a refusal has no {name}"
    known = sorted(options)
    assert not error.field or error.field in known, f"a refusal blames {error.field!r}; options are {', '.join(known)}"


def assert_words(texts: Iterable[str], units: Units) -> None:
    """Assert that texts for people hold no quantity in other units than the job's: `Writer` writes them."""
    for text in texts:
        assert not _FOREIGN[units].search(text), (
            f"a job in {'inches' if units == 'in' else 'millimetres'} reads: {text}; write quantities by `write`, as "
            "write.length(nm) does"
        )


def assert_cuts_inside(parts: Iterable[Part]) -> None:
    """Assert that no cut reaches outside the part it is made in."""
    for part in parts:
        for feature in part.features:
            cut = feature.envelope()
            assert part.blank.holds(cut), (
                f"{feature.label!r} reaches outside {part.id}: a cut of {_sizes(cut.size)} {_beyond(cut, part.blank)}"
            )


def _beyond(cut: Box, part: Box) -> str:
    """Return at which faces of its part a cut reaches out, and how far, in the part's frame."""
    out = []
    for axis, name in ((1, "x"), (2, "y"), (3, "z")):
        low, high = part.low(axis) - cut.low(axis), cut.high(axis) - part.high(axis)
        out += [f"{exact_text(low)} below its low {name}"] if low > 0 else []
        out += [f"{exact_text(high)} beyond its high {name}"] if high > 0 else []
    return "stands " + ", ".join(out)


def assert_sums(plan: Plan) -> None:
    """Assert that the reasons of every length and width sum to it exactly."""
    for part in plan.parts:
        assert total(part.why_length) == part.length, f"{part.id}: the reasons of its length do not sum"
        assert total(part.why_width) == part.width, f"{part.id}: the reasons of its width do not sum"


def assert_dry_fit(plan: Plan) -> None:
    """Assert that no two parts overlap and that every guest sits in its host with the clearance stated."""
    clashes = [f"{c.first} and {c.second} by {c.volume_mm3:g} mm3" for c in plan.dry_fit.clashes]
    assert not clashes, "parts overlap: " + "; ".join(clashes)
    loose = [f"{s.joint} (clearance {exact_text(s.clearance)})" for s in plan.dry_fit.seats if not s.seated]
    assert not loose, "guests do not sit as stated: " + "; ".join(loose)


def _sizes(sizes: Iterable[int]) -> str:
    return " × ".join(exact_text(size) for size in sizes)


def assert_outside(plan: Plan) -> None:
    """Assert that each cabinet comes out as large as the job asks."""
    for cabinet, (name, low, high) in zip(plan.job.cabinets, plan.dry_fit.outside, strict=True):
        size = tuple(b - a for a, b in zip(low, high, strict=True))
        spec = (cabinet.width, cabinet.depth, cabinet.height)
        assert size == spec, f"{name} comes out {_sizes(size)}, not {_sizes(spec)} (width, depth, height)"
