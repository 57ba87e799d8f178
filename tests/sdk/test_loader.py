"""The loader: what is wrong is loud, and one plugin's fault is its own."""

import logging
import sys
import time
from importlib import metadata
from types import ModuleType, SimpleNamespace

import pytest
from casewright.sdk import hookspecs
from casewright.sdk.errors import RefusedStartError
from casewright.sdk.hookspecs import GROUP, hookimpl
from casewright.sdk.loader import OWN_DISTRIBUTION, load
from casewright.sdk.materials import Catalogue, Pull
from casewright.sdk.methods import DoorStyle, ExtraCheck, Fit, HouseStyle, JointMethod, MountingMethod

PULL = Pull("loop", "loop of cord", 1, 0, 5_000_000, 30_000_000, 0.01, (("*", "common-practice"),))


def joint(method_id="plain", **attributes):
    body = {
        "id": method_id,
        "title": "Plain",
        "does": frozenset({"corner"}),
        "fit": lambda self, meeting, options: Fit(),
        **attributes,
    }
    return type("Plain", (JointMethod,), body)()


def plugin(**hooks):
    """Return a plugin object whose hooks answer the given values."""
    module = ModuleType("a_plugin")
    for name, answer in hooks.items():
        made = (lambda value: lambda: value)(answer)
        made.__name__ = name
        setattr(module, name, hookimpl(made))
    return module


def only(*named, **settings):
    return load(discover="none", extra=named, **settings)


def record(registry, name):
    return next(p for p in registry.plugins if p.name == name)


def cause(faulty, *before):
    """Return why a plugin failed; what was loaded before it must still be there."""
    registry = only(*before, ("faulty", faulty))
    listed = record(registry, "faulty")
    assert listed.status == "failed"
    assert listed.methods == ()
    assert all(record(registry, name).status == "loaded" for name, _ in before)
    return listed.cause


GOOD = ("good", plugin(casewright_joint_methods=[joint("good")], casewright_catalogue=Catalogue(pulls=(PULL,))))


def test_registers_methods_sorted_by_id_and_remembers_their_owner():
    registry = only(
        ("second", plugin(casewright_joint_methods=[joint("zeta"), joint("alpha")])),
        ("first", plugin(casewright_joint_methods=[joint("mid")])),
    )
    assert list(registry.joints) == ["alpha", "mid", "zeta"]
    assert registry.owner("joints", "mid") == "first"
    assert registry.owner("joints", "none") == "unknown"
    assert record(registry, "second").methods == ("joints/zeta", "joints/alpha")


def test_every_built_in_loads():
    registry = load(discover="built-in")
    assert registry.plugins
    assert {p.status for p in registry.plugins} == {"loaded"}
    assert all(p.built_in for p in registry.plugins)
    declared = {point.name for point in metadata.entry_points(group=GROUP) if point.dist.name == OWN_DISTRIBUTION}
    assert {p.name for p in registry.plugins} == declared


def test_the_order_of_the_record_is_fixed():
    assert [p.name for p in load().plugins] == [p.name for p in load().plugins]


def test_a_duplicate_name_is_loud_and_the_first_keeps_working():
    registry = only(GOOD, ("good", plugin(casewright_joint_methods=[joint("other")])))
    assert [p.status for p in registry.plugins] == ["loaded", "failed"]
    assert "rename" in registry.plugins[1].cause
    assert list(registry.joints) == ["good"]


def test_a_duplicate_id_is_loud_and_names_the_owner():
    refusal = cause(plugin(casewright_joint_methods=[joint("good")]), GOOD)
    assert "'good'" in refusal
    assert "plugin good" in refusal


def test_an_id_twice_in_one_plugin_is_loud():
    assert "taken" in cause(plugin(casewright_joint_methods=[joint("same"), joint("same")]))


def test_a_duplicate_catalogue_id_is_loud_and_none_of_the_plugin_is_taken():
    faulty = plugin(casewright_joint_methods=[joint("fresh")], casewright_catalogue=Catalogue(pulls=(PULL,)))
    registry = only(GOOD, ("faulty", faulty))
    assert "loop" in record(registry, "faulty").cause
    assert "fresh" not in registry.joints
    assert len(registry.catalogue.pulls) == 1


@pytest.mark.parametrize(
    ("hooks", "words"),
    [
        ({"casewright_joint_methods": ["dowel"]}, "not a JointMethod"),
        ({"casewright_joint_methods": [JointMethod]}, "not a JointMethod"),
        ({"casewright_joint_methods": 5}, "casewright_joint_methods answered int 5"),
        ({"casewright_joint_methods": [joint(id="")]}, "id must be text"),
        ({"casewright_joint_methods": [joint(id=5)]}, "id must be text"),
        ({"casewright_joint_methods": [joint(title=None)]}, "title must be text"),
        ({"casewright_joint_methods": [joint(does=frozenset())]}, "no kind of meeting"),
        ({"casewright_joint_methods": [joint(does=frozenset({"corner", "knot"}))]}, "knot"),
        ({"casewright_joint_methods": [joint(options={"depth": 1})]}, "not a schema class"),
        ({"casewright_joint_methods": [joint(sdk=3)]}, "SDK 3"),
        ({"casewright_joint_methods": [joint(sdk=1)]}, "this is SDK 2.0. /docs/migration says what changed"),
        ({"casewright_box_methods": [joint()]}, "no `box` meeting"),
        ({"casewright_door_styles": [joint()]}, "not a DoorStyle"),
        ({"casewright_mountings": [joint()]}, "not a MountingMethod"),
        ({"casewright_house_styles": [joint()]}, "not a HouseStyle"),
        ({"casewright_checks": [joint()]}, "not a ExtraCheck"),
        ({"casewright_catalogue": [PULL]}, "not a Catalogue"),
        ({"casewright_catalogue": Catalogue(hinges=(PULL,))}, "not a Hinge"),
        ({"casewright_catalogue": Catalogue(pulls=("loop",))}, "not a Pull"),
        ({"casewright_joint_method": [joint()]}, "perhaps casewright_joint_methods"),
        ({}, "no hook"),
    ],
)
def test_a_wrong_answer_is_loud(hooks, words):
    assert words in cause(plugin(**hooks), GOOD)


def test_parameters_with_defaults_are_refused():
    def takes_default(depth=0):
        return [joint()]

    def takes_keyword(*, depth):
        return [joint()]

    def takes_plain(depth):
        return [joint()]

    for implementation in (takes_default, takes_keyword, takes_plain):
        faulty = SimpleNamespace(casewright_joint_methods=hookimpl(implementation))
        refusal = cause(faulty)
        assert "depth" in refusal
        assert "takes none" in refusal


def test_an_undecorated_hook_is_refused():
    assert "@hookimpl" in cause(SimpleNamespace(casewright_joint_methods=lambda: [joint()]))
    assert "not a function" in cause(SimpleNamespace(casewright_joint_methods=5))


def test_a_hook_that_raises_is_isolated():
    def breaks():
        raise ZeroDivisionError("the plane is blunt")

    faulty = ModuleType("faulty")
    faulty.casewright_joint_methods = hookimpl(breaks)
    assert "the plane is blunt" in cause(faulty, GOOD)


def test_none_for_an_answer_adds_nothing():
    registry = only(("quiet", plugin(casewright_joint_methods=None)))
    assert record(registry, "quiet").status == "loaded"
    assert not registry.joints


def test_a_blocked_plugin_is_listed_and_not_used():
    registry = only(GOOD, blocked=["good"])
    assert record(registry, "good").status == "blocked"
    assert not registry.joints


def test_a_required_plugin_must_load():
    assert only(GOOD, required=["good"]).joints
    with pytest.raises(RefusedStartError, match="required plugin good failed"):
        only(("good", plugin()), required=["good"])
    with pytest.raises(RefusedStartError, match="absent"):
        only(GOOD, required=["absent"])
    with pytest.raises(RefusedStartError, match="good"):
        only(GOOD, required=["good"], blocked=["good"])


class _Point:
    """An entry point as importlib.metadata gives it, of a distribution that is not installed."""

    def __init__(self, name, distribution, fetch):
        self.name, self.load = name, fetch
        self.dist = SimpleNamespace(name=distribution, version="1")


def found(monkeypatch, *points):
    monkeypatch.setattr("casewright.sdk.loader.entry_points", lambda group: points)


def failing(error):
    def fetch():
        raise error

    return fetch


@pytest.mark.parametrize("error", [ImportError("no such module"), SyntaxError("bad"), SystemExit(3), RuntimeError("x")])
def test_an_outside_plugin_that_does_not_import_is_listed_with_its_cause(monkeypatch, error):
    found(
        monkeypatch,
        _Point("zigzag", "outside", failing(error)),
        _Point("good", "outside", lambda: GOOD[1]),
    )
    registry = load()
    assert record(registry, "zigzag").status == "failed"
    assert type(error).__name__ in record(registry, "zigzag").cause
    assert list(registry.joints) == ["good"]


def test_a_built_in_that_does_not_import_refuses_the_start(monkeypatch):
    found(monkeypatch, _Point("joint-x", OWN_DISTRIBUTION, failing(ImportError("gone"))))
    with pytest.raises(RefusedStartError, match="built-in plugin joint-x failed"):
        load()
    assert load(blocked=["joint-x"]).plugins[0].status == "blocked"


def test_built_ins_come_first_and_others_by_distribution_and_name(monkeypatch):
    names = [("b", "zeta"), ("a", "zeta"), ("c", "alpha"), ("z", OWN_DISTRIBUTION)]
    found(monkeypatch, *(_Point(n, d, lambda n=n: plugin(casewright_joint_methods=[joint(n)])) for n, d in names))
    assert [p.name for p in load().plugins] == ["z", "c", "a", "b"]
    assert [p.name for p in load(discover="built-in").plugins] == ["z"]


def test_an_outside_plugin_cannot_take_a_built_ins_name(monkeypatch):
    found(
        monkeypatch,
        _Point("same", "outside", lambda: plugin(casewright_joint_methods=[joint("theirs")])),
        _Point("same", OWN_DISTRIBUTION, lambda: plugin(casewright_joint_methods=[joint("ours")])),
    )
    registry = load()
    assert [(p.distribution, p.status) for p in registry.plugins] == [("casewright", "loaded"), ("outside", "failed")]
    assert list(registry.joints) == ["ours"]


def test_importing_the_sdk_imports_no_web():
    import subprocess

    code = "import sys, casewright.sdk.loader, casewright.sdk.methods; print(*sorted(sys.modules))"
    seen = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.split()
    assert not {"flask", "apispec", "gunicorn", "casewright.api", "casewright.plugins"} & set(seen)


def test_every_hook_only_registers():
    hooks = [n for n in dir(hookspecs) if n.startswith("casewright_")]
    assert len(hooks) == 8
    for name in hooks:
        assert getattr(hookspecs, name).__doc__.startswith("Return")
    for kind in (DoorStyle, MountingMethod, ExtraCheck, HouseStyle):
        assert kind.__doc__


@pytest.mark.parametrize("hook", ["casewright_joint_methods", "casewright_catalogue"])
def test_a_hook_that_does_not_end_is_given_up_and_named_in_the_log(caplog, hook, monkeypatch):
    monkeypatch.setattr("casewright.sdk.waiting.PATIENCE", 0.05)

    def waits():
        while True:
            time.sleep(0.01)

    sleeper = ModuleType("sleeper")
    setattr(sleeper, hook, hookimpl(waits))
    with caplog.at_level(logging.WARNING, "casewright.plugins"):
        registry = load(discover="none", extra=[("sleeper", sleeper), GOOD], seconds=0.3)
    assert "good" in registry.joints
    failed = record(registry, "sleeper")
    assert failed.status == "failed"
    assert f"{hook} did not end within 0.3 s" in failed.cause
    assert failed.cause.startswith("test_loader.py:")
    assert f"plugin sleeper, {hook}: waiting, up to 0.3 s" in caplog.messages


def test_an_import_that_does_not_end_is_given_up(monkeypatch):
    def imports():
        while True:
            time.sleep(0.01)

    found(monkeypatch, _Point("slow", "slow-dist", imports))
    registry = load(seconds=0.2)
    assert "its import did not end within 0.2 s" in record(registry, "slow").cause
