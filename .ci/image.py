"""Replays a Dockerfile without an image: `python3 .ci/image.py`.

COPY, WORKDIR and RUN are done in a temporary folder that stands for the image's root, on this machine's Python (of the
version the image names, to the minor number). Then CMD is started as the image would start it: as USER, with ENV and
nothing else of this environment, all file systems read-only but `/dev/shm`, where this machine allows that (root and
`unshare`); HEALTHCHECK is run, a job is planned, and TERM must end it cleanly. An instruction that is not known here
fails the replay, so none is passed over in silence.
"""

import json
import os
import re
import shlex
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import time
import urllib.error
import urllib.request
from dataclasses import dataclass, field
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
NOT_REPLAYED = re.compile(
    r"useradd --system --uid (\d+) --no-create-home --shell /usr/sbin/nologin \w+"
    r"|apt-get update && apt-get install --yes --no-install-recommends gcc libc6-dev && rm -rf /var/lib/apt/lists/\*"
)
"""The steps that would change this machine: the user is used by number instead, the C compiler is looked for here."""

KNOWN = frozenset({"FROM", "WORKDIR", "COPY", "RUN", "USER", "ENV", "EXPOSE", "HEALTHCHECK", "CMD"})
FOLDERS = ("/opt/", "/build")
"""Where the image's steps write; here these stand in the temporary folder."""


@dataclass
class Stage:
    """One stage: its base, and its steps as (instruction, words) in order."""

    base: str
    name: str | None
    steps: list[tuple[str, str]] = field(default_factory=list)

    def last(self, instruction: str) -> str:
        """Return what the last such instruction says."""
        return next(text for kind, text in reversed(self.steps) if kind == instruction)


def parse(text: str) -> list[Stage]:
    """Return the stages of a Dockerfile. Raises `ValueError` for an instruction that is not known here."""
    stages: list[Stage] = []
    lines = [line for line in text.splitlines() if line.strip() and not line.lstrip().startswith("#")]
    for line in "\n".join(lines).replace("\\\n", " ").splitlines():
        instruction, rest = line.split(maxsplit=1)
        if instruction not in KNOWN:
            raise ValueError(f"{instruction} is not replayed by .ci/image.py")
        rest = " ".join(rest.split())
        if instruction == "FROM":
            words = rest.split()
            stages.append(Stage(words[0], words[2] if len(words) == 3 else None))
        else:
            stages[-1].steps.append((instruction, rest))
    return stages


def environment(stage: Stage, root: Path) -> dict[str, str]:
    """Return what ENV sets, and a plain PATH."""
    env = {"PATH": "/usr/local/bin:/usr/bin:/bin"}
    for kind, text in stage.steps:
        if kind == "ENV":
            for word in shlex.split(text):
                name, value = word.split("=", 1)
                env[name] = here(value, root).replace("$PATH", env["PATH"])
    return env


def here(text: str, root: Path) -> str:
    """Return a command with the image's folders turned into those under `root`."""
    for folder in FOLDERS:
        text = re.sub(rf"(?<![\w./]){re.escape(folder)}", f"{root}{folder}", text)
    return text


def build(stages: list[Stage], root: Path) -> None:
    """Replay every COPY and RUN."""
    env = {"PATH": os.environ["PATH"], "HOME": str(root), "LANG": "C.UTF-8"}
    env |= {name: value for name, value in os.environ.items() if name.startswith("PIP_") or name.endswith("_proxy")}
    for stage in stages:
        place = root
        for kind, text in stage.steps:
            if kind == "WORKDIR":
                place = root / text.lstrip("/")
                place.mkdir(parents=True, exist_ok=True)
            elif kind == "COPY" and text == ". .":
                files = subprocess.run(["git", "archive", "HEAD"], cwd=ROOT, capture_output=True, check=True).stdout
                subprocess.run(["tar", "-x", "-C", str(place)], input=files, check=True)
                for name in (ROOT / ".dockerignore").read_text().split():
                    if "*" not in name:
                        shutil.rmtree(place / name, ignore_errors=True)
            elif kind == "COPY":
                said = re.fullmatch(r"--from=(\w+) (\S+) (\S+)", text)
                if not said or said[2] != said[3] or said[1] not in {s.name for s in stages}:
                    raise ValueError(f"COPY {text} is not replayed by .ci/image.py")
            elif kind == "RUN" and not NOT_REPLAYED.fullmatch(text):
                command = here(text, root).replace("python -m venv", f"{sys.executable} -m venv")
                print("RUN", text)
                subprocess.run(["sh", "-ec", command], cwd=place, env=env, check=True, stdout=subprocess.DEVNULL)


def contained(command: list[str], user: str) -> list[str]:
    """Return a command that runs as another user on read-only file systems, as far as this machine lets it."""
    readonly = "mount --make-rprivate / && mount -o remount,bind,ro / && ! touch /written 2>/dev/null"
    may = os.getuid() == 0 and shutil.which("unshare") and shutil.which("setpriv")
    if not may or subprocess.run(["unshare", "--mount", "sh", "-c", readonly], capture_output=True).returncode:
        print("NOT SHOWN: this machine lets no file system be read-only; run as the present user instead")
        return command
    drop = ["setpriv", f"--reuid={user}", f"--regid={user}", "--clear-groups", "--no-new-privs", "--bounding-set=-all"]
    more = "for m in /tmp /var/tmp /home /root; do mountpoint -q $m && mount -o remount,bind,ro $m; done; true"
    return ["unshare", "--mount", "sh", "-ec", f'{readonly}; {more}; exec "$@"', "sh", *drop, *command]


def run(stage: Stage, root: Path) -> None:
    """Start CMD as the image would, ask it, and stop it."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = str(probe.getsockname()[1])
    env = {**environment(stage, root), "CASEWRIGHT_PORT": port, "CASEWRIGHT_DRAIN_SECONDS": "1"}
    words = json.loads(stage.last("CMD"))
    words[0] = shutil.which(words[0], path=env["PATH"]) or words[0]
    service = subprocess.Popen(
        contained(words, stage.last("USER")), env=env, cwd="/", stderr=subprocess.PIPE, text=True
    )
    try:
        base = f"http://127.0.0.1:{port}"
        wait(base, service)
        options, check = stage.last("HEALTHCHECK").split(" CMD ", 1)
        assert "--timeout" in options
        healthy = [word.replace(":8000", f":{port}") for word in json.loads(check)]
        healthy[0] = shutil.which(healthy[0], path=env["PATH"]) or healthy[0]
        subprocess.run(healthy, env=env, check=True)
        job = (ROOT / "openapi/examples/repair-bay.json").read_bytes()
        for path in ("plan", "booklet", "model", "workbook"):
            request = urllib.request.Request(f"{base}/v1/{path}", job, {"Content-Type": "application/json"})
            with urllib.request.urlopen(request, timeout=60) as answer:
                assert answer.status == 200
                print(f"POST /v1/{path}: {len(answer.read())} bytes")
    finally:
        service.send_signal(signal.SIGTERM)
        _, said = service.communicate(timeout=60)
        print(said, end="", file=sys.stderr)
    lines = [json.loads(line) for line in said.splitlines()]
    assert service.returncode == 0, said
    assert not [line for line in lines if line["level"] == "error"], said


def wait(base: str, service: "subprocess.Popen[str]") -> None:
    """Wait until the service is ready."""
    end = time.monotonic() + 30
    while True:
        try:
            urllib.request.urlopen(f"{base}/readyz", timeout=2).close()
        except OSError:
            if service.poll() is not None or time.monotonic() > end:
                raise SystemExit(f"the service did not start: {service.stderr and service.stderr.read()}") from None
            time.sleep(0.1)
        else:
            return


def main() -> None:
    """Replay the Dockerfile."""
    stages = parse((ROOT / "Dockerfile").read_text())
    minor = re.match(r"python:(\d+\.\d+)\.", stages[-1].base)
    if minor and minor[1] != f"{sys.version_info[0]}.{sys.version_info[1]}":
        print(f"NOT SHOWN: the image has Python {minor[1]}, this replay {sys.version.split()[0]}")
    with tempfile.TemporaryDirectory(prefix="image-") as folder:
        root = Path(folder)
        root.chmod(0o755)
        build(stages, root)
        shutil.rmtree(root / "build")  # the second stage carries only what it copies
        run(stages[-1], root)
    print("the image's steps work")


if __name__ == "__main__":
    main()
