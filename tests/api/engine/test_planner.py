"""A draft is a plan as far as a search needs it; what is made of it is the plan."""

from casewright.api.engine import PlanCache, finished, make_draft, make_plan
from casewright.api.job.document import read_job

SHELVED = {"space": {"tiers": [{"fixed_shelves": 1}]}}


def test_a_plan_made_of_a_draft_is_the_plan(document, registry):
    job = read_job(document(SHELVED), registry)
    draft = make_draft(job, registry, cache=PlanCache())
    assert finished(draft, registry, PlanCache()) == make_plan(job, registry)


def test_a_draft_says_all_but_what_the_work_comes_to(document, registry):
    job = read_job(
        document(
            SHELVED,
            {"corner": {"method": "housed-groove"}, "top_inset": 20, "bottom_inset": 20},
            shop={"machines": ["planer"]},
        ),
        registry,
    )
    plan = make_plan(job, registry)
    draft = make_draft(job, registry, cache=PlanCache())
    assert (draft.parts, draft.hardware, draft.stock) == (plan.parts, plan.hardware, plan.stock)
    assert set(draft.checks) < set(plan.checks)  # a planer alone rips nothing: a matter of the work


def test_how_it_goes_together_is_worked_out_once(document, registry):
    job, cache = read_job(document(SHELVED), registry), PlanCache()
    first = cache.assemblies(cache.cabinets(job, registry))
    again = cache.assemblies(cache.cabinets(job, registry))
    assert first
    assert all(again[key] is together for key, together in first.items())
