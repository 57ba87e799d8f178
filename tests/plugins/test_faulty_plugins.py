"""Faulty plugins, many at once in the real app: each is a named problem or a listed failure, and others go on.

The faults are those that plugin authors of other systems report; each plugin here is faulty in one way.
"""

import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from types import ModuleType, SimpleNamespace
from typing import Any

import pytest
from casewright.api.use.loading import load_installed
from casewright.api.web import create_app
from casewright.sdk.fields import Count, Length, OptionSchema
from casewright.sdk.geometry import Box
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.loader import load
from casewright.sdk.materials import Catalogue, Pull
from casewright.sdk.methods import (
    CannotError,
    DoorStyle,
    ExtraCheck,
    Fit,
    HouseStyle,
    JointMethod,
    MountingMethod,
)
from casewright.sdk.model import Term, groove
from casewright.sdk.units import mm

SECONDS = 0.3
SOUND = load(discover="built-in").joints["housed-groove"]


def module(**hooks: Any) -> ModuleType:
    """Return a plugin whose hooks answer the given values."""
    plugin = ModuleType("faulty")
    for name, answer in hooks.items():
        setattr(plugin, f"casewright_{name}", hookimpl((lambda value: lambda: value)(answer)))
    return plugin


class Depth(OptionSchema):
    depth = Length(load_default=mm(6), metadata={"description": "depth"})


def joint(fit: Callable[[Any, Any], Any], method_id: str, **attributes: Any) -> JointMethod:
    body = {
        "id": method_id,
        "title": method_id,
        "does": frozenset({"corner", "tee"}),
        "options": Depth,
        "fit": lambda self, meeting, options: fit(meeting, options),
        **attributes,
    }
    return type("Faulty", (JointMethod,), body)()


def sound(meeting, options):
    return SOUND.fit(meeting, {"depth": options["depth"]})


def raises(meeting, options):
    raise ZeroDivisionError("the plane is blunt")


def exits(meeting, options):
    raise SystemExit(0)


def recurses(meeting, options):
    return recurses(meeting, options)


def answers_text(meeting, options):
    return "6 mm"


def answers_nothing(meeting, options):
    return None


def digs_outside(meeting, options):
    deep = Box(0, 0, 0, meeting.run, meeting.guest_thickness, meeting.host_depth + 1)
    return replace(sound(meeting, options), host=(groove("too deep", deep, entry=-3, run=1),))


def float_length(meeting, options):
    return replace(sound(meeting, options), growth=6e6)


def float_cut(meeting, options):
    box = Box(0, 0, 0, meeting.run, float(meeting.guest_thickness), mm(6))
    return replace(sound(meeting, options), host=(groove("housing", box, entry=-3, run=1),))


def true_length(meeting, options):
    return replace(sound(meeting, options), clearance=True)


def does_not_sum(meeting, options):
    return replace(sound(meeting, options), why=(Term("housing", 1),))


def mutates_options(meeting, options):
    options["depth"] = 1
    return sound(meeting, options)


def mutates_meeting(meeting, options):
    meeting.run = 1
    return sound(meeting, options)


def generates(meeting, options):
    fit = sound(meeting, options)
    return replace(fit, host=(feature for feature in fit.host))


def sleeps(meeting, options):
    time.sleep(3)


def never_ends(meeting, options):
    while True:
        pass


def glue_is_not_a_number(meeting, options):
    return replace(sound(meeting, options), glue_area_mm2=float("nan"))


FAULTS: dict[Callable[..., Any], str] = {
    raises: "raised ZeroDivisionError: the plane is blunt",
    exits: "raised SystemExit",
    recurses: "raised RecursionError",
    answers_text: "answered str, which is not a Fit",
    answers_nothing: "answered NoneType, which is not a Fit",
    digs_outside: "reaches outside part",
    float_length: "growth is 6000000.0, which is not a whole number of nm",
    float_cut: "a length that is not a whole number of nm",
    true_length: "clearance is True, which is not a whole number of nm",
    does_not_sum: "sums to 1 nm, not 6 mm",
    mutates_options: "raised TypeError",
    mutates_meeting: "raised FrozenInstanceError",
    generates: "host is a generator, not a tuple",
    sleeps: "did not answer within 0.3 s",
    never_ends: "did not answer within 0.3 s",
    glue_is_not_a_number: "glue_area_mm2 is nan",
}


def name_of(fit: Callable[..., Any]) -> str:
    return fit.__name__.replace("_", "-")


def with_default(count=2):
    return [joint(sound, "with-default")]


def breaks_at_import():
    raise ImportError("no module named plane_iron")


class _Faulty(DoorStyle):
    id, title = "faulty-door", "Faulty door"

    def thickness(self, frame, panel, options):
        return 18.5

    def build(self, request, options):
        raise AssertionError("not reached")


class _NoDoor(DoorStyle):
    id, title = "no-door", "No door"

    def build(self, request, options):
        return None


class _Falls(MountingMethod):
    id, title = "falls", "Falls down"

    def build(self, request, options):
        request.materials["mine"] = request.case_material
        return


class _Blind(ExtraCheck):
    id, title = "blind", "Sees nothing"

    def find(self, design):
        return [("tools/side-left", "looks fine to me")] if any(p.cabinet == "blind" for p in design.parts) else ()


class Point(SimpleNamespace):
    """An entry point as importlib.metadata gives it, of a distribution that is not installed."""

    def __init__(self, name: str, fetch: Callable[[], object]) -> None:
        super().__init__(name=name, load=fetch, dist=SimpleNamespace(name=f"{name}-dist", version="1.0"))


def plugins() -> list[Point]:
    found = [
        Point(f"plugin-{name_of(fit)}", lambda fit=fit: module(joint_methods=[joint(fit, name_of(fit))]))
        for fit in FAULTS
    ]
    parametered = ModuleType("faulty")
    parametered.casewright_joint_methods = hookimpl(with_default)
    return [
        *found,
        Point("breaks-at-import", breaks_at_import),
        Point("default-parameter", lambda: parametered),
        Point("duplicate-id", lambda: module(joint_methods=[joint(sound, "rabbet")])),
        Point("not-a-method", lambda: module(joint_methods=["rabbet"])),
        Point("loose-options", lambda: module(joint_methods=[joint(sound, "loose", options=_loose())])),
        Point("too-new", lambda: module(joint_methods=[joint(sound, "too-new", sdk=((2, 7), (3, 0)))])),
        Point("written-for-sdk-1", lambda: module(joint_methods=[joint(sound, "written-for-sdk-1", sdk=1)])),
        Point("imports-what-went", lambda: exec("from casewright.sdk.joinery import said")),
        Point("no-json", lambda: module(house_styles=[HouseStyle("no-json", "No JSON", {"depth": {1, 2}})])),
        Point("bad-style", lambda: module(house_styles=[HouseStyle("bad-style", "Bad", {"depht": 300})])),
        Point("past-64-bits", lambda: module(house_styles=[HouseStyle("far", "Far", {"depth": 10**30})])),
        Point("half-a-letter", lambda: module(joint_methods=[joint(sound, "half", title="\ud800")])),
        Point("wide-count", lambda: module(joint_methods=[joint(sound, "wide", options=_wide())])),
        Point("odd-catalogue", lambda: module(catalogue=Catalogue(pulls=(ODD_PULL,)))),
        Point("spaced-id", lambda: module(joint_methods=[joint(sound, "my joint!")])),
        Point("doors", lambda: module(door_styles=[_Faulty(), _NoDoor()])),
        Point("falls", lambda: module(mountings=[_Falls()])),
        Point("blind", lambda: module(checks=[_Blind()])),
        Point("sound", lambda: module(joint_methods=[joint(sound, "sound")])),
    ]


ODD_PULL = Pull("odd", "odd", 1, 0, 5_000_000, 30_000_000, 1 + 2j, (("*", "common-practice"),))


def _wide() -> type[OptionSchema]:
    return OptionSchema.from_dict({"count": Count(most=10**30, metadata={"description": "count"})}, name="Wide")


def _loose() -> type[OptionSchema]:
    from marshmallow import fields

    return OptionSchema.from_dict({"depth": fields.Integer()}, name="Loose")


LISTED = {
    "breaks-at-import": "ImportError: no module named plane_iron",
    "default-parameter": "(count=2) takes parameters",
    "duplicate-id": "'rabbet' is taken by plugin joint-rabbet",
    "not-a-method": "'rabbet', which is not a JointMethod",
    "loose-options": "marshmallow Integer",
    "too-new": "written for SDK 2.7 up to, not including, 3.0; this is SDK 2.0",
    "written-for-sdk-1": "up to, not including, 2.0; this is SDK 2.0. /docs/migration says what changed",
    "imports-what-went": "name 'said' from 'casewright.sdk.joinery'. /docs/migration says what changed",
    "no-json": "not JSON values",
    "past-64-bits": "64-bit",
    "half-a-letter": "surrogates",
    "wide-count": "64-bit",
    "odd-catalogue": "mass_kg is (1+2j), which is not a number",
    "spaced-id": "letters, digits, dot, dash",
}


@pytest.fixture(scope="module")
def client():
    """Return a client of one app with every faulty plugin installed at once."""
    from casewright.sdk import loader

    true = loader.entry_points
    loader.entry_points = lambda group: [*true(group=group), *plugins()]
    try:
        registry = load_installed({"CASEWRIGHT_PLUGIN_SECONDS": str(SECONDS)})
    finally:
        loader.entry_points = true
    return create_app(registry).test_client()


def job(corner: str = "housed-groove", **cabinet: Any) -> dict[str, Any]:
    """Return a small job of the bicycle workshop's repair bay."""
    ply = {"kind": "sheet", "stuff": "birch-plywood", "thickness": 17.6}
    return {
        "title": "Repair bay",
        "units": "mm",
        "materials": {"case": ply},
        "cabinets": [
            {
                "id": "tools",
                "width": 600,
                "height": 700,
                "depth": 300,
                "case": {"material": "case", "corner": {"method": corner}, "top_inset": 30, "bottom_inset": 30},
                **cabinet,
            }
        ],
    }


def fault(answer: Any) -> dict[str, Any]:
    """Return a problem that names a plugin's fault."""
    body = answer.get_json()
    assert answer.status_code == 422
    assert answer.mimetype == "application/problem+json"
    assert body["type"] == "/problems/plugin-fault"
    return body


@pytest.mark.parametrize("fit", FAULTS, ids=name_of)
def test_each_fault_is_a_problem_that_names_plugin_and_method(client, fit):
    body = fault(client.post("/v1/plan", json=job(name_of(fit))))
    assert body["plugin"] == f"plugin-{name_of(fit)}"
    assert body["method"] == name_of(fit)
    assert FAULTS[fit] in body["detail"]
    assert client.post("/v1/plan", json=job()).status_code == 200


@pytest.mark.parametrize("name", LISTED)
def test_each_plugin_that_cannot_load_is_listed_with_its_cause(client, name):
    rows = {row["name"]: row for row in client.get("/v1/plugins").get_json()["plugins"]}
    assert rows[name]["status"] == "failed"
    assert rows[name]["distribution"] == f"{name}-dist"
    assert LISTED[name] in rows[name]["cause"]
    assert rows[name]["methods"] == []


def test_the_service_is_ready_and_says_who_failed(client):
    body = client.get("/readyz").get_json()
    assert body["status"] == "ready"
    assert sorted(body["failed_plugins"]) == sorted(LISTED)
    listed = {m["id"] for m in client.get("/v1/methods").get_json()["methods"]}
    assert {"sound", "raises", "rabbet"} <= listed
    assert listed.isdisjoint({"with-default", "loose", "too-new"})


def test_a_sound_outside_plugin_answers_as_the_built_in_does(client):
    theirs = client.post("/v1/plan", json=job("sound")).get_json()
    ours = job()
    ours["cabinets"][0]["case"]["corner"]["depth"] = 6
    assert theirs["parts"] == client.post("/v1/plan", json=ours).get_json()["parts"]


@pytest.mark.parametrize(
    ("cabinet", "plugin", "method", "words"),
    [
        ({"doors": {"style": "faulty-door", "material": "case"}, "space": {"front": "door"}},
         "doors", "faulty-door", "thickness is 18.5"),
        ({"doors": {"style": "no-door", "material": "case"}, "space": {"front": "door"}},
         "doors", "no-door", "answered NoneType, which is not a DoorDesign"),
        ({"mounting": {"method": "falls"}}, "falls", "falls", "raised TypeError"),
    ],
    ids=["door-thickness", "door", "mounting"],
)  # fmt: skip
def test_faults_of_other_families(client, cabinet, plugin, method, words):
    body = fault(client.post("/v1/plan", json=job(**cabinet)))
    assert (body["plugin"], body["method"]) == (plugin, method)
    assert words in body["detail"]


def test_a_check_that_fails_breaks_no_job_and_is_named_in_the_plan(client):
    """No job picks a check, so none may fail for one: the plan says which did not judge it, and where it stands."""
    answer = client.post("/v1/plan", json=job(id="blind"))
    assert answer.status_code == 200
    (failed,) = [check for check in answer.get_json()["checks"] if check["code"] == "check-failed"]
    assert failed["level"] == "caution"
    assert "The check blind of plugin blind did not judge this plan" in failed["message"]
    assert "not a subject and a Finding (test_faulty_plugins.py:" in failed["message"]


def test_a_house_style_that_cannot_be_read_is_its_plugins_fault(client):
    body = fault(client.post("/v1/plan", json={**job(), "house": {"style": "bad-style"}}))
    assert body["plugin"] == "bad-style"
    assert "depht" in body["detail"]


def test_others_are_answered_while_one_sleeps(client):
    app = client.application
    start = time.monotonic()

    def ask(corner: str) -> tuple[str, int, float]:
        status = app.test_client().post("/v1/plan", json=job(corner)).status_code
        return corner, status, time.monotonic() - start

    with ThreadPoolExecutor(4) as pool:
        answers = list(pool.map(ask, ["sleeps", "never-ends", "rabbet-free", "housed-groove", "sound"]))
    statuses = {corner: status for corner, status, _ in answers}
    assert statuses == {"sleeps": 422, "never-ends": 422, "rabbet-free": 400, "housed-groove": 200, "sound": 200}


def test_a_refusal_is_no_fault(client):
    """An outside method that says why not is a 422 about the job, with a fix, at its place."""
    plugin = module(joint_methods=[joint(_refuses, "refuses")])
    app = create_app(load(discover="built-in", extra=[("refuses", plugin)]))
    answer = app.test_client().post("/v1/plan", json=job("refuses"))
    assert answer.status_code == 422
    (entry,) = answer.get_json()["errors"]
    assert entry["pointer"] == "/cabinets/0/case/corner/depth"
    assert entry["fix"].startswith("Use 5 mm.")


def _refuses(meeting: Any, options: Any) -> Fit:
    raise CannotError("shallow housings", "6 mm", "Use 5 mm.", "depth")
