"""The examples of every calculator, importable by their name: test files are no package here."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "testing"))
