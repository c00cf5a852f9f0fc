"""A plugin from outside the tree, installed for real: found, described, run in the worker, heard nowhere."""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

SOURCE = Path(__file__).parents[1] / "strangers" / "button_row"

SCRIPT = """
import json, sys
from fractions import Fraction
from boltend.core.contract import Cannot, Settings
from boltend.core.host import Call, Host, settle

with Host.load() as host:
    plugin = host.plugins.named("button_row")
    spec = host.spec("button_row")
    args = {"edge": Fraction(13), "apart": Fraction(2), "button": "small", "skips": ({"width": Fraction(3)},)}
    outcome = host.start(Call(spec, args, Settings()), 1)
    settled = settle(spec, outcome.answer, Settings())
    cannot = host.start(Call(spec, {**args, "skips": ({"width": Fraction(20)},)}, Settings()), 1).cannot
    print(json.dumps({
        "state": plugin.state,
        "from": [plugin.distribution, plugin.version, plugin.built_in],
        "asks": spec.asks,
        "buttons": settled.found["buttons"],
        "pitch": str(settled.found["pitch"]),
        "cannot": [cannot.given, cannot.why, cannot.way_out],
        "rows": list(host.table("buttons").rows),
        "starts": [s.question for s in host.starts if "button" in s.question],
        "imported": [m for m in sys.modules if "stranger" in m],
        "screen": [m for m in sys.modules if m.split(".")[0] in ("textual", "rich")],
    }))
"""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("installed")
    source = folder / "source"
    shutil.copytree(SOURCE, source)
    pip = [sys.executable, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--no-index"]
    pip += ["--no-deps", "--no-build-isolation", "--target", str(folder / "site"), str(source)]
    done = subprocess.run(pip, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return folder / "site"


def test_a_plugin_installed_from_outside_the_tree(site: Path, tmp_path: Path):
    path = os.pathsep.join([str(site), os.environ.get("PYTHONPATH", "")])
    environment = {**os.environ, "PYTHONPATH": path, "BOLTEND_CONFIG": str(tmp_path)}
    done = subprocess.run(
        [sys.executable, "-c", SCRIPT], capture_output=True, text=True, env=environment, cwd=tmp_path
    )
    assert done.stderr == ""
    assert "NOISE" not in done.stdout
    told = json.loads(done.stdout)
    assert told == {
        "state": "on",
        "from": ["stranger-button-row", "1.2", False],
        "asks": "How many buttons go along this edge?",
        "buttons": 4,  # 13 in less 3 in leave 10 in, at 2 in and a 1/2 in button each
        "pitch": "5/2",
        "cannot": ["skips", "they leave no room on the edge.", "A longer edge would do."],
        "rows": ["small", "large"],
        "starts": ["I have buttons to sew on"],
        "imported": [],
        "screen": [],
    }
