"""What an app holds: the registry and texts made from it once, and the last few plans."""

from dataclasses import dataclass
from typing import Any

from casewright.api.use.kept import KeptPlans
from casewright.sdk.loader import Registry
from flask import current_app

KEY = "casewright"


@dataclass(frozen=True, slots=True)
class State:
    """The registry, what made the plans, and the plans that are kept. Only what is kept changes after start."""

    registry: Registry
    made_by: dict[str, Any]
    kept: KeptPlans


def state() -> State:
    """Return the state of the app that answers this request."""
    held = current_app.extensions[KEY]
    assert isinstance(held, State)
    return held
