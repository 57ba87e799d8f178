"""Lets the tests of this folder import `.ci/tutorial.py`, by whose reading of a page the tutorial is run in CI too."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[3] / ".ci"))
