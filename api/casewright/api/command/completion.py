"""Completion of the command line by bash, or by zsh through its `bashcompinit`: a script that knows its every word."""

import argparse
from collections.abc import Iterator, Mapping, Sequence

SHELLS = ("bash", "zsh")

_SCRIPT = """_casewright() {{
  local at=$COMP_CWORD path= words=
  (( at > 1 )) && path=${{COMP_WORDS[1]}}
  [[ $path == plugin ]] && (( at > 2 )) && path="plugin ${{COMP_WORDS[2]}}"
  case "$path ${{COMP_WORDS[at-1]}}" in
{choices}
    *) case $path in
{commands}
    esac ;;
  esac
  COMPREPLY=($(compgen -W "$words" -- "${{COMP_WORDS[at]}}"))
}}
complete -o default -F _casewright casewright
"""
_ZSH = "autoload -U +X bashcompinit && bashcompinit\n"


def completion(parser: argparse.ArgumentParser, shell: str) -> str:
    """Return the script for a shell; files complete wherever a word is none of the command's own."""
    commands, choices = [], []
    for path, one in _commands(parser, ""):
        commands.append(_case(path, _words(one)))
        choices += [
            _case(f"{path} {flag}", [str(word) for word in action.choices])
            for action in one._actions
            if action.choices is not None and not isinstance(action.choices, Mapping)
            for flag in action.option_strings
        ]
    script = _SCRIPT.format(choices="\n".join(choices), commands="\n".join(commands))
    return script if shell == "bash" else _ZSH + script


def _commands(parser: argparse.ArgumentParser, path: str) -> Iterator[tuple[str, argparse.ArgumentParser]]:
    yield path, parser
    for name, inner in _below(parser).items():
        yield from _commands(inner, f"{path} {name}".strip())


def _below(parser: argparse.ArgumentParser) -> Mapping[str, argparse.ArgumentParser]:
    return {
        name: inner
        for action in parser._actions
        if isinstance(action.choices, Mapping)
        for name, inner in action.choices.items()
    }


def _words(parser: argparse.ArgumentParser) -> list[str]:
    flags = [flag for action in parser._actions for flag in action.option_strings if flag.startswith("--")]
    placed = [
        str(word)
        for action in parser._actions
        if not action.option_strings and isinstance(action.choices, Sequence)
        for word in action.choices
    ]
    return [*_below(parser), *placed, *flags]


def _case(pattern: str, words: Sequence[str]) -> str:
    return f'    "{pattern}") words="{" ".join(words)}" ;;'
