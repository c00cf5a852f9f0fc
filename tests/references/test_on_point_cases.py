"""Published settings on point, against our own arithmetic; what is expected is read from the file.

Every number of every case that agrees is checked, or has its reason. Of the others what agrees is checked
too, and where they differ the test says how.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

import pytest

from boltend.core.values import ROOT2, nearest, up
from boltend.testing import Worked, work
from boltend_quilt_setting.on_point import on_point
from boltend_shared import Case, cases

KINDS = ("block_diagonal", "on_point_layout", "on_point_triangle", "on_point_triangle_table")
CASES = {case.id: case for case in cases(*KINDS)}
SEAMS = Fraction(1, 2)


def named(case: Case) -> str:
    return f"{case.id} ({case.source.title}, {case.source.publisher}, {case.source.year})"


def worked(case: Case, **more: Any) -> Worked:
    """Our top; where a case prints no counts, two blocks each way, which the squares do not depend on."""
    given = case.inputs
    across = given.get("across", given.get("blocks_across", 2))
    down = given.get("down", given.get("blocks_down", 2))
    block = Fraction(given.get("block", given.get("finished_block")))
    return work(on_point, block=block, across=across, down=down, sash=Fraction(given.get("sash", 0)), **more)


Check = Callable[[Worked], object]


def of(name: str) -> Check:
    """A found."""
    return lambda w: w.found[name]


def count(w: Worked, name: str) -> int:
    found: Any = w.found[name]
    return int(found)


def size(name: str, over: Fraction, step: Fraction) -> Check:
    """Width or height with what is printed on top of it, rounded as print does."""

    def check(w: Worked) -> object:
        exact: Any = w.unrounded[name]
        return nearest(exact + over, step)

    return check


def sizes(over: Fraction, step: Fraction) -> dict[str, Check]:
    return {"finished_w": size("width", over, step), "finished_l": size("height", over, step)}


def cut_four_a_square(w: Worked) -> int:
    return 4 * count(w, "side_squares")


def outer_blocks(w: Worked) -> int:
    return count(w, "blocks") - count(w, "inner_blocks")


def in_words(w: Worked, pattern: str) -> list[Fraction]:
    """Numbers that a line of the working names, inches as mixed numbers."""
    (match,) = (m for each in w.working if (m := re.search(pattern, each)))
    return [sum((Fraction(part) for part in text.split()), Fraction(0)) for text in match.groups()]


def half_by_half(w: Worked) -> list[Fraction]:
    """The square, and how many, of half cornerstones that are cut once on the diagonal, as print does."""
    return in_words(w, r"squares of ([\d /]+) in cut once \((\d+) of them\)")


def row_lengths(w: Worked) -> list[int]:
    lines = [m.group(1) for each in w.working if (m := re.match(r"rows? \d[^:]*: ([\d, ]+) blocks?;", each))]
    return [int(number) for each in lines for number in each.split(",")]


def least(w: Worked, name: str) -> Fraction:
    """The exact least square, as the working shows it."""
    return in_words(w, name + r" square, exact least .* up to ([\d /]+) in$")[0]


@dataclass(frozen=True)
class Run:
    """What of a case is checked, with which oversize for the two squares, and what is not ours."""

    exact: Mapping[str, Check]
    side_oversize: str = "0 in"
    corner_oversize: str = "0 in"
    not_ours: Mapping[str, str] = field(default_factory=dict)


SIDE: dict[str, Check] = {"side_square": of("side_square")}
CORNER: dict[str, Check] = {"corner_square": of("corner_square")}
USED: dict[str, Check] = {
    "side_triangles_used": of("side_triangles"),
    "side_triangles_cut": cut_four_a_square,
}
TWO: dict[str, Check] = {"corner_squares": of("corner_squares")}

RUNS: dict[str, Run] = {
    "onpoint-example-1": Run({**SIDE, **CORNER}),
    "onpoint-example-4": Run(CORNER),
    "onpoint-example-6": Run({**SIDE, **CORNER}),
    "onpoint-example-oversize": Run(
        {**SIDE, **CORNER, "side_squares_cut": of("side_squares"), "side_triangles": of("side_triangles"),
         "corner_squares_cut": of("corner_squares"), "corner_triangles": of("corner_triangles"),
         "set_in_blocks": of("inner_blocks")},
        "3/4 in", "5/8 in",
    ),
    # the size has its outer seams, and print goes to the half inch
    "onpoint-salsa": Run(
        {**SIDE, **CORNER, **TWO, **sizes(SEAMS, Fraction(1, 2)), "total_blocks": of("blocks"),
         "side_triangles": of("side_triangles"), "side_squares": of("side_squares")},
        not_ours={"block_breakdown": "Three kinds of block: tested below."},
    ),
    "onpoint-candy": Run(
        {**SIDE, **CORNER, **TWO, **USED, "total_blocks": of("blocks"), "sashes": of("sashes"),
         "half_cornerstones": of("half_cornerstones"), "side_squares": of("side_squares"),
         "half_cornerstone_square": lambda w: half_by_half(w)[0],
         "half_cornerstone_squares": lambda w: half_by_half(w)[1]},
        not_ours={"cornerstone_squares_cut": "With 4 for a border's corners: tested below."},
    ),
    "onpoint-bay": Run(
        {**SIDE, **CORNER, **USED, "total_blocks": of("blocks"), "pieced": outer_blocks,
         "plain": of("inner_blocks")},
        "5/8 in", "5/8 in",
    ),
    "onpoint-attic": Run(
        {**SIDE, "total_blocks": of("blocks"), "side_triangles": of("side_triangles"),
         "row_lengths": row_lengths},
        "1/8 in",
    ),
    # without seams, to the inch
    "onpoint-karen": Run({**sizes(Fraction(0), Fraction(1)), "pieced_blocks": outer_blocks}),
    # with the binding, 1/4 in on each side
    "onpoint-gen": Run({**sizes(2 * Fraction(1, 4), Fraction(1, 8)), "total_blocks": of("blocks")}),
    # a border of 2 in and the outer seams; its corner square is a quarter of an inch larger than ours
    "onpoint-rings": Run(
        {**CORNER, **TWO, **sizes(4 + SEAMS, Fraction(1, 8)), "full_blocks": of("blocks")}, "0 in", "1/4 in"
    ),
}  # fmt: skip

DIFFERENT: dict[str, str] = {
    "onpoint-table-christa": "A corner of 3 1/2 in for a block of 3 1/2 in, where 3 3/8 in will do.",
    "onpoint-table-phoebe": "Rounded down to the quarter in three sides, up by one too many in two corners.",
    "onpoint-table-inflo": "A part of the table above, printed again.",
    "onpoint-example-rounddown": "Rounds the diagonal and its half down, so both squares are 1/8 in short.",
    "onpoint-oversize-rule": "A rule and no numbers: 2 in where the seams take 7/8 in.",
    "onpoint-garden": "Calls the plain squares by their finished size, and counts the lone corners as rows.",
}
"""Cases that do not agree as a whole, each with how it differs; tested below all the same."""

AGREEING = [case for case in CASES.values() if case.agrees and case.id in RUNS]


@pytest.mark.outside_check("on_point", against="published")
@pytest.mark.parametrize("case", AGREEING, ids=named)
def test_the_printed_numbers_are_found(case: Case) -> None:
    run = RUNS[case.id]
    for name, ours in run.exact.items():
        oversize = {"side_square": run.side_oversize, "corner_square": run.corner_oversize}.get(name, "0 in")
        assert ours(worked(case, oversize=oversize)) == case.expected[name], name


@pytest.mark.parametrize("case", AGREEING, ids=named)
def test_what_the_collector_worked_out_is_found(case: Case) -> None:
    w = worked(case)
    ours: dict[str, Callable[[], object]] = {
        "side_square": lambda: w.found["side_square"],
        "corner_square": lambda: w.found["corner_square"],
        "side_triangles": lambda: w.found["side_triangles"],
        "plain_blocks": lambda: w.found["inner_blocks"],
        "whole_cornerstones": lambda: w.found["cornerstone_count"],
        "center_w": lambda: thousandths(w, "width", 0),
        "center_l": lambda: thousandths(w, "height", 0),
        "raw_w": lambda: thousandths(w, "width", SEAMS + Fraction(case.inputs.get("border_finished", 0)) * 2),
        "raw_l": lambda: thousandths(w, "height", SEAMS),
        "inner_border_corners": lambda: 4,  # a border with cornerstones always has
    }
    for name, said in case.computed.items():
        assert ours[name]() == said, name


def thousandths(w: Worked, name: str, over: Fraction | int) -> Fraction:
    exact: Any = w.unrounded[name]
    return nearest(exact + over, Fraction(1, 1000))


def test_every_number_of_every_case_is_checked_or_has_its_reason() -> None:
    agreeing = {case.id for case in CASES.values() if case.agrees}
    assert agreeing == {*RUNS, "diag-table"}
    assert {case.id for case in CASES.values()} - agreeing == set(DIFFERENT)
    for case in AGREEING:
        assert sorted([*RUNS[case.id].exact, *RUNS[case.id].not_ours]) == sorted(case.expected), case.id


@pytest.mark.parametrize("case", [CASES["diag-table"]], ids=named)
def test_diagonals_of_blocks(case: Case) -> None:
    for side, printed in case.expected["rows"]:
        exact: Any = work(on_point, block=f"{side} in", across=2, down=2).unrounded["diagonal"]
        assert nearest(exact, Fraction(1, 8)) == printed, side


def test_kinds_of_block_add_up() -> None:
    case = CASES["onpoint-salsa"]
    *inner, outer = case.expected["block_breakdown"]
    w = worked(case)
    assert (sum(inner), outer) == (w.found["inner_blocks"], outer_blocks(w))


def test_cornerstones_and_a_border_s_corners_are_cut_together() -> None:
    case = CASES["onpoint-candy"]
    with_corners = count(worked(case), "cornerstone_count") + case.computed["inner_border_corners"]
    assert with_corners == case.expected["cornerstone_squares_cut"]


def squares_of(block: Any) -> Worked:
    return work(on_point, block=Fraction(block), across=2, down=2)


def test_a_table_by_eighths_is_ours_but_for_one_corner() -> None:
    case = CASES["onpoint-table-christa"]
    differs = {}
    for block, side, corner in case.expected["rows"]:
        w = squares_of(block)
        assert w.found["side_square"] == side, block
        if w.found["corner_square"] != corner:
            differs[block] = (corner, w.found["corner_square"])
    assert differs == {Fraction(7, 2): (Fraction(7, 2), case.computed["exact_row_3_5_corner"])}


@pytest.mark.parametrize("key", ["onpoint-table-phoebe", "onpoint-table-inflo"])
def test_a_table_by_quarters_is_ours_rounded_up_but_for_five_numbers(key: str) -> None:
    below, above, truly_short = set(), set(), set()
    for block, side, corner in CASES[key].expected["rows"]:
        w = squares_of(block)
        constants: tuple[Any, Any] = (w.unrounded["side_square"], w.unrounded["corner_square"])
        by_quarters = [up(each, Fraction(1, 4)) for each in constants]
        if side < constants[0]:
            below.add(block)
        else:
            assert side == by_quarters[0], block
        if corner == by_quarters[1] + Fraction(1, 4):
            above.add(block)
        else:
            assert corner == by_quarters[1], block
        if side < block * ROOT2 + SEAMS * (1 + ROOT2):
            truly_short.add(block)
    whole = key.endswith("phoebe")
    assert below == ({14, 17, 20} if whole else {14})
    assert above == {9, 15}
    assert truly_short == {14}  # 21 in, where 21.006 in is the exact least


def test_what_is_rounded_down_is_an_eighth_short() -> None:
    case = CASES["onpoint-example-rounddown"]
    w = worked(case)
    for name in ("side_square", "corner_square"):
        assert w.found[name] == case.computed[name] == case.expected[name] + Fraction(1, 8)
    exact = 5 * ROOT2 + SEAMS * (1 + ROOT2)
    assert case.expected["side_square"] < exact


@pytest.mark.parametrize("block", [4, 6, 9, 10, 12])
def test_a_school_of_larger_corners_is_an_oversize_of_ours(block: int) -> None:
    case = CASES["onpoint-oversize-rule"]
    theirs = up(Fraction(707, 1000) * block, Fraction(1, 8)) + case.expected["corner_allowance"]
    over = case.expected["corner_allowance"] - Fraction(7, 8)
    ours: Any = work(on_point, block=f"{block} in", across=2, down=2, oversize=over).found["corner_square"]
    assert abs(theirs - ours) <= Fraction(1, 8)


def test_a_sheet_that_takes_a_finished_size_for_a_cut_one() -> None:
    case = CASES["onpoint-garden"]
    w = worked(case, inner_fabric="plain")
    expected, computed = case.expected, case.computed
    assert w.found["side_square"] == expected["side_square"]
    assert cut_four_a_square(w) == expected["side_triangles_cut"]
    assert w.found["side_triangles"] == expected["side_triangles_used"]
    assert w.found["corner_squares"] == expected["corner_squares"]
    # The constants just miss the exact least, which is what the sheet prints.
    assert least(w, "corner") == expected["corner_square"] == w.found["corner_square"] - Fraction(1, 8)  # type: ignore[operator]  # a length
    (plain,) = (piece for piece in w.answer.pieces if piece.name == "inner block")
    assert plain.across == computed["plain_square_cut"] == expected["plain_square_named"] + SEAMS
    raw = [size(name, SEAMS, Fraction(1, 2))(w) for name in ("width", "height")]
    assert raw == [expected["center_raw_w"], expected["center_raw_l"]]
    assert thousandths(w, "width", SEAMS) == computed["center_raw_w"]
    # 88.00446: the collector's last digit is one too many.
    assert thousandths(w, "height", SEAMS) == computed["center_raw_l"] - Fraction(1, 1000)
    assert w.found["diagonal_rows"] == computed["diagonal_rows"]
    # Sides as long as the centre, ends two finished borders longer.
    assert expected["side_border_len"] == raw[1]
    assert expected["top_border_len"] == raw[0] + 2 * (expected["border_cut_width"] - SEAMS)  # type: ignore[operator]  # a length
