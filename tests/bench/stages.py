"""Processor time of the stages of a plan, under this or an earlier version: started by `stage_table.py`.

For each line read, a JSON object (`stock`, whether the stock of the demo job is cut; `effort`, the stock planner's;
`cabinets`, how many unlike copies of its first cabinet are planned instead), one run's milliseconds are written as a
line: of reading the text, planning and writing the answer's bytes. Nothing is kept from run to run, and the collector
rests. A version's own example is its demo job.
"""

import copy
import gc
import json
import sys
import time
from typing import Any

from casewright.api.engine import make_plan
from casewright.api.wire import plan_document
from casewright.api.wire.made_by import fingerprint, made_by

try:
    from casewright.api.job.document import read_job
    from casewright.api.job.strict_json import read_json
    from casewright.api.use.examples import example_job
    from casewright.api.use.loading import installed
except ImportError:  # rooms of version 0.1
    from casewright.api.planning import installed
    from casewright.api.web.openapi import example_job
    from casewright.api.wire.job_document import read_job
    from casewright.api.wire.strict_json import read_json

SECTIONS = (plan_document.SECTIONS,) if hasattr(plan_document, "SECTIONS") else ()


def demo(stock: bool = False, effort: int | None = None, cabinets: int | None = None) -> dict[str, Any]:
    """Return the demo job as asked for; without its rates, which price nothing where no stock is."""
    job: dict[str, Any] = {key: value for key, value in example_job().items() if stock or key not in ("stock", "rates")}
    if effort is not None:
        job["stock"]["effort"] = effort
    if cabinets is not None:
        first = {**job["cabinets"][0], "count": 1}
        job["cabinets"] = [
            {**copy.deepcopy(first), "id": f"bay-{i}", "width": 24 + i % 8 * 0.5} for i in range(cabinets)
        ]
        job["wall"] = {key: value for key, value in job["wall"].items() if key != "cabinets_at"}
    return job


def main() -> None:
    """Answer each line with the three times."""
    registry = installed()
    made = made_by(registry)
    for line in sys.stdin:
        question = json.loads(line)
        text = json.dumps(demo(**question)).encode()
        gc.collect()
        gc.disable()
        start = time.process_time()
        document = read_json(text)
        job = read_job(document, registry)
        read = time.process_time()
        plan = make_plan(job, registry, with_stock=question.get("stock", False))
        planned = time.process_time()
        answer = plan_document.plan_document(plan, made, fingerprint(document, registry), *SECTIONS)
        plan_document.to_bytes(answer)
        written = time.process_time()
        gc.enable()
        times = (read - start, planned - read, written - planned)
        print(json.dumps([1000 * each for each in times]), flush=True)


if __name__ == "__main__":
    main()
