"""The contract of joint methods and of drawer corners, which are joint methods that do `box` meetings."""

from collections.abc import Callable, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from types import MappingProxyType
from typing import Any, ClassVar

from casewright.sdk.joinery.halves import halves
from casewright.sdk.materials import Catalogue
from casewright.sdk.methods import CannotError, Fit, JointMethod, Meeting, MeetingKind
from casewright.sdk.model import Plan
from casewright.sdk.testing.asserts import (
    assert_cuts_inside,
    assert_extras,
    assert_fit,
    assert_listed,
    assert_refusal,
    assert_words,
)
from casewright.sdk.testing.contract import MethodContract
from casewright.sdk.testing.drawing import Declined, note_refusal, over
from casewright.sdk.testing.forms import standing_jobs
from casewright.sdk.testing.meetings import a_meeting, meetings
from casewright.sdk.testing.snug import assert_known, assert_seated, assert_sized
from casewright.sdk.testing.strategies import Document, Using, jobs
from hypothesis import strategies as st

THREADS = 8


class JointContract(MethodContract):
    """What a joint method promises, in every kind of meeting it claims.

    Beside what `MethodContract` takes: `meetings` counts the meetings drawn for each kind, `alike` draws only
    meetings of two parts equally thick.
    """

    meetings: ClassVar[int] = 60
    alike: ClassVar[bool] = False
    family: ClassVar[str] = "joints"
    component: ClassVar[str] = "Joint"

    @classmethod
    def a_meeting(cls, kind: MeetingKind, **changes: Any) -> Meeting:
        """Return one plain meeting to work by hand: `casewright.sdk.testing.a_meeting`."""
        return a_meeting(kind, cls.registry().catalogue, **changes)

    @classmethod
    def answer(cls, meeting: Meeting, options: Mapping[str, Any] | None = None) -> Fit:
        """Return the method's fit for options as a job writes them. Raises `CannotError`."""
        method: JointMethod = cls.under_test()
        return method.fit(meeting, MappingProxyType(cls.loaded(options or {})))

    @classmethod
    def drawn_meetings(cls, kind: MeetingKind, catalogue: Catalogue) -> st.SearchStrategy[Meeting]:
        """Return the strategy that draws meetings of one kind."""
        behind = cls.under_test().panel_sits == "behind"
        return meetings(kind, catalogue, alike=cls.alike, behind=behind)

    def check_meetings(self, check: Callable[[Meeting, dict[str, Any]], None]) -> None:
        """Draw meetings of every kind claimed, with options as the method gets them, and check each."""
        method: JointMethod = self.under_test()

        def checked(meeting: Meeting, options: dict[str, Any]) -> None:
            try:
                check(meeting, self.loaded(options))
            except CannotError as error:
                raise Declined(error) from None

        for kind in sorted(method.does):
            drawn = self.drawn_meetings(kind, self.registry().catalogue)
            what = f"{kind} meetings of {self.method}"
            over(self.meetings, what, checked, meeting=drawn, options=self.drawn_options())

    def test_same_meeting_same_fit(self) -> None:
        """Determinism: two calls, and a method object made anew, answer alike."""
        method: JointMethod = self.under_test()
        again: JointMethod = type(method)()

        def check(meeting: Meeting, options: dict[str, Any]) -> None:
            first = method.fit(meeting, MappingProxyType(options))
            assert first == method.fit(meeting, MappingProxyType(options)), "the second call answers otherwise"
            assert first == again.fit(meeting, MappingProxyType(options)), "a new method object answers otherwise"

        self.check_meetings(check)

    def test_nothing_it_is_given_changes(self) -> None:
        """Purity: the meeting and the options are after the call what they were before."""
        method: JointMethod = self.under_test()

        def check(meeting: Meeting, options: dict[str, Any]) -> None:
            before, options_before = replace(meeting), dict(options)
            method.fit(meeting, options)
            assert options == options_before, f"fit() changed its options from {options_before} to {options}"
            assert meeting == before, "fit() changed its meeting"
            method.fit(meeting, MappingProxyType(options))  # what the service passes: writing to it raises

        self.check_meetings(check)

    def test_fits_are_exact(self) -> None:
        """Whole nm, reasons that sum, seat and play as the cuts leave them, hardware and sources that exist."""
        method: JointMethod = self.under_test()

        def check(meeting: Meeting, options: dict[str, Any]) -> None:
            fit = method.fit(meeting, options)
            assert_fit(fit)
            assert meeting.guest_length + fit.growth > 0, "the guest is cut away wholly"
            assert_extras(fit.hardware, fit.findings, self.registry().sources)
            assert_listed(fit.findings, method.sources)
            assert_sized(fit)
            assert_seated(meeting, fit)
            assert_known(fit, meeting.catalogue, method.supplies)
            assert_words((finding.message for finding in fit.findings), meeting.write.units)

        self.check_meetings(check)

    def test_cuts_stay_inside_their_parts(self) -> None:
        """Bounds: no cut on host or guest reaches outside it."""
        method: JointMethod = self.under_test()
        behind = method.panel_sits == "behind"

        def check(meeting: Meeting, options: dict[str, Any]) -> None:
            assert_cuts_inside(halves(meeting, method.fit(meeting, options), behind=behind))

        self.check_meetings(check)

    def test_refusals_say_what_would_do(self) -> None:
        """What it cannot do it refuses by `CannotError` with rule, what was got and a fix; nothing else is raised."""
        method: JointMethod = self.under_test()
        known = [f.data_key or name for name, f in method.options().load_fields.items()]

        def check(meeting: Meeting, options: dict[str, Any]) -> None:
            try:
                method.fit(meeting, options)
            except CannotError as error:
                note_refusal(error)
                assert_refusal(error, known)
                assert_words((error.rule, error.got, error.fix), meeting.write.units)

        self.check_meetings(check)

    def test_threads_answer_alike(self) -> None:
        """Thread safety: many threads at once answer as one does."""
        method: JointMethod = self.under_test()
        answers: list[tuple[Meeting, dict[str, Any], Fit]] = []

        def keep(meeting: Meeting, options: dict[str, Any]) -> None:
            answers.append((meeting, options, method.fit(meeting, options)))

        self.check_meetings(keep)

        def ask_all(start: int) -> bool:
            turned = answers[start % len(answers) :] + answers[: start % len(answers)]
            return all(method.fit(meeting, options) == fit for meeting, options, fit in turned)

        with ThreadPoolExecutor(THREADS) as pool:
            alike = list(pool.map(ask_all, (i * 7 for i in range(THREADS))))
        assert all(alike), "threads at once answer otherwise than one alone"

    def test_generated_jobs_fit_dry(self) -> None:
        """The real planner plans generated jobs with it: nothing overlaps, all sits, all sums, sizes are the spec's."""
        for kind in sorted(self.under_test().does):
            webs: list[str] = []

            def check(made: Plan, kind: str = kind, webs: list[str] = webs) -> None:
                ours = [j for j in made.joints if j.method == self.method and j.kind == kind]
                if not ours:
                    raise Declined
                self.assert_sound(made)
                parts = {part for joint in ours for part in (joint.host, joint.guest)}
                stops = [c for c in made.checks if c.level == "stop" and c.code == "web" and c.subject in parts]
                webs.append(stops[0].message if stops else "")

            self.check_jobs(self.drawn_jobs(kind), check, f"generated jobs with {self.method} as {kind} joint")
            assert not all(webs), f"every generated job is stopped for want of wood between cuts: {webs[0]}"

    @classmethod
    def drawn_jobs(cls, kind: str) -> st.SearchStrategy[Document]:
        """Return a strategy of whole jobs whose joints of one kind are made by the method."""
        width = st.sampled_from(["0 mm", "10 mm", "20 mm"] if kind == "corner" else ["45 mm", "90 mm"])
        return st.builds(cls._job, st.just(kind), cls.drawn_options(), st.data(), width)

    @classmethod
    def _job(cls, kind: str, options: dict[str, Any], data: st.DataObject, width: str) -> Document:
        """Return a job; `wide` is how far top and bottom stand in from the sides' ends, or the width of rails."""
        using = replace(Using(), **{kind: {"method": cls.method, **options}})  # type: ignore[arg-type]
        job: Document = data.draw(jobs(using))
        for cabinet in job["cabinets"]:
            if kind == "corner":
                cabinet["case"]["top_inset"] = cabinet["case"]["bottom_inset"] = width
            if kind == "frame" and cabinet["face_frame"] is not None:
                cabinet["face_frame"]["rail"] = cabinet["face_frame"]["mid_rail"] = width
        return job


class BoxContract(JointContract):
    """What a drawer corner promises: a joint method that does `box` meetings."""

    family: ClassVar[str] = "boxes"
    component: ClassVar[str] = "DrawerCorner"

    @classmethod
    def drawn_jobs(cls, kind: str) -> st.SearchStrategy[Document]:
        """Return a strategy of base and tall cabinets whose drawers have this corner."""
        return st.builds(cls._drawers, cls.drawn_options(), standing_jobs())

    @classmethod
    def _drawers(cls, options: dict[str, Any], job: Document) -> Document:
        for cabinet in job["cabinets"]:
            cabinet["drawers"]["corner"] = {"method": cls.method, **options}
        return job
