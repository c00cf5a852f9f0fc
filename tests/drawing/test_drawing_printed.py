"""Pictures in a print: in a tab's section, below a fabric's cuts, in ASCII where the paper knows no more."""

import io
import sys
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from boltend.commands.main import main
from boltend.core.drawing import cells_of
from boltend.core.report.markdown import code
from boltend.core.report.near import say_near
from boltend.core.report.pictures import Look, can_draw, cut_lines, picture_lines
from boltend.core.values import ROOT2, Notation
from boltend_shared import examples

EXAMPLE = Path(examples.__file__).with_name("harbour-steps.toml")


def printed(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    assert main(["print", str(EXAMPLE), *words]) == 0
    return capsys.readouterr().out


def test_the_text_has_pictures(capsys: pytest.CaptureFixture[str]) -> None:
    text = printed(capsys)
    tabs, _, lists = text.partition("\nTo cut\n")
    assert "\nPicture\n" in tabs
    assert "┏━" in tabs
    assert "Off the bolt" in lists
    assert "7 × 2 1/2 in ┃" in lists
    assert "[░] waste" in lists
    pictures = [line for line in text.splitlines() if any(sign in line for sign in "┏┃┗")]
    assert max(map(cells_of, pictures)) <= 78


def test_without_pictures(capsys: pytest.CaptureFixture[str]) -> None:
    assert not set("┏┃┗░") & set(printed(capsys, "--no-pictures"))
    assert not set("┏┃┗░") & set(printed(capsys, "--no-pictures", "--as", "markdown"))


def test_markdown_has_them_in_a_fence(capsys: pytest.CaptureFixture[str]) -> None:
    text = printed(capsys, "--as", "markdown")
    inside = False
    for line in text.splitlines():
        if line.startswith("```"):
            inside = not inside
        elif any(sign in line for sign in "┏┃┗"):
            assert inside, line
    assert not inside


def test_a_terminal_that_knows_only_ascii_gets_ascii(monkeypatch: pytest.MonkeyPatch) -> None:
    paper = io.TextIOWrapper(io.BytesIO(), encoding="ascii", errors="replace")
    monkeypatch.setattr(sys, "stdout", paper)
    assert main(["print", str(EXAMPLE), "--tab", "Borders"]) == 0
    paper.flush()
    raw: Any = paper.buffer
    text = raw.getvalue().decode("ascii")
    picture = text.partition("\nPicture\n")[2].partition("\nWorking\n")[0]
    assert "+-" in picture
    assert "?" not in picture


def test_which_encodings_can_draw() -> None:
    assert can_draw("utf-8")
    assert not any(map(can_draw, ["ascii", "latin-1", "cp437", "no-such-thing", None]))


def test_sizes_are_exact_where_a_ruler_has_them() -> None:
    inch = Notation()
    assert say_near(Fraction(105, 2), inch, Fraction(1, 16)) == "52 1/2 in"
    assert say_near(Fraction(1, 64), inch, Fraction(1, 16)) == "1/64 in"
    assert say_near(27 * ROOT2, inch, Fraction(1, 16)) == "≈ 38 3/16 in"  # 38.1838 in
    assert say_near(Fraction(100, 3), inch, Fraction(1, 8)) == "33 1/3 in"
    assert say_near(33 + Fraction(21, 97), inch, Fraction(1, 8)) == "≈ 33 1/4 in"


def test_nothing_to_see_is_no_line() -> None:
    assert picture_lines((), str, Look()) == []
    assert cut_lines((), Look()) == []
    assert list(code([])) == []


def test_a_fence_is_longer_than_what_it_holds() -> None:
    first, *_, last, empty = code(["a ``` b", "````"])
    assert (first, last, empty) == ("`````text", "`````", "")
