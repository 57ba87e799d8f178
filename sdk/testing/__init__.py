"""What a plugin's tests may use: strategies that draw job documents."""

from casewright.sdk.testing.strategies import Using, jobs

__all__ = ["Using", "jobs"]
