"""The service under gunicorn, started from Python so that one command serves it."""

from collections.abc import Mapping
from typing import Any

from casewright.api.web.app import create_app
from gunicorn.app.base import BaseApplication  # type: ignore[import-untyped]

__all__ = ["serve", "settings"]

SECONDS_A_REQUEST = 30


def settings(host: str, port: int, workers: int) -> dict[str, Any]:
    """Return gunicorn's settings: app loaded before forking, no control socket, nothing written to disk."""
    return {
        "bind": f"[{host}]:{port}" if ":" in host else f"{host}:{port}",
        "workers": workers,
        "worker_class": "sync",
        "preload_app": True,
        "timeout": SECONDS_A_REQUEST,
        "graceful_timeout": SECONDS_A_REQUEST,
        "control_socket_disable": True,
        "proc_name": "casewright",
        "errorlog": "-",
        "accesslog": None,
    }


class _Service(BaseApplication):  # type: ignore[misc]
    def __init__(self, chosen: Mapping[str, Any]) -> None:
        self.chosen = chosen
        super().__init__()

    def load_config(self) -> None:
        """Take over our settings; those that this gunicorn does not know are left out."""
        for key, value in self.chosen.items():
            if key in self.cfg.settings:
                self.cfg.set(key, value)

    def load(self) -> Any:
        """Return the app."""
        return create_app()


def serve(host: str, port: int, workers: int) -> None:
    """Serve until stopped. Raises `RefusedStartError` where a built-in or required plugin failed."""
    _Service(settings(host, port, workers)).run()
