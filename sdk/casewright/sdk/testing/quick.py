"""The contracts of everything a plugin registers, run at small counts without pytest, for `casewright plugin check`.

One mistake breaks many promises. They are tried in such an order that the first broken one says most, and the rest of
that method's is left until it is mended.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from traceback import format_exception
from typing import Any
from warnings import catch_warnings, simplefilter

from casewright.sdk.errors import NoGeometryError, PluginFaultError
from casewright.sdk.loader import Registry
from casewright.sdk.methods import Design
from casewright.sdk.model import Plan
from casewright.sdk.places import defined_at, raised_at
from casewright.sdk.testing.assemblies import DoorContract, MountingContract, assert_units, read_style
from casewright.sdk.testing.asserts import assert_extras
from casewright.sdk.testing.contract import MethodContract
from casewright.sdk.testing.cures import CureContract
from casewright.sdk.testing.drawing import Declined, Tally, journal, over, pinned, unshrunk
from casewright.sdk.testing.drawn import drawn_from, drawn_words
from casewright.sdk.testing.forms import standing_jobs
from casewright.sdk.testing.joints import BoxContract, JointContract
from casewright.sdk.testing.service import UNDER_TEST, planned, registry_with
from casewright.sdk.testing.strategies import jobs
from casewright.sdk.waiting import OverdueError, watched
from hypothesis import strategies as st
from hypothesis.errors import Flaky

CONTRACTS: dict[str, type[MethodContract]] = {
    "joints": JointContract,
    "boxes": BoxContract,
    "doors": DoorContract,
    "mountings": MountingContract,
}
_ORDER = (
    "test_options_read_alike_every_time", "test_options_are_described", "test_refusals_say_what_would_do",
    "test_fits_are_exact", "test_cuts_stay_inside_their_parts", "test_nothing_it_is_given_changes",
    "test_same_meeting_same_fit", "test_threads_answer_alike", "test_generated_jobs_fit_dry",
    "test_same_job_same_plan", "test_the_service_publishes_it",
)  # fmt: skip
LOOSE = [
    {"id": "long", "material": "case", "length": "2400 mm", "width": "600 mm"},
    {"id": "short", "material": "case", "length": "60 mm", "width": "30 mm"},
]
"""A long and a short part that every design has that checks are tried with."""

_RAISED = "Mend that line; what cannot be made is refused by CannotError(rule, got, fix)."
_RAISED_APART = "Mend that line."  # a check, a style or a generator of cures refuses nothing
_ANSWERED = "Make what it answers keep to that."
_OVERDUE = "End the loop, or do less in one call."


@dataclass(frozen=True, slots=True)
class Counts:
    """How much is tried: generated jobs and meetings of each kind, and the seconds that one call may take."""

    jobs: int = 20
    meetings: int = 40
    seconds: float = 10.0


@dataclass(frozen=True, slots=True)
class Trial:
    """One promise of one method and, where it is broken, what is wrong, at which line, and what to do.

    `drawn` is what it was broken with, `untried` how many promises of the method were left until it is mended.
    `test` names the test of the contract in `family`, `tallies` say what was drawn, `broken_by` is the draw itself,
    and `trace` the traceback.
    """

    method: str
    promise: str
    wrong: str = ""
    at: str = ""
    fix: str = ""
    drawn: str = ""
    untried: int = 0
    family: str = ""
    test: str = ""
    tallies: tuple[Tally, ...] = ()
    broken_by: Mapping[str, Any] = field(default_factory=dict)
    trace: str = ""


def trials(plugin: object, counts: Counts = Counts()) -> Iterator[Trial]:  # a frozen record
    """Yield the outcome of the contract of every method, check, style and generator that a plugin registers."""
    for promises in _promises(plugin, counts):
        yield from _tried(promises, counts)


@dataclass(frozen=True, slots=True)
class Promises:
    """What one method, check, style or generator promises: the tests of its contract by name, the most telling first.

    `at` is where it answers.
    """

    family: str
    name: str
    tests: Mapping[str, Callable[[], None]]
    at: str


def _promises(plugin: object, counts: Counts) -> Iterator[Promises]:
    """Yield what all that a plugin registers promises."""
    registry = registry_with(plugin, seconds=counts.seconds)
    for family, contract in CONTRACTS.items():
        for method in _own(registry, family):
            body = {"plugin": plugin, "method": method, "jobs": counts.jobs, "meetings": counts.meetings}
            made = type("Quick", (contract,), {**body, "_registry": registry})()
            yield Promises(family, method, _tests(made), registry.answers_at(family, method))
    for generator in _own(registry, "cures"):
        made = type("Quick", (CureContract,), {"plugin": plugin, "generator": generator})()
        yield Promises("cures", generator, _tests(made), registry.answers_at("cures", generator))
    for check in _own(registry, "checks"):
        yield Promises(
            "checks", check, {"judges": _judging(check, registry, counts)}, registry.answers_at("checks", check)
        )
    for style in _own(registry, "houses"):
        at = defined_at(getattr(plugin, "casewright_house_styles", None))
        yield Promises("houses", style, {"reads": _reading(style, registry)}, at)


def replay(plugin: object, document: Mapping[str, Any], seconds: float = Counts().seconds) -> Trial:
    """Return the outcome of one promise, tried with just the draw that a report wrote down.

    Raises `LookupError` where the plugin registers no such method or its contract has no such test.
    """
    counts = Counts(1, 1, seconds)
    for promises in _promises(plugin, counts):
        if (promises.family, promises.name) == (document["family"], document["method"]):
            test = promises.tests[document["test"]]
            values = drawn_from(document["drawn"], registry_with(plugin).catalogue)
            with pinned(values):
                (trial,) = _tried(replace(promises, tests={document["test"]: test}), counts)
            return replace(trial, broken_by=values)
    raise LookupError(f"the plugin registers no {document['family']}/{document['method']}")


def _own(registry: Registry, family: str) -> list[str]:
    return [one for one in getattr(registry, family) if registry.owner(family, one) == UNDER_TEST]


def _tests(made: object) -> dict[str, Callable[[], None]]:
    """Return a contract's tests by name, the most telling first."""
    names = [name for name in dir(made) if name.startswith("test_")]
    names.sort(key=lambda name: (_ORDER.index(name) if name in _ORDER else -1, name))
    return {name: getattr(made, name) for name in names}


def _tried(promises: Promises, counts: Counts) -> Iterator[Trial]:
    """Yield the outcome of tests, up to the first that fails."""
    for done, (name, test) in enumerate(promises.tests.items(), start=1):
        promise = (test.__doc__ or name).strip().partition("\n")[0]
        made = Trial(promises.name, promise, family=promises.family, test=name)
        with catch_warnings(), unshrunk(), journal() as kept:
            simplefilter("ignore")
            try:
                watched(counts.seconds, promises.name, test)
            except (Exception, SystemExit) as error:
                yield replace(
                    made,
                    wrong=_words(error),
                    at=_place(error) or promises.at,
                    fix=_fix(error, promises.family),
                    drawn=drawn_words(kept.current),
                    untried=len(promises.tests) - done,
                    tallies=tuple(kept.tallies),
                    broken_by=dict(kept.current),
                    trace="".join(format_exception(error)),
                )
                return
        yield replace(made, tallies=tuple(kept.tallies))


def _words(error: BaseException) -> str:
    if isinstance(error, Flaky):
        return "asked again with the same draw, it answers otherwise"
    if isinstance(error, PluginFaultError):
        return error.fault.removesuffix(f" ({error.at})")
    words = str(error).strip().partition("\n")[0]
    expected = isinstance(error, (AssertionError, OverdueError))
    return words if expected and words else f"{type(error).__name__}: {words}"


def _place(error: BaseException) -> str:
    if isinstance(error, (PluginFaultError, OverdueError)):
        return error.at
    return raised_at(error)


def _fix(error: BaseException, family: str) -> str:
    if isinstance(error, OverdueError):
        return _OVERDUE
    if isinstance(error, PluginFaultError) and error.__cause__ is None:  # an answer that was looked over
        return _ANSWERED
    if isinstance(error, AssertionError):
        return "Make what it says agree; the rule says what is promised."
    return _RAISED if family in CONTRACTS else _RAISED_APART


def _reading(style: str, registry: Registry) -> Callable[[], None]:
    """Return a test that reads a house style's defaults as a job without cabinets makes the service do."""

    def reads() -> None:
        """Its defaults read as the `house` of a job does, and each length says its unit."""
        read_style(registry, style)
        assert_units(registry, style)

    return reads


def _judging(check: str, registry: Registry, counts: Counts) -> Callable[[], None]:
    """Return a test that asks a check over generated designs."""

    def judges() -> None:
        """In generated designs what it finds has a level, words and a source, and is about what is there."""
        over(counts.jobs, f"designs for {check}", judge, job=st.one_of(jobs(), standing_jobs()))

    def judge(job: dict[str, Any]) -> None:
        quiet = replace(registry, checks={})
        try:
            plan = planned({**job, "loose_parts": LOOSE}, quiet)
        except NoGeometryError as error:
            raise Declined(error) from None
        design = design_of(plan, registry)
        before = repr((design.job, design.parts, design.joints, design.hardware))
        rows = registry.checks[check].find(design)
        assert isinstance(rows, tuple), f"find() answered {type(rows).__name__}, not a tuple of pairs"
        assert repr((design.job, design.parts, design.joints, design.hardware)) == before, "find() changed its design"
        assert rows == tuple(registry.checks[check].find(design)), "asked twice, find() answered otherwise"
        for row in rows:
            assert isinstance(row, tuple) and len(row) == 2, f"find() answered {row!r}, no pair of subject and Finding"  # noqa: PT018
        assert_extras((), [finding for _, finding in rows], registry.sources)
        ids = [[one.id for one in family] for family in (plan.parts, plan.joints, plan.doors, plan.job.cabinets)]
        known = {one for family in ids for one in family}
        for subject, finding in rows:
            there = subject in known or subject == "" or subject.startswith("/")
            assert there, f"finding {finding.code!r} is about {subject!r}, which is nothing of the design"

    return judges


def design_of(plan: Plan, registry: Registry) -> Design:
    """Return what a check of a shop's own is given of a plan."""
    return Design(
        plan.job,
        plan.parts,
        plan.joints,
        plan.doors,
        plan.hardware,
        plan.mounting,
        plan.weights,
        registry.catalogue,
    )
