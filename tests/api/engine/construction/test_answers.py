"""A faulty answer of any kind is a problem that names the plugin and the method, and none of it is used."""

from dataclasses import replace
from types import MappingProxyType

import pytest
from casewright.sdk.errors import NoGeometryError, PluginFaultError
from casewright.sdk.geometry import Box, Cylinder, Wedge
from casewright.sdk.methods import (
    CannotError,
    DoorDesign,
    DoorStyle,
    ExtraCheck,
    Fit,
    Hanging,
    JointMethod,
    Land,
    MountDesign,
    MountingMethod,
)
from casewright.sdk.model import Assembly, Feature, Finding, HardwareUse, JointSpec, PartSpec, Term, groove
from casewright.sdk.units import mm

BOX = Box(0, 0, 0, 10, 10, 10)
GROOVE = groove("groove", BOX, -3, 1)


def faulty(registry, family, method_id, method):
    """Return the registry with one method put in place of another, owned by a plugin named `faulty`."""
    known = getattr(registry, family)
    return replace(
        registry,
        **{family: {**known, method_id: method}},
        owners=MappingProxyType({**registry.owners, (family, method_id): "faulty"}),
    )


def fault(planned, using, cabinet, method_id):
    with pytest.raises(PluginFaultError) as caught:
        planned(cabinet, {"corner": {"method": "dowel"}, "back": None}, using=using)
    assert caught.value.plugin == "faulty"
    assert caught.value.method == method_id
    assert caught.value.fault
    return caught.value.fault


def joint_answering(answer):
    def fit(self, meeting, options):
        return answer() if callable(answer) else answer

    body = {"id": "dowel", "title": "Faulty", "does": frozenset({"corner"}), "fit": fit}
    return type("Faulty", (JointMethod,), body)()


def raises():
    raise ZeroDivisionError("sawdust")


FITS = [
    (None, "NoneType"),
    ({"growth": 1}, "dict"),
    (raises, "ZeroDivisionError: sawdust"),
    (Fit(growth=1.5, why=(Term("x", 1),)), "growth is 1.5"),
    (Fit(seat=0.0), "seat is 0.0"),
    (Fit(clearance=True), "clearance is True"),
    (Fit(clearance=-1), "below zero"),
    (Fit(growth=5, why=(Term("x", 4),)), "sums to 4 nm, not 5 nm"),
    (Fit(growth=5), "sums to 0 mm"),
    (Fit(why=(Term("x", 0.0),)), "not a Term"),
    (Fit(why=("x",)), "not a Term"),
    (Fit(why=None), "why is a NoneType"),
    (Fit(growth=-mm(800), why=(Term("x", -mm(800)),)), "leaves nothing"),
    (Fit(press=4), "press is 4"),
    (Fit(press="up"), "press is 'up'"),
    (Fit(host=("groove",)), "str where a Feature belongs"),
    (Fit(host=(Feature("groove", "empty", -3),)), "takes nothing away"),
    (Fit(host=(Feature("groove", "meant", -3, (BOX,), purpose="pull"),)), "purpose of feature 'meant'"),
    (Fit(host=(groove("flat", Box(0, 0, 0, 10, 10, 0), -3, 1),)), "without volume"),
    (Fit(host=(groove("float", Box(0, 0, 0, 10, 10.0, 5), -3, 1),)), "not a whole number"),
    (Fit(host=(groove("turned", BOX, 0, 1),)), "entry of feature 'turned'"),
    (Fit(host=(groove("turned", BOX, -3, 7),)), "run of feature 'turned'"),
    (Fit(host=(Feature("groove", "list", -3, boxes=((0, 0, 0, 1, 1, 1),)),)), "not a Box"),
    (Fit(host=(Feature("hole", "h", -3, holes=(Cylinder((0, 0, 0), 3, 5.0, 1),)),)), "not a whole number"),
    (
        Fit(host=(Feature("hole", "h", -3, holes=(Cylinder((0, 0, 0), 3, 5, 0),)),)),
        "is 0 mm, not above zero",
    ),
    (Fit(host=(Feature("bevel", "w", -3, wedges=(Wedge(Box(0, 0, 0, 1, 1, 0), 1, (2, 3)),)),)), "without volume"),
    (Fit(host=(groove("wide", Box(-mm(9000), 0, 0, mm(9000), mm(1), mm(1)), -3, 1),)), "reaches outside part"),
    (Fit(guest=(groove("deep", Box(0, 0, -mm(9000), 10, 10, 0), 3, 1),)), "reaches outside part"),
    (Fit(hardware=("screw",)), "not a HardwareUse"),
    (Fit(hardware=(HardwareUse("screw", "screw", ((0, 0, 0.5),)),)), "a place of screw"),
    (Fit(findings=("bad",)), "not a Finding"),
    (Fit(findings=(Finding("code", "worry", "hm"),)), "level 'worry'"),
]


@pytest.mark.parametrize(("answer", "words"), FITS, ids=[words for _, words in FITS])
def test_faulty_joints(planned, registry, answer, words):
    using = faulty(registry, "joints", "dowel", joint_answering(answer))
    assert words in fault(planned, using, {}, "dowel")


def test_a_method_that_cannot_is_no_fault(planned, registry):
    def refuses():
        raise CannotError("a rule", "this", "do that", "spacing")

    using = faulty(registry, "joints", "dowel", joint_answering(refuses))
    with pytest.raises(NoGeometryError) as caught:
        planned(case={"corner": {"method": "dowel"}, "back": None}, using=using)
    assert caught.value.problems[0].pointer == "/cabinets/0/case/corner/spacing"


def part(**changes):
    sound = {
        "key": "slab", "role": "door", "name": "door", "material": "case", "box": BOX,
        "length_axis": 3, "width_axis": 1,
        "why_length": (Term("x", 10),), "why_width": (Term("x", 10),),
    }  # fmt: skip
    return PartSpec(**{**sound, **changes})


LAND = Land("slab", 10, 10, None)


def design(assembly=None, left=LAND, right=LAND, thickness=18_000_000):
    return DoorDesign(assembly or Assembly((part(),)), left, right, thickness)


DOORS = [
    (None, "NoneType"),
    (raises, "ZeroDivisionError"),
    (design(Assembly(("slab",))), "not a PartSpec"),
    (design(assembly={"parts": []}), "not a Assembly"),
    (design(Assembly((part(), part()))), "two parts have the key"),
    (design(Assembly((part(material="gold"),))), "material 'gold'"),
    (design(Assembly((part(box=Box(0, 0, 0, 10, 0, 10)),))), "no volume"),
    (design(Assembly((part(box=Box(0, 0, 0, 10, 1.5, 10)),))), "a length of part"),
    (design(Assembly((part(why_length=(Term("x", 9),)),))), "sums to 9 nm"),
    (design(Assembly((part(width_axis=-3),))), "one line"),
    (design(Assembly((part(width_axis=9),))), "width axis of part"),
    (design(Assembly((part(features=(Feature("hole", "h", 1),)),))), "takes nothing away"),
    (
        design(Assembly((part(),), (JointSpec("x", "frame", "slab", "ghost", 1, 0, 0),))),
        "is a part of the assembly: slab",
    ),
    (design(Assembly((part(),), (JointSpec("x", "frame", "ghost", "slab", 1, 0, 0),))), "which is no part there is"),
    (design(Assembly((part(),), (JointSpec("x", "frame", "slab", "slab", 1, 0, -1),))), "below zero"),
    (design(Assembly((part(),), (JointSpec("x", "frame", "slab", "slab", 0, 0, 0),))), "press of a joint"),
    (
        design(Assembly((part(),), (JointSpec("x", "frame", "slab", "slab", 1, 0, 0, -0.5),))),
        "glue area mm2 of a joint",
    ),
    (
        design(Assembly((part(),), (JointSpec("x", "frame", "slab", "slab", 1, 0, 0, None),))),
        "glue area mm2 of a joint is None",
    ),
    (design(left=Land("ghost", 10, 10, None)), "no part of the door"),
    (design(right=Land("slab", 1.0, 10, None)), "clear of a hinge land"),
    (design(thickness=18.0), "thickness is 18.0"),
    (design(thickness=mm(17)), "thickness() of its style answered 18 mm"),
]


@pytest.mark.parametrize(("answer", "words"), DOORS, ids=[words for _, words in DOORS])
def test_faulty_doors(planned, registry, answer, words):
    def build(self, request, options):
        return answer() if callable(answer) else answer

    style = type("Faulty", (DoorStyle,), {"id": "slab", "title": "Faulty", "build": build})()
    using = faulty(registry, "doors", "slab", style)
    cabinet = {"space": {"front": "door"}, "doors": {"style": "slab", "material": "case"}}
    assert words in fault(planned, using, cabinet, "slab")


@pytest.mark.parametrize("thickness", [0, -1, 18.0, None, True])
def test_a_faulty_door_thickness(planned, registry, thickness):
    body = {
        "id": "slab",
        "title": "Faulty",
        "build": lambda self, request, options: design(),
        "thickness": lambda self, frame, panel, options: thickness,
    }
    using = faulty(registry, "doors", "slab", type("Faulty", (DoorStyle,), body)())
    cabinet = {"space": {"front": "door"}, "doors": {"style": "slab", "material": "case"}}
    assert "thickness" in fault(planned, using, cabinet, "slab")


SPEC = JointSpec("x", "strip", "top", "cleat", 3, 0, 0)
CLEAT = part(key="cleat", role="cleat", box=Box(0, -9, -9, 10, 1, 1))
HANGING = Hanging(0, 0, None, 0, "cleat", 0)


def mount(assembly=None, hanging=HANGING, features=()):
    return MountDesign(assembly or Assembly((CLEAT,), (SPEC,)), hanging, features)


MOUNTS = [
    (None, "NoneType"),
    (raises, "ZeroDivisionError"),
    (mount(assembly="cleat"), "not a Assembly"),
    (mount(Assembly((part(key="top"),))), "key 'top', which the cabinet uses already"),
    (mount(features=(("ghost", GROOVE),)), "'ghost', which is no part"),
    (mount(features=(("top", "groove"),)), "where a Feature belongs"),
    (mount(features=5), "wrong shape"),
    (mount(hanging=None), "not a Hanging"),
    (mount(hanging=Hanging(0.5, 0, None, 0, "cleat", 0)), "hook_z is 0.5"),
    (mount(hanging=Hanging(0, 0, None, 0, "ghost", 0)), "wall strip 'ghost'"),
]


@pytest.mark.parametrize(("answer", "words"), MOUNTS, ids=[words for _, words in MOUNTS])
def test_faulty_mountings(planned, registry, answer, words):
    def build(self, request, options):
        return answer() if callable(answer) else answer

    method = type("Faulty", (MountingMethod,), {"id": "screw-strip", "title": "Faulty", "build": build})()
    using = faulty(registry, "mountings", "screw-strip", method)
    assert words in fault(planned, using, {"mounting": {"method": "screw-strip"}}, "screw-strip")


def check_finding(answer):
    def find(self, design):
        return answer() if callable(answer) else answer

    return type("Faulty", (ExtraCheck,), {"id": "own", "title": "Own", "find": find})()


@pytest.mark.parametrize(
    ("answer", "words"),
    [
        (None, "TypeError"),
        (raises, "sawdust"),
        ((("bay", "finding"),), "not a subject and a Finding"),
        ((Finding("a", "note", "b"),), "not a subject and a Finding"),
        ((("bay", Finding("a", "worry", "b")),), "level 'worry'"),
    ],
)
def test_faulty_checks_are_named_in_the_plan_and_break_no_job(planned, registry, answer, words):
    plan = planned(using=faulty(registry, "checks", "own", check_finding(answer)))
    (failed,) = [check for check in plan.checks if check.code == "check-failed"]
    assert failed.level == "caution"
    assert "The check own of plugin" in failed.message
    assert words in failed.message


def test_a_sound_check_is_asked_over_the_finished_parts(planned, registry, codes):
    class Wide(ExtraCheck):
        id = "own"
        title = "Own"

        def find(self, design):
            return tuple((p.id, Finding("wide", "note", "wide", p.width)) for p in design.parts if p.role == "side")

    plan = planned(case={"back": None}, using=faulty(registry, "checks", "own", Wide()))
    assert codes(plan, "wide") == [("note", "wide", "bay/side-left"), ("note", "wide", "bay/side-right")]
