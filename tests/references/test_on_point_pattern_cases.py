"""Whole published patterns on point, number by number, as test_pattern_cases has those in straight rows.

What print leaves open stands in the table: sizes with a root in them are printed to some step.
"""

import re
from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest
from pattern_quilt import (
    BACKED,
    BATTED,
    BOUND,
    FABRICS,
    SIZE,
    Pattern,
    Quilt,
    Stated,
    backing_inches,
    count,
    each,
    from_bolt,
    is_on_point,
    printed_input,
    sash_inches,
)  # fmt: skip

from boltend_borders_binding.strips import strips_for
from boltend_shared import Case, cases

CASES = {case.id: case for case in cases("pattern") if is_on_point(case)}


def of(name: str) -> Callable[[Quilt], object]:
    """A found of the setting."""
    return lambda q: q.top.found[name]


def by_half(q: Quilt) -> object:
    """Squares for half cornerstones cut once, as print does: ours lie on the grain, from fewer squares."""
    (match,) = (m for line in q.top.working if (m := re.search(r"cut once \((\d+) of them\)", line)))
    return int(match.group(1))


def inches_of(q: Quilt, *names: str) -> list[tuple[Fraction, Fraction, int]]:
    """Pieces of these names, for a bolt."""
    return [(p.across, p.along, p.count) for p in q.top.answer.pieces if p.name in names]


def long_sash_strips(q: Quilt) -> int:
    """Strips for all long sashes in one run, which is how print counts them."""
    lengths = [want for run in q.top.answer.runs for want in run.wants]
    lengths += [p.across for p in q.top.answer.pieces if p.name == "long sash" for _ in range(p.count)]
    assert len(lengths) == q.top.found["long_sashes"]
    return strips_for(sum(lengths, Fraction(0)), Fraction(42), Fraction(3, 2))


def cornerstones_and_binding(q: Quilt) -> Fraction:
    corners = [
        *inches_of(q, "cornerstone", "square for half cornerstones"),
        (Fraction(5, 2), Fraction(5, 2), 4),
    ]
    return from_bolt(corners) + q.binding_inches


def inner_border_and_outer_corners(q: Quilt) -> Fraction:
    return q.strips(0) + from_bolt([(outer_corner(q), outer_corner(q), 4)])


def outer_corner(q: Quilt) -> Fraction:
    """The square in the corner of the outer border."""
    return Fraction(each(q.bordered)[1]["strip_width"])


def red_floral(q: Quilt) -> Fraction:
    """Triangles, 44 plain squares and the binding."""
    plain = q.case.expected["plain_blocks"][0]
    return (
        from_bolt([*inches_of(q, "side square", "corner square"), *block_squares(plain)]) + q.binding_inches
    )


def block_squares(count: int) -> list[tuple[Fraction, Fraction, int]]:
    return [(Fraction(13, 2), Fraction(13, 2), count)]


def sashes_and_binding(q: Quilt) -> Fraction:
    short = from_bolt(inches_of(q, "sash"))
    return short + long_sash_strips(q) * Fraction(3, 2) + q.binding_inches


EDGES = {"side_square": of("side_square"), "corner_square": of("corner_square")}

PATTERNS: dict[str, Pattern] = {
    # to the quarter; borders with corner squares
    "pat-candy": Pattern(
        Stated(overage="3 in", size_step="1/4 in", corners="cornerstones"),
        {**SIZE, **EDGES, **BOUND, **BATTED, "sashes": of("sashes"), "half_cornerstone_squares": by_half,
         "cornerstone_squares_cut": lambda q: count(q.top, "cornerstone_count") + 4,
         "inner_border_strips": lambda q: each(q.bordered)[0]["strips"],
         "outer_corner_square": outer_corner},
        {"yards.sashing": sash_inches, "yards.dark pink (cornerstones, binding)": cornerstones_and_binding,
         "yards.triangles": lambda q: from_bolt(inches_of(q, "side square", "corner square")),
         "yards.inner border + outer corners": inner_border_and_outer_corners,
         "yards.outer border": lambda q: q.strips(1), "yards.backing": backing_inches},
        {"yards.block prints": FABRICS},
    ),
    # to the half; 28 of the inner blocks are pieced, 44 are plain and red, all 90 others plain and yellow
    "pat-salsa": Pattern(
        Stated(size_step="1/2 in"),
        {**SIZE, **EDGES, **BOUND, **BATTED, **BACKED, "side_triangles": of("side_triangles"),
         "plain_blocks": lambda q: [count(q.top, "inner_blocks") - 28, 9 * 10],
         "pieced": lambda q: count(q.top, "blocks") - sum(q.case.expected["plain_blocks"])},
        {"yards.red floral": red_floral,
         "yards.yellow": lambda q: from_bolt(block_squares(q.case.expected["plain_blocks"][1]))},
        {"yards.white": FABRICS, "fat_eighths": FABRICS},
    ),
    # to the eighth; its size fits a sash all round
    "pat-call-me": Pattern(
        Stated(size_step="1/8 in", strip="2 1/4 in", edge="sash all round"),
        {**SIZE, **EDGES, **BOUND, "short_sashes": of("sashes"), "long_sash_strips": long_sash_strips,
         "sash_cut": lambda q: inches_of(q, "sash")[0][0], "binding_strip": printed_input("strip")},
        {"yards.sashing+binding": sashes_and_binding},
    ),
}  # fmt: skip


def printed(case: Case) -> dict[str, Any]:
    """What a pattern prints, each fabric's yards by themselves."""
    yards = {f"yards.{name}": value for name, value in case.expected.get("yards", {}).items()}
    return {**{key: value for key, value in case.expected.items() if key != "yards"}, **yards}


def named(case: Case) -> str:
    return f"{case.id} ({case.source.title}, {case.source.publisher}, {case.source.year})"


@pytest.mark.parametrize("case", CASES.values(), ids=named)
def test_arithmetic_gives_what_is_printed(case: Case) -> None:
    pattern, said = PATTERNS[case.id], printed(case)
    q = Quilt(case, pattern.said)
    assert {key: ours(q) for key, ours in pattern.exact.items()} == {key: said[key] for key in pattern.exact}


@pytest.mark.parametrize("case", CASES.values(), ids=named)
def test_what_is_printed_is_enough_for_ours(case: Case) -> None:
    pattern, said = PATTERNS[case.id], printed(case)
    q = Quilt(case, pattern.said)
    for key, ours in pattern.enough.items():
        assert 0 < ours(q) <= Fraction(said[key]) * 36, key


def test_the_size_that_the_collector_worked_out() -> None:
    case = CASES["pat-candy"]
    exact: Any = Quilt(case, PATTERNS[case.id].said).top.unrounded
    over = 2 * sum(case.inputs["borders_finished"]) + Fraction(1, 2)
    for name, said in (("width", case.computed["w"]), ("height", case.computed["l"])):
        assert abs(float(exact[name] + over) - float(said)) < 0.0006


def test_every_number_of_every_pattern_is_checked_or_has_its_reason() -> None:
    assert set(CASES) == set(PATTERNS)
    for case in CASES.values():
        assert case.agrees
        assert is_on_point(case)
        pattern = PATTERNS[case.id]
        assert sorted([*pattern.exact, *pattern.enough, *pattern.not_ours]) == sorted(printed(case)), case.id
