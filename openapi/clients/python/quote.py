"""A small quoting tool: price, hours of work, weight and delivery date of each job, by the shop's own rates.

    python quote.py rates.json first.json second.json --start 2027-03-01 --hours 6
    python quote.py rates.json first.json --service http://127.0.0.1:8000

`rates.json` is what a job has as `rates`: `hour`, `minutes`, `hardware`, `currency` and so on. Jobs are planned in this
process where casewright is installed, and by a service otherwise, with `casewright_client.py` from beside this file.
A job with a stop has no price: it is not to be cut before its stops are cleared.
"""

import argparse
import json
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil
from pathlib import Path
from typing import Any

SATURDAY = 5


@dataclass(frozen=True)
class Offer:
    """What is offered for a job; `unpriced` lines are not in its price, `untimed` steps not in its hours."""

    title: str
    stops: int
    price: str
    unpriced: int
    hours: float
    untimed: int
    weight: str
    delivery: date


def last_workday(start: date, days: int) -> date:
    """Return the last of a number of working days from a day on: Saturdays and Sundays are none."""
    day = start - timedelta(days=1)
    while days > 0:
        day += timedelta(days=1)
        days -= day.weekday() < SATURDAY
    return day


def offer(plan: Mapping[str, Any], start: date, hours_a_day: float) -> Offer:
    """Return what is offered for a planned job begun on a day; glue that dries overnight takes no working hours."""
    costs, schedule = plan["costs"], plan["schedule"]
    hours = schedule["hands_on"] / 60
    days = max(1, ceil(hours / hours_a_day), ceil(schedule["finish"] / (24 * 60)))
    unit = "kg" if plan["units"] == "mm" else "lb"
    return Offer(
        title=plan["title"],
        stops=plan["stops"],
        price=f"{costs['total']} {costs['currency']}".strip(),
        unpriced=costs["missing"],
        hours=hours,
        untimed=schedule["untimed"],
        weight=f"{sum(row['count'] * row[f'mass_{unit}'] for row in plan['summary']):.0f} {unit}",
        delivery=last_workday(start, days),
    )


def lines(offers: list[Offer]) -> Iterator[str]:
    """Yield a line for each offer, with what its figures leave out."""
    for one in offers:
        if one.stops:
            yield f"{one.title}: no price, {one.stops} reasons not to cut; see `casewright cures`"
            continue
        yield f"{one.title}: {one.price}, {one.hours:.1f} h, {one.weight}, ready on {one.delivery}"
        if one.unpriced or one.untimed:
            yield f"  not in it: {one.unpriced} lines without a price, {one.untimed} steps without a time"


def planner(service: str | None) -> Callable[[Mapping[str, Any]], Mapping[str, Any]]:
    """Return what plans a job: this process, or a service."""
    if service is None:
        from casewright.api import plan

        return plan
    from casewright_client import Client

    return Client(service).plan


def main() -> None:
    """Print the offers."""
    parser = argparse.ArgumentParser(description="Quote jobs: price, hours, weight, delivery date.")
    parser.add_argument("rates", type=Path, help="a JSON file of the shop's rates")
    parser.add_argument("jobs", type=Path, nargs="+", help="JSON files of jobs")
    parser.add_argument("--service", help="the address of a casewright service")
    parser.add_argument("--start", type=date.fromisoformat, default=date.today(), help="the day work begins")
    parser.add_argument("--hours", type=float, default=6, help="hours of work a day")
    given = parser.parse_args()
    rates, plan = json.loads(given.rates.read_text("utf-8")), planner(given.service)
    jobs = [{**json.loads(path.read_text("utf-8")), "rates": rates} for path in given.jobs]
    print("\n".join(lines([offer(plan(job), given.start, given.hours) for job in jobs])))


if __name__ == "__main__":
    main()
