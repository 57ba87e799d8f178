"""Replays the Dockerfile without an image: `python3 .ci/image.py`.

Its RUN steps are done in a temporary folder that stands for the image's root, on a clean copy of the last commit and on
this machine's Python. Then CMD is started as the image would start it: as USER, with ENV and nothing else of this
environment, and, where this machine allows that (root and `unshare`), every file system read-only but `/dev/shm`.
HEALTHCHECK must find it well, jobs are planned, and TERM must end it cleanly. Unknown instructions fail the replay.
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
import urllib.request
from pathlib import Path
from string import Template

ROOT = Path(__file__).resolve().parents[1]
KNOWN = frozenset({"ARG", "FROM", "WORKDIR", "COPY", "RUN", "USER", "ENV", "EXPOSE", "HEALTHCHECK", "CMD"})
NOT_HERE = re.compile(
    r"useradd [^&;|]*|apt-get update && apt-get install [^&;|]* && rm -rf /var/lib/apt/lists/\*", re.ASCII
)
"""The steps that would change this machine: the user is used by number instead, the C compiler is looked for here."""
COPIES = {". .", "--from=build /opt/casewright /opt/casewright"}
"""A clean copy of the last commit, and what the second stage takes from the first, which here stands in one place."""


def instructions(text: str) -> list[tuple[str, str]]:
    """Return a Dockerfile's instructions and what each says. Raises `ValueError` for one that is not replayed."""
    text = re.sub(r"^\s*#.*\n", "", text, flags=re.MULTILINE).replace("\\\n", " ")
    rows = [(line.split()[0], " ".join(line.split()[1:])) for line in text.splitlines() if line.strip()]
    for kind, words in rows:
        if kind not in KNOWN or (kind == "COPY" and words not in COPIES):
            raise ValueError(f"{kind} {words} is not replayed by .ci/image.py")
    given = dict(words.split("=", 1) for kind, words in rows if kind == "ARG")
    return [(kind, Template(words).safe_substitute(given) if kind == "FROM" else words) for kind, words in rows]


def build(steps: list[tuple[str, str]], root: Path) -> None:
    """Do every RUN in a clean copy, with the image's folders turned into those under `root`."""
    copy = root / "build"
    copy.mkdir()
    files = subprocess.run(["git", "archive", "HEAD"], cwd=ROOT, capture_output=True, check=True).stdout
    subprocess.run(["tar", "-x", "-C", str(copy)], input=files, check=True)
    shutil.rmtree(copy / "tests")  # as .dockerignore says
    env = {name: value for name, value in os.environ.items() if name.startswith("PIP_") or name.endswith("_proxy")}
    env |= {"PATH": os.environ["PATH"], "HOME": str(root), "LANG": "C.UTF-8"}
    for kind, words in steps:
        if kind == "RUN" and not NOT_HERE.fullmatch(words):
            print(kind, words)
            command = inside(words, root).replace("python -m venv", f"{sys.executable} -m venv")
            subprocess.run(["sh", "-ec", command], cwd=copy, env=env, check=True, stdout=subprocess.DEVNULL)
    shutil.rmtree(copy)  # the second stage carries only what it copies


def inside(words: str, root: Path) -> str:
    """Return words with the two folders the image writes to turned into those under `root`."""
    return re.sub(r"(?<![\w./])(?=/opt/|/build\b)", str(root), words)


def confined(command: list[str], user: str) -> list[str]:
    """Return a command that runs as another user on read-only file systems, as far as this machine lets it."""
    readonly = "mount --make-rprivate / && mount -o remount,bind,ro / && ! touch /written 2>/dev/null"
    if os.getuid() or subprocess.run(["unshare", "--mount", "sh", "-c", readonly], capture_output=True).returncode:
        print("NOT SHOWN: this machine lets no file system be read-only; run as the present user instead")
        return command
    more = "for m in /tmp /var/tmp /home /root; do mountpoint -q $m && mount -o remount,bind,ro $m; done; true"
    drop = ["setpriv", f"--reuid={user}", f"--regid={user}", "--clear-groups", "--no-new-privs", "--bounding-set=-all"]
    return ["unshare", "--mount", "sh", "-ec", f'{readonly}; {more}; exec "$@"', "sh", *drop, *command]


def run(says: dict[str, str], root: Path) -> None:
    """Start CMD as the image would, plan jobs, and stop it."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = str(probe.getsockname()[1])
    words = inside(says["ENV"], root).replace("$PATH", "/usr/local/bin:/usr/bin:/bin")
    env = {**dict(word.split("=", 1) for word in shlex.split(words)), "CASEWRIGHT_PORT": port}
    healthy = json.loads(says["HEALTHCHECK"].split(" CMD ")[1].replace(":8000", f":{port}"))
    service = subprocess.Popen(
        confined(json.loads(says["CMD"]), says["USER"]), env=env, cwd="/", stderr=subprocess.PIPE, text=True
    )
    try:
        end = time.monotonic() + 120
        while subprocess.run(healthy, env=env, capture_output=True).returncode:
            if service.poll() is not None or time.monotonic() > end:
                raise SystemExit("the service did not start")
            time.sleep(0.2)
        job = (ROOT / "openapi/examples/repair-bay.json").read_bytes()
        for view in ("plan", "booklet", "model", "workbook"):
            request = urllib.request.Request(
                f"http://127.0.0.1:{port}/v1/{view}", job, {"Content-Type": "application/json"}
            )
            with urllib.request.urlopen(request, timeout=60) as answer:
                print(f"POST /v1/{view}: {len(answer.read())} bytes")
    finally:
        service.send_signal(signal.SIGTERM)
        _, log = service.communicate(timeout=60)
        print(log, end="", file=sys.stderr)
    assert service.returncode == 0, service.returncode
    assert not [line for line in log.splitlines() if json.loads(line)["level"] == "error"]


def main() -> None:
    """Replay the Dockerfile."""
    steps = instructions((ROOT / "Dockerfile").read_text("utf-8"))
    says = dict(steps)  # the last of each kind is that of the last stage
    minor = f"{sys.version_info[0]}.{sys.version_info[1]}"
    if not says["FROM"].startswith(f"python:{minor}."):
        print(f"NOT SHOWN: the image has {says['FROM']}, this replay Python {minor}")
    with tempfile.TemporaryDirectory(prefix="image-") as folder:
        Path(folder).chmod(0o755)
        build(steps, Path(folder))
        run(says, Path(folder))
    print("the image's steps work")


if __name__ == "__main__":
    main()
