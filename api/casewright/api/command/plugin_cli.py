"""`casewright plugin`: starting a plugin and listing what is installed; drawing and checking one are modules beside it.

Exit codes are those of the command: 0 all well, 2 the command line is wrong or the plugin has problems.
"""

import argparse
import keyword
import re
import sys
from collections.abc import Iterable
from importlib.metadata import PackageNotFoundError, distribution
from importlib.resources import files
from importlib.resources.abc import Traversable
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from casewright.api.command.exits import DONE, UNUSABLE

NAME = re.compile(r"^[a-z][a-z0-9]*(-[a-z0-9]+)*$")
LONGEST = 40
TEMPLATE = {"dash": "shop-plugin", "line": "shop_plugin", "camel": "ShopPlugin", "words": "Shop plugin"}
PLUGIN_KINDS = ("joint", "door", "box", "mounting", "catalogue", "check", "style")
KEPT = (".py", ".toml", ".md")


def add_to(commands: Any) -> None:
    """Add `plugin` with its subcommands to the command line."""
    one = commands.add_parser("plugin", help="start a plugin, or check one")
    kinds = one.add_subparsers(required=True, metavar="WHAT")

    new = kinds.add_parser("new", help="copy a complete plugin with its tests to begin from")
    new.add_argument("name", type=_name, help="name of plugin and method: words of a-z and 0-9 joined by dashes")
    new.add_argument("--kind", choices=PLUGIN_KINDS, default="joint", help="what it adds (default: joint)")
    new.add_argument("--into", type=Path, default=Path(), help="folder to make it in (default: here)")
    new.set_defaults(run=_new)

    _add_preview(kinds)

    every = kinds.add_parser("list", help="print every plugin that is installed, loaded or not, and what it brings")
    every.set_defaults(run=_list)

    check = kinds.add_parser("check", help="load a plugin alone, check it and try its contracts")
    check.add_argument("name", help="an installed plugin's name, a Python file, or a folder with a pyproject.toml")
    check.add_argument("--jobs", type=int, default=20, help="generated jobs to plan with each method (default: 20)")
    check.add_argument("--seconds", type=float, default=10.0, help="how long one call may take (default: 10)")
    check.add_argument("--report", type=Path, help="folder for what was drawn, refused and failed, with pictures")
    check.add_argument("--replay", type=Path, help="try one promise again with what a report wrote down")
    check.set_defaults(run=_check)


def _add_preview(kinds: Any) -> None:
    """Add `preview` to the subcommands of `plugin`."""
    one = kinds.add_parser("preview", help="draw what a plugin's methods make, anew at every save if asked")
    one.add_argument("name", help="an installed plugin's name, a Python file, or a folder with a pyproject.toml")
    one.add_argument("--method", help="draw this method only")
    one.add_argument("--option", action="append", default=[], metavar="NAME=VALUE", help="an option of the method")
    one.add_argument("--out", type=Path, default=Path("preview"), help="folder for what is drawn (default: preview)")
    one.add_argument("--watch", action="store_true", help="serve the page on this machine and draw anew at every save")
    one.add_argument("--port", type=int, default=8765, help="port of the page that is served (default: 8765)")
    one.set_defaults(run=_preview)


def _preview(chosen: argparse.Namespace) -> int:
    from casewright.api.command.preview import run  # with the libraries of papers

    return run(chosen)


def _check(chosen: argparse.Namespace) -> int:
    from casewright.api.command.plugin_check import check  # with the SDK, which `--help` does without

    return check(chosen)


def _list(chosen: argparse.Namespace) -> int:
    from casewright.api.use.loading import installed

    for plugin in installed().plugins:
        brings = ", ".join(plugin.methods) or plugin.cause
        print(f"{plugin.name:28} {plugin.distribution} {plugin.version}  {plugin.status}  {brings}")
    return DONE


def _name(word: str) -> str:
    module = word.replace("-", "_")
    if not NAME.fullmatch(word) or len(word) > LONGEST or keyword.iskeyword(module):
        raise argparse.ArgumentTypeError(
            f"a name is words of a-z and 0-9 joined by dashes, at most {LONGEST} letters, such as ladder-joint; "
            f"not {word!r}"
        )
    if module in sys.stdlib_module_names or find_spec(module) is not None or _installed(word):
        raise argparse.ArgumentTypeError(f"{word!r} is a module or distribution that is there already; choose another")
    return word


def _installed(word: str) -> bool:
    try:
        distribution(word)
    except PackageNotFoundError:
        return False
    return True


def _new(chosen: argparse.Namespace) -> int:
    name: str = chosen.name
    where: Path = chosen.into / name
    if where.exists():
        print(f"casewright plugin new: {where} is there already; choose another name or folder", file=sys.stderr)
        return UNUSABLE
    words = name.replace("-", " ")
    filled = {
        TEMPLATE["dash"]: name,
        TEMPLATE["line"]: name.replace("-", "_"),
        TEMPLATE["camel"]: words.title().replace(" ", ""),
        TEMPLATE["words"]: words.capitalize(),
    }
    template = files("casewright.sdk").joinpath("template")
    made = sorted([*_copy(template, where, filled), *_copy(template.joinpath(chosen.kind), where, filled)])
    for path in made:
        print(path)
    print(f"\nNext, in {where}:\n")
    print(f"  {sys.executable} -m pip install --editable '.[test]'")
    print(f"  {Path(sys.executable).parent / 'casewright'} plugin check {name}")
    print(f"  {sys.executable} -m pytest")
    return DONE


def _copy(source: Traversable, into: Path, filled: dict[str, str]) -> Iterable[Path]:
    """Copy a folder's files with names filled in; `check_…` becomes `tests/test_…`, which pytest looks for."""
    for entry in source.iterdir():
        if entry.is_dir() or not entry.name.endswith(KEPT):
            continue
        name = _filled(entry.name, filled)
        target = into / "tests" / name.replace("check_", "test_", 1) if name.startswith("check_") else into / name
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(_filled(entry.read_text("utf-8"), filled), encoding="utf-8")
        yield target


def _filled(text: str, filled: dict[str, str]) -> str:
    for placeholder, word in filled.items():
        text = text.replace(placeholder, word)
    return text
