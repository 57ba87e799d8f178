"""What an app holds: the registry and texts made from it once. Nothing here changes after start."""

from dataclasses import dataclass
from typing import Any

from casewright.sdk.loader import Registry
from flask import current_app

KEY = "casewright"


@dataclass(frozen=True, slots=True)
class State:
    """The registry and what made the plans."""

    registry: Registry
    made_by: dict[str, Any]


def state() -> State:
    """Return the state of the app that answers this request."""
    held = current_app.extensions[KEY]
    assert isinstance(held, State)
    return held
