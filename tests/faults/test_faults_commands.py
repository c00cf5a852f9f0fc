"""A stranger does everything wrong under the command line: the print says so, and all else is as it was."""

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from fault_shell import ANSWERS, FAULTS, LONG, PROJECT, SOUND, UNTOUCHED

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="the faults are those of a POSIX system")

BAD = [name for name in (*FAULTS, *ANSWERS) if name not in LONG and not name.startswith("a million ")]
"""Those with a million of something take some seconds each; the shell's tests have them."""

TAB = """
[[tab]]
name = "{what}!"
calculator = "mischief"
[tab.given]
what = "{what}"
"""


def boltend(*words: str, **environment: str) -> "subprocess.CompletedProcess[str]":
    command = [sys.executable, "-m", "boltend", *words]
    env = {**os.environ, **environment}
    return subprocess.run(command, capture_output=True, text=True, env=env, check=False, timeout=300)


def tabs(done: "subprocess.CompletedProcess[str]") -> dict[str, dict[str, object]]:
    return {tab["name"]: tab for tab in json.loads(done.stdout)["tabs"]}


HINT = "mischief went wrong: `boltend work mischief …` with the same givens shows where.\n"
"""Ours, for its author; what the plugin itself prints is heard nowhere."""


def test_forty_tabs_that_go_wrong_and_two_that_do_not(strangers: Path, project_file: Path) -> None:
    sound = boltend("print", str(project_file), "--as", "json")
    assert (sound.returncode, sound.stderr) == (0, "")
    text = PROJECT + "".join(TAB.format(what=what) for what in BAD)
    project_file.write_text(text, encoding="utf-8")
    done = boltend("print", str(project_file), "--as", "json")
    assert (done.returncode, done.stderr) == (1, HINT)
    assert {name: tabs(done)[name] for name in UNTOUCHED} == {name: tabs(sound)[name] for name in UNTOUCHED}
    for what in BAD:
        expected = "worked out" if what in SOUND else "cannot"
        assert tabs(done)[f"{what}!"]["state"] == expected, what
    printed = boltend("print", str(project_file), "--no-pictures")
    assert (printed.returncode, printed.stderr) == (1, HINT)
    assert "NOISE" not in printed.stdout
    assert all(c.isprintable() or c == "\n" for c in printed.stdout)
    assert project_file.read_text(encoding="utf-8") == text


EARLY = {
    "import: raises": "could not be imported: ValueError: no thread left",
    "import: exits: os._exit": "ended the process with exit code 9",
    "import: patches": "",
    "import: moves": "",
    "import: forks": "",
    "hook: raises a megabyte": "boltend_calculators raised RuntimeError: so long",
    "hook: closes descriptors": "ended the process",
    "brings: a number": "returned a int, not a list",
    "brings: a million": "",
    "brings: the name of a built-in": "Boltend brings a calculator straight_set of its own",
    "brings: the name of a stranger": "both stay out",
    "brings: a megabyte": "its question (asks=) is 1048576 characters long. 2000 are the most.",
    "brings: many givens": "givens and founds. 500 are the most.",
    "brings: markup": "its question (asks=) holds a character that does not show: <U+001B>. Take it out.",
}


@pytest.mark.parametrize("what", EARLY)
def test_what_goes_wrong_before_any_calculation(what: str, strangers: Path, project_file: Path) -> None:
    before = project_file.read_bytes()
    told = boltend("plugins", MISCHIEF=what)
    assert EARLY[what] in " ".join(told.stdout.split()), told.stdout
    assert told.stderr == ""
    assert len(told.stdout) < 30_000  # a traceback of twenty thousand
    done = boltend("print", str(project_file), "--as", "json", MISCHIEF=what)
    assert done.stderr == ""
    assert tabs(done)["Ours"]["state"] == "worked out"
    if what != "brings: the name of a stranger":
        assert tabs(done)["Buttons"]["state"] == "worked out"
    for command in (["plugins"], ["calculators"], ["print", str(project_file), "--no-pictures"]):
        said = boltend(*command, MISCHIEF=what).stdout
        assert all(c.isprintable() or c == "\n" for c in said), command
        assert "NOISE" not in said
    assert project_file.read_bytes() == before


@pytest.mark.parametrize("what", LONG)
def test_ctrl_c_ends_a_print_that_waits_for_a_stranger(
    what: str, strangers: Path, project_file: Path
) -> None:
    project_file.write_text(PROJECT + TAB.format(what=what), encoding="utf-8")
    before = project_file.read_bytes()
    command = [sys.executable, "-m", "boltend", "print", str(project_file)]
    waiting = subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, start_new_session=True
    )
    children = Path(f"/proc/{waiting.pid}/task/{waiting.pid}/children")
    until = time.monotonic() + 60
    while time.monotonic() < until and (not children.exists() or len(children.read_text().split()) < 1):
        time.sleep(0.1)
    time.sleep(3)
    waiting.send_signal(signal.SIGINT)
    _, complaint = waiting.communicate(timeout=30)  # and not the sixty seconds that the call may take
    assert (waiting.returncode, complaint) == (130, b"Stopped.\n")
    assert project_file.read_bytes() == before
