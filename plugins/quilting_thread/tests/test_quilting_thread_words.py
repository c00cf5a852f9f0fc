"""The working explains every number: its lines, with the figures that a person can follow by hand."""

from typing import Any

import pytest

from boltend.testing import Worked, work
from boltend_quilting_thread.bobbins import BOBBINS
from boltend_quilting_thread.piecing import piecing_thread
from boltend_quilting_thread.quilting import quilting_thread
from boltend_quilting_thread.threads import THREADS

TABLES = [THREADS, BOBBINS]


def quilt(**said: Any) -> Worked:
    given: dict[str, Any] = {
        "width": "60 in",
        "height": "72 in",
        "spacing": "2 in",
        "thickness": "1/16 in",
        **said,
    }
    return work(quilting_thread, tables=TABLES, **given)


TWO_SETS = "Two sets of lines on 60 in × 72 in, each 2 in apart: 2 × width × height ÷ spacing = 120 yd"
PATHS: list[tuple[dict[str, Any], str]] = [
    (
        {"pattern": "parallel lines"},
        "Parallel lines on 60 in × 72 in, 2 in apart: width × height ÷ spacing = 60 yd",
    ),
    ({"pattern": "square grid"}, TWO_SETS),
    ({"pattern": "diagonal grid"}, TWO_SETS),
    (
        {"pattern": "meander"},
        "A meander covers 60 in × 72 in at a mean gap of 2 in: width × height ÷ gap = 60 yd.",
    ),
    (
        {"pattern": "in the ditch", "ditch_length": "45 yd"},
        "In the ditch the path is the finished seams, each once: 45 yd.",
    ),
    (
        {"pattern": "square grid", "path": "80 yd"},
        "The length of the lines is given: 80 yd. The pattern and its spacing do not count.",
    ),
    (
        {"pattern": "meander", "margin": "15 %"},
        "With a margin of 15 % for edges and travel: 69 yd of stitching.",
    ),
]


@pytest.mark.parametrize(("said", "words"), PATHS)
def test_the_path_in_words(said: dict[str, Any], words: str) -> None:
    working = quilt(**said).working
    assert any(line.startswith(words) for line in working), working


def test_no_margin_is_not_spoken_of() -> None:
    assert not any("With a margin" in line for line in quilt(pattern="meander").working)


def test_both_threads_in_one_line_where_they_are_alike() -> None:
    alike = quilt(pattern="meander").working
    words = "Top thread and bobbin thread, each: 60 yd × 1.625 × (1 + 10 % waste) = 107 1/4 yd; "
    assert f"{words}low 86 5/8 yd, high 127 7/8 yd." in alike
    unlike = quilt(pattern="meander", unpicked_top="1.5").working
    assert not any(line.startswith("Top thread and bobbin thread, each") for line in unlike)
    assert any(line.startswith("Top thread: 60 yd × 1.5 × (1 + 10 % waste) = 99 yd; low") for line in unlike)
    assert any(
        line.startswith("Bobbin thread: 60 yd × 1.625 × (1 + 10 % waste) = 107 1/4 yd") for line in unlike
    )


def test_what_was_unpicked_leaves_the_thickness_unspoken_of() -> None:
    both = quilt(pattern="meander", unpicked_top="1.5", unpicked_bobbin="1.25").working
    assert not any("thickness × stitches" in line for line in both)
    assert any(
        "top thread, as unpicked: 1.5 times as much. Low ≈ 1.449 and high ≈ 1.553" in line for line in both
    )
    assert any("bobbin thread, as unpicked: 1.25 times as much" in line for line in both)


def test_spools_and_bobbins_in_words() -> None:
    said = quilt(
        pattern="meander", spool_length="200 yd", thread_number="40 wt Ne 2 ply", bobbin="class 15"
    ).working
    assert any(
        "(108 yd + 108 yd) ÷ 200 yd = 1.08, up to 2. At the low figures 1, at the high ones 2." in line
        for line in said
    )
    # 70 wt is 14.286 tex, 40 wt Ne 2 ply 29.527: 179 × 0.4838 = 86.6; 108 ÷ 86.6 = 1.25
    assert any(
        line
        == "A bobbin, class 15, holds 179 yd of 70 wt Nm; by weight that is ≈ 86.6 yd of 40 wt Ne 2 ply. "
        "Bobbins: 108 yd ÷ ≈ 86.6 yd = ≈ 1.25, up to 2."
        for line in said
    )


@pytest.mark.parametrize(
    "said", [{"bobbin": "L"}, {"thread_number": "40 wt Nm"}, {"thread": "rayon 40 wt, 850 yd", "bobbin": "L"}]
)
def test_no_bobbins_in_words_where_none_are_counted(said: dict[str, Any]) -> None:
    assert not any("A bobbin" in line for line in quilt(pattern="meander", **said).working)


def test_piecing_in_words() -> None:
    said = work(piecing_thread, seam_length="100 yd", thickness="0.025 in").working
    assert said[0] == "Seams, raw edge to raw edge, each once: 100 yd."
    assert "1 + 1/40 in × 12 per in = 1.3 times as much" in said[1]
    assert said[2].startswith("Top thread and bobbin thread, each: 100 yd × 1.3 × (1 + 10 % waste) = 143 yd")


SMALL = "small spool, 100 m"


@pytest.mark.parametrize(
    ("said", "name"),
    [
        ({"thread": SMALL}, "thread, small spool, 100 m"),
        ({"thread": SMALL, "spool_length": "100 m"}, "thread, small spool, 100 m"),
        ({"thread": SMALL, "spool_length": "215 yd"}, "thread, small spool, 100 m, 215 yd a spool"),
        ({"thread": SMALL, "thread_number": "50 Ne"}, "thread, small spool, 100 m, 50 Ne"),
        ({"thread": "cotton 50/2, 1300 m", "thread_number": "50 Ne 2 ply"}, "thread, cotton 50/2, 1300 m"),
        ({"spool_length": "215 yd"}, "thread, 215 yd a spool"),
        (
            {"spool_length": "215 yd", "thread_number": "40 wt Nm"},
            "thread, 40 wt Nm, 215 yd a spool",
        ),
        ({"spool_length": "500 m", "units": "centimetres"}, "thread, 500 m a spool"),
    ],
)
def test_two_threads_bear_one_name_on_a_list_only_if_they_are_alike(said: dict[str, Any], name: str) -> None:
    """What bears one name is bought together, whichever calculator asks for it."""
    sewn = work(piecing_thread, tables=TABLES, seam_length="100 yd", thickness="0.025 in", **said)
    for worked in (quilt(pattern="meander", **said), sewn):
        (goods,) = worked.answer.goods
        assert goods.name == name
