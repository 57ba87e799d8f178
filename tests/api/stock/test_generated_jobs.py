"""Generated jobs, each verified by an independent saw; how often a setting is gone back to, with and without the rule.

Expected shares are the issue's, not measured values: no returns in at least 95 % of jobs at equal bought stock.
"""

from casewright.api.stock import plan_stock
from stock_checker import check_plan
from stock_jobs import SEED, job


def test_generated_jobs_replay_like_a_saw_and_seldom_go_back(full: bool) -> None:
    count = 300 if full else 40
    without_returns = {True: 0, False: 0}
    bought = {True: [], False: []}
    small_unproved = 0
    for i in range(count):
        for rule in (True, False):
            request = job(SEED + i, 3 if full else 2, fewer_settings=rule)
            plan = plan_stock(request)
            check_plan(plan, request)
            assert not plan.short
            without_returns[rule] += plan.returns.count == 0
            bought[rule].append([(p.stock, p.quantity) for p in plan.buy])
            if rule and plan.returns.settings <= 12 and not plan.returns.proved:
                small_unproved += 1
    share = {rule: 100 * n / count for rule, n in without_returns.items()}
    print(f"\nseed {SEED}, {count} jobs: no returns {share[True]:.1f} % with the rule, {share[False]:.1f} % without")
    assert bought[True] == bought[False], "the rule may not cost stock"
    assert small_unproved == 0
    assert share[True] >= share[False]
    # the small run is too small a sample for 95 %, so it only guards against a collapse
    assert share[True] >= (95 if full else 85)


def test_the_same_job_gives_the_same_plan() -> None:
    assert plan_stock(job(SEED + 3)) == plan_stock(job(SEED + 3))
