"""The quoting tool, run on the workshop's example and on a job that stops, here and by a service."""

import json
import os
import subprocess
import sys
from datetime import date
from pathlib import Path

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
    for name, document in (("rates", RATES), ("good", good), ("stops", stops)):
        (tmp_path / f"{name}.json").write_text(json.dumps(document), "utf-8")
    return tmp_path


def quoted(folder, *more):
    command = [sys.executable, str(TOOL), "rates.json", "good.json", "stops.json", "--start", "2027-03-05", *more]
    environment = {**os.environ, "PYTHONWARNINGS": "error"}
    done = subprocess.run(command, cwd=folder, env=environment, capture_output=True, text=True, check=True)
    return done.stdout.splitlines()


def test_offers_here_and_by_a_service_are_the_same(files, base):
    first, left_out, second = quoted(files)
    good = plan({**json.loads((files / "good.json").read_text()), "rates": RATES})
    amounts = [row["amount_minor"] for row in good["costs"]["lines"] if row["amount_minor"] is not None]
    assert f": {sum(amounts) / 100:.2f} EUR, " in first
    assert left_out.startswith("  not in it: ")
    stops = plan(json.loads((files / "stops.json").read_text()))["stops"]
    assert second == f"Too low: no price, {stops} reasons not to cut; see `casewright cures`"
    assert quoted(files, "--service", base) == [first, left_out, second]


def test_a_saturday_is_no_working_day(monkeypatch):
    monkeypatch.syspath_prepend(str(TOOL.parent))
    from quote import last_workday

    friday = date(2027, 3, 5)  # a Friday: 1 January 2027 is one, and nine weeks later is this
    assert [last_workday(friday, days) for days in (1, 2, 6)] == [friday, date(2027, 3, 8), date(2027, 3, 12)]
