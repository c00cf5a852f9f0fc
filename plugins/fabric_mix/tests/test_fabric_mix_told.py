"""What a mix says of its own arithmetic: each number of a line worked by hand."""

from typing import Any

from mix_lab import mixed

from boltend.testing import Worked


def plain(*rows: tuple[str, int], **said: Any) -> Worked:
    return mixed(rows, **{"per_block": 2, "blocks": 5, **said})


def test_a_mix_that_is_short_tells_its_numbers() -> None:
    # 4 + 4 + 1 are nine cuts, two a block: four blocks. Used 4, 3 and 1; the one over goes to the first.
    worked = plain(("Slate", 4), ("Moss", 4), ("Chalk", 1))
    assert worked.working[:4] == [
        "Any two different fabrics may meet in a block.",
        "5 blocks × 2 different fabrics take 10 cuts.",
        "There are 9 that can be used: of each fabric at most one a block.",
        "Made: 4 of 5 blocks.",
    ]
    assert "Used: 1 fabric in 4 blocks, 1 fabric in 3 blocks, 1 fabric in 1 block." in worked.working
    assert "Slate: in 4 blocks, of 4 cuts left 0." in worked.working
    assert "Moss: in 3 blocks, of 4 cuts left 1." in worked.working
    assert "Chalk: in 1 block, of 1 cut left 0." in worked.working
    assert worked.cautions[1:] == [
        "Only 4 of 5 blocks: no more can be made.",
        "Every block takes at least 2 of Slate, Moss and Chalk, and there are 9 such cuts in all: "
        "enough for 4 "
        "blocks.",
        "For 5 blocks there would have to be at least 1 more of these cuts.",
    ]


def test_one_fabric_that_every_block_takes_is_told() -> None:
    # Three of three fabrics: Slate is in every block, and there are two cuts of it.
    worked = plain(("Slate", 2), ("Moss", 9), ("Chalk", 9), per_block=3)
    assert worked.cautions[1:] == [
        "Only 2 of 5 blocks: no more can be made.",
        "Every block takes Slate, and there are 2 such cuts in all: enough for 2 blocks.",
        "That is so because a block has 3 different fabrics, and beside these there are only Moss and Chalk.",
        "For 5 blocks there would have to be at least 3 more of these cuts.",
    ]
    # Nine cuts can be used in five blocks at most, once a block: 2 + 5 + 5.
    assert "There are 12 that can be used: of each fabric at most one a block." in worked.working


def test_who_may_not_meet_is_counted_and_told() -> None:
    # #010101 has L* = 903.3 ÷ (255 · 12.92) = 0.274; against black the formula divides it by 1.745: 0.157.
    colours = {"Black": "#000000", "Coal": "#010101", "White": "#ffffff"}
    worked = mixed([(name, 9) for name in colours], colours, per_block=2, blocks=4, contrast_least="50")
    assert "Of 3 pairs of fabrics 2 differ by at least 50 and may meet in a block." in worked.working
    assert "May not meet: Black and Coal (0.15)." in worked.working
    assert "Used: 1 fabric in 4 blocks, 2 fabrics in 2 blocks." in worked.working
    assert any("the one colour that is noted for each fabric" in said for said in worked.cautions)
    apart = mixed([(name, 9) for name in colours], colours, per_block=2, blocks=4)
    assert not any("the one colour that is noted" in said for said in apart.cautions)
    assert "Any two different fabrics may meet in a block." in apart.working
    assert not any("May not meet" in said for said in apart.working)


def test_a_mix_that_is_not_short_has_no_caution_but_for_its_colours() -> None:
    worked = plain(("Slate", 5), ("Moss", 5))
    assert worked.cautions == ["No least contrast is found: Slate and Moss have no colour."]
    assert "Used: 2 fabrics in 5 blocks." in worked.working
    assert any(said.startswith("No mix of 5 blocks is more even") for said in worked.working)
