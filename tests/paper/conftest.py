"""The helper of these tests, importable by its name: test files are no package here."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
