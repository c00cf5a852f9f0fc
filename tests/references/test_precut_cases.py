"""Published precuts, yields and strips, against our own arithmetic; what is expected is read from the file.

Print takes nothing off for squaring, so nothing is taken off here.
"""

from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import Any

import pytest

from boltend.core.contract import Settings
from boltend.core.cutting import Bolt, Part, Stock, plan, stacks_of
from boltend.core.values import nearest
from boltend.testing import work
from boltend_precut_yield.pieces_in_hand import pieces_in_hand
from boltend_precut_yield.precut_yield import precut_yield
from boltend_precut_yield.precuts import PRECUTS
from boltend_shared import Case, cases

KINDS = (
    "cutting_layers", "precut_definition", "precut_yield", "squares_from_strip", "squares_to_yards",
    "strips_per_yardage", "strips_to_yards",
)  # fmt: skip
CASES = {case.id: case for case in cases(*KINDS)}

WIDTHS: dict[str, tuple[int, ...]] = {
    "squares-5-from-wof": (40, 42, 44),  # "any common" width
    "squares-10-from-wof": (40, 42, 44),  # no width is stated
}
"""Widths of cloth that a case leaves open: what is printed must hold for each."""

STRIP_WIDTH = Fraction(42)
"""Usable width where strips are counted and their length does not matter."""


def lying(size: Sequence[Fraction | int], width: Fraction | int, height: Fraction | int, **more: Any) -> Any:
    """Founds for pieces out of a cloth of (along, across) inches."""
    along, across = size
    return work(
        precut_yield,
        precut_width=Fraction(across),
        precut_length=Fraction(along),
        piece_width=Fraction(width),
        piece_height=Fraction(height),
        **more,
    ).found


def defined(name: str) -> list[object]:
    """Length and width of a row of our table."""
    row = PRECUTS.row(name)
    return [row["length"], row["width"]]


DEFINED: dict[str, Callable[[], dict[str, object]]] = {
    "precut-apq": lambda: {
        "fat_quarter": defined("fat quarter"),
        "fat_eighth": defined("fat eighth"),
        "quarter_yard": defined("long quarter"),
        "eighth_yard": defined("long eighth"),
    },
    "precut-canada": lambda: {
        "fat_quarter_us": defined("fat quarter, 18 × 22 in"),
        "fat_quarter_canada": defined("fat quarter, 20 × 22 in"),
    },
    "precut-moda": lambda: {
        "strip_1_5": defined("1 1/2 in strip roll"),
        "strip_1_5_count": PRECUTS.row("1 1/2 in strip roll")["pieces"],
    },
    "precut-counts": lambda: {"ten_inch_squares": PRECUTS.row("10 in square pack")["pieces"]},
}


def definition(case: Case) -> dict[str, object]:
    """What our table has under these names."""
    return DEFINED[case.id]()


def squares_of_a_yard(case: Case) -> dict[str, object]:
    """Squares in a strip and in a yard: the same at every width that is common."""
    square = case.inputs["square"]
    strips = {lying((square, width), square, square)["pieces_each"] for width in WIDTHS[case.id]}
    yards = {lying((36, width), square, square)["pieces_each"] for width in WIDTHS[case.id]}
    return {"per_strip": strips.pop(), "per_yard": yards.pop()} if len(strips) == len(yards) == 1 else {}


def yield_rows(case: Case) -> dict[str, object]:
    """A table of squares out of one piece of cloth, row by row."""
    rows = case.expected["rows"]
    return {"rows": [[size, lying(case.inputs["piece"], size, size)["pieces_each"]] for size, _ in rows]}


def squares_and_yards(case: Case) -> dict[str, object]:
    """63 squares: the strips by the yield, the inches by the plan of the bolt."""
    size, count, usable = case.inputs["square"], case.inputs["count"], case.inputs["usable_width"]
    found = lying((size, usable), size, size, pieces_wanted=count)
    inches = cut_from_bolt([(size, size, count)], usable)
    return {
        "per_strip": found["pieces_each"],
        "strips": found["precuts_needed"],
        "inches": inches,
        "yards_exact": nearest(inches / 36, Fraction(1, 10_000)),
    }


def pieces_in_strips(case: Case) -> dict[str, object]:
    """Oblong pieces, all lying alike; the later steps, which were cut off in print, are the collector's."""
    long, wide, count = (case.inputs[key] for key in ("piece_length", "strip_width", "count"))
    usable = case.inputs["usable_width"]
    found = lying((wide, usable), long, wide, pieces_wanted=count)
    ours = {
        "strips": found["precuts_needed"],
        "inches": found["precuts_needed"] * wide,
    }
    assert ours == case.computed
    return {"per_strip": found["pieces_each"]}


def squares_of_many_blocks(case: Case) -> dict[str, object]:
    """Print divides and leaves the quotient; ours is the whole squares of a strip, and the strips."""
    size, usable = case.inputs["square"], case.inputs["usable_width"]
    total = case.inputs["per_block"] * case.inputs["blocks"]
    found = lying((size, usable), size, size, pieces_wanted=total)
    assert {"per_strip": found["pieces_each"], "strips": found["precuts_needed"]} == case.computed
    return {
        "total": found["pieces"] - found["spare"],
        "per_strip_exact": nearest(Fraction(usable) / size, Fraction(1, 100)),
    }


def cut_from_bolt(pieces: Sequence[tuple[Fraction, Fraction, int]], usable: Fraction | int) -> Fraction:
    """Inches of a bolt that pieces (across, along, count) take, by the engine that plans To cut."""
    parts = [
        Part(f"{n}", Fraction(across), Fraction(along), count)
        for n, (across, along, count) in enumerate(pieces)
    ]
    return plan(parts, Stock((), Bolt(Fraction(usable)))).length_used


def strips_bought(case: Case) -> dict[str, object]:
    """Strips from selvage to selvage, by the plan of the bolt, and the shop's eighth of a yard."""
    widths = case.inputs.get("strip_widths", [case.inputs.get("strip_width")])
    counts = case.inputs.get("strip_counts", [case.inputs.get("strips")])
    strips = [(STRIP_WIDTH, Fraction(w), n) for w, n in zip(widths, counts, strict=True)]
    inches = cut_from_bolt(strips, STRIP_WIDTH)
    yards = Settings().buy_up(inches) / 36
    ours = {"inches": inches, "published_yards": yards, "min_yards": yards}
    return {key: ours[key] for key in case.expected}


BY_KIND: dict[str, Callable[[Case], dict[str, object]]] = {
    "precut_definition": definition,
    "precut_yield": yield_rows,
    "squares_from_strip": squares_of_a_yard,
    "strips_to_yards": strips_bought,
}
BY_CASE: dict[str, Callable[[Case], dict[str, object]]] = {
    "strips-9.5": squares_and_yards,
    "strips-qcache-yd": pieces_in_strips,
    "strips-chain": squares_of_many_blocks,
}

LARGER = "Print buys more than the strips take at the eighth of a yard: tested below."
REASONS: dict[str, str] = {
    "yield-yard-quiltville-45-bad": "Its three rows are no floors of 45 and 36: ours are tested below.",
    "yield-yard-qcache-7": "35 squares of 7 in cannot lie in 36 × 44 in: ours is 30, tested below.",
    "yield-docsbay": "Called approximate; halves and quarters are its yard halved, not counted.",
    "strips-docsbay": "Loses about 1 in without saying where, and two rows not even that.",
    "layers": "A range of what people cut at once, not a number to find: our default is in it, tested below.",
    "s2y-karen-bind": LARGER,
    **dict.fromkeys(
        ("s2y-mm-bind", "s2y-bliss-b2", "s2y-lab-solid", "s2y-chain-red", "s2y-sea-white", "s2y-sea-red",
         "s2y-won-out", "s2y-big-bind", "s2y-flow-bind", "s2y-crib-floral", "s2y-sar-dark", "s2y-call-blue"),
        LARGER,
    ),
}  # fmt: skip


def normal(value: object) -> object:
    """A printed value for comparing: exact fractions, lists within."""
    if isinstance(value, list):
        return [normal(item) for item in value]
    return Fraction(value) if isinstance(value, str | int) else value


def named(case: Case) -> str:
    """A test's name: the case and where it was printed."""
    return f"{case.id} ({case.source.title}, {case.source.publisher}, {case.source.year})"


def ours(case: Case) -> dict[str, object]:
    """What we find for a case."""
    return (BY_CASE.get(case.id) or BY_KIND[case.kind])(case)


@pytest.mark.outside_check("precut_yield", against="published")
@pytest.mark.parametrize("case", [case for case in CASES.values() if case.agrees], ids=named)
def test_arithmetic_gives_what_is_printed(case: Case) -> None:
    assert {key: normal(value) for key, value in ours(case).items()} == {
        key: normal(value) for key, value in case.expected.items()
    }


YARDS = [case for case in CASES.values() if case.agrees and case.kind == "precut_yield"
         and case.inputs["piece"][0] == 36]  # fmt: skip


@pytest.mark.outside_check("pieces_in_hand", against="published")
@pytest.mark.parametrize("case", YARDS, ids=named)
def test_squares_of_a_yard_in_hand_are_those_that_are_printed(case: Case) -> None:
    rows = case.expected["rows"]
    ours = {
        square: work(
            pieces_in_hand, piece_width=Fraction(square), usable_width=Fraction(case.inputs["piece"][1]),
            squaring="0 in", fabrics=[{"have": "1 yd"}], tables=[PRECUTS],
        ).found["pieces"]
        for square, _ in rows
    }  # fmt: skip
    assert ours == dict(rows)
    assert len(rows) > 10


def test_every_check_value_runs_and_every_other_case_has_its_reason() -> None:
    runs = {case.id for case in CASES.values() if case.id in BY_CASE or case.kind in BY_KIND}
    assert {case.id for case in CASES.values() if case.agrees} <= runs
    assert {case.id for case in CASES.values() if not case.agrees} == set(REASONS)


def test_the_named_kinds_are_all_kinds_of_precuts_and_strips() -> None:
    prefixes = ("cutting_", "precut_", "squares_", "strips_")
    assert {case.kind for case in cases() if case.kind.startswith(prefixes)} == set(KINDS)


@pytest.mark.parametrize(
    "case", [case for case in CASES.values() if case.status == "published is larger"], ids=named
)
def test_print_that_buys_more_than_the_strips_take(case: Case) -> None:
    found = strips_bought(case)
    assert found["inches"] == case.expected["inches"]
    assert found["published_yards"] == case.computed["yards_up_to_eighth"]
    assert Fraction(case.expected["published_yards"]) > Fraction(case.computed["yards_up_to_eighth"])


@pytest.mark.parametrize("key", ["yield-yard-quiltville-45-bad", "yield-yard-qcache-7"])
def test_rows_that_print_gets_wrong(key: str) -> None:
    case = CASES[key]
    assert yield_rows(case)["rows"] == case.computed["rows"] != case.expected["rows"]


def test_sixteen_layers_are_two_stacks_and_eight_are_within_print() -> None:
    least, most = CASES["layers"].expected["recommended"]
    layers = Settings().layers
    assert least <= layers <= most
    assert stacks_of(16, layers) == 2
    found = lying((10, 10), 5, 5, pieces_wanted=64)  # four from each square: 16 squares
    assert (found["precuts_needed"], found["stacks"]) == (16, 2)
