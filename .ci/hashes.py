"""Writes the hashes of api/deploy/constraints.txt anew: `python3 .ci/hashes.py`, after a version in it was changed.

They are those of the wheels that pip takes for the image's Python and Debian on either processor, so that an image is
built from the same bytes every time. Wheels that are the same for both have one.
"""

import json
import re
import subprocess
import sys
import tempfile
from pathlib import Path

FILE = Path(__file__).resolve().parents[1] / "api" / "deploy" / "constraints.txt"
PROCESSORS = ("x86_64", "aarch64")
GLIBC = range(17, 37)  # manylinux_2_17 is the oldest that wheels are made for; the image's Debian has 2.36


def wheels(pins: list[str], processor: str) -> dict[str, str]:
    """Return the SHA-256 of the wheel of each pin for a processor, by pin."""
    platforms = [f"--platform=manylinux_2_{minor}_{processor}" for minor in GLIBC]
    platforms += [f"--platform=manylinux2014_{processor}"]
    with tempfile.TemporaryDirectory() as folder:
        report = Path(folder, "report.json")
        options = ["--dry-run", "--quiet", "--no-deps", "--only-binary=:all:", "--python-version=3.11"]
        options += [*platforms, f"--target={folder}", f"--report={report}"]
        command = [sys.executable, "-m", "pip", "install", *options, *pins]
        subprocess.run(command, check=True)
        installed = json.loads(report.read_text("utf-8"))["install"]
    by_name = {one["metadata"]["name"].lower().replace("_", "-").replace(".", "-"): one for one in installed}
    return {pin: by_name[pin.split("==")[0]]["download_info"]["archive_info"]["hashes"]["sha256"] for pin in pins}


def main() -> None:
    """Write the file."""
    text = FILE.read_text("utf-8")
    comments = [line for line in text.splitlines() if line.startswith("#")]
    pins = re.findall(r"^[a-z0-9-]+==[^\s\\]+", text, re.MULTILINE)
    known = [wheels(pins, processor) for processor in PROCESSORS]
    hashes = {pin: [f"--hash=sha256:{one}" for one in sorted({of[pin] for of in known})] for pin in pins}
    lines = [" \\\n    ".join([pin, *hashes[pin]]) for pin in pins]
    FILE.write_text("\n".join([*comments, *lines, ""]), "utf-8")


if __name__ == "__main__":
    main()
