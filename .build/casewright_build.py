"""Builds casewright with setuptools, and compiles the packer's inner loop where a C compiler and Python's headers are.

The six modules of `MODULES` are plain Python and run as such; compiled by mypyc they do the same counted steps with
the same answer, about ten times as fast. Without a compiler, or with `CASEWRIGHT_COMPILE=0`, nothing is compiled and
the wheel holds Python alone. With `CASEWRIGHT_COMPILE=1` a failing compilation fails the build.
"""

import os
import shutil
import sys
import sysconfig
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import partial
from importlib.util import find_spec
from pathlib import Path
from typing import Any

import setuptools
from setuptools import Distribution, build_meta
from setuptools.build_meta import (
    build_sdist,
    get_requires_for_build_sdist,
    prepare_metadata_for_build_editable,
    prepare_metadata_for_build_wheel,
)
from setuptools.command.sdist import sdist

__all__ = [
    "build_editable",
    "build_sdist",
    "build_wheel",
    "get_requires_for_build_editable",
    "get_requires_for_build_sdist",
    "get_requires_for_build_wheel",
    "prepare_metadata_for_build_editable",
    "prepare_metadata_for_build_wheel",
]

PACKAGE = Path("casewright", "api", "stock")
MODULES = ("slicing", "search", "levels", "moves", "nooks", "worth")
COMPILER = ["mypy>=2.1,<3"]
CHOICE = os.environ.get("CASEWRIGHT_COMPILE", "")


class SourceWithBackend(sdist):  # type: ignore[misc]
    """The source distribution, with this file in it: a wheel is built from it by the same backend."""

    def make_release_tree(self, base_dir: str, files: list[str]) -> None:
        """Put this file beside those that setuptools finds by itself."""
        super().make_release_tree(base_dir, [*files, os.path.relpath(__file__)])


class WithDocument(Distribution):  # type: ignore[misc]
    """The distribution, with what `find` leaves out.

    The flat folder `openapi/` is the package `casewright.openapi`, all of it data. `casewright` itself is a namespace
    that holds but `__main__`.
    """

    def parse_config_files(self, *arguments: Any, **named: Any) -> None:
        """Read pyproject.toml, then add what its tables cannot say."""
        super().parse_config_files(*arguments, **named)
        self.packages = [*self.packages, "casewright", "casewright.openapi"]
        own = {"casewright": "api/casewright", "casewright.openapi": "openapi"}
        self.package_dir = {**(self.package_dir or {}), **own}
        self.cmdclass["sdist"] = SourceWithBackend


setuptools.setup = partial(setuptools.setup, distclass=WithDocument)


def compiles() -> bool:
    """Whether a C compiler and Python's headers are here."""
    compiler = (os.environ.get("CC") or sysconfig.get_config_var("CC") or "cc").split()[0]
    return (
        CHOICE != "0"
        and shutil.which(compiler) is not None
        and Path(sysconfig.get_path("include"), "Python.h").is_file()
    )


def get_requires_for_build_wheel(settings: Any = None) -> list[str]:
    """Return what a build needs: the compiler of Python modules, where it can be of use."""
    return [*build_meta.get_requires_for_build_wheel(settings), *(COMPILER if compiles() else [])]


get_requires_for_build_editable = get_requires_for_build_wheel


@contextmanager
def compiled() -> Iterator[None]:
    """Let setuptools compile `MODULES` too. They stand alone for it: types are checked with all that is imported."""
    from mypyc.build import mypycify

    alone = Path("build", "alone")
    (alone / PACKAGE).mkdir(parents=True, exist_ok=True)
    for name in MODULES:
        shutil.copyfile(Path("api") / PACKAGE / f"{name}.py", alone / PACKAGE / f"{name}.py")
    os.environ["MYPYPATH"] = str(alone)
    extensions = mypycify(
        [
            *("--config-file=", "--cache-dir=build/checked", "--namespace-packages", "--explicit-package-bases"),
            *(str(alone / PACKAGE / f"{name}.py") for name in MODULES),
        ],
        group_name="casewright.api.stock.compiled",
        opt_level="3",
        debug_level="0",
    )
    plain = setuptools.setup
    setuptools.setup = partial(plain, ext_modules=extensions)
    try:
        yield
    finally:
        setuptools.setup = plain


def build(made: Callable[..., str], *arguments: Any) -> str:
    """Return the name of a wheel, compiled where that is possible."""
    if compiles() and find_spec("mypyc") is not None:
        try:
            with compiled():
                return made(*arguments)
        except (Exception, SystemExit) as reason:
            if CHOICE == "1":
                raise
            print(f"casewright: not compiled, plain Python instead: {reason}", file=sys.stderr)
            shutil.rmtree("build", ignore_errors=True)
    elif CHOICE == "1":
        raise RuntimeError("CASEWRIGHT_COMPILE=1, but there is no C compiler, no Python.h, or no mypy")
    return made(*arguments)


def build_wheel(folder: str, settings: Any = None, metadata: str | None = None) -> str:
    """Return the name of the wheel made in a folder."""
    return build(build_meta.build_wheel, folder, settings, metadata)


def build_editable(folder: str, settings: Any = None, metadata: str | None = None) -> str:
    """Return the name of the editable wheel made in a folder; compiled modules lie beside their sources."""
    return build(build_meta.build_editable, folder, settings, metadata)
