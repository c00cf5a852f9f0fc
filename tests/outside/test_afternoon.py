"""What `boltend new-plugin` makes is installed, tested, seen everywhere and switched, at every run."""

import subprocess
import sys
from pathlib import Path

AFTERNOON = Path(__file__).parent / "afternoon.py"


def test_a_plugin_in_an_afternoon(tmp_path: Path) -> None:
    words = [sys.executable, str(AFTERNOON), str(tmp_path), "--site"]
    done = subprocess.run(words, capture_output=True, text=True, encoding="utf-8", timeout=600)
    assert done.returncode == 0, done.stdout + done.stderr
    assert [line.split(":")[0] for line in done.stdout.splitlines()] == ["make", "use", "switch"]
