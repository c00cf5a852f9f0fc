"""Borders to a size against a plain search through everything, in the order that is stated."""

from fractions import Fraction as Fr
from itertools import groupby, product
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boltend.plugin import Cannot
from boltend.testing import work
from boltend_borders_binding import boltend_starts
from boltend_borders_binding.border_to_size import MOST_CHOICES, border_to_size
from boltend_borders_binding.borders import borders

QUARTERS = st.integers(80, 100).map(lambda n: Fr(n, 4))
WANTED = st.integers(84, 150).map(lambda n: Fr(n, 4))
IN_ORDER = {
    "even": lambda w: len(set(w)) == 1,
    "widening": lambda w: list(w) == sorted(w),
    "narrowing": lambda w: list(w) == sorted(w, reverse=True),
    "any": lambda w: True,
}


def brute(
    top: Any, target: Any, many: int, widths: list[Fr], order: str, reach: str, alike: bool
) -> list[tuple[Any, Any]]:
    """Every plan that reaches, in the order that the docstring states: (sides, ends)."""
    plans = [w for w in product(widths, repeat=many) if IN_ORDER[order](w)]
    found = []
    for sides, ends in ((s, s) for s in plans) if alike else product(plans, plans):
        over = top[0] + 2 * sum(sides) - target[0], top[1] + 2 * sum(ends) - target[1]
        if reach == "nearest" or (min(over) >= 0 if reach == "at least" else over == (0, 0)):
            misses = abs(over[0]), abs(over[1])
            turned = order == "narrowing"
            pairs = list(zip(sides, ends, strict=True))[:: -1 if turned else 1]
            tie = [n for x, y in pairs for n in (x, abs(y - x), y)]
            found.append(((sum(misses), max(misses), -over[0], -over[1], tie), (sides, ends)))
    by_size = [[plan for _, plan in group] for _, group in groupby(sorted(found), lambda each: each[0][:4])]
    ordered = []
    for three in (by_size[n : n + 3] for n in range(0, len(by_size), 3)):
        usual = [min(plans, key=lambda p: [off_the_parts(w, order) for w in p]) for plans in three]
        ordered += usual + [p for plans, first in zip(three, usual, strict=True) for p in plans if p != first]
    return ordered


def off_the_parts(widths: tuple[Fr, ...], order: str) -> list[tuple[Fr, Fr]]:
    """How far each is off its parts, 1 to 4 from the narrow end, of what those before it leave."""
    far, left, parts = [], sum(widths), list(range(1, len(widths) + 1))
    for width in widths[:: -1 if order == "narrowing" else 1]:
        far.append((abs(width - left * Fr(parts[0], sum(parts))), width))
        left, parts = left - width, parts[1:]
    return far


@pytest.mark.outside_check("border_to_size", against="brute force")
@settings(max_examples=250, deadline=None)
@given(
    top=st.tuples(QUARTERS, QUARTERS),
    target=st.tuples(WANTED, WANTED),
    many=st.integers(1, 3),
    low=st.integers(1, 4),
    more=st.integers(0, 3),
    order=st.sampled_from(sorted(IN_ORDER)),
    reach=st.sampled_from(["exactly", "at least", "nearest"]),
    alike=st.booleans(),
)
def test_all_in_the_stated_order(
    top: Any, target: Any, many: int, low: int, more: int, order: str, reach: str, alike: bool
) -> None:
    widths = [Fr(n, 2) for n in range(low, low + more + 1)]
    want = brute(top, target, many, widths, order, reach, alike)
    said = {
        "top_width": f"{top[0]} in", "top_height": f"{top[1]} in",
        "target_width": f"{target[0]} in", "target_height": f"{target[1]} in",
        "how_many": many, "least": f"{widths[0]} in", "most": f"{widths[-1]} in",
        "order": order, "reach": reach, "sides_and_ends": "alike" if alike else "may differ",
    }  # fmt: skip
    if not want:
        with pytest.raises(Cannot) as told:
            work(border_to_size, **said)
        assert told.value.given in ("reach", "most")
        assert "Nearest" in told.value.why
        return
    choices: Any = work(border_to_size, **said).found["choices"]
    ours = [
        tuple(tuple(row[f"border_{n}_{part}"] for n in range(1, many + 1)) for part in ("sides", "ends"))
        for row in choices
    ]
    assert ours == want[:MOST_CHOICES]


def test_the_pick_is_what_the_founds_are() -> None:
    said = {"top_width": "60 in", "top_height": "72 in", "target_width": "84 in", "target_height": "100 in"}
    worked = work(border_to_size, **said, reach="exactly", sides_and_ends="may differ", pick=3)
    found: Any = worked.found
    assert {k: v for k, v in found.items() if k != "choices"} == found["choices"][2]
    # 12 in of sides and 14 in of ends in all, by the arithmetic of the handbook's example
    assert found["border_1_sides"] + found["border_2_sides"] == 12
    assert found["border_1_ends"] + found["border_2_ends"] == 14
    assert (found["over_width"], found["over_height"]) == (0, 0)


def test_alike_it_cannot_be_exact_and_the_nearest_is_told() -> None:
    said = {"top_width": "60 in", "top_height": "72 in", "target_width": "84 in", "target_height": "100 in"}
    nearest = r"4 1/2 in \+ 8 1/2 in \(2 in over in width, 2 in short in height\)"
    with pytest.raises(Cannot, match=nearest) as caught:
        # 13 in all round make 86 × 98; 12 in would be just so and 4 in short: the larger miss
        work(border_to_size, **said, reach="exactly")
    do = "Let them differ: 12 in at the sides and 14 in at the ends. Or reach at least."
    assert caught.value.way_out == do


def test_the_first_split_is_what_a_shop_would_say() -> None:
    # 12 in all round: a third is 4, two thirds 8. Of three borders 1, 2 and 3 parts of six: 2, 4, 6.
    said = {"top_width": "60 in", "top_height": "72 in", "target_width": "84 in", "target_height": "96 in"}
    found = work(border_to_size, **said).found
    assert (found["border_1_sides"], found["border_2_sides"]) == (4, 8)
    three = work(border_to_size, **said, how_many=3).found
    assert [three[f"border_{n}_ends"] for n in (1, 2, 3)] == [2, 4, 6]
    narrowing = work(border_to_size, **said, order="narrowing").found
    assert (narrowing["border_1_sides"], narrowing["border_2_sides"]) == (8, 4)
    # Other sizes stand before other splits of the first: 12, 12 1/2 and 13 in all round.
    choices: Any = work(border_to_size, **said).found["choices"]
    assert [row["width"] for row in choices[:5]] == [84, 85, 86, 84, 84]


def test_what_comes_closer_with_ends_unlike_the_sides_is_named() -> None:
    # 59 3/4 + 11 = 70 3/4 and 71 1/2 + 13 = 84 1/2; alike 6 1/2 in all round make 72 3/4 wide.
    top = {"top_width": "60 1/4 in cut", "top_height": "72 in cut"}
    said = {**top, "target_width": "70 in", "target_height": "84 in"}
    assert work(border_to_size, **said).cautions == [
        "Closer with ends unlike the sides: 5 1/2 in of border at the sides and 6 1/2 in at the ends make "
        "70 3/4 in × 84 1/2 in. Choose “may differ” for Sides and ends."
    ]
    assert work(border_to_size, **said, sides_and_ends="may differ").cautions == []
    assert work(border_to_size, **{**said, "target_height": "82 in"}).cautions == []  # 5 1/2 in both ways


def test_a_measured_top_to_at_least_a_size() -> None:
    # raw 60 1/4 by 72: finished 59 3/4 by 71 1/2; the height needs 12 1/2, so 6 1/4 a side, up to 6 1/2
    worked = work(
        border_to_size,
        top_width="60 1/4 in cut", top_height="72 in cut", target_width="70 in", target_height="84 in",
    )  # fmt: skip
    found: Any = worked.found
    assert found["border_1_sides"] + found["border_2_sides"] == Fr(13, 2)
    assert (found["width"], found["height"]) == (Fr(291, 4), Fr(169, 2))


def test_many_borders_by_a_fine_step_are_quick_and_listed_in_part() -> None:
    worked = work(
        border_to_size,
        top_width="60 in", top_height="72 in", target_width="90 in", target_height="108 in", how_many=4,
        step="1/16 in", least="1/4 in", most="60 in", order="any", sides_and_ends="may differ",
    )  # fmt: skip
    assert len(worked.found["choices"]) == MOST_CHOICES  # type: ignore[arg-type]  # rows
    assert any("the best of more" in said for said in worked.working)


def test_the_nearest_is_told_in_the_projects_own_unit() -> None:
    said = {
        "top_width": "150 cm",
        "top_height": "180 cm",
        "target_width": "210 cm",
        "target_height": "250 cm",
    }
    # 30 cm of sides and 35 cm of ends are needed: 33 cm all round make 216 × 246, 6 cm over and 4 short
    with pytest.raises(Cannot, match=r"cm over in width, \d cm short in height"):
        work(border_to_size, units="centimetres", reach="exactly", **said)


@pytest.mark.parametrize(
    ("widths", "short"), [(("1 in", "5 1/2 in"), False), (("1 in", "5 7/16 in"), False), (("1 in",), True)]
)
def test_borders_that_do_not_reach_what_is_wanted_say_so(widths: tuple[str, ...], short: bool) -> None:
    # 60 × 72 and 6 1/2 in all round make 73 × 85; 1 in alone makes 62 × 74, 11 in short each way
    worked = work(
        borders,
        top_width="60 in", top_height="72 in", target_width="73 in", target_height="85 in",
        borders=[{"width": width} for width in widths],
    )  # fmt: skip
    told = [said for said in worked.cautions if "is wanted" in said]
    assert len(told) == (2 if short else 0)
    assert all("11 in short" in said for said in told)


def test_its_widths_feed_the_borders() -> None:
    (start,) = (s for s in boltend_starts() if "to the size" in s.question)
    links = {name: givens for name, _, givens in start.tabs}["Borders"]["borders"]
    taken = {row[key]["take"] for row in links for key in ("width", "width_ends")}  # type: ignore[attr-defined,index]  # data
    kinds = {found.name: found.kind for found in border_to_size.spec.founds}
    (rows,) = (given for given in borders.spec.givens if given.name == "borders")
    assert {kinds[name] for name in taken} == {
        c.kind for c in rows.columns if c.name in ("width", "width_ends")
    }
