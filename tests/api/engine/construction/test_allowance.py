"""The time allowance of outside plugins, and that built-ins are called straight."""

import threading
import time
from contextvars import ContextVar
from dataclasses import replace

import pytest
from casewright.api.engine.construction import allowance
from casewright.api.engine.construction.allowance import MOST_OVERDUE, answer_of
from casewright.api.use.loading import load_installed
from casewright.sdk.errors import PluginFaultError, RefusedStartError
from casewright.sdk.loader import SECONDS, load
from casewright.sdk.methods import CannotError

KEY = ("joints", "theirs")
REGISTRY = replace(load(discover="none"), outside=frozenset({KEY}), owners={KEY: "outsider"}, seconds=0.2)


def refuse():
    raise CannotError("a rule", "this", "do that")


def fail():
    raise KeyError("size")


def out_of_memory():
    raise MemoryError


def test_an_answer_passes_through_and_a_refusal_where_one_may_come():
    assert answer_of(REGISTRY, *KEY, lambda: 7) == 7
    with pytest.raises(CannotError):
        answer_of(REGISTRY, *KEY, refuse, refusals=True)
    with pytest.raises(PluginFaultError, match="raised CannotError"):
        answer_of(REGISTRY, *KEY, refuse)


@pytest.mark.parametrize("registry", [REGISTRY, replace(REGISTRY, outside=frozenset())])
def test_what_a_method_raises_is_its_plugins_fault_but_for_want_of_memory(registry):
    with pytest.raises(PluginFaultError, match="plugin outsider, method theirs: raised KeyError: 'size'"):
        answer_of(registry, *KEY, fail)
    with pytest.raises(MemoryError):
        answer_of(registry, *KEY, out_of_memory)


def test_the_callers_context_holds_inside():
    units = ContextVar("units", default="mm")
    units.set("in")
    assert answer_of(REGISTRY, *KEY, units.get) == "in"


def test_a_built_in_is_called_in_the_callers_own_thread():
    assert answer_of(REGISTRY, "joints", "ours", threading.get_ident) == threading.get_ident()
    assert answer_of(REGISTRY, *KEY, threading.get_ident) != threading.get_ident()


def wait_out(name):
    for _ in range(200):
        if not any(t.name == name for t in threading.enumerate()):
            return True
        time.sleep(0.02)
    return False


def endless():
    while True:
        pass


def test_an_endless_call_is_given_up_by_name_and_its_thread_ends():
    with pytest.raises(PluginFaultError, match=r"plugin outsider, method theirs: did not answer within 0.2 s"):
        answer_of(REGISTRY, *KEY, endless)
    assert wait_out("plugin outsider")


def test_a_sleeping_call_is_given_up():
    start = time.monotonic()
    with pytest.raises(PluginFaultError, match="did not answer"):
        answer_of(REGISTRY, *KEY, lambda: time.sleep(1))
    assert time.monotonic() - start < 0.9
    assert wait_out("plugin outsider")


def test_a_call_that_exits_is_a_fault():
    def leave():
        raise SystemExit(3)

    with pytest.raises(PluginFaultError, match="SystemExit"):
        answer_of(REGISTRY, *KEY, leave)


def test_a_plugin_with_many_calls_overdue_is_not_called_again(monkeypatch):
    monkeypatch.setattr(allowance, "MOST_OVERDUE", 2)
    assert MOST_OVERDUE > 2
    let_go = threading.Event()
    for _ in range(2):
        with pytest.raises(PluginFaultError, match="did not answer"):
            answer_of(replace(REGISTRY, seconds=0.02), *KEY, let_go.wait)
    with pytest.raises(PluginFaultError, match="2 earlier calls"):
        answer_of(REGISTRY, *KEY, lambda: 7)
    let_go.set()
    assert wait_out("plugin outsider")
    assert answer_of(REGISTRY, *KEY, lambda: 7) == 7


def test_settings():
    assert load_installed({}).seconds == SECONDS
    assert load_installed({"CASEWRIGHT_PLUGIN_SECONDS": "0.5"}).seconds == 0.5
    blocked = load_installed({"CASEWRIGHT_BLOCKED_PLUGINS": "joint-biscuit, joint-dowel"})
    assert "biscuit" not in blocked.joints
    assert [p.name for p in blocked.plugins if p.status == "blocked"] == ["joint-biscuit", "joint-dowel"]


@pytest.mark.parametrize("word", ["0", "-1", "soon", "nan", "inf", "1e9"])
def test_a_setting_of_no_use_refuses_the_start(word):
    with pytest.raises(RefusedStartError, match="CASEWRIGHT_PLUGIN_SECONDS"):
        load_installed({"CASEWRIGHT_PLUGIN_SECONDS": word})


def test_a_required_plugin_that_is_not_there_refuses_the_start():
    with pytest.raises(RefusedStartError, match="absent"):
        load_installed({"CASEWRIGHT_REQUIRED_PLUGINS": "joint-dowel, absent"})
