"""What it costs to work out how the demo job goes together and to replay its steps: `python tests/bench/work_bench.py`.

Processor time, nothing kept from before, the best of two hundred with the collector off, as `timeit` measures; run it
on a quiet machine. The two together are to stay under 4 ms, so that a plan that is asked for again and again may be
checked each time.
"""

from __future__ import annotations

import gc
import json
import time
from collections.abc import Callable
from pathlib import Path

from casewright.api.engine import make_plan
from casewright.api.engine.work.carried_out import given_of, work_checks
from casewright.api.engine.work.together import put_together
from casewright.api.job.document import read_job
from casewright.api.use.loading import installed

DEMO = Path(__file__).resolve().parents[2] / "openapi" / "examples" / "repair-bay.json"
TRIES = 200


def least_ms(work: Callable[[], object]) -> float:
    """Return the least processor time of some tries, in ms."""
    took = []
    gc.collect()
    gc.disable()
    try:
        for _ in range(TRIES):
            start = time.process_time()
            work()
            took.append(time.process_time() - start)
    finally:
        gc.enable()
    return min(took) * 1000


def main() -> None:
    """Print the three times."""
    registry = installed()
    job = read_job(json.loads(DEMO.read_text()), registry)
    plan = make_plan(job, registry)
    assembly = least_ms(lambda: put_together(plan.parts, plan.joints, plan.hardware, {}))
    replay = least_ms(
        lambda: work_checks(job, plan.parts, plan.joints, plan.steps, given_of(job, plan.parts, plan.stock))
    )
    print(f"assembly {assembly:.2f} ms, replay {replay:.2f} ms, together {assembly + replay:.2f} ms")


if __name__ == "__main__":
    main()
