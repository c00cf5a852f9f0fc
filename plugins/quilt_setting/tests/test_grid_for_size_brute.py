"""A grid for a size against every grid there is: the same set, in the same order.

The brute force tries every count of blocks and every border, by the words of the docstring alone. √2 stands
in it as a decimal of 60 places; two numbers that differ by less than 10⁻⁴⁰ are one.
"""

from collections.abc import Callable, Iterator
from decimal import Decimal, getcontext
from fractions import Fraction as Fr
from itertools import product
from typing import Any

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from boltend.plugin import Answer, Cannot, Settings
from boltend_quilt_setting.grid_for_size import MOST_CHOICES, grid_for_size
from boltend_quilt_setting.grid_for_size_axis import Axis, Borders, Scale
from boltend_quilt_setting.grid_for_size_rank import Plan, Search

getcontext().prec = 60
ROOT2 = Decimal(2).sqrt()
HAIR = Decimal(10) ** -40

Row = tuple[int, int, Fr, Fr]
"""Blocks across and down, border at the sides and at the ends."""


def dec(value: Fr) -> Decimal:
    return Decimal(value.numerator) / Decimal(value.denominator)


def alike_number(value: Decimal) -> Decimal:
    """Two numbers that only the last places tell apart are one."""
    return value.quantize(HAIR)


class Brute:
    """Every grid of a few blocks with every border of the table."""

    def __init__(self, said: dict[str, Any]) -> None:
        self.said = said
        step, least, most = said["step"], said["border_least"], said["border_most"]
        self.borders = [k * step for k in range(int(most / step) + 2) if least <= k * step <= most]
        pitch = min(said["block_width"], said["block_height"]) + said["sash"]
        self.most = int((max(said["target_width"], said["target_height"]) + said["sash"]) / pitch) + 3

    def size(self, side: str, count: int, border: Fr) -> Decimal:
        """Finished width or height of so many blocks with a border at both ends; 0 of none."""
        said = self.said
        block, sash = said[f"block_{side}"], said["sash"]
        if said["blocks_set"] == "on point":
            return count * dec(block + sash) * ROOT2 + dec(2 * border)
        return dec(count * block + (count - 1) * sash + 2 * border)

    def over(self, row: Row) -> tuple[Decimal, Decimal]:
        return tuple(  # type: ignore[return-value]  # of two
            self.size(side, count, border) - dec(self.said[f"target_{side}"])
            for side, count, border in zip(("width", "height"), row[:2], row[2:], strict=True)
        )

    def reaches(self, row: Row) -> bool:
        return all(over > -HAIR for over in self.over(row))

    def pairs(self) -> list[tuple[Fr, Fr]]:
        if self.said["sides_and_ends"] == "alike":
            return [(border, border) for border in self.borders]
        return list(product(self.borders, repeat=2))

    def taken(self, row: Row) -> Iterator[Row]:
        """Every grid with one thing less."""
        across, down, sides, ends = row
        if across > 1:
            yield across - 1, down, sides, ends
        if down > 1:
            yield across, down - 1, sides, ends
        step = self.said["step"]
        if self.said["sides_and_ends"] == "alike":
            fewer = [(sides - step, ends - step)]
        else:
            fewer = [(sides - step, ends), (sides, ends - step)]
        for less_sides, less_ends in fewer:
            if less_sides in self.borders and less_ends in self.borders:
                yield across, down, less_sides, less_ends

    def at_least(self) -> list[Row]:
        counts = range(1, self.most + 1)
        every = [(*pair, *border) for pair in product(counts, counts) for border in self.pairs()]
        kept = [r for r in every if self.reaches(r) and not any(map(self.reaches, self.taken(r)))]
        return sorted(kept, key=lambda row: (self.area(row), *self.looks(row)))

    def area(self, row: Row) -> Decimal:
        return alike_number(self.size("width", row[0], row[2]) * self.size("height", row[1], row[3]))

    def blocks(self, row: Row) -> int:
        inner = (row[0] - 1) * (row[1] - 1) if self.said["blocks_set"] == "on point" else 0
        return row[0] * row[1] + inner

    def looks(self, row: Row) -> tuple[Fr | int, ...]:
        return abs(row[2] - row[3]), row[2] + row[3], self.blocks(row), row[0]

    def bare(self) -> tuple[int, int]:
        """The fewest blocks each way that reach it without a border."""
        across, down = (
            next(
                n
                for n in range(1, 400)
                if self.size(side, n, Fr(0)) > dec(self.said[f"target_{side}"]) - HAIR
            )
            for side in ("width", "height")
        )
        return across, down

    def worth_a_look(self, side: str) -> list[int]:
        target = dec(self.said[f"target_{side}"])
        narrow, wide = self.borders[0], self.borders[-1]
        return [
            count
            for count in range(1, self.most + 1)
            if not (count > 1 and self.size(side, count - 1, narrow) > target - HAIR)
            and not self.size(side, count + 1, wide) < target + HAIR
        ]

    def nearest(self) -> list[Row]:
        best = [
            min(((across, down, *pair) for pair in self.pairs()), key=self.near)
            for across in self.worth_a_look("width")
            for down in self.worth_a_look("height")
        ]
        return sorted(best, key=self.near)

    def near(self, row: Row) -> tuple[Any, ...]:
        overs = self.over(row)
        misses = [abs(over) for over in overs]
        short = sum((-over for over in overs if over < 0), Decimal(0))
        return (*map(alike_number, (max(misses), sum(misses), short)), *self.looks(row))

    def exactly(self) -> list[Row]:
        near = Decimal(1) / 32 if self.said["blocks_set"] == "on point" else Decimal(0)
        return [row for row in self.nearest() if max(map(abs, self.over(row))) <= near + HAIR]


def brute_force(said: dict[str, Any]) -> list[Row]:
    brute = Brute(said)
    how: dict[str, Callable[[], list[Row]]] = {
        "at least": brute.at_least, "nearest": brute.nearest, "exactly": brute.exactly
    }  # fmt: skip
    return how[said["reach"]]() if brute.borders else []


def rows(answer: Answer) -> list[Row]:
    choices: Any = answer.found["choices"]
    return [tuple(row[n] for n in ("across", "down", "border_sides", "border_ends")) for row in choices]


def sizes(least: int, most: int, under: int) -> st.SearchStrategy[Fr]:
    """Sizes of so many `under`ths."""
    return st.integers(least, most).map(lambda n: Fr(n, under))


@st.composite
def small_cases(draw: st.DrawFn, made: str = "") -> dict[str, Any]:
    """Sizes of which brute force can try all; or sizes `made` by blocks in that set and a border.

    On point that is the size to the nearest 1/16 in.
    """
    said: dict[str, Any] = {
        "block_width": draw(sizes(4, 12, 1) | sizes(5, 24, 2)),
        "block_height": draw(sizes(4, 12, 1) | sizes(5, 24, 2)),
        "sash": draw(st.sampled_from([Fr(0), Fr(0), Fr(1), Fr(3, 2)])),
        "step": draw(st.sampled_from([Fr(1, 2), Fr(1, 2), Fr(1), Fr(3, 4), Fr(2), Fr(3)])),
        "border_least": draw(st.sampled_from([Fr(0), Fr(0), Fr(1), Fr(5, 4)])),
        "sides_and_ends": draw(st.sampled_from(["alike", "may differ"])),
    }
    said["border_most"] = said["border_least"] + draw(st.integers(0, 8)) * said["step"] + draw(sizes(0, 1, 4))
    for side in ("width", "height"):
        said[f"target_{side}"] = draw(sizes(12, 64, 2))
        if made:
            pitch = said[f"block_{side}"] + said["sash"]
            count = draw(st.integers(1, max(1, int(30 / pitch))))
            top = count * pitch - said["sash"]
            if made == "on point":
                square = said["block_width"] + said["sash"]
                top = Fr(round(16 * count * dec(square) * ROOT2), 16)
            said[f"target_{side}"] = top + 2 * draw(st.integers(0, 9)) * said["step"]
    return said


def case(
    target: tuple[Fr, Fr], block: Fr, borders: tuple[Fr, Fr, Fr], sides_and_ends: str = "may differ"
) -> dict[str, Any]:
    """Square blocks, no sash, and borders from the first to the second in steps of the third."""
    return {
        "target_width": target[0], "target_height": target[1], "block_width": block, "block_height": block,
        "sash": Fr(0), "border_least": borders[0], "border_most": borders[1], "step": borders[2],
        "sides_and_ends": sides_and_ends,
    }  # fmt: skip


def held_against_brute_force(said: dict[str, Any]) -> None:
    expected = brute_force(said)
    plain = {name: value for name, value in said.items() if name != "pick"}
    if not expected:
        with pytest.raises(Cannot) as caught:
            grid_for_size(**plain, pick=1, setting=Settings())
        assert caught.value.given == ("reach" if Brute(said).borders else "border_most")
        assert said["reach"] == "exactly" or caught.value.given == "border_most"
        return
    answer = grid_for_size(**plain, pick=1, setting=Settings())
    assert rows(answer) == expected[:MOST_CHOICES]
    number = min(said["pick"], len(rows(answer)))
    picked = grid_for_size(**plain, pick=number, setting=Settings())
    choices: Any = picked.found["choices"]
    assert {name: picked.found[name] for name in choices[0]} == choices[number - 1]
    first, brute = expected[number - 1], Brute(said)
    for side, over in zip(("width", "height"), brute.over(first), strict=True):
        ours: Any = picked.found[f"over_{side}"], picked.found[side]
        assert abs(Decimal(float(ours[0])) - over) < Decimal("1e-9")
        assert ours[1] - ours[0] == said[f"target_{side}"]
    assert picked.found["blocks"] == brute.blocks(first)
    bare = *brute.bare(), Fr(0), Fr(0)
    blocks = brute.blocks(bare)
    assert picked.found["without_border"] == f"{blocks} block{'s' * (blocks > 1)}, {bare[0]} × {bare[1]}"
    for side, count in zip(("width", "height"), bare[:2], strict=True):
        ours = picked.found[f"bare_{side}"]
        assert abs(Decimal(float(ours)) - brute.size(side, count, Fr(0))) < Decimal("1e-9")  # type: ignore[arg-type]  # a length


@pytest.mark.outside_check("grid_for_size", against="brute force")
@pytest.mark.parametrize("reach", ["at least", "nearest", "exactly"])
def test_straight_rows_are_those_of_brute_force(reach: str) -> None:
    @settings(max_examples=120, deadline=None)
    @given(said=small_cases() | small_cases("straight"), pick=st.integers(1, 6))
    @example(said=case((Fr(24), Fr(24)), Fr(5), (Fr(0), Fr(4), Fr(1, 2))), pick=3)
    # 9 × 3 with borders of 0 and 6 and 6 × 6 with 6 and 0 look alike; the first has fewer blocks
    @example(said=case((Fr(36), Fr(24)), Fr(4), (Fr(0), Fr(6), Fr(6))), pick=2)
    # a miss of 1/64 in is none on point, and one in straight rows
    @example(said=case((Fr(24) + Fr(1, 64), Fr(24)), Fr(6), (Fr(0), Fr(6), Fr(1))), pick=1)
    # more of them than are listed
    @example(said=case((Fr(30), Fr(31)), Fr(2), (Fr(0), Fr(11), Fr(1))), pick=6)
    def run(said: dict[str, Any], pick: int) -> None:
        held_against_brute_force({**said, "blocks_set": "straight", "reach": reach, "pick": pick})

    run()


@pytest.mark.parametrize("reach", ["at least", "nearest", "exactly"])
def test_sets_on_point_are_those_of_brute_force(reach: str) -> None:
    @settings(max_examples=100, deadline=None)
    @given(said=small_cases() | small_cases("on point"), pick=st.integers(1, 6))
    # 2 · 12 · √2 + 2 · 4 1/32 = 42.004: within half of 1/16 in
    @example(said=case((Fr(42), Fr(42)), Fr(12), (Fr(4), Fr(17, 4), Fr(1, 32)), "alike"), pick=1)
    # 12 · √2 + 2 · 4 = 24.97 is exact at 25 in, and 24.97 + 1/32 too; 24 15/16 is not
    @example(said=case((Fr(25), Fr(25)), Fr(12), (Fr(3), Fr(4), Fr(1, 8))), pick=1)
    def run(said: dict[str, Any], pick: int) -> None:
        square = {**said, "block_height": said["block_width"]}
        held_against_brute_force({**square, "blocks_set": "on point", "reach": reach, "pick": pick})

    run()


@settings(max_examples=40, deadline=None)
@given(said=small_cases())
def test_no_grid_at_all_comes_nearer_than_the_first(said: dict[str, Any]) -> None:
    """Not even one that is not worth a look."""
    brute = Brute({**said, "blocks_set": "straight"})
    assume(brute.borders)
    answer = grid_for_size(**said, blocks_set="straight", reach="nearest", pick=1, setting=Settings())
    counts = range(1, brute.most + 1)
    every = [(*pair, *border) for pair in product(counts, counts) for border in brute.pairs()]
    assert rows(answer)[0] == min(every, key=brute.near)


Counts = tuple[int, int, int, int]
"""Blocks across and down, steps of border at the sides and at the ends."""


def area_on_point(plan: Counts, block: Fr) -> Decimal:
    across, down, sides, ends = plan
    width = across * dec(block) * ROOT2 + 2 * sides
    return alike_number(width * (down * dec(block) * ROOT2 + 2 * ends))


def whole_number(plan: Counts, block: Fr) -> int:
    """How the search ranks an area, with borders in steps of 1 in."""
    scale = Scale.holding((block, Fr(1)), 20_000)
    axis = Axis(0, scale.rooted(block), 0, Borders(0, 200, scale.of(Fr(1))))
    per = int(block * scale.unit)
    search = Search(axis, axis, False, True, per * per * (2 * scale.one**2 - scale.root**2))
    return search.by_cover(Plan(*plan))[0]


PLANS = st.tuples(*[st.integers(1, 60)] * 2, *[st.integers(0, 60)] * 2)


@settings(max_examples=200, deadline=None)
@given(one=PLANS, other=PLANS, block=sizes(1, 400, 8))
def test_whole_numbers_rank_areas_on_point_as_decimals_do(one: Counts, other: Counts, block: Fr) -> None:
    ranks = whole_number(one, block), whole_number(other, block)
    areas = area_on_point(one, block), area_on_point(other, block)
    assert (ranks[0] < ranks[1]) == (areas[0] < areas[1])
    assert (ranks[0] == ranks[1]) == (areas[0] == areas[1])


@pytest.mark.parametrize(
    ("one", "other"),
    [((1, 1, 1, 1), (1, 3, 0, 2)), ((1, 1, 1, 5), (3, 3, 1, 1)), ((1, 2, 1, 2), (2, 3, 0, 2))],
)
def test_equal_areas_of_unlike_parts_rank_alike(one: Counts, other: Counts) -> None:
    # (√2 + 2)(√2 + 2) = √2 · (3√2 + 4) = 6 + 4√2, and so on.
    assert area_on_point(one, Fr(1)) == area_on_point(other, Fr(1))
    assert whole_number(one, Fr(1)) == whole_number(other, Fr(1))
