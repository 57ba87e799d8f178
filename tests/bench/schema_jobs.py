"""Jobs drawn from the published OpenAPI document alone: `python tests/bench/schema_jobs.py --jobs 10000 --seed 1`.

Each job is one of the published examples with some of its values drawn anew, taken away, added or doubled, by what
the schema says of their place: kind, bounds, choices, branches. Nothing is taken from the code or from the strategies
of the SDK. Every job is sent to `/v1/plan`, one in `--every` to each other view, too. Printed: every fault as it comes
(a 5xx, a plugin at fault, or a plan in which one of the invariants below does not hold), a line each 50 jobs, and in
the end how many were answered by which status.
"""

import argparse
import json
import re
import sys
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from copy import deepcopy
from functools import reduce
from itertools import combinations
from operator import getitem
from pathlib import Path
from random import Random
from typing import Any

from casewright.api.web import create_app
from flask.testing import FlaskClient

PUBLISHED = Path(__file__).parents[2] / "openapi" / "openapi.json"
CHANGES = (1, 2, 3, 5, 10, 30)
"""How many changes of a job are aimed at: few, so that most can be built; or many."""
PROGRESS = 50
"""Jobs between two lines that say how far it is."""
ADDED = 0.2
"""An entry that is not there is added less often than one that is there is changed: most of them are not there."""
WORDS = ("1", "3/4", "1 1/2 in", "12 mm", "a-1", "A line of words.")
LONGEST = 3
"""Most rows of a list that is drawn anew."""
NEARLY = 1e-6
"""Sizes are printed in the job's units: what differs by less is a difference of printing."""

Schema = Mapping[str, Any]


def followed(published: Mapping[str, Any], node: Mapping[str, Any]) -> Mapping[str, Any]:
    """Return what a node refers to, or itself."""
    while "$ref" in node:
        steps = node["$ref"].split("/")[1:]
        node = reduce(getitem, steps, published)
    return node


def job_body(published: Mapping[str, Any], path: Mapping[str, Any]) -> Mapping[str, Any]:
    """Return the JSON body that a path reads; empty where it reads none."""
    body = followed(published, path.get("post", {}).get("requestBody", {}))
    return body.get("content", {}).get("application/json", {})


class Jobs:
    """Draws jobs from a published document."""

    def __init__(self, published: Mapping[str, Any], seed: int) -> None:
        self.published = published
        body = job_body(published, published["paths"]["/v1/plan"])
        self.schema = body["schema"]
        self.examples = [followed(published, example)["value"] for _, example in sorted(body["examples"].items())]
        self.random = Random(seed)
        self.keys = sorted({key for example in self.examples for key in example["materials"]})
        self.rate = 0.0
        self.pool: dict[str, list[Any]] = {}
        for example in self.examples:
            self._pooled("", example)

    def _pooled(self, name: str, value: Any) -> None:
        """Keep what stands under each name in the examples, which sizes and keys that are drawn anew are near to."""
        if isinstance(value, dict):
            for key, inner in value.items():
                self._pooled(key, inner)
        elif isinstance(value, list):
            for inner in value:
                self._pooled(name, inner)
        else:
            self.pool.setdefault(name, []).append(value)

    def draw(self) -> Any:
        """Return one job."""
        example = self.random.choice(self.examples)
        self.rate = self.random.choice(CHANGES) / _values(example)
        return self.changed("", deepcopy(example), self.schema)

    def chance(self) -> bool:
        """Return whether to change something here."""
        return self.random.random() < self.rate

    def branches(self, schema: Schema) -> list[Schema]:
        """Return what a schema may be, references followed."""
        schema = followed(self.published, schema)
        for word in ("oneOf", "anyOf"):
            if word in schema:
                return [one for each in schema[word] for one in self.branches(each)]
        return [schema]

    def changed(self, name: str, value: Any, schema: Schema) -> Any:
        """Return a value with some of what is in it changed."""
        branches = self.branches(schema)
        mine = next((one for one in branches if _fits(value, one)), branches[0])
        if isinstance(value, dict):
            return self._changed_object(value, mine)
        if isinstance(value, list):
            rows = [self.changed(name, row, mine.get("items", {})) for row in value]
            if 0 < len(rows) < mine.get("maxItems", LONGEST) and self.chance():
                rows.append(deepcopy(self.random.choice(rows)))
            if len(rows) > mine.get("minItems", 0) and self.chance():
                rows.pop(self.random.randrange(len(rows)))
            return rows
        return self.drawn(name, self.random.choice(branches)) if self.chance() else value

    def _changed_object(self, value: dict[str, Any], schema: Schema) -> dict[str, Any]:
        known = schema.get("properties", {})
        out = {}
        for key, inner in value.items():
            if key not in schema.get("required", ()) and self.chance():
                continue
            out[key] = self.changed(key, inner, known.get(key, schema.get("additionalProperties") or {}))
        for key in known:
            if key not in value and self.random.random() < ADDED and self.chance():
                out[key] = self.drawn(key, self.random.choice(self.branches(known[key])))
        return out

    def drawn(self, name: str, schema: Schema) -> Any:
        """Return a new value of one branch of a schema."""
        schema = self.random.choice(self.branches(schema))
        if "const" in schema:
            return schema["const"]
        if "enum" in schema:
            return self.random.choice(schema["enum"])
        near = self.random.choice(self.pool.get(name, [None]))
        kind = schema.get("type")
        if kind in ("number", "integer"):
            return self._number(near, schema)
        if kind == "string":
            return near if isinstance(near, str) else self._word(schema)
        if kind == "boolean":
            return self.random.random() < 0.5
        if kind == "array":
            least = schema.get("minItems", 0)
            count = self.random.randint(least, min(schema.get("maxItems", LONGEST), max(least, LONGEST)))
            return [self.drawn(name, schema.get("items", {})) for _ in range(count)]
        if kind == "object":
            known = schema.get("properties", {})
            wanted = schema.get("required", ())
            return {key: self.drawn(key, known[key]) for key in known if key in wanted or self.random.random() < 0.1}
        return None

    def _word(self, schema: Schema) -> str:
        """Return one of the words that match a pattern."""
        pattern = re.compile(schema.get("pattern", ""))
        return self.random.choice([word for word in (*WORDS, *self.keys) if pattern.search(word)] or ["-"])

    def _number(self, near: Any, schema: Schema) -> float | int:
        """Return a number near one of the examples, in one of twenty cases anywhere that the schema allows."""
        least, most = schema.get("minimum", 0), schema.get("maximum", 1000)
        if not isinstance(near, int | float) or self.random.random() < 0.05:
            near = self.random.choice([least, most, 1, 3, 10 ** self.random.uniform(-1, 2)])
        drawn = min(max(near * self.random.choice([0.5, 0.8, 0.9, 0.95, 1, 1.05, 1.1, 1.25, 2]), least), most)
        return round(drawn) if schema.get("type") == "integer" else round(drawn, 3)


def _values(value: Any) -> int:
    """Return how many plain values there are in a document."""
    inner = value.values() if isinstance(value, dict) else value if isinstance(value, list) else None
    return 1 if inner is None else sum(map(_values, inner))


def _fits(value: Any, schema: Schema) -> bool:
    """Return whether a value is of a branch's kind, with its constants and nothing that it does not know."""
    kinds = {dict: "object", list: "array", str: "string", bool: "boolean", type(None): "null"}
    kind = kinds.get(type(value), "number")
    if schema.get("type", kind) not in (kind, "integer" if kind == "number" else kind):
        return False
    if not isinstance(value, dict):
        return True
    known = schema.get("properties", {})
    constants = ((key, known[key].get("enum", [known[key].get("const")])) for key in known.keys() & value.keys())
    alike = all(value[key] in allowed for key, allowed in constants if allowed != [None])
    return alike and set(schema.get("required", ())) <= value.keys()


def faults(plan: Mapping[str, Any]) -> Iterator[str]:
    """Yield what does not hold of a plan's JSON, whatever job it is of."""
    ids = [part["id"] for part in plan["parts"]]
    if len(set(ids)) != len(ids):
        yield "two parts have one id"
    for part in plan["parts"]:
        if min(part["length"], part["width"], part["thickness"]) <= 0 or part["quantity"] < 1:
            yield f"{part['id']} has no size or quantity"
    numbers = [step["number"] for step in plan["steps"]]
    if numbers != list(range(1, len(numbers) + 1)):
        yield "steps are not numbered from 1"
    if any(need >= step["number"] for step in plan["steps"] for need in step["needs"]):
        yield "a step needs a later one"
    if any(check["code"] == "work-not-carried-out" for check in plan["checks"]):
        yield "the steps do not make the parts"
    known = set(ids)
    if any({joint["host"], joint["guest"]} - known for joint in plan["joints"]):
        yield "a joint of no part"
    if plan["dry_fit"]["clashes"] and not any(check["level"] == "stop" for check in plan["checks"]):
        yield "parts overlap and nothing stops"
    for layout in (plan["stock"] or {}).get("layouts", ()):
        yield from _overlaps(layout)


def _overlaps(layout: Mapping[str, Any]) -> Iterator[str]:
    """Yield which parts of a layout overlap or leave the piece."""
    boxes = [(one["part"], one["x"], one["y"], one["x"] + one["along_length"], one["y"] + one["along_width"])
             for one in layout["parts"]]  # fmt: skip
    for part, x, y, right, top in boxes:
        if x < -NEARLY or y < -NEARLY or right > layout["length"] + NEARLY or top > layout["width"] + NEARLY:
            yield f"{part} leaves {layout['stock']}"
    for (a, ax, ay, aright, atop), (b, bx, by, bright, btop) in combinations(boxes, 2):
        wide, high = min(aright, bright) - max(ax, bx), min(atop, btop) - max(ay, by)
        if wide > NEARLY and high > NEARLY:
            yield f"{a} and {b} overlap on {layout['stock']}"


def sent(client: FlaskClient, path: str, job: Any) -> tuple[int, list[str]]:
    """Send a job to a view; return the status and what is wrong with the answer."""
    answer = client.post(path, json=job)
    if answer.status_code >= 500:
        return answer.status_code, [answer.get_data(as_text=True)[:300]]
    body = answer.get_json(silent=True)
    if answer.status_code != 200:
        kind = str((body or {}).get("type", ""))
        return answer.status_code, [json.dumps(body)[:300]] if "plugin" in kind else []
    return 200, [*faults(body)] if path == "/v1/plan" else []


def tried(jobs: int, seed: int, every: int, views: Sequence[str]) -> tuple[Counter[str], list[str]]:
    """Return the answers by path and status, and what was wrong, with the job."""
    client = create_app().test_client()
    source = Jobs(json.loads(PUBLISHED.read_text()), seed)
    answers: Counter[str] = Counter()
    wrong: list[str] = []
    for number in range(jobs):
        job = source.draw()
        for path in ("/v1/plan", *(views if number % every == 0 else ())):
            status, answer = sent(client, path, job)
            answers[f"{path} {status}"] += 1
            for one in answer:
                wrong.append(f"job {number}, {path}: {one}\n{json.dumps(job)}")
                print(wrong[-1], flush=True)
        if (number + 1) % PROGRESS == 0:
            print(f"{number + 1} jobs, {len(wrong)} faults", flush=True)
    return answers, wrong


def all_views() -> list[str]:
    """Return the paths that read a job as `/v1/plan` does."""
    published = json.loads(PUBLISHED.read_text())
    job = job_body(published, published["paths"]["/v1/plan"])["schema"]
    reading = {path: job_body(published, node).get("schema") for path, node in published["paths"].items()}
    return [path for path, schema in reading.items() if schema == job and path != "/v1/plan"]


def main() -> int:
    """Draw, send, and print."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--jobs", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=20261127)
    parser.add_argument("--every", type=int, default=20, help="one job in so many goes to every view")
    options = parser.parse_args()
    answers, wrong = tried(options.jobs, options.seed, options.every, all_views())
    for key, count in sorted(answers.items()):
        print(f"{count:6} {key}")
    print(f"{options.jobs} jobs, seed {options.seed}: {len(wrong)} faults")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
