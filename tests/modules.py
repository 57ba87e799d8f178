"""A Python file as a module: what tests load that no package has."""

import importlib.util
import sys
from pathlib import Path
from types import ModuleType

TEMPLATE = Path(__file__).parents[1] / "sdk" / "casewright" / "sdk" / "template" / "joint" / "shop_plugin.py"
"""The joint plugin that an author's copy begins from."""


def module_at(path: Path, name: str = "") -> ModuleType:
    """Return a file as a module of a name, else of its own, registered as an import does it."""
    spec = importlib.util.spec_from_file_location(name or path.stem, path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module
