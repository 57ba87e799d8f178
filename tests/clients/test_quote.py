"""The quoting tool, run on the workshop's example and on a job that stops, here and by a service."""

import importlib
import io
import json
import os
import subprocess
import sys
from datetime import date, datetime, timedelta
from pathlib import Path
from urllib.error import HTTPError, URLError

import casewright.openapi
import pytest
from casewright.api import plan
from casewright.api.use.examples import example_job

TOOL = Path(next(iter(casewright.openapi.__path__))).resolve() / "clients" / "python" / "quote.py"
RATES = {"currency": "EUR", "hour": 40, "minutes": {"hang": 60, "glue-up": 30}, "hardware": {"cup-35": 3.5}}


@pytest.fixture
def files(tmp_path):
    good = {key: value for key, value in example_job().items() if key != "stock"}
    stops = {**good, "title": "Too low", "wall": {**good["wall"], "ceiling": 70}}
    bad = {**good, "units": "cm", "cabinets": [{**good["cabinets"][0], "widht": 24}]}
    (tmp_path / "torn.json").write_text('{"title": ', "utf-8")
    for name, document in (("rates", RATES), ("good", good), ("bad", bad), ("stops", stops)):
        (tmp_path / f"{name}.json").write_text(json.dumps(document), "utf-8")
    return tmp_path


def quoted(folder, *more):
    names = ("rates.json", "good.json", "bad.json", "torn.json", "stops.json")
    command = [sys.executable, str(TOOL), *names, "--start", "2027-03-05", *more]
    environment = {**os.environ, "PYTHONWARNINGS": "error"}
    done = subprocess.run(command, cwd=folder, env=environment, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (1, "")  # as bad.json cannot be planned
    return done.stdout.splitlines()


def test_offers_here_and_by_a_service_are_the_same(files, base):
    """A bad job in the middle is refused by its cabinet's title and leaves the others alone; stops have no price."""
    first, unpriced, untimed, *rest = quoted(files)
    good = plan({**json.loads((files / "good.json").read_text()), "rates": RATES})
    amounts = [row["amount_minor"] for row in good["costs"]["lines"] if row["amount_minor"] is not None]
    assert f": {sum(amounts) / 100:.2f} EUR, " in first
    assert unpriced.startswith("  without a price: ")
    assert untimed.startswith("  without a time: ")
    stops = plan(json.loads((files / "stops.json").read_text()))["checks"]
    assert rest == [
        "bad.json: no price, for it cannot be planned.",
        '  units: needs one of in, mm; got "cm". Write one of these words.',
        '  Wall cabinet for hand tools, widht: needs a known key; got "widht". Leave it out: "width" is here already.',
        "torn.json: no price, for it is no job that can be read: Expecting value: line 1 column 11 (char 10)",
        "Too low: no price. See /v1/cures or `casewright cures`.",
        *dict.fromkeys(f"  {check['message']}" for check in stops if check["level"] == "stop"),
    ]
    assert quoted(files, "--service", base) == [first, unpriced, untimed, *rest]


@pytest.fixture
def tool(monkeypatch):
    monkeypatch.syspath_prepend(str(TOOL.parent))
    return importlib.import_module("quote")


def test_a_service_that_is_away_or_busy_is_waited_for_and_then_named(tool, files, monkeypatch, capsys):
    """Away: asked again after 1, 2, 4 and 8 s. Busy: after what its Retry-After says. Each job is asked for."""
    client, waited = importlib.import_module("casewright_client"), []
    busy = [HTTPError("", 503, "", {"Retry-After": "7"}, io.BytesIO(b'{"title": "No room."}')) for _ in range(5)]
    answers = [URLError(ConnectionRefusedError("refused"))] * 5 + busy

    def opened(*_args, **_more):
        raise answers.pop(0)

    monkeypatch.setattr(client, "urlopen", opened)
    monkeypatch.setattr(client, "sleep", waited.append)
    names = [str(files / name) for name in ("rates.json", "good.json", "stops.json")]
    monkeypatch.setattr(sys, "argv", ["quote.py", *names, "--service", "http://127.0.0.1:1"])
    assert tool.main() == 1
    assert waited == [1, 2, 4, 8, 7, 7, 7, 7]
    lines = capsys.readouterr().out.splitlines()
    assert lines[::2] == [f"{name}: no price, for http://127.0.0.1:1 did not plan it. Ask again later."
                          for name in ("good.json", "stops.json")]  # fmt: skip
    assert "refused" in lines[1]
    assert lines[3] == "  No room."


def at(day: int, hour: int) -> datetime:
    return datetime(2027, 3, day, hour)  # the 5th is a Friday: 1 January 2027 is one, and nine weeks later is this


@pytest.mark.parametrize(
    ("begun", "hours", "ends"),
    [
        (at(5, 8), 6, at(5, 14)),
        (at(5, 8), 7, at(8, 9)),  # an hour is left for Monday
        (at(5, 13), 2, at(8, 9)),
        (at(6, 10), 1, at(8, 9)),  # on a Saturday nobody works
        (at(5, 3), 1, at(5, 9)),
        (at(5, 8), 36, at(12, 14)),
        (at(5, 20), 0, at(5, 20)),
    ],
)
def test_work_keeps_the_hours_of_the_shop(tool, begun, hours, ends):
    assert tool.worked(begun, timedelta(hours=hours), timedelta(hours=6)) == ends


def test_glue_dries_while_the_shop_is_closed(tool):
    """Six hours of gluing on Friday dry for 24 by Saturday; the hour after that is Monday's, and dries to Tuesday."""
    rows = ((1, "glue", 360, []), (2, "wait", 1440, [1]), (3, "screw", 60, [2]), (4, "wait", 1440, [3]))
    steps = [
        {"number": number, "action": action, "minutes": minutes, "needs": needs, "start": number}
        for number, action, minutes, needs in rows
    ]
    six = timedelta(hours=6)
    assert tool.delivery(steps[:3], date(2027, 3, 5), six) == date(2027, 3, 8)
    assert tool.delivery(steps, date(2027, 3, 5), six) == date(2027, 3, 9)
    assert tool.delivery([], date(2027, 3, 5), six) == date(2027, 3, 5)
