"""The public SDK, frozen: what a plugin may import by name, and that what ships to be copied imports nothing else."""

import ast
import importlib
import re
from pathlib import Path

import pytest

SDK = Path(__file__).parents[2] / "sdk" / "casewright" / "sdk"

PUBLIC = {
    "kit": "COMMON LENGTH Action Axis Bound Box CannotError Choice Count Cylinder Feature Finding Flag HardwareUse "
    "Length Machine Number OptionSchema Options Purpose Term Text Wedge check_least check_most chosen groove hole "
    "hookimpl inches mm rabbet",
    "joints": "Body Fit JointMethod Meeting MeetingKind Spacing area_mm2 clear_row screw_within too_narrow",
    "doors": "Assembly DoorDesign DoorRequest DoorStyle JointSpec Land PartSpec",
    "mountings": "CAUTIONS Assembly Hanging HangingOptions JointSpec MountDesign MountRequest MountingMethod PartSpec "
    "board_of cabinet_screws fixed_on wall_fastener",
    "catalogue": "Catalogue Dowel Glue Hinge Lag LooseTenon Nail Pin Pull Screw SheetThickness Slide Source Stuff",
    "checks": "Design ExtraCheck",
    "styles": "HouseStyle",
    "cures": "Change CureGenerator Stop patch_setting",
}
"""Taken away from in a breaking version only, with a row of the migration page; added to in an additive one."""


@pytest.mark.parametrize("family", PUBLIC)
def test_the_public_names_of_each_family_are_these(family: str) -> None:
    module = importlib.import_module(f"casewright.sdk.{family}")
    assert sorted(module.__all__) == sorted(PUBLIC[family].split())
    assert all(hasattr(module, name) for name in module.__all__)


def test_there_are_few() -> None:
    names = {name for row in PUBLIC.values() for name in row.split()}
    assert len(names) <= 80


@pytest.mark.parametrize("path", sorted((SDK / "template").rglob("*.py")), ids=lambda path: path.parent.name)
def test_templates_import_public_names_only(path: Path) -> None:
    for family, names in _imported(path.read_text("utf-8")):
        assert names <= set(PUBLIC[family].split()), path


@pytest.mark.parametrize("page", ["plugins", "tutorial"])
def test_every_public_name_of_its_families_stands_on_a_page(page: str) -> None:
    """The page of plugins names each public name; the tutorial imports public names only."""
    text = (SDK / "pages" / f"{page}.md").read_text("utf-8")
    if page == "plugins":
        words = set(re.findall(r"\w+", text))
        missing = {name for row in PUBLIC.values() for name in row.split()} - words
        assert not missing
        return
    for block in re.findall(r"```python[^\n]*\n(.*?)```", text, re.DOTALL):
        try:
            imported = _imported(block)
        except SyntaxError:
            continue  # the page shows it in pieces
        for family, names in imported:
            assert names <= set(PUBLIC[family].split()), family


def _imported(text: str) -> list[tuple[str, set[str]]]:
    """Return what is imported of the SDK by family, its testing kit left out."""
    nodes = [node for node in ast.walk(ast.parse(text)) if isinstance(node, ast.ImportFrom) and node.module]
    ours = [node for node in nodes if str(node.module).startswith("casewright.")]
    rows = [(str(node.module).removeprefix("casewright.sdk."), {name.name for name in node.names}) for node in ours]
    return [row for row in rows if row[0].partition(".")[0] != "testing"]
