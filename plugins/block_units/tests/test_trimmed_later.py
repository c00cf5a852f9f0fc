"""What To cut says of units that are sewn larger than they are used: they are trimmed, to their raw size."""

from fractions import Fraction as Fr
from typing import Any

import pytest

from boltend.plugin import Answer, Calculator, Finished, Piece, Settings, calculator, cut, found, given, line
from boltend.testing import work
from boltend_block_units.framed import framed_square
from boltend_block_units.geese import flying_geese
from boltend_block_units.half_square import half_square_triangles
from boltend_block_units.quarter_square import quarter_square_triangles
from boltend_block_units.square_in_square import square_in_square


@pytest.mark.parametrize(
    ("unit", "said", "words", "sizes"),
    [
        # Finished 6 in and two seams of 1/4 in.
        (half_square_triangles, {"finished_size": "6 in"}, "sewn unit", (Fr(13, 2), Fr(13, 2))),
        (quarter_square_triangles, {"finished_size": "6 in", "method": "hourglass two at a time"},
         "sewn unit", (Fr(13, 2), Fr(13, 2))),
        (square_in_square, {"finished_size": "6 in", "oversize": "1/4 in"}, "sewn unit",
         (Fr(13, 2), Fr(13, 2))),
        (flying_geese, {"finished_width": "6 in", "oversize": "1/4 in"}, "goose", (Fr(13, 2), Fr(7, 2))),
        (framed_square, {"centre": "2 in", "rounds": [{"width": "1 in"}], "method": "trimmed as sewn",
                         "oversize": "1/2 in"}, "framed square", (Fr(9, 2), Fr(9, 2))),
    ],
)  # fmt: skip
def test_every_piece_of_a_unit_says_what_it_is_trimmed_to(
    unit: Calculator, said: dict[str, Any], words: str, sizes: tuple[Fr, Fr]
) -> None:
    answer = work(unit, count=8, **said).answer
    expected = line(f"trim each {words} to {{}} × {{}}", *map(cut, sizes))
    parts = [*answer.pieces, *answer.runs]
    assert parts
    assert {part.later for part in parts} == {expected}


def test_what_is_halved_is_trimmed_to_what_the_halves_take() -> None:
    said: dict[str, Any] = {"centre": "4 in", "rounds": [{"width": "2 in"}], "count": 4}
    worked = work(framed_square, method="halved into corners", finished_size="14 in", **said)
    size: Any = worked.unrounded["trim_to"]
    expected = line("trim each framed square to {} × {}", cut(size), cut(size))
    assert {piece.later for piece in worked.answer.pieces} == {expected}


def test_what_is_cut_to_size_is_not_trimmed() -> None:
    said: dict[str, Any] = {"centre": "2 in", "rounds": [{"width": "1 in"}], "count": 2}
    assert {piece.later for piece in work(framed_square, **said).answer.pieces} == {""}
    loose = work(quarter_square_triangles, finished_size="6 in", method="triangles", count=4)
    assert {piece.later for piece in loose.answer.pieces} == {""}


@pytest.mark.parametrize("later", [3, None, ("a", "b")])
def test_nonsense_for_later_is_refused(later: Any) -> None:
    class Found:
        width: Finished = found("Width", nearest="size")

    @calculator("nonsense", asks="What?", found=Found)
    def nonsense(width: Finished = given("Width", default="2 in"), *, setting: Settings) -> Answer:
        """Nothing of sense."""
        square = Piece("square", width, width, 1, later=later)
        return Answer({"width": width}, [square], working=[line("So.")])

    with pytest.raises(AssertionError, match="no sound words for later"):
        work(nonsense)
