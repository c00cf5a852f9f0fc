"""What the joined strips of a border are cut into, said for the cutting table."""

from typing import Any

from boltend.testing import work
from boltend_borders_binding.borders import borders


def later(**said: Any) -> list[str]:
    """What is left to do with each run, lengths as bare fractions of an inch."""
    row = {"name": "Rim", "width": "4 in", **said.pop("row", {})}
    given = {"top_width": "51 in", "top_height": "51 in", **said}
    words = []
    for run in work(borders, borders=[row], **given).answer.runs:
        if isinstance(run.later, str):
            words.append(run.later)
        else:
            words.append(run.later.words.format(*(getattr(v, "value", v) for v in run.later.values)))
    return words


def test_what_the_strips_are_cut_into_once_they_are_joined() -> None:
    # Sides of 51 + 1/2 in, ends of 51 + 8 + 1/2 in: 222 in, more than five strips of 42 in.
    assert later() == ["join the strips of Rim end to end, then cut 2 of 103/2 and 2 of 119/2"]
    # Each side of its own strips: joins between two sides are not paid for.
    each = later(piecing="each side")
    assert each == ["join the strips of Rim to 2 of 103/2 and 2 of 119/2"]


def test_one_strip_is_cut_and_none_is_joined() -> None:
    # 4 × 4 1/2 and 4 × 12 1/2 are within one width of 42 in.
    small = later(top_width="4 in", top_height="4 in")
    assert small == ["cut the strip of Rim into 2 of 9/2 and 2 of 25/2"]


def test_sides_alike_are_one_count() -> None:
    square = later(row={"corners": "cornerstones"})
    assert square == ["join the strips of Rim end to end, then cut 4 of 103/2"]


def test_lengthwise_strips_come_in_one_piece_and_need_no_word() -> None:
    assert later(row={"grain": "lengthwise"}) == [""]
    assert later(piecing="each side", top_width="20 in", top_height="20 in") == [""]
