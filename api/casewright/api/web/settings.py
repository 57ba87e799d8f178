"""The service's settings: `CASEWRIGHT_*` variables, each with its default and what it does, in one table.

A value that cannot be used refuses the start and names the variable, what was read and what would do. A secret is
never shown. `SETTINGS` is the table of the page `settings`; three of its rows are read where plugins are loaded.
"""

import hashlib
import os
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from casewright.api.job import limits
from casewright.sdk.errors import RefusedStartError
from casewright.sdk.spelling import nearest_word

PREFIX = "CASEWRIGHT_"
LEAST_KEY = 16
LEVELS = ("error", "warning", "info")
_ORIGIN = re.compile(r"https?://(?:[a-z0-9.-]+|\[[0-9a-f:.]+\])(?::[0-9]{1,5})?", re.ASCII)


@dataclass(frozen=True, slots=True)
class Settings:
    """Every setting, read. Seconds are wall-clock seconds; API keys are kept as SHA-256 digests only."""

    host: str = "127.0.0.1"
    port: int = 8000
    workers: int = 0
    timeout_seconds: int = limits.WORKER_SECONDS
    budget_seconds: int = limits.BUDGET_SECONDS
    requests_a_worker: int = 10_000
    kept_plans: int = 16
    drain_seconds: int = 0
    stop_seconds: int = 30
    api_keys: tuple[bytes, ...] = field(default=(), repr=False)
    cors_origins: tuple[str, ...] = ()
    metrics_host: str = "127.0.0.1"
    metrics_port: int = 0
    log_level: str = "warning"


@dataclass(frozen=True, slots=True)
class Setting:
    """One variable: its name, default as text, what it does, and how its text is read (None: read elsewhere).

    `read` returns the values of `Settings` it gives, or raises `ValueError` saying what would do.
    """

    name: str
    default: str
    about: str
    read: Callable[[str], dict[str, Any]] | None = None


def _text(key: str) -> Callable[[str], dict[str, Any]]:
    def read(word: str) -> dict[str, Any]:
        if not re.fullmatch(r"[A-Za-z0-9_.:-]{1,253}", word):
            raise ValueError("a host name or address, such as 127.0.0.1")
        return {key: word}

    return read


def _whole(key: str, least: int, most: int) -> Callable[[str], dict[str, Any]]:
    def read(word: str) -> dict[str, Any]:
        if not (word.isascii() and word.isdigit() and len(word) <= 9 and least <= int(word) <= most):
            raise ValueError(f"a whole number from {least} to {most}")
        return {key: int(word)}

    return read


def _level(word: str) -> dict[str, Any]:
    if word.lower() not in LEVELS:
        raise ValueError(f"one of {', '.join(LEVELS)}")
    return {"log_level": word.lower()}


def _keys(text: str) -> dict[str, Any]:
    keys = [key.strip() for key in re.split(r"[,\n]", text) if key.strip()]
    if not keys or any(not re.fullmatch(rf"[!-~]{{{LEAST_KEY},200}}", key) for key in keys):
        raise ValueError(f"keys by commas, each {LEAST_KEY} to 200 plain characters without spaces")
    return {"api_keys": tuple(hashlib.sha256(key.encode()).digest() for key in keys)}


def _key_file(name: str) -> dict[str, Any]:
    try:
        return _keys(Path(name).read_text("utf-8"))
    except (OSError, UnicodeDecodeError) as error:
        raise ValueError(f"a readable file with one key a line ({type(error).__name__})") from error


def _origins(text: str) -> dict[str, Any]:
    origins = tuple(origin.strip() for origin in text.split(",") if origin.strip())
    if origins != ("*",) and not all(_ORIGIN.fullmatch(origin) for origin in origins):
        raise ValueError("origins by commas, such as https://shop.example, or * for any")
    return {"cors_origins": origins}


SETTINGS: tuple[Setting, ...] = (
    Setting("CASEWRIGHT_HOST", "127.0.0.1", "address `casewright serve` listens on", _text("host")),
    Setting("CASEWRIGHT_PORT", "8000", "port it listens on", _whole("port", 1, 65535)),
    Setting(
        "CASEWRIGHT_WORKERS",
        "0",
        "worker processes; 0 is one more than the cores it may use. Heavy requests get all but one of them",
        _whole("workers", 0, 256),
    ),
    Setting(
        "CASEWRIGHT_BUDGET_SECONDS",
        str(limits.BUDGET_SECONDS),
        "time for one request; longer ones are answered 422 `over-budget`. It stays 5 s or more under the timeout",
        _whole("budget_seconds", 1, 3600),
    ),
    Setting(
        "CASEWRIGHT_TIMEOUT_SECONDS",
        str(limits.WORKER_SECONDS),
        "time after which a worker that gives no sign is ended and replaced",
        _whole("timeout_seconds", 6, 3660),
    ),
    Setting(
        "CASEWRIGHT_REQUESTS_A_WORKER",
        "10000",
        "requests after which a worker is replaced, give or take a tenth by chance; 0 is never",
        _whole("requests_a_worker", 0, 10**8),
    ),
    Setting(
        "CASEWRIGHT_KEPT_PLANS",
        "16",
        "plans a worker keeps in memory, so that several views of one job are planned once; 0 keeps none",
        _whole("kept_plans", 0, 1000),
    ),
    Setting(
        "CASEWRIGHT_DRAIN_SECONDS",
        "0",
        "after TERM, how long `/readyz` answers 503 while requests are still taken, so that a balancer looks elsewhere",
        _whole("drain_seconds", 0, 600),
    ),
    Setting(
        "CASEWRIGHT_STOP_SECONDS",
        "30",
        "after draining, how long requests under way may take to end",
        _whole("stop_seconds", 1, 3600),
    ),
    Setting(
        "CASEWRIGHT_API_KEY",
        "none",
        f"keys by commas, each {LEAST_KEY} characters or more; with one set, all but health, version, problems, "
        "docs and the OpenAPI document ask for `Authorization: Bearer KEY` or `X-Api-Key: KEY`",
        _keys,
    ),
    Setting("CASEWRIGHT_API_KEY_FILE", "none", "a file to read them from instead, one a line", _key_file),
    Setting(
        "CASEWRIGHT_CORS_ORIGINS",
        "none",
        "origins, by commas, whose pages may call the service from a browser; `*` is any",
        _origins,
    ),
    Setting("CASEWRIGHT_METRICS_HOST", "127.0.0.1", "address of the metrics", _text("metrics_host")),
    Setting(
        "CASEWRIGHT_METRICS_PORT",
        "0",
        "port of the metrics (Prometheus text, `/metrics`), never the service's own; 0 is none",
        _whole("metrics_port", 0, 65535),
    ),
    Setting(
        "CASEWRIGHT_LOG_LEVEL",
        "warning",
        "`error`, `warning` or `info`; `info` has a line a request. One JSON object a line on standard error",
        _level,
    ),
    Setting("CASEWRIGHT_PLUGIN_SECONDS", "5", "how long one call of an outside plugin may take"),
    Setting("CASEWRIGHT_REQUIRED_PLUGINS", "none", "names, by commas, without which the start is refused"),
    Setting("CASEWRIGHT_BLOCKED_PLUGINS", "none", "names, by commas, not to import"),
)
_SECRET = frozenset({"CASEWRIGHT_API_KEY"})


def read_settings(environ: Mapping[str, str] = os.environ) -> Settings:
    """Return the settings that an environment gives; empty is not set. Raises `RefusedStartError`."""
    values: dict[str, Any] = {}
    for setting in SETTINGS:
        word = environ.get(setting.name, "").strip()
        if not word or setting.read is None:
            continue
        try:
            read = setting.read(word)
        except ValueError as error:
            got = "not that" if setting.name in _SECRET else repr(word[:80])
            raise RefusedStartError(f"{setting.name} is {got}; give {error}") from error
        if "api_keys" in read and "api_keys" in values:
            raise RefusedStartError("CASEWRIGHT_API_KEY and CASEWRIGHT_API_KEY_FILE are both set; keep one")
        values |= read
    settings = Settings(**values)
    if settings.budget_seconds + 5 > settings.timeout_seconds:
        raise RefusedStartError(
            f"CASEWRIGHT_BUDGET_SECONDS is {settings.budget_seconds} and CASEWRIGHT_TIMEOUT_SECONDS "
            f"{settings.timeout_seconds}; keep the budget 5 s or more under the timeout"
        )
    if settings.metrics_port == settings.port:
        raise RefusedStartError("CASEWRIGHT_METRICS_PORT is the service's own port; give another")
    return settings


def unknown_settings(environ: Mapping[str, str] = os.environ) -> list[str]:
    """Return a sentence for each `CASEWRIGHT_*` variable that nothing here reads: most are slips of the pen."""
    known = [setting.name for setting in SETTINGS]
    warnings = []
    for name in sorted(environ):
        if name.startswith(PREFIX) and name not in known:
            near = nearest_word(name.removeprefix(PREFIX), [one.removeprefix(PREFIX) for one in known])
            warnings.append(f"{name} is not a setting{f'; did you mean {PREFIX}{near}?' if near else ''}")
    return warnings
