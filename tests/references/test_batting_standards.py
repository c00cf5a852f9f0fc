"""Published sizes, extras and shrinkage of battings, against ours; read from the file when run."""

from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Any

import pytest

from boltend.core.contract import Settings
from boltend.core.values import nearest, up
from boltend.core.values.units import INCHES
from boltend.testing import Worked, work
from boltend_backing_batting.backing import backing
from boltend_backing_batting.batting import batting
from boltend_backing_batting.battings import BATTINGS
from boltend_shared import source_line, standards

PACKAGES: list[Any] = standards()["batting_package"]
CHECKS: Mapping[str, Any] = {row["id"]: row for row in standards()["batting_check"]}
SHRINKS: Any = standards()["batting_shrinkage_percent"]
EXTRA: Any = standards()["batting_extra"]
RAW = {"seam": "0 in"}
"""Print measures a top as it lies there, so nothing is added for its seams."""


def package_named(row: Any) -> str:
    return f"{row['name']} ({source_line(row['source'])})"


def check_named(key: str) -> str:
    return f"{key} ({source_line(CHECKS[key]['source'])})"


@pytest.mark.parametrize("row", PACKAGES, ids=package_named)
def test_a_package_of_our_table_has_the_printed_size(row: Any) -> None:
    ours = BATTINGS.row(row["name"])
    assert (ours["width"], ours["length"]) == (row["width_in"], row["length_in"])
    tenth = Fraction(1, 10)
    for side in ("width", "length"):
        assert nearest(Fraction(ours[side]) / INCHES["cm"], tenth) == row[f"{side}_cm"]


def test_our_table_has_these_packages_and_no_others() -> None:
    ours = [name for name in BATTINGS.rows if BATTINGS.row(name)["width"] is not None]
    assert ours == [row["name"] for row in PACKAGES]


def laid(top: list[int], overage: Fraction | int, **more: Any) -> Worked:
    """A batting for a top of this size."""
    width, height = map(Fraction, top)
    return work(
        batting,
        settings=RAW,
        tables=[BATTINGS],
        width=width,
        height=height,
        overage=Fraction(overage),
        **more,
    )


def shrunk(before: Fraction | int, after: Fraction | int) -> Fraction:
    """Percent lost, to three decimals."""
    return nearest(100 * (1 - Fraction(after) / before), Fraction(1, 1000))


def after_washing(row: Any) -> None:
    """E01: what shrinks by the printed percent to 68 in was 70 in, by our division."""
    percent = row["expected"]["percent"]
    assert shrunk(**row["inputs"]) == percent
    needed: Any = laid([68, 68], 0, shrinkage=f"{float(percent)} %").found["needed_width"]
    assert needed == row["inputs"]["before"]


def taken_up(row: Any) -> None:
    """E02: what quilting takes up, as a shrinkage, on each side."""
    before, after = row["inputs"]["before"], row["inputs"]["after_quilting"]
    for was, now, percent in zip(before, after, row["expected"]["percent"], strict=True):
        assert nearest(shrunk(was, now), Fraction(1, 10)) == percent
        needed: Any = laid([now, now], 0, shrinkage=f"{float(percent)} %").found["needed_width"]
        assert needed == up(was, 1)  # the size before, to the whole inch


def backing_covers(row: Any) -> None:
    """E03: 4 in on each side; the backing is at least that, and one side of it exactly."""
    top, least = row["inputs"]["top"], row["expected"]["backing_min"]
    width, height = map(Fraction, top)
    found: Any = work(
        backing, settings=RAW, width=width, height=height, overage=Fraction(row["inputs"]["per_side"])
    ).found
    made = found["backing_width"], found["backing_height"]
    assert made[0] >= least[0]
    assert made[1] >= least[1]
    assert least[0] == made[0] or least[1] == made[1]


def batting_needed(row: Any) -> None:
    """E04, E05: so much more in all, half of it on each side."""
    found = laid(row["inputs"]["top"], Fraction(row["inputs"]["total_extra"], 2)).found
    assert [found["needed_width"], found["needed_height"]] == row["expected"]["batting_min"]


RUN: Mapping[str, Callable[[Any], None]] = {
    "E01": after_washing, "E02": taken_up, "E03": backing_covers, "E04": batting_needed,
    "E05": batting_needed,
}  # fmt: skip


@pytest.mark.parametrize("key", CHECKS, ids=check_named)
def test_a_printed_check(key: str) -> None:
    RUN[key](CHECKS[key])


def test_the_queens_own_package_is_too_narrow_as_the_note_says() -> None:
    row = CHECKS["E05"]
    assert "only 90 wide" in row["note"]
    found = laid(row["inputs"]["top"], 3).found
    assert found["package"] == "king"


def test_the_next_page_prints_six_inches_too_little() -> None:
    """E04's note: the page goes on with 80 × 86 for 8 in more; ours is 80 × 88."""
    row = CHECKS["E04"]
    assert "80x88 is right" in row["note"]
    found = laid(row["inputs"]["top"], 4).found
    assert (found["needed_width"], found["needed_height"]) == (80, 88)


SHRINKING = {
    "cotton": ("cotton, with scrim", "cotton, without scrim", "cotton, not stabilised"),
    "cotton_wool": ("cotton and wool, 80/20",),
    "bamboo_cotton": ("bamboo and cotton",),
}
"""Our rows of what the file names."""


@pytest.mark.parametrize("kind", SHRINKING)
def test_a_kind_of_batting_has_the_careful_end_of_its_range(kind: str) -> None:
    least, most = SHRINKS[kind]
    assert least < most
    assert {BATTINGS.row(name)["shrinkage"] for name in SHRINKING[kind]} == {most}


def test_what_print_does_not_quantify() -> None:
    """Polyester shrinks little to not at all: 0 %. Of wool no maker says how much, so neither do we."""
    assert SHRINKS["polyester"] == "little to none"
    assert BATTINGS.row("polyester")["shrinkage"] == 0
    assert "not quantified" in SHRINKS["wool"]
    assert BATTINGS.row("wool")["shrinkage"] is None
    told = {key for key in SHRINKS if not key.endswith(("source", "sources"))}
    assert told == {*SHRINKING, "polyester", "wool"}


def test_our_overage_is_what_print_gives_a_long_arm_and_lies_in_every_range() -> None:
    overage = Settings().overage
    assert overage == EXTRA["per_side_longarm_in"]
    for name in ("total_in_min", "most_say_total_in"):
        low, high = EXTRA[name]
        assert low <= 2 * overage <= high
    assert 2 * overage >= EXTRA["batting_total_min_longarm_in"]
    by_hand = laid([60, 80], EXTRA["per_side_hand_in"]).found
    assert (by_hand["needed_width"], by_hand["needed_height"]) == (64, 84)


def test_a_roll_of_the_width_that_is_sold_serves_a_side_within_it() -> None:
    (seen,) = standards()["batting_roll"]["seen"]
    wide = Fraction(seen["width_in"])
    assert laid([82, 100], 4, roll_width=wide).found["roll_length"] == 108  # 90 in lie across the roll
    assert laid([83, 100], 4, roll_width=wide).found["roll_length"] is None
