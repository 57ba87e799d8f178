"""Shop jobs at the default effort beside rectpack's best of twelve; `--full` runs all 100, else the first 12.

The limits are the project's own: no job buys more than rectpack does, none takes more than two seconds of a processor.
"""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from shop_jobs import JOBS, SEED, measured, shop_job, total
from slowness import slowness


def test_no_shop_job_buys_more_than_the_best_of_twelve_packings(full: bool) -> None:
    rows = [measured(shop_job(SEED + i)) for i in range(JOBS if full else 12)]
    print(f"\n{total(rows)}")
    assert not any(row.worse for row in rows)
    assert max(row.seconds for row in rows) / slowness() < 2
    back = [row.plan.returns for row in rows if row.plan.returns.count]
    assert all(returns.proved for returns in back)
    assert len(back) <= len(rows) // 100
