"""What is left of a fabric, held against what borders and binding take of it; by hand."""

from typing import Any

import pytest

from boltend.testing import Worked, work
from boltend_borders_binding.binding import binding
from boltend_borders_binding.borders import borders


def bordered(have: str | None, *rows: dict[str, Any], **said: Any) -> Worked:
    """A border of 6 in round 65 × 80 in: 2 × 80 1/2 and 2 × 77 1/2 in make 316 in.

    Nine strips of 42 in, with eight joins of 6 1/2 in, are 326 in; 9 × 6 1/2 and 1/2 in are 59 in.
    """
    given = {} if have is None else {"have": have}
    return work(
        borders, top_width="65 in", top_height="80 in", borders=list(rows) or [{"width": "6 in"}],
        **given, **said,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("have", "verdict"),
    [("2 1/4 yd", "enough"), ("59 in", "enough"), ("58 7/8 in", "not enough"), ("1 yd", "not enough")],
)
def test_whether_it_is_enough_for_a_border(have: str, verdict: str) -> None:
    assert bordered(have).found["have_is"] == verdict


def test_both_are_told_with_their_numbers() -> None:
    enough, short = bordered("2 1/4 yd"), bordered("1 yd")
    said = "The 2 1/4 yd in hand is enough: 59 in are needed, and 22 in are left."
    assert said in enough.working
    assert "The 1 yd in hand is not enough: 59 in would be." in " ".join(short.cautions)
    nothing = bordered(None)
    assert nothing.found["have_is"] is None
    assert not [each for each in (*nothing.working, *nothing.cautions) if "yd in hand" in each]


def test_washing_takes_its_part_of_what_is_in_hand() -> None:
    # 59 ÷ 0.95 is 62.1 in.
    washed: dict[str, object] = {"prewash_along": "5 %"}
    assert bordered("62 in", settings=washed).found["have_is"] == "not enough"
    assert bordered("62 1/4 in", settings=washed).found["have_is"] == "enough"


def test_of_two_fabrics_nobody_knows_which_is_in_hand() -> None:
    two = bordered("3 yd", {"width": "2 in", "fabric": "A"}, {"width": "4 in", "fabric": "B"})
    assert two.found["have_is"] is None
    assert any("for one fabric alone" in said for said in two.cautions)


def test_whether_it_is_enough_for_a_binding() -> None:
    # 60 × 80 in: 292 in, 8 strips of 2 1/2 in are 20 in, and 1/2 in squares the end.
    for have, verdict in (("20 1/2 in", "enough"), ("1/2 yd", "not enough")):
        assert work(binding, width="60 in", height="80 in", have=have).found["have_is"] == verdict
