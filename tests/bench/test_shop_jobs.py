"""Shop jobs at the default effort beside rectpack's best of twelve; `--full` runs all 100, else the first 12.

The limits are the project's own: no job buys more than rectpack does, none takes more than two seconds of a processor.
"""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from casewright.api.stock import search
from shop_jobs import JOBS, SEED, measured, shop_job, total
from slowness import slowness


def test_no_shop_job_buys_more_than_the_best_of_twelve_packings(full: bool) -> None:
    slower, rows = slowness(), []
    for i in range(JOBS if full else 12):
        rows.append(measured(shop_job(SEED + i)))
        slower = max(slower, slowness())
    print(f"\n{total(rows)}, on a machine up to {slower:.1f} times slower")
    assert not any(row.worse for row in rows)
    if not str(search.__file__).endswith(".py"):  # where nothing is compiled the same answers take longer
        assert max(row.seconds for row in rows) / slower < 2
    back = [row.plan.returns for row in rows if row.plan.returns.count]
    assert all(returns.proved for returns in back)
    assert len(back) <= len(rows) // 100
