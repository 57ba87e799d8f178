"""Which plugins a word of the command line stands for, and how each is imported."""

import importlib.util
import sys
import tomllib
from collections.abc import Callable
from functools import partial
from importlib.metadata import EntryPoint, entry_points
from pathlib import Path

from casewright.sdk.hookspecs import GROUP
from casewright.sdk.loader import OWN_DISTRIBUTION

Fetch = Callable[[], object]
"""Imports a plugin."""


class NotFoundError(Exception):
    """There is no such plugin, in words."""


def shown_name(word: str) -> str:
    """Return what a page calls the plugins of a word: a folder by its own name, however it is reached."""
    path = Path(word)
    return path.resolve().name if path.is_dir() else word


def plugins_named(word: str) -> list[tuple[str, Fetch]]:
    """Return (name, how to import) of each plugin that `word` stands for."""
    path = Path(word)
    if path.is_dir():
        return _in_folder(path)
    if path.suffix == ".py":
        if not path.is_file():
            raise NotFoundError(f"{word} is no file")
        return [(path.stem, lambda: _from_file(path))]
    points = sorted(entry_points(group=GROUP), key=lambda p: p.name)
    hits = [p for p in points if word == p.name or (p.dist is not None and word == p.dist.name)]
    if not hits:
        outside = [p.name for p in points if p.dist is None or p.dist.name != OWN_DISTRIBUTION]
        known = ", ".join(outside) or "none from outside"
        if path.parent != Path() or path.suffix:
            raise NotFoundError(f"there is no folder or .py file {word}")
        raise NotFoundError(f"no plugin named {word!r} is installed ({known}); give its name, a .py file or a folder")
    return [(p.name, p.load) for p in hits]


def _in_folder(path: Path) -> list[tuple[str, Fetch]]:
    try:
        project = tomllib.loads((path / "pyproject.toml").read_text("utf-8"))["project"]
        declared: dict[str, str] = project["entry-points"][GROUP]
    except (OSError, KeyError, tomllib.TOMLDecodeError) as error:
        raise NotFoundError(
            f'{path} has no pyproject.toml with a table [project.entry-points."{GROUP}"] ({type(error).__name__})'
        ) from error
    sys.path[:0] = [str(path.resolve()), str((path / "src").resolve())]
    return [(name, partial(_from_point, name, value)) for name, value in declared.items()]


def _from_point(name: str, value: str) -> object:
    """Import what a line of a folder's entry points names. Raises `ImportError` where there is no such thing."""
    point = EntryPoint(name, value, GROUP)
    try:
        return point.load()
    except (ModuleNotFoundError, AttributeError) as error:
        if isinstance(error, ModuleNotFoundError) and not point.module.startswith(error.name or "?"):
            raise  # what the module itself imports
        if isinstance(error, AttributeError) and not point.attr:
            raise
        line = f'pyproject.toml has {name} = "{value}", which names nothing there: {error}'
        raise ImportError(line, name=point.module) from None


def _from_file(path: Path) -> object:
    """Import a file by itself, or as what it is in its package: it may import its neighbours there."""
    root = path.resolve().parent
    while (root / "__init__.py").is_file():
        root = root.parent
    sys.path[:0] = [str(root)]
    if root != path.resolve().parent:
        return importlib.import_module(".".join(path.resolve().with_suffix("").relative_to(root).parts))
    spec = importlib.util.spec_from_file_location(path.stem, path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[path.stem] = module  # as an import does: its classes are found again by it
    spec.loader.exec_module(module)
    return module
