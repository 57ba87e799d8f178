"""`casewright plugin preview`: every family drawn, and what is wrong shown with its line."""

import signal
import subprocess
import sys
import time
import urllib.error
import urllib.request
from contextlib import suppress
from pathlib import Path

import pytest
from casewright.api.command.cli import main

PNG = b"\x89PNG\r\n\x1a\n"
"""How a PNG begins (PNG specification, W3C, 5.2)."""


@pytest.fixture
def plugin(made):
    """Return the file of a new plugin."""
    return made / "ladder_joint.py"


def drawn(name: str, out: Path, *more: str) -> int:
    return main(["plugin", "preview", name, "--out", str(out), *more])


def test_a_joint_is_drawn_in_each_kind_of_meeting(plugin, tmp_path, capsys):
    """The housing is 4.5 mm deep: a quarter of 18 mm, as the template says."""
    out = tmp_path / "out"
    assert drawn(str(plugin), out) == 0
    assert len(capsys.readouterr().out.split()) == 2
    for kind in ("corner", "tee"):
        svg = (out / f"ladder-joint-{kind}.svg").read_text("utf-8")
        for words in (
            "along the joint",
            "from above the guest",
            "into the host",
            "press",
            ">x<",
            ">y<",
            ">z<",
            "18 mm",
        ):
            assert words in svg
        assert "growth 4.5 mm, seat 4.5 mm" in svg
        assert (out / f"ladder-joint-{kind}.png").read_bytes().startswith(PNG)
    page = (out / "index.html").read_text("utf-8")
    assert page.count("<img") == 2
    assert "drawn.txt" in page


def test_options_are_drawn_too(plugin, tmp_path):
    assert drawn(str(plugin), tmp_path, "--option", "depth=6 mm", "--method", "ladder-joint") == 0
    assert "growth 6 mm" in (tmp_path / "ladder-joint-tee.svg").read_text("utf-8")


@pytest.mark.parametrize(
    ("name", "files"),
    [
        ("door-slab", ["slab-design.svg", "slab-door.png"]),
        ("mounting-screw-strip", ["screw-strip-section.svg", "screw-strip-fixing.png", "screw-strip-design.svg"]),
        ("joint-half-lap", ["half-lap-frame.svg"]),
    ],
)
def test_built_ins_of_every_family_are_drawn(tmp_path, name, files):
    assert drawn(name, tmp_path) == 0
    assert all((tmp_path / file).stat().st_size > 500 for file in files)


@pytest.mark.parametrize(("stile", "stops"), [("39 mm", True), ("57 mm", False)])
def test_what_stops_the_cabinet_drawn_is_printed(tmp_path, capsys, stile, stops):
    """A cup 35 mm across whose middle is 22.5 mm from the edge reaches 40 mm in (common practice of cup hinges)."""
    assert drawn("door-cope-and-stick", tmp_path, "--option", f"stile={stile}") == 0
    assert ("a hinge bore does not lie wholly in its wood" in capsys.readouterr().out) is stops
    assert ("a hinge bore" in (tmp_path / "index.html").read_text("utf-8")) is stops


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("return Fit(", "return Fit(growht=1) or Fit(", "ladder_joint.py:"),
        ("depth = Length(", "depth = Length((", "SyntaxError"),
        ('raise CannotError("a housing is shallower', 'raise CannotError("a housing is shallower', ""),
    ],
)
def test_what_is_wrong_stands_on_the_page(plugin, tmp_path, capsys, old, new, words):
    text = plugin.read_text()
    assert old in text
    plugin.write_text(text.replace(old, new, 1))
    status = drawn(str(plugin), tmp_path)
    assert status == (2 if words else 0)
    output = capsys.readouterr().err
    assert words in output
    if words:
        assert "ladder_joint.py:" in output
        assert "<pre>ladder_joint.py:" in (tmp_path / "index.html").read_text("utf-8")


@pytest.mark.parametrize(
    ("requests", "words"),
    [
        ("--option=dept=3 mm", "no method drawn has an option 'dept'; there are depth"),
        ("--option=depth=30 mm", "option depth: a length from 1 to 12 mm. Give one within these bounds."),
        ("--method=none", "There is no method 'none' to draw; there are ladder-joint."),
    ],
)
def test_what_cannot_be_drawn_is_said_with_what_can(plugin, tmp_path, capsys, requests, words):
    assert main(["plugin", "preview", str(plugin), "--out", str(tmp_path / "out"), requests]) == 2
    assert capsys.readouterr().err == f"casewright plugin preview: {words}\n"


def test_a_plugin_that_is_not_there(tmp_path, capsys):
    assert drawn("no-such-plugin", tmp_path) == 2
    assert "no plugin named" in capsys.readouterr().err


def test_a_page_that_watches_draws_anew_at_a_save(plugin, tmp_path):
    """It is drawn, then drawn again when the file is saved, then shows what is wrong with a line; Ctrl-C ends it."""
    listen = (
        "import signal; signal.signal(signal.SIGINT, signal.default_int_handler); "  # tests in the background lack it
    )
    run = "from casewright.api.command.cli import main; raise SystemExit(main())"
    command = [sys.executable, "-c", listen + run]
    more = ["--out", str(tmp_path), "--watch", "--port", "0", "--method", "ladder-joint"]
    again = [*command, "plugin", "preview", str(plugin), *more]
    with subprocess.Popen(again, stdout=subprocess.PIPE, text=True) as process:
        try:
            base = process.stdout.readline().split()[0]
            assert base.startswith("http://127.0.0.1:")
            first = changed(base, "")
            assert "growth 4.5 mm" in fetched(base + "ladder-joint-tee.svg")
            text = plugin.read_text()
            assert "meeting.host_depth // 4)\n        room" in text
            plugin.write_text(text.replace("meeting.host_depth // 4)\n        room", "mm(7))\n        room"))
            second = changed(base, first)
            assert "growth 7 mm" in fetched(base + "ladder-joint-tee.svg")
            plugin.write_text(plugin.read_text() + "\n(\n")
            changed(base, second)
            assert "<pre>ladder_joint.py:" in fetched(base)
        finally:
            process.send_signal(signal.SIGINT)
            with suppress(subprocess.TimeoutExpired):
                process.wait(60)
            process.kill()
        assert process.returncode == 0


def fetched(address: str) -> str:
    with urllib.request.urlopen(address, timeout=30) as answer:
        return answer.read().decode()


def changed(base: str, before: str) -> str:
    """Return when it was drawn last, once that is another time than before."""
    until = time.monotonic() + 120
    while time.monotonic() < until:
        with suppress(urllib.error.HTTPError):
            now = fetched(base + "drawn.txt")
            if now != before:
                return now
        time.sleep(0.2)
    raise AssertionError("it was not drawn anew")
