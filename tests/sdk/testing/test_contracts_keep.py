"""Every built-in method keeps the contract that outside plugins are held to, at small counts.

The large counts of the same properties are in tests/plugins and tests/api/engine; `--full` plans 200
generated jobs for every method, in every kind of meeting it claims.
"""

import pytest
from casewright.sdk.loader import load
from casewright.sdk.testing.quick import CONTRACTS

REGISTRY = load(discover="built-in")
CASES = [(family, method) for family in CONTRACTS for method in getattr(REGISTRY, family)]
LONG = {"test_generated_jobs_fit_dry", "test_same_job_same_plan"}
ALIKE = {"mitre-spline"}


@pytest.mark.parametrize(("family", "method"), CASES)
def test_built_ins_keep_the_contract(family: str, method: str, full: bool) -> None:
    body = {
        "method": method,
        "jobs": 200 if full else 5,
        "meetings": 60 if full else 8,
        "alike": method in ALIKE,
        "_held": REGISTRY,
    }
    kept = type("Kept", (CONTRACTS[family],), body)()
    for name in dir(kept):
        if name.startswith("test_") and (full or name not in LONG):
            getattr(kept, name)()
