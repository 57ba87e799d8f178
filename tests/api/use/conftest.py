"""Lets the tests of this folder import the worked jobs beside them, and gives them a client."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
