"""A small quoting tool: price, hours of work, weight and delivery date of each job, by the shop's own rates.

    python quote.py rates.json first.json second.json --start 2027-03-01 --hours 6
    python quote.py rates.json first.json --service http://127.0.0.1:8000

`rates.json` is what a job has as `rates`: `hour`, `minutes`, `hardware`, `currency` and so on. Jobs are planned in this
process where casewright is installed, and by a service otherwise, with `casewright_client.py` from beside this file.
A job with a stop has no price: it is not to be cut before its stops are cleared. One that cannot be read, or that the
service does not answer, leaves the others alone; then the exit code is 1.
"""

import argparse
import json
import sys
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict
from datetime import date, datetime, time, timedelta
from pathlib import Path
from typing import Any

SATURDAY = 5
OPENS = time(8)
FAULT = 500
"""The status from which on a service, not the job, is at fault."""

Document = Mapping[str, Any]


def worked(at: datetime, work: timedelta, day: timedelta) -> datetime:
    """Return when work begun at a time ends: from eight o'clock on, so long a day, none on Saturdays and Sundays."""
    while work:
        opens = datetime.combine(at, OPENS)
        at = max(at, opens)
        if at.weekday() >= SATURDAY or at >= opens + day:
            at = datetime.combine(at + timedelta(days=1), OPENS)
            continue
        now = min(work, opens + day - at)
        at, work = at + now, work - now
    return at


def delivery(steps: Sequence[Document], start: date, day: timedelta) -> date:
    """Return the day all is done by one person: hands keep the shop's hours, and glue dries by night and Sunday too."""
    free = datetime.combine(start, OPENS)
    ends: dict[int, datetime] = {}
    for step in sorted(steps, key=lambda one: (one["start"], one["number"])):
        begun = max([ends[number] for number in step["needs"] if number in ends], default=free)
        lasts = timedelta(minutes=step.get("minutes", 0))
        if step["action"] == "wait":
            ends[step["number"]] = begun + lasts
        else:
            ends[step["number"]] = free = worked(max(begun, free), lasts, day)
    return max(ends.values(), default=free).date()


def offer(plan: Document, start: date, day: timedelta) -> Iterator[str]:
    """Yield the lines of an offer, with what its figures leave out; or why the job is not to be cut."""
    if plan["stops"]:
        stops = dict.fromkeys(check["message"] for check in plan["checks"] if check["level"] == "stop")
        yield f"{plan['title']}: no price. See /v1/cures or `casewright cures`."
        yield from [f"  {message}" for message in stops]
        return
    costs, unit = plan["costs"], "kg" if plan["units"] == "mm" else "lb"
    weight = sum(row["count"] * row[f"mass_{unit}"] for row in plan["summary"])
    price = "no price" if costs["total"] is None else f"{costs['total']} {costs['currency']}".strip()
    left = [step for step in plan["steps"] if "start" in step]  # the others are done
    figures = (price, f"{costs['hours']:.1f} h", f"{weight:.0f} {unit}", f"ready on {delivery(left, start, day)}")
    yield f"{plan['title']}: {', '.join(figures)}"
    unpriced = [line["name"] for line in costs["lines"] if line["amount"] is None]
    if unpriced:
        yield f"  without a price: {'; '.join(unpriced)}"
    if plan["schedule"]["untimed"]:
        yield f"  without a time: {plan['schedule']['untimed']} of {len(left)} steps"


def refusal(path: Path, job: Document, problems: Sequence[Document]) -> Iterator[str]:
    """Yield what is wrong with a job, each by the cabinet's title where it is in one."""
    yield f"{path.name}: no price, for it cannot be planned."
    for problem in problems:
        place = problem["pointer"].split("/")[1:]
        if len(place) > 2 and place[0] == "cabinets":
            cabinet = job["cabinets"][int(place[1])]
            place = [cabinet.get("title") or cabinet.get("id") or f"cabinet {int(place[1]) + 1}", *place[2:]]
        yield f"  {', '.join(place)}: needs {problem['rule']}; got {problem['got']}. {problem['fix']}"


def unanswered(path: Path, service: str, error: Exception) -> Iterator[str]:
    """Yield that a job was not planned by no fault of its own: the service is busy, away or failed."""
    yield f"{path.name}: no price, for {service} did not plan it. Ask again later."
    yield f"  {str(error).splitlines()[0]}"


def main() -> int:
    """Print the offers; return 1 where a job has none for want of an answer or of a job that can be read."""
    parser = argparse.ArgumentParser(description="Quote jobs: price, hours, weight, delivery date.")
    parser.add_argument("rates", type=Path, help="a JSON file of the shop's rates")
    parser.add_argument("jobs", type=Path, nargs="+", help="JSON files of jobs")
    parser.add_argument("--service", help="the address of a casewright service")
    parser.add_argument("--start", type=date.fromisoformat, default=date.today(), help="the day work begins")
    parser.add_argument("--hours", type=float, default=6, help="hours of work a day")
    given = parser.parse_args()
    if given.service:
        from casewright_client import Client
        from casewright_client import JobProblemError as BadJobError

        plan = Client(given.service).plan
    else:
        from casewright.api import plan
        from casewright.sdk.errors import ProblemsError as BadJobError

    rates = json.loads(given.rates.read_text("utf-8"))
    done = 0
    for path in given.jobs:
        try:
            job = {**json.loads(path.read_text("utf-8")), "rates": rates}
        except (OSError, ValueError, TypeError) as error:
            print(f"{path.name}: no price, for it is no job that can be read: {error}", flush=True)
            done = 1
            continue
        try:
            lines = offer(plan(job), given.start, timedelta(hours=given.hours))
        except BadJobError as error:
            if given.service and error.status >= FAULT:
                lines = unanswered(path, given.service, error)
            else:
                lines = refusal(path, job, error.errors if given.service else [asdict(one) for one in error.problems])
            done = 1
        except OSError as error:
            lines, done = unanswered(path, given.service, error), 1
        print(*lines, sep="\n", flush=True)
    return done


if __name__ == "__main__":
    sys.exit(main())
