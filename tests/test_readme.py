"""The README shows what the program really prints and looks like."""

import re
import subprocess
import sys
from pathlib import Path
from runpy import run_path

import pytest

from boltend_shared import cases

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
EXAMPLE = "shared/boltend_shared/examples/harbour-steps.toml"


def blocks(kind: str) -> list[str]:
    return re.findall(rf"^```{kind}\n(.*?)^```", README, re.M | re.S)


def test_the_first_two_commands_stand_alone_in_their_blocks() -> None:
    first, second = blocks("sh")[:2]
    assert first.count("\n") == second.count("\n") == 1
    assert first.rstrip().endswith(f"boltend {EXAMPLE}")
    assert second.rstrip().endswith("-m pytest -q -n auto")


def test_the_output_shown_is_the_output() -> None:
    command = [sys.executable, "-m", "boltend", "print", EXAMPLE]
    told = subprocess.run(
        command, cwd=ROOT, capture_output=True, text=True, encoding="utf-8", check=True
    ).stdout
    (shown,) = blocks("text")
    assert shown in told[told.index("To buy\n") :]


async def test_the_picture_is_what_the_shell_looks_like(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("BOLTEND_STATE", "BOLTEND_CONFIG"):
        monkeypatch.setenv(name, "")  # put back afterwards: drawing sets them
    picture = run_path(str(ROOT / "tests" / "readme_picture.py"))
    shown = picture["PICTURE"].read_text(encoding="utf-8")
    assert picture["words_of"](await picture["draw"]()) == picture["words_of"](shown)
    assert "font-face" not in shown


def test_the_savings_shown_are_what_the_examples_give() -> None:
    assert run_path(str(ROOT / "tests" / "readme_savings.py"))["table"]() in README


def test_the_number_of_published_cases_is_right() -> None:
    known = cases()
    agree = sum(case.agrees for case in known)
    assert f"{len(known)} cases, {agree} of which agree" in README


def test_every_command_is_told() -> None:
    from boltend.commands.main import COMMANDS

    assert [name for name in COMMANDS if f"boltend {name}" not in README] == []
