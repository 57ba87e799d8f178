"""Settings: each variable read, refused where it cannot be used, and printed on its page as it is in the code."""

import hashlib
from dataclasses import asdict
from pathlib import Path
from typing import Any

import pytest
from casewright.api.job import limits
from casewright.api.web.pages import page_text
from casewright.api.web.settings import SETTINGS, Settings, read_settings, unknown_settings
from casewright.sdk.errors import RefusedStartError

KEY = "a-key-of-some-length"

DIGESTS = tuple(hashlib.sha256(key.encode()).digest() for key in (KEY, f"{KEY}2"))

READ: list[tuple[str, str, str, Any]] = [
    ("CASEWRIGHT_HOST", "0.0.0.0", "host", "0.0.0.0"),
    ("CASEWRIGHT_HOST", "::1", "host", "::1"),
    ("CASEWRIGHT_PORT", "8080", "port", 8080),
    ("CASEWRIGHT_WORKERS", "3", "workers", 3),
    ("CASEWRIGHT_BUDGET_SECONDS", "10", "budget_seconds", 10),
    ("CASEWRIGHT_TIMEOUT_SECONDS", "60", "timeout_seconds", 60),
    ("CASEWRIGHT_REQUESTS_A_WORKER", "0", "requests_a_worker", 0),
    ("CASEWRIGHT_KEPT_PLANS", "3", "kept_plans", 3),
    ("CASEWRIGHT_DRAIN_SECONDS", "7", "drain_seconds", 7),
    ("CASEWRIGHT_STOP_SECONDS", "12", "stop_seconds", 12),
    ("CASEWRIGHT_API_KEY", f" {KEY} ,{KEY}2", "api_keys", DIGESTS),
    ("CASEWRIGHT_CORS_ORIGINS", "https://a.example, http://localhost:3000", "cors_origins", ("https://a.example", "http://localhost:3000")),
    ("CASEWRIGHT_CORS_ORIGINS", "*", "cors_origins", ("*",)),
    ("CASEWRIGHT_METRICS_HOST", "0.0.0.0", "metrics_host", "0.0.0.0"),
    ("CASEWRIGHT_METRICS_PORT", "9400", "metrics_port", 9400),
    ("CASEWRIGHT_LOG_LEVEL", "INFO", "log_level", "info"),
]  # fmt: skip
REFUSED = [
    ("CASEWRIGHT_HOST", "not a host"),
    ("CASEWRIGHT_PORT", "0"),
    ("CASEWRIGHT_PORT", "tcp://10.0.0.1:8000"),
    ("CASEWRIGHT_WORKERS", "-1"),
    ("CASEWRIGHT_WORKERS", "²"),
    ("CASEWRIGHT_BUDGET_SECONDS", "30"),
    ("CASEWRIGHT_TIMEOUT_SECONDS", "5"),
    ("CASEWRIGHT_REQUESTS_A_WORKER", "many"),
    ("CASEWRIGHT_KEPT_PLANS", "-1"),
    ("CASEWRIGHT_DRAIN_SECONDS", "1.5"),
    ("CASEWRIGHT_STOP_SECONDS", "0"),
    ("CASEWRIGHT_API_KEY", "short"),
    ("CASEWRIGHT_API_KEY", "with a space in the midst"),
    ("CASEWRIGHT_API_KEY", ","),
    ("CASEWRIGHT_API_KEY_FILE", "/nowhere/at/all"),
    ("CASEWRIGHT_CORS_ORIGINS", "a.example"),
    ("CASEWRIGHT_CORS_ORIGINS", "https://a.example/path"),
    ("CASEWRIGHT_CORS_ORIGINS", "*, https://a.example"),
    ("CASEWRIGHT_METRICS_HOST", "a b"),
    ("CASEWRIGHT_METRICS_PORT", "8000"),
    ("CASEWRIGHT_LOG_LEVEL", "loud"),
]


def test_nothing_set_gives_the_defaults() -> None:
    assert read_settings({}) == Settings()
    assert read_settings({setting.name: "  " for setting in SETTINGS}) == Settings()


@pytest.mark.parametrize("setting", [s for s in SETTINGS if s.read is not None and s.default != "none"])
def test_each_default_told_is_the_one_kept(setting: Any) -> None:
    assert read_settings({setting.name: setting.default}) == Settings()


@pytest.mark.parametrize(("name", "word", "field", "value"), READ)
def test_read(name: str, word: str, field: str, value: Any) -> None:
    assert getattr(read_settings({name: word}), field) == value
    assert getattr(Settings(), field) != value


def test_every_setting_is_read_and_refused_above() -> None:
    here = {s.name for s in SETTINGS if s.read is not None}
    assert {row[0] for row in READ} | {"CASEWRIGHT_API_KEY_FILE"} == here == {row[0] for row in REFUSED}
    assert {row[2] for row in READ} == set(asdict(Settings()))


@pytest.mark.parametrize(("name", "word"), REFUSED)
def test_refused_by_name(name: str, word: str) -> None:
    with pytest.raises(RefusedStartError, match=name) as caught:
        read_settings({name: word})
    if name == "CASEWRIGHT_API_KEY":
        assert word == "," or word not in str(caught.value)


def test_keys_from_a_file(tmp_path: Path) -> None:
    path = tmp_path / "keys"
    path.write_text(f"{KEY}\n\n{KEY}2\n")
    assert read_settings({"CASEWRIGHT_API_KEY_FILE": str(path)}) == read_settings(
        {"CASEWRIGHT_API_KEY": f"{KEY},{KEY}2"}
    )
    with pytest.raises(RefusedStartError, match="both"):
        read_settings({"CASEWRIGHT_API_KEY_FILE": str(path), "CASEWRIGHT_API_KEY": KEY})


def test_a_key_is_never_shown() -> None:
    settings = read_settings({"CASEWRIGHT_API_KEY": KEY})
    assert KEY not in repr(settings)
    assert hashlib.sha256(KEY.encode()).hexdigest() not in repr(settings)
    assert "api_keys" not in repr(settings)


def test_a_slip_of_the_pen_is_named() -> None:
    assert unknown_settings({"CASEWRIGHT_PROT": "1", "CASEWRIGHT_PORT": "1", "PATH": ""}) == [
        "CASEWRIGHT_PROT is not a setting; did you mean CASEWRIGHT_PORT?"
    ]


def test_budgets_published_are_the_defaults() -> None:
    assert (Settings().budget_seconds, Settings().timeout_seconds) == (limits.BUDGET_SECONDS, limits.WORKER_SECONDS)
    assert limits.BUDGET_SECONDS <= limits.WORKER_SECONDS * 2 / 3


def test_the_page_prints_this_table() -> None:
    printed = page_text("settings").partition("| variable")[1:]
    rows = [f"| `{s.name}` | {s.about} | {s.default if s.default == 'none' else f'`{s.default}`'} |" for s in SETTINGS]
    assert "".join(printed).splitlines() == ["| variable | what it does | default |", "|---|---|---|", *rows]
