"""The contracts of everything a plugin registers, run at small counts without pytest, for `casewright plugin check`.

One mistake breaks many promises. They are tried in such an order that the first broken one says most, and the rest of
that method's is left until it is mended.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any
from warnings import catch_warnings, simplefilter

from casewright.sdk.errors import NoGeometryError, PluginFaultError
from casewright.sdk.loader import Registry
from casewright.sdk.methods import Design
from casewright.sdk.model import Plan
from casewright.sdk.places import defined_at, raised_at
from casewright.sdk.testing.assemblies import DoorContract, MountingContract
from casewright.sdk.testing.asserts import assert_extras
from casewright.sdk.testing.contract import MethodContract
from casewright.sdk.testing.cures import CureContract
from casewright.sdk.testing.drawing import WITH, Declined, over, unshrunk
from casewright.sdk.testing.forms import standing_jobs
from casewright.sdk.testing.joints import BoxContract, JointContract
from casewright.sdk.testing.service import UNDER_TEST, planned, registry_with
from casewright.sdk.testing.strategies import jobs
from casewright.sdk.waiting import OverdueError, watched
from hypothesis import strategies as st

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
    """

    method: str
    promise: str
    wrong: str = ""
    at: str = ""
    fix: str = ""
    drawn: str = ""
    untried: int = 0


def trials(plugin: object, counts: Counts = Counts()) -> Iterator[Trial]:  # a frozen record
    """Yield the outcome of the contract of every method, check, style and generator that a plugin registers."""
    registry = registry_with(plugin, seconds=counts.seconds)
    for family, contract in CONTRACTS.items():
        for method in _own(registry, family):
            body = {"plugin": plugin, "method": method, "jobs": counts.jobs, "meetings": counts.meetings}
            made = type("Quick", (contract,), {**body, "_held": registry})()
            yield from _tried(_tests(made), method, registry.answers_at(family, method), counts)
    for generator in _own(registry, "cures"):
        made = type("Quick", (CureContract,), {"plugin": plugin, "generator": generator})()
        yield from _tried(_tests(made), generator, registry.answers_at("cures", generator), counts)
    for check in _own(registry, "checks"):
        tests = {
            "It judges generated designs: what it finds has a level, words and a source, and is about what is there.": (
                lambda check=check: _judge(check, registry, counts)
            )
        }
        yield from _tried(tests, check, registry.answers_at("checks", check), counts)
    for style in _own(registry, "houses"):
        tests = {"Its defaults read as the `house` of a job does.": lambda style=style: _read(style, registry)}
        yield from _tried(tests, style, defined_at(getattr(plugin, "casewright_house_styles", None)), counts)


def _own(registry: Registry, family: str) -> list[str]:
    return [one for one in getattr(registry, family) if registry.owner(family, one) == UNDER_TEST]


def _tests(made: object) -> dict[str, Callable[[], None]]:
    """Return a contract's tests by what they promise, the most telling first."""
    names = [name for name in dir(made) if name.startswith("test_")]
    names.sort(key=lambda name: (_ORDER.index(name) if name in _ORDER else -1, name))
    return {(getattr(made, n).__doc__ or n).strip().partition("\n")[0]: getattr(made, n) for n in names}


def _tried(tests: Mapping[str, Callable[[], None]], name: str, at: str, counts: Counts) -> Iterator[Trial]:
    """Yield the outcome of tests, up to the first that fails."""
    for done, (promise, test) in enumerate(tests.items(), start=1):
        with catch_warnings(), unshrunk():
            simplefilter("ignore")
            try:
                watched(counts.seconds, name, test)
            except (Exception, SystemExit) as error:
                trial = Trial(name, promise, _words(error), _place(error) or at, _fix(error))
                drawn = next((note for note in getattr(error, "__notes__", ()) if note.startswith(WITH)), "")
                yield replace(trial, drawn=drawn, untried=len(tests) - done)
                return
        yield Trial(name, promise)


def _words(error: BaseException) -> str:
    if isinstance(error, PluginFaultError):
        return error.fault
    words = str(error).strip().partition("\n")[0]
    expected = isinstance(error, (AssertionError, OverdueError))
    return words if expected and words else f"{type(error).__name__}: {words}"


def _place(error: BaseException) -> str:
    if isinstance(error, (PluginFaultError, OverdueError)):
        return error.at
    return raised_at(error)


def _fix(error: BaseException) -> str:
    if isinstance(error, OverdueError):
        return _OVERDUE
    return "Make what it says agree; the rule says what is promised." if isinstance(error, AssertionError) else _RAISED


def _read(style: str, registry: Registry) -> None:
    """Read a house style's defaults as a job without cabinets makes the service do."""
    stuff = registry.catalogue.stuffs[0]
    sheet = {"kind": stuff.kind, "stuff": stuff.id, "thickness": 18}
    job = {
        "units": "mm",
        "materials": {"any": sheet},
        "house": {"style": style},
        "loose_parts": [{"id": "any", "material": "any", "length": 100, "width": 50}],
    }
    planned(job, registry)


def _judge(check: str, registry: Registry, counts: Counts) -> None:
    """Ask a check over generated designs."""

    def asked(job: dict[str, Any]) -> None:
        quiet = replace(registry, checks={})
        job = {**job, "loose_parts": LOOSE}
        try:
            plan = planned(job, quiet)
        except NoGeometryError:
            raise Declined from None
        rows = tuple(registry.checks[check].find(design_of(plan, registry)))
        for row in rows:
            assert isinstance(row, tuple) and len(row) == 2, f"find() answered {row!r}, no pair of subject and Finding"  # noqa: PT018
        assert_extras((), [finding for _, finding in rows], registry.sources)
        ids = [[one.id for one in family] for family in (plan.parts, plan.joints, plan.doors, plan.job.cabinets)]
        known = {one for family in ids for one in family}
        for subject, finding in rows:
            there = subject in known or subject == "" or subject.startswith("/")
            assert there, f"finding {finding.code!r} is about {subject!r}, which is nothing of the design"

    over(counts.jobs, f"designs for {check}", asked, job=st.one_of(jobs(), standing_jobs()))


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
