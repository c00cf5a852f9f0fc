"""What a mix says of its own arithmetic: each number of a line worked by hand."""

import re
from fractions import Fraction
from itertools import combinations
from typing import Any

import pytest
from mix_lab import NAMES, meets_but, mixed

from boltend.testing import Worked
from boltend_fabric_mix.cloths import Cloths
from boltend_fabric_mix.colours import ciede2000
from boltend_fabric_mix.effort import Effort
from boltend_fabric_mix.filling import filled
from boltend_fabric_mix.layout import long_lines, short_names
from boltend_fabric_mix.meets import Meets, every_block, heaviest, some_block
from boltend_fabric_mix.mix import Mix, by_order, steps
from boltend_fabric_mix.search import Search


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


def test_ten_pairs_of_five_fabrics_are_all_unlike() -> None:
    # Five fabrics have ten pairs, and each is in four of them: with four cuts each, ten blocks can be all
    # pairs.
    rows: Any = plain(*((name, 4) for name in NAMES[:5]), blocks=10).found["layout"]
    assert [row["blocks"] for row in rows] == [1] * 10


@pytest.mark.parametrize("ends", [(2, 3), (3, 2)])
def test_an_exchange_makes_room_at_both_ends_of_a_path(ends: tuple[int, int]) -> None:
    # One cut each, in a row: end, 0, 1, end. Greed lays 0 with 1; only the two ends with their neighbours
    # give two blocks, so one of them must move.
    first, last = ends
    may = {(0, 1), (0, first), (1, last)}
    pairs = {(i, j) for i in range(4) for j in range(i)}
    meets = meets_but(4, [(i, j) for i, j in pairs if (i, j) not in may and (j, i) not in may])
    got = filled(meets, [1] * 4, [[0], [1], [2], [3]], 2, 2, Effort(lambda: False))
    assert got.whole
    assert set(got.blocks) == {tuple(sorted((0, first))), tuple(sorted((1, last)))}


def test_a_difference_is_told_to_the_fourth_decimal() -> None:
    # L* 50 to 53: SL = 1 + 0.015 · 1.5² ÷ √22.25 = 1.0071551, and 3 ÷ 1.0071551 = 2.97869.
    assert ciede2000((50.0, 0.0, 0.0), (53.0, 0.0, 0.0)) == Fraction(29787, 10_000)


def test_five_hundred_letters_are_told_whole_and_no_more() -> None:
    # 250 + 2 + 248 are 500. One more: each of two names keeps 500 ÷ 2 − 2 letters, its last a sign of more.
    assert short_names(["a" * 250, "b" * 248]) == "a" * 250 + ", " + "b" * 248
    assert short_names(["a" * 250, "b" * 249]) == "a" * 247 + "…, " + "b" * 247 + "…"
    assert short_names(["a" * 250, "b" * 248, "c"]) == "a" * 163 + "…, " + "b" * 163 + "…, c"
    for letters, lines in ((248, 0), (249, 1)):
        names = ("a" * 250, "b" * letters)
        cloths = Cloths(names, (1, 1), None, ())
        assert len(long_lines(Mix({(0, 1): 1}, 1, True), cloths)) == lines


def test_any_two_of_three_may_meet() -> None:
    assert Meets.all_of(3).near == (0b110, 0b101, 0b011)


def test_as_many_combinations_as_are_allowed_are_listed() -> None:
    # Two of four are six.
    pairs = [(0, 1), (0, 2), (0, 3), (1, 2), (1, 3), (2, 3)]
    assert every_block(Meets.all_of(4), 2, 6) == pairs
    assert every_block(Meets.all_of(4), 2, 5) is None


def test_greed_begins_with_the_heaviest() -> None:
    assert some_block(Meets.all_of(4), 2, [1.0, 4.0, 3.0, 2.0], range(4), Effort(lambda: False)) == (1, 2)


def test_that_there_is_no_block_is_shown_where_it_takes_hundreds_of_looks() -> None:
    # Four rings of five, each fabric meeting its two neighbours in its ring and all of the others: of a
    # ring at most two go together, so at most eight, and of each ring the bound by groups says three.
    apart = [(5 * ring + i, 5 * ring + (i + 2) % 5) for ring in range(4) for i in range(5)]
    meets = meets_but(20, apart)
    assert heaviest(meets, 9, [0.0] * 20, -1.0, Effort(lambda: False)) is None
    found = heaviest(meets, 8, [0.0] * 20, -1.0, Effort(lambda: False))
    assert found is not None
    assert all(meets.may(i, j) for i, j in combinations(found, 2))


def test_combinations_are_listed_by_their_blocks_and_then_by_their_places() -> None:
    ordered = by_order({(1, 2): 1, (0, 3): 1, (0, 2): 2, (0, 1): 0})
    assert list(ordered.items()) == [((0, 2), 2), ((0, 3), 1), ((1, 2), 1)]
    # Used 5, 3, 3 and 1: one fabric reaches 5, three reach 3, four reach 1.
    assert steps([3, 5, 1, 3]) == [(5, 1), (3, 3), (1, 4)]


def dark(count: int) -> list[str]:
    return [f"Coal {number}" for number in range(1, count + 1)]


def test_a_hundred_and_twenty_pairs_are_looked_through_and_more_are_counted() -> None:
    # Sixteen of one colour have 120 pairs, and a grey that meets them all is in every block; two alike are
    # one pair more, so that every block takes one of them.
    colours = dict.fromkeys(dark(16), "#000000") | {"Ash": "#777777", "Fog": "#777777"}
    rows = [(name, 9) for name in dark(16)]
    one = mixed([*rows, ("Ash", 2)], colours, per_block=2, blocks=5, contrast_least="30").cautions
    assert "Every block takes Ash, and there are 2 such cuts in all: enough for 2 blocks." in one
    assert any(said.startswith("That is so because these may not meet: Coal 1 and Coal 2") for said in one)
    two = mixed([*rows, ("Ash", 1), ("Fog", 1)], colours, per_block=2, blocks=5, contrast_least="30").cautions
    assert (
        "Every block takes at least 1 of Ash and Fog, and there are 2 such cuts in all: enough for 2 blocks."
        in two
    )
    assert "That is so because 121 pairs of fabrics may not meet." in two


def test_a_reason_leaves_out_what_it_does_not_take() -> None:
    # White with Coal or Jet: two blocks use up all three, but one cut of the dark ones in every block is
    # enough.
    colours = {"White": "#ffffff", "Coal": "#000000", "Jet": "#000000"}
    worked = mixed(
        [("White", 2), ("Coal", 1), ("Jet", 1)], colours, per_block=2, blocks=5, contrast_least="50"
    )
    assert worked.cautions[:4] == [
        "Only 2 of 5 blocks: no more can be made.",
        "Every block takes at least 1 of Coal and Jet, and there are 2 such cuts in all: enough for "
        "2 blocks.",
        "That is so because a block has 2 different fabrics, and beside these there is only White.",
        "For 5 blocks there would have to be at least 3 more of these cuts.",
    ]


def test_the_same_uses_are_spread_over_all_pairs() -> None:
    # Three blocks of one pair and three of the other use each fabric three times; so do the six pairs, once
    # each.
    search = Search(Meets.all_of(4), [3] * 4, 2, 6, Effort(lambda: False))
    assert search.spread({(0, 1): 3, (2, 3): 3}) == dict.fromkeys(combinations(range(4), 2), 1)


def test_pairs_that_may_not_meet_are_told_from_the_most_alike_on() -> None:
    # L* of the three darks: 0, 13.2 and 2.7. White is in every block, for no two of them may meet.
    colours = {"Coal": "#000000", "Slate": "#222222", "Jet": "#0a0a0a", "White": "#ffffff"}
    rows = [("Coal", 9), ("Slate", 9), ("Jet", 9), ("White", 2)]
    said = mixed(rows, colours, per_block=2, blocks=5, contrast_least="30").cautions
    (pairs,) = (each for each in said if "these may not meet" in each)
    assert re.findall(r"(\w+) and (\w+) \(", pairs) == [("Coal", "Jet"), ("Slate", "Jet"), ("Coal", "Slate")]


def test_of_pairs_of_which_one_is_enough_the_most_alike_is_told() -> None:
    # Coal, Ash and Slate could be a block but for Coal with Ash, or but for Ash with Slate, which are
    # further apart.
    colours = {"Coal": "#000000", "Ash": "#1d1d1d", "Slate": "#505050", "White": "#ffffff"}
    rows = [("Coal", 9), ("Ash", 9), ("Slate", 9), ("White", 2)]
    said = mixed(rows, colours, per_block=3, blocks=5, contrast_least="20").cautions
    (pairs,) = (each for each in said if "these may not meet" in each)
    assert re.findall(r"(\w+) and (\w+) \(", pairs) == [("Coal", "Ash")]
