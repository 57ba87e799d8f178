"""HTTP: a Flask app over the same planning that embedding uses. `from casewright.api.web import create_app`."""

from typing import Any

__all__ = ["create_app"]


def __getattr__(name: str) -> Any:
    """Import the app on first use, so that the command line starts quickly."""
    if name == "create_app":
        from casewright.api.web.app import create_app

        return create_app
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
