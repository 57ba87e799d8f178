"""Pages of methods: options with limits, pictures, sources that exist, and jobs that are planned."""

import json
import re
from collections.abc import Mapping
from types import ModuleType

import pytest
from casewright.api.use.method_pages import MethodPage, every_page, index_text, page_of
from casewright.api.use.planning import make
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.kit import CannotError, Length, OptionSchema, mm
from casewright.sdk.loader import Registry
from casewright.sdk.methods import Fit, HouseStyle, JointMethod, Meeting
from casewright.sdk.testing import registry_with

Pages = Mapping[tuple[str, str], MethodPage]
DRAWN = ("joints", "doors", "boxes", "mountings")


def jobs(page: MethodPage) -> list[dict[str, object]]:
    return [json.loads(block) for block in re.findall(r"```json\n(.*?)```", page.text, re.DOTALL)]


def section(page: MethodPage, heading: str) -> str:
    return page.text.split(f"## {heading}\n")[1].split("\n## ")[0]


def test_every_method_that_ships_is_drawn_and_planned_without_a_stop(pages: Pages) -> None:
    drawn = [page for (family, _), page in pages.items() if family in DRAWN]
    assert len(drawn) == 25
    for page in drawn:
        assert page.pictures, page.id
        assert "Not drawn" not in page.text, page.id
        assert page.text.count("It is planned without a stop") == len(jobs(page)) > 0, page.id
        shown = set(re.findall(rf"\]\({page.id}/([\w-]+)\.svg\)", page.text))
        assert shown == set(page.pictures)


def test_a_joint_has_a_picture_and_a_job_for_each_kind_of_meeting_it_makes(pages: Pages, built_in: Registry) -> None:
    for family in ("joints", "boxes"):
        for method in getattr(built_in, family).values():
            page = pages[family, method.id]
            assert set(page.pictures) == method.does
            assert len(jobs(page)) == len(method.does)


def test_a_job_of_a_page_uses_its_method(pages: Pages, built_in: Registry) -> None:
    """Each job as it stands on the page, planned again: some joint of the plan is of the method."""
    for job in jobs(pages["joints", "dowel"]):
        assert "dowel" in {joint.method for joint in make(job, built_in).joints}
    (job,) = jobs(pages["doors", "slab"])
    assert len(make(job, built_in).doors) == 1
    (job,) = jobs(pages["mountings", "screw-strip"])
    assert make(job, built_in).mounting[0].method == "screw-strip"


def test_options_stand_with_unit_limits_default_and_what_they_are(pages: Pages) -> None:
    """By the schema of the bevelled cleat: height from 20 mm to 500 mm, 25.4 mm an inch; 1 to 6 a stud, 2 usual."""
    rows = section(pages["mountings", "bevel-cleat"], "Options")
    assert "| `height` | a length from 20 mm (0.787 in) to 500 mm (19.685 in) | by the parts |" in rows
    assert "| `per_stud` | a whole number from 1 to 6 | 2 | Fasteners in each stud. |" in rows
    assert "| `anti_lift` | one of `auto`, `top-strip`, `screw`, `none` | auto |" in rows


def test_sources_are_those_that_the_project_lists(pages: Pages, built_in: Registry) -> None:
    for (family, _), page in pages.items():
        if family in DRAWN:
            codes = re.findall(r"^\| `([\w-]+)` \|", section(page, "Sources"), re.MULTILINE)
            assert codes
            assert set(codes) <= set(built_in.sources)


def test_the_catalogue_gives_figures_in_both_units_with_their_sources(pages: Pages) -> None:
    """A cup of 35 mm is 1.378 in: 35 / 25.4."""
    hinges = pages["catalogue", "hinges"].text
    assert "| bore | 35 mm (1.378 in) | `hinge-planning-pages` |" in hinges
    assert "Cup hinge planning pages" in hinges
    assert "| density, kg/m³ |" in pages["catalogue", "stuffs"].text


def test_a_generator_lists_the_stops_it_knows(pages: Pages, built_in: Registry) -> None:
    for generator in built_in.cures.values():
        assert generator.codes == set(re.findall(r"^\| `([\w-]+)`", pages["cures", generator.id].text, re.MULTILINE))


def test_the_index_leads_to_every_page(pages: Pages, built_in: Registry) -> None:
    links = re.findall(r"\]\(methods/([^)]+)\.md\)", index_text(built_in))
    assert links == [f"{family}/{entry}" for family, entry in pages]


@pytest.mark.parametrize(("family", "entry"), [("joints", "nothing"), ("nothing", "dowel"), ("catalogue", "nothing")])
def test_what_there_is_not_has_no_page(built_in: Registry, family: str, entry: str) -> None:
    with pytest.raises(KeyError):
        page_of(built_in, family, entry)


class Options(OptionSchema):
    depth = Length(least=mm(2), most=mm(5), load_default=mm(3), about="How deep | with a bar.")


class Refuses(JointMethod):
    """It makes nothing."""

    id = "refuses"
    title = "Refuses"
    does = frozenset({"tee"})
    options = Options

    def fit(self, meeting: Meeting, options: object) -> Fit:
        raise CannotError("nothing is made", "a meeting", "Use another.")


class Fails(Refuses):
    """It fails."""

    id = "fails"

    def fit(self, meeting: Meeting, options: object) -> Fit:
        raise ZeroDivisionError("on purpose")


@pytest.fixture(scope="module")
def outside() -> Registry:
    plugin = ModuleType("outside")
    plugin.casewright_joint_methods = hookimpl(lambda: (Refuses(), Fails()))  # type: ignore[attr-defined]
    style = HouseStyle("ours", "Ours", {"depth": "280 mm"})
    plugin.casewright_house_styles = hookimpl(lambda: (style,))  # type: ignore[attr-defined]
    return registry_with(plugin)


def test_a_plugin_that_refuses_or_fails_has_a_page_that_says_so(outside: Registry) -> None:
    refusing = page_of(outside, "joints", "refuses").text
    assert "Not drawn: tee: nothing is made" in refusing
    assert "This job is refused: nothing is made. Use another." in refusing
    assert (
        "| `depth` | a length from 2 mm (0.079 in) to 5 mm (0.197 in) | 3 mm (0.118 in) | How deep \\| with a bar. |"
        in refusing
    )
    assert "Not drawn: ZeroDivisionError: on purpose" in page_of(outside, "joints", "fails").text


def test_a_house_style_shows_what_a_house_then_has(outside: Registry) -> None:
    assert jobs(page_of(outside, "houses", "ours")) == [{"depth": "280 mm"}]
    assert ("houses", "ours", "Ours") in list(every_page(outside))
