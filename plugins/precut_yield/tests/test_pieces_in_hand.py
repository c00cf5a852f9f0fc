"""Pieces out of the yards in hand: by hand, against every way of cutting, and drawn."""

from fractions import Fraction as Fr
from functools import cache
from typing import Any

import pytest
from hypothesis import given, seed, settings
from hypothesis import strategies as st
from shapely import box, union_all

from boltend.core.host import Host
from boltend.plugin import Cannot, Rect
from boltend.testing import Worked, work
from boltend_precut_yield.pieces_in_hand import pieces_in_hand
from boltend_precut_yield.precuts import PRECUTS
from boltend_precut_yield.starts import FROM_YARDS

THREE = [
    {"name": "cream", "have": "3 yd"},
    {"name": "blue", "have": "2 yd"},
    {"name": "rust", "have": "1 yd"},
]


def lying(rows: list[dict[str, Any]], **said: Any) -> Worked:
    """Worked out for these rows, of which those with a precut are precuts."""
    fabrics, precuts = ([row for row in rows if ("precut" in row) is which] for which in (False, True))
    return work(pieces_in_hand, tables=[PRECUTS], fabrics=fabrics, precuts=precuts, **said)


def of_rows(worked: Worked) -> list[int]:
    """The pieces that each row gives."""
    rows: Any = worked.found["each"]
    return [each["pieces"] for each in rows]


def test_nine_inch_squares_of_three_cottons() -> None:
    worked = lying(THREE, piece_width="9 in")
    # 42 ÷ 9 is 4. 107 1/2 ÷ 9 is 11, 71 1/2 ÷ 9 is 7, 35 1/2 ÷ 9 is 3: 44 + 28 + 12.
    assert of_rows(worked) == [44, 28, 12]
    # 84 × 81 of 6 yd × 36 × 42 = 9072 sq in
    found = worked.found
    assert (found["pieces"], found["used"], found["leftover"]) == (84, 75, 2268)
    # Ends that are square: 12, 8 and 4 strips of 4 are 96.
    assert any(said.startswith("Squaring the ends costs 12 pieces: ") for said in worked.cautions)
    assert any("finishes at 8 1/2 in × 8 1/2 in" in said for said in worked.working)


def test_a_finished_size_may_be_typed() -> None:
    # 9 1/2 in cut: 107 1/2 ÷ 9 1/2 is 11, 71 1/2 ÷ 9 1/2 is 7, 35 1/2 ÷ 9 1/2 is 3.
    worked = lying(THREE, piece_width="9 in finished")
    assert (worked.found["piece_width"], of_rows(worked)) == (Fr(19, 2), [44, 28, 12])


def test_five_yards_of_one_fabric() -> None:
    worked = lying([{"have": "5 yd"}], piece_width="6 in")
    # 180 − 1/2 = 179 1/2, ÷ 6 is 29 strips of 7.
    assert (worked.found["pieces"], worked.working[0]) == (203, "fabric 1: 42 in wide, 5 yd long.")
    assert lying([{"have": "5 yd"}], piece_width="6 in", squaring="0 in").found["pieces"] == 210


def test_precuts_lose_nothing_and_a_pack_is_whole() -> None:
    rows = [
        {"precut": "fat quarter", "how_many": 8},  # 18 × 21: 3 × 4 of 5 in
        {"precut": "10 in square pack"},  # 42 of them, 4 each
        {"precut": "10 in square pack", "how_many": 5},
        {"precut": "half yard"},  # 3 × 8
    ]
    worked = lying(rows, piece_width="5 in")
    assert of_rows(worked) == [96, 168, 20, 24]
    assert worked.found["pieces"] == 308
    assert worked.working[0] == "fat quarter: 8 sheets, each 21 in wide, 18 in long."
    assert not worked.cautions


def test_half_a_width_beside_a_whole_one() -> None:
    rows = [
        {"have": "1 yd", "width": "21 in"},  # 35 1/2 ÷ 5 is 7, 21 ÷ 5 is 4
        {"have": "1 yd"},  # 7 × 8
    ]
    assert of_rows(lying(rows, piece_width="5 in")) == [28, 56]


def test_washing_comes_before_squaring() -> None:
    # 5 %: 42 leaves 39.9 and 36 leaves 34.2; 33.7 ÷ 10 is 3, 39.9 ÷ 10 is 3. Unwashed 3 × 4.
    washed: dict[str, object] = {"prewash_across": "5 %", "prewash_along": "5 %"}
    worked = lying([{"have": "1 yd"}], piece_width="10 in", settings=washed)
    assert worked.found["pieces"] == 9
    assert any(said.startswith("Washed first: ") for said in worked.working)
    assert lying([{"have": "1 yd"}], piece_width="10 in").found["pieces"] == 12


def test_a_fabric_of_the_project_has_its_own_width_and_its_pieces_are_cut() -> None:
    rows = [{"have": "1 yd", "fabric": "Cream"}, {"have": "1 yd", "fabric": "Blue"}, {"have": "1 yd"}]
    worked = lying(rows, piece_width="9 in")
    assert [(p.fabric, p.count, p.across) for p in worked.answer.pieces] == [
        ("Cream", 12, 9),
        ("Blue", 12, 9),
    ]
    assert not any("says is in hand" in said for said in worked.cautions), "its length is counted"
    rows += [{"have": "1 yd", "fabric": "Rust", "width": "21 in"}, {"precut": "half yard", "fabric": "Slate"}]
    told = [said for said in lying(rows, piece_width="9 in").cautions if "says is in hand" in said]
    assert [name for said in told for name in ("Cream", "Blue", "Rust", "Slate") if name in said] == [
        "Rust",
        "Slate",
    ]
    assert not lying(THREE, piece_width="9 in").answer.pieces, "a question alone fills no list"


@pytest.mark.parametrize(
    ("rows", "said", "names"),
    [([], {}, "fabrics"),
     ([{"precut": "fat quarter"}], {"piece_width": "22 in"}, "piece_width"),
     ([{"have": "1 yd"}] * 41, {}, "fabrics"),
     ([{"have": "1 yd"}], {"piece_width": "43 in"}, "piece_width"),
     ([{"have": "1 yd"}], {"squaring": "36 in"}, "piece_width")],
)  # fmt: skip
def test_what_cannot_be_cut_names_its_given(rows: list[Any], said: dict[str, Any], names: str) -> None:
    with pytest.raises(Cannot) as caught:
        lying(rows, **{"piece_width": "9 in", **said})
    assert (caught.value.given, bool(caught.value.way_out)) == (names, True)


def test_a_row_that_gives_nothing_is_told_and_the_others_count() -> None:
    worked = lying([*THREE, {"name": "scrap", "have": "8 in"}], piece_width="9 in")
    assert worked.found["pieces"] == 84
    assert "No such piece lies in scrap." in worked.cautions


def brute(across: int, along: int, width: int, height: int, turns: bool) -> int:
    """The most pieces by straight cuts at every whole unit: slow, and without a thought."""

    @cache
    def most(x: int, y: int) -> int:
        best = int(x >= width and y >= height) or int(turns and x >= height and y >= width)
        for at in range(1, x // 2 + 1):
            best = max(best, most(at, y) + most(x - at, y))
        for at in range(1, y // 2 + 1):
            best = max(best, most(x, at) + most(x, y - at))
        return best

    return most(across, along)


UNITS = st.integers(2, 9)
SHEETS = st.tuples(st.integers(4, 20), st.integers(4, 20))


@pytest.mark.outside_check("pieces_in_hand", against="brute force")
@seed(606)
@settings(max_examples=100, deadline=None)
@given(sheets=st.lists(SHEETS, min_size=1, max_size=3), width=UNITS, height=UNITS, turns=st.booleans(),
       lost=st.integers(0, 2))  # fmt: skip
def test_no_way_of_cutting_gives_more(
    sheets: list[tuple[int, int]], width: int, height: int, turns: bool, lost: int
) -> None:
    expected = [brute(x, y - lost, width, height, turns) for x, y in sheets]
    half = Fr(1, 2)
    said: dict[str, Any] = {
        "rows": [{"width": x * half, "have": y * half} for x, y in sheets],
        "piece_width": width * half, "piece_height": height * half, "may_turn": turns,
        "squaring": lost * half,
    }  # fmt: skip
    if not sum(expected):
        with pytest.raises(Cannot):
            lying(**said)
        return
    worked = lying(**said)
    assert of_rows(worked) == expected
    assert worked.found["pieces"] == sum(expected)
    area = sum(Fr(x * y, 4) for x, y in sheets)
    assert worked.unrounded["leftover"] == area - sum(expected) * Fr(width * height, 4)


LENGTHS = st.integers(8, 200).map(lambda n: Fr(n, 2))
SIZES = st.integers(12, 80).map(lambda n: Fr(n, 8))


@settings(max_examples=60, deadline=None)
@given(long=LENGTHS, more=st.integers(0, 40), width=SIZES, height=SIZES, turns=st.booleans())
def test_more_cloth_never_gives_less(long: Fr, more: int, width: Fr, height: Fr, turns: bool) -> None:
    said: dict[str, Any] = {"piece_width": width, "piece_height": height, "may_turn": turns}
    try:
        few = lying([{"have": long}], **said).found["pieces"]
    except Cannot:
        return
    many: Any = lying([{"have": long + more}], **said).found["pieces"]
    assert many >= few


@settings(max_examples=60, deadline=None)
@given(lengths=st.lists(LENGTHS, min_size=1, max_size=6), width=SIZES, height=SIZES)
def test_the_pieces_drawn_lie_apart_each_in_its_sheet(lengths: list[Fr], width: Fr, height: Fr) -> None:
    rows = [{"name": f"cloth {n}", "have": each} for n, each in enumerate(lengths)]
    try:
        worked = lying(rows, piece_width=width, piece_height=height)
    except Cannot:
        return
    rects = [shape for shape in worked.answer.picture if isinstance(shape, Rect)]
    drawn = {
        fill: [box(*map(float, (r.x, r.y, r.x + r.width, r.y + r.height))) for r in rects if r.fill == fill]
        for fill in {r.fill for r in rects}
    }
    sheets = drawn.pop("left over")
    assert abs(union_all(sheets).area - sum(sheet.area for sheet in sheets)) < 1e-6, "beside each other"
    given_rows: Any = worked.found["each"]
    for row in given_rows:
        pieces = drawn.pop(row["name"], [])
        assert abs(sum(p.area for p in pieces) - float(width * height) * row["pieces"]) < 1e-6
        if pieces:
            together = union_all(pieces)
            assert abs(together.area - sum(p.area for p in pieces)) < 1e-6
            assert sum(sheet.buffer(1e-9).covers(together) for sheet in sheets) == 1
    assert not drawn


def test_the_start_goes_from_yards_to_quilts() -> None:
    with Host.load() as host:
        assert FROM_YARDS in host.starts
    (_, first, _), (_, second, links) = FROM_YARDS.tabs
    assert (first, second) == ("pieces_in_hand", "fabric_in_hand")
    assert {link["take"] for link in links.values()} == {"pieces", "piece_width", "piece_height"}
