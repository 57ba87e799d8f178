"""The engine: from a job to its plan. Pure: same job and registry, same plan."""

from casewright.api.engine.cache import PlanCache
from casewright.api.engine.drafts import Draft
from casewright.api.engine.planner import finished, make_draft, make_plan
from casewright.api.stock import Progress

__all__ = ["Draft", "PlanCache", "Progress", "finished", "make_draft", "make_plan"]
