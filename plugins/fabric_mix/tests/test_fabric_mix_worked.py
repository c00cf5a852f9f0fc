"""Mixes worked by hand, what cannot be done, and the contract."""

from fractions import Fraction
from typing import Any

import pytest
from mix_lab import mixed

from boltend.core.contract import Start
from boltend.core.report.words import say_line
from boltend.core.values import Notation
from boltend.plugin import Cannot, Note, Rect, Settings
from boltend.testing import check, work
from boltend_fabric_mix import boltend_starts
from boltend_fabric_mix.fabric_mix import fabric_mix
from boltend_fabric_mix.layout import MOST_LETTERS, short_names
from boltend_fabric_mix.names import contrast, counted, named

FOUR = [("Slate", 10), ("Moss", 10), ("Chalk", 10), ("Rust", 2)]
COLOURS = {"Slate": "#5a6672", "Moss": "#5d6b4a", "Chalk": "#f2efe6", "Rust": "#a3471f"}


def test_even_as_far_as_the_cuts_allow() -> None:
    """6 blocks of 2 take 12 cuts: Rust has 2, so the others have 10 between them: 4, 3 and 3."""
    worked: Any = mixed(FOUR, per_block=2, blocks=6)
    assert worked.found["blocks_made"] == 6
    assert "Used: 1 fabric in 4 blocks, 2 fabrics in 3 blocks, 1 fabric in 2 blocks." in worked.working
    assert "Rust: in 2 blocks, of 2 cuts left 0." in worked.working


def test_the_docstrings_number() -> None:
    """4, 4 and 1 cuts, 2 a block: 9 cuts are 4 blocks, for the fifth lacks a cut."""
    worked: Any = mixed([("Slate", 4), ("Moss", 4), ("Chalk", 1)], per_block=2, blocks=9)
    assert worked.found["blocks_made"] == 4
    assert sum(row["blocks"] for row in worked.found["layout"]) == 4


def test_blocks_are_as_unlike_as_they_can_be_here() -> None:
    """4 fabrics, 3 a block, 4 blocks: each combination is made once."""
    worked: Any = mixed([(name, 9) for name, _ in FOUR], per_block=3, blocks=4)
    assert sorted((row["blocks"], row["fabrics"]) for row in worked.found["layout"]) == [
        (1, "Moss, Chalk, Rust"), (1, "Slate, Chalk, Rust"),
        (1, "Slate, Moss, Chalk"), (1, "Slate, Moss, Rust"),
    ]  # fmt: skip


def test_a_colour_spelled_in_two_ways_is_one_colour() -> None:
    """Two fabrics, one colour: they do not meet where contrast counts, and may where it does not."""
    rows = [("Navy", 3), ("Midnight", 3), ("Chalk", 6)]
    colours = {"Navy": "navy", "Midnight": "#000080", "Chalk": "#fff"}
    worked: Any = mixed(rows, colours, per_block=2, blocks=6, contrast_least="1")
    assert [row["fabrics"] for row in worked.found["layout"]] == ["Navy, Chalk", "Midnight, Chalk"]
    assert "May not meet: Navy and Midnight (the same colour)." in worked.working
    rows = [("Navy", 3), ("Midnight", 3), ("Chalk", 3)]
    both: Any = mixed(rows, colours, per_block=2, blocks=4)
    assert both.found["least_contrast"] == 0
    assert any(row["fabrics"] == "Navy, Midnight" for row in both.found["layout"])


def test_black_and_white_are_a_hundred_apart() -> None:
    colours = {"Slate": "black", "Moss": "white"}
    worked: Any = mixed([("Slate", 1), ("Moss", 1)], colours, per_block=2, blocks=1, contrast_least="100")
    assert worked.found["least_contrast"] == 100
    with pytest.raises(Cannot, match="With a least contrast of 100 there are 2"):
        mixed([("Slate", 1), ("Moss", 1)], colours, per_block=2, blocks=1, contrast_least="100.01")


def test_a_fabric_in_two_rows_is_one_fabric() -> None:
    rows = [("Slate", 2), ("slate", 3), ("Moss", 5)]
    raw = [{"fabric": name, "cuts": cuts} for name, cuts in rows if name != "slate"]
    worked: Any = work(fabric_mix, fabrics=[*raw, {"fabric": "Slate", "cuts": 3}], per_block=2, blocks=5)
    assert worked.found["blocks_made"] == 5
    assert "Slate stands in several rows: one fabric, with 5 cuts in all." in worked.cautions
    with pytest.raises(Cannot, match="1 fabric has cuts, and a block takes 2"):
        work(fabric_mix, fabrics=[*raw[:1], {"fabric": "Slate", "cuts": 3}], per_block=2, blocks=5)


def test_a_fabric_without_cuts_is_in_no_block() -> None:
    worked: Any = mixed([("Slate", 3), ("Moss", 3), ("Chalk", 0)], per_block=2, blocks=3, contrast_least="0")
    assert [row["fabrics"] for row in worked.found["layout"]] == ["Slate, Moss"]
    assert "No cuts, so in no block: Chalk." in worked.cautions


def test_without_a_colour_there_is_no_contrast() -> None:
    colours = {"Slate": "#5a6672", "Moss": "no such colour"}
    with pytest.raises(Cannot) as caught:
        mixed(FOUR, colours, blocks=2, contrast_least="10")
    assert caught.value.given == "contrast_least"
    assert caught.value.why == "Moss, Chalk and Rust have no colour that can be read, so no contrast."
    assert "or set the least contrast to 0" in caught.value.way_out
    worked: Any = mixed(FOUR, colours, blocks=2)
    assert worked.found["least_contrast"] is None
    assert "No least contrast is found: Moss, Chalk and Rust have no colour." in worked.cautions


@pytest.mark.parametrize(
    ("rows", "more", "given", "why"),
    [
        ([], {}, "fabrics", "nothing is given yet"),
        (FOUR[:2], {}, "fabrics", "2 different fabrics have cuts, and a block takes 3"),
        (FOUR, {"per_block": 1}, "per_block", "less than"),
        (FOUR, {"blocks": 2501}, "blocks", "2500"),
        (FOUR, {"contrast_least": "121"}, "contrast_least", "120"),
        (FOUR, {"contrast_least": "90"}, "contrast_least", "no 3 of these fabrics differ by 90"),
    ],
)
def test_what_cannot_be_done(
    rows: list[tuple[str, int]], more: dict[str, object], given: str, why: str
) -> None:
    with pytest.raises(Cannot) as caught:
        mixed(rows, COLOURS, **{"blocks": 4, **more})
    assert caught.value.given == given
    assert why in caught.value.why


def test_a_link_to_no_rows_is_no_fabrics() -> None:
    nothing: Any = {"fabrics": (), "per_block": 3, "blocks": 4, "contrast_least": 0}
    with pytest.raises(Cannot, match="no fabrics are given"):
        fabric_mix(**nothing, setting=Settings(), job=None)


def test_none_go_together_and_how_many_would() -> None:
    with pytest.raises(Cannot) as caught:
        mixed(FOUR, COLOURS, per_block=4, blocks=4, contrast_least="30")
    assert "At most 3 do, as " in caught.value.why
    instead = caught.value.way_out.split()[5]
    assert mixed(FOUR, COLOURS, per_block=4, blocks=2, contrast_least=instead).found["blocks_made"] == 2


def test_every_answer_is_the_same_in_centimetres() -> None:
    asked: dict[str, Any] = {"per_block": 2, "blocks": 6, "contrast_least": "20"}
    inches, metric = mixed(FOUR, COLOURS, **asked), mixed(FOUR, COLOURS, "centimetres", **asked)
    assert inches.found == metric.found
    assert inches.working == metric.working


def test_the_picture_has_a_swatch_a_fabric() -> None:
    worked = mixed([(name, 9) for name, _ in FOUR], per_block=3, blocks=4)
    swatches = [shape for shape in worked.answer.picture if isinstance(shape, Rect)]
    assert len(swatches) == 12
    assert {shape.fill for shape in swatches} == {name for name, _ in FOUR}
    assert sum(isinstance(shape, Note) for shape in worked.answer.picture) == 4


def test_long_names_are_told_whole_somewhere() -> None:
    rows = [(f"{number} {'a long name ' * 10}".strip(), 3) for number in range(6)]
    worked: Any = mixed(rows, per_block=6, blocks=2)
    (row,) = worked.found["layout"]
    assert len(row["fabrics"]) <= MOST_LETTERS
    assert any(all(name in said for name, _ in rows) for said in worked.working)
    assert short_names(["Slate", "Moss"]) == "Slate, Moss"


def test_words() -> None:
    assert [named([]), named(["A"]), named(["A", "B"]), named(list("ABC"))] == [
        "",
        "A",
        "A and B",
        "A, B and C",
    ]
    assert named(list("ABCDEFGHIJ")) == "A, B, C, D, E, F, G and 3 more"
    assert [counted(1, "block"), counted(2, "block")] == ["1 block", "2 blocks"]
    assert [contrast(Fraction(x)) for x in ("20", "19.999", "4.1", "0.05", "0")] == [
        "20", "19.99", "4.1", "0.05", "0",
    ]  # fmt: skip


def test_no_line_shows_a_float_or_an_empty_place() -> None:
    worked = mixed(FOUR, COLOURS, per_block=2, blocks=60, contrast_least="20")
    for line in (*worked.answer.working, *worked.answer.cautions):
        assert "{}" not in say_line(line, Notation())


def test_a_start_answers_with_it() -> None:
    (start,) = boltend_starts()
    assert isinstance(start, Start)
    assert start.question.endswith("?")
    assert ("Fabric mix", "fabric_mix", {"blocks": {"from": "Top", "take": "blocks"}}) in start.tabs


def test_the_contract() -> None:
    rows = [{"fabric": name, "cuts": cuts} for name, cuts in FOUR]
    check(fabric_mix, examples=25, fabrics=rows, per_block=3, blocks=8)
