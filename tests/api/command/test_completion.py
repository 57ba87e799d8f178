"""Completion in bash itself: what is offered at each place of a command line."""

import shutil
import subprocess

import pytest
from casewright.api.command.completion import completion
from casewright.api.command.parser import parser

ASK = """
COMP_WORDS=("$@")
COMP_CWORD=$(( $# - 1 ))
_casewright
printf '%s\\n' "${COMPREPLY[@]}"
"""


@pytest.mark.parametrize(
    ("typed", "offered"),
    [
        (["c"], {"check", "cures", "completion"}),
        (["plan", "job.json", "--q"], {"--quiet"}),
        (["plan", "job.json", "--format", ""], {"text", "json", "csv"}),
        (["check", "job.csv", "--delimiter", "s"], {"semicolon"}),
        (["plugin", "n"], {"new"}),
        (["plugin", "new", "--kind", "j"], {"joint"}),
        (["completion", "b"], {"bash"}),
        (["plan", "jo"], {""}),  # a file, which bash itself completes
    ],
)
def test_bash_offers(typed: list[str], offered: set[str]) -> None:
    if shutil.which("bash") is None:
        pytest.skip("bash is not installed")
    command = ["bash", "-c", completion(parser(), "bash") + ASK, "bash", "casewright", *typed]
    ran = subprocess.run(command, capture_output=True, text=True, timeout=20, check=True)
    assert ran.stderr == ""
    assert set(ran.stdout.strip("\n").split("\n")) == offered


def test_zsh_takes_the_same_script() -> None:
    made = completion(parser(), "zsh")
    assert made.startswith("autoload -U +X bashcompinit && bashcompinit\n")
    assert made.endswith(completion(parser(), "bash"))
