"""The engine: from a job to its plan. Pure: same job and registry, same plan."""

from casewright.api.engine.cache import PlanCache
from casewright.api.engine.planner import make_plan
from casewright.api.stock import Progress

__all__ = ["PlanCache", "Progress", "make_plan"]
