"""Whatever the shapes: nothing raised, nothing beyond the cells, every line as wide as it says."""

import unicodedata
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rich.cells import cell_len

from boltend.core.contract import Note, Polygon, Rect, Rule
from boltend.core.drawing import cells_of, draw, legend, patterns
from boltend.core.drawing.widths import clean
from boltend.core.values import ROOT2, Notation, Number, is_unseen, show_length

HUGE, TINY = Fraction(10**400), Fraction(1, 10**400)

NUMBERS = st.one_of(
    st.integers(-100, 100),
    st.fractions(-100, 100, max_denominator=64),
    st.sampled_from([0, HUGE, -HUGE, TINY, HUGE + 1, HUGE + TINY, 3 * ROOT2, 1 - ROOT2, HUGE * ROOT2]),
)
WORDS = st.one_of(
    st.sampled_from(
        [
            "",
            "block",
            "top",
            "waste",
            "quilt back",
            "日本の布",
            "שלום",
            "e\u0301te\u0301",
            "👩‍🚀",
            "❤\ufe0f",
            "a\nb\tc",
            "\x1b[31m",
        ]
    ),
    st.text(max_size=12),
)
POINTS = st.tuples(NUMBERS, NUMBERS)
SHAPES = st.one_of(
    st.builds(Rect, NUMBERS, NUMBERS, NUMBERS, NUMBERS, WORDS, WORDS),
    st.builds(Polygon, st.lists(POINTS, max_size=6).map(tuple), WORDS, WORDS),
    st.builds(Rule, NUMBERS, NUMBERS, NUMBERS, NUMBERS),
    st.builds(Note, NUMBERS, NUMBERS, WORDS),
)


def inches(value: Number) -> str:
    return show_length(value, Notation())


@settings(deadline=None)
@given(st.lists(SHAPES, max_size=12), st.integers(0, 130), st.integers(0, 50), st.booleans(), st.booleans())
def test_any_shapes(shapes: list[Any], columns: int, rows: int, ascii_: bool, sized: bool) -> None:
    picture = draw(shapes, columns, rows, ascii=ascii_, show=inches if sized else None)
    lines = picture.lines()
    assert len(lines) <= rows
    assert picture.width <= columns
    for line in lines:
        assert cells_of(line) == picture.width
        assert not any(map(is_unseen, line))
    for line in legend(picture, columns, ascii=ascii_):
        assert cells_of(line) <= columns
    if ascii_:
        assert all(line.isascii() for line in lines)


@given(st.lists(SHAPES, max_size=12), st.sampled_from([1, 1.7, 2, 2.5]))
def test_any_shape_of_cell(shapes: list[Any], ratio: float) -> None:
    picture = draw(shapes, 60, 20, cell_ratio=ratio)
    assert {cells_of(line) for line in picture.lines()} <= {picture.width}


@given(st.lists(SHAPES, max_size=30))
def test_marks_are_one_cell_wide(shapes: list[Any]) -> None:
    assert {cells_of(mark) for mark in patterns(shapes).values()} <= {1}


@given(
    st.lists(
        st.builds(Rect, *[st.integers(-50, 50)] * 2, *[st.integers(1, 60)] * 2, WORDS), min_size=1, max_size=9
    )
)
def test_where_it_lies_does_not_matter(shapes: list[Rect]) -> None:
    """Far away, beyond all floats as large, or as small: the same picture."""
    here = draw(shapes, 60, 20).lines()
    far = [shape._replace(x=shape.x + 10**30, y=shape.y - 10**30) for shape in shapes]
    assert draw(far, 60, 20).lines() == here
    # By powers of two: what lies half way between two cells is then rounded alike.
    for scale in (Fraction(2**1300), Fraction(1, 2**1300)):
        scaled = [Rect(*(n * scale for n in shape[:4]), *shape[4:]) for shape in shapes]
        assert draw(scaled, 60, 20).lines() == here


@given(
    st.lists(
        st.builds(Rect, *[st.integers(-50, 50)] * 2, *[st.integers(1, 60)] * 2, WORDS), min_size=1, max_size=9
    )
)
def test_what_has_no_area_changes_nothing(shapes: list[Rect]) -> None:
    flat = [Rect(0, 0, 0, 9, "a", "b"), Rect(-500, 3, 9, 0, "c"), Polygon(((0, 0), (900, 0)), "d")]
    assert draw([*flat, *shapes, *flat], 60, 20) == draw(shapes, 60, 20)


@given(st.text())
def test_a_text_is_as_wide_as_the_screen_says(text: str) -> None:
    """Rich, which the shell draws with, is the other source."""
    cleaned = clean(text, ascii=False)
    assert cells_of(cleaned) == sum(cell_len(c) for c in cleaned)


# Both characters are fillers: they take room, or none, and show nothing.
FILLERS = {0x3164, 0xFFA0}


def test_every_character_is_as_wide_as_the_screen_says() -> None:
    """Characters that this Python knows; Rich, which the shell draws with, is the other source."""
    differ = [
        code
        for code in range(0x110000)
        if not is_unseen(chr(code)) and cells_of(chr(code)) != cell_len(chr(code)) and code not in FILLERS
    ]
    assert [f"{code:x} {unicodedata.name(chr(code), '')}" for code in differ] == []


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("12½ in × 4", "121/2 in x 4"),
        ("Blå äng", "Bla ang"),
        ("“Sky” … ≈", '"Sky" ... ~'),
        ("日本", "??"),
        ("a\x07b", "a<U+0007>b"),
        ("❤\ufe0f", "?"),
        ("two\n lines", "two lines"),
    ],
)
def test_ascii_words(text: str, plain: str) -> None:
    assert clean(text, ascii=True) == plain


def test_words_of_any_script_keep_the_frame_straight() -> None:
    for words in ("日本の布", "שלום", "e\u0301te\u0301", "👩‍🚀🧵", "x\u202ey", "❤\ufe0f"):
        picture = draw([Rect(0, 0, 20, 10, words, words)], 78, 20)
        assert {cells_of(line) for line in picture.lines()} == {picture.width}
        assert all(line.endswith("┃") for line in picture.lines()[1:-1])
        assert clean(words, ascii=False) in "\n".join(picture.lines())
