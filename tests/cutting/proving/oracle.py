"""The least by brute force: every strip and every sheet there is, and `scipy.optimize.milp` over them.

Nothing here is the engine's: whole numbers only, no prices, no dominance but "fewer pieces for as much cloth
is no use". A strip is built column by column in every possible way, a sheet strip by strip. For tiny demands.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np
from scipy.optimize import LinearConstraint, linprog, milp

Counts = tuple[int, ...]
"""Pieces of each kind, never more than wanted."""


@dataclass(frozen=True)
class Want:
    """One size: across, along, copies, and may it turn."""

    across: int
    along: int
    copies: int
    may_turn: bool


@dataclass(frozen=True)
class Cloth:
    """A sheet or a piece in hand; `ways` in which strips may run; `copies` None: as many as wanted."""

    across: int
    along: int
    copies: int | None = None
    ways: tuple[str, ...] = ("across", "along")
    cost: int = 1


def columns(wants: Sequence[Want], way: str, stacks: bool) -> list[tuple[int, int, int, int]]:
    """List (kind, beside, height, pieces) of every stack: each orientation, each number of pieces."""
    found = []
    for kind, want in enumerate(wants):
        lying = {(want.across, want.along)} | ({(want.along, want.across)} if want.may_turn else set())
        for across, along in sorted(lying):
            beside, above = (across, along) if way == "across" else (along, across)
            for high in range(1, (want.copies if stacks else 1) + 1):
                found.append((kind, beside, above * high, high))
    return found


def strips(
    wants: Sequence[Want], run: int, way: str, stacks: bool, deepest: int | None = None
) -> dict[Counts, int]:
    """Give the least width of a strip for every count of pieces that a strip can hold."""
    stock = [c for c in columns(wants, way, stacks) if c[1] <= run and (deepest is None or c[2] <= deepest)]
    none = (0,) * len(wants)
    seen: dict[tuple[int, Counts], int] = {(0, none): 0}
    for kind, beside, height, pieces in stock:
        line = list(seen.items())
        for (used, counts), width in line:  # this sort of column, again and again
            while used + beside <= run and counts[kind] < wants[kind].copies:
                used += beside
                counts = _more(wants, counts, kind, pieces)
                width = max(width, height)
                if seen.get((used, counts), width + 1) > width:
                    seen[used, counts] = width
    best: dict[Counts, int] = {}
    for (_, counts), width in seen.items():
        if any(counts):
            best[counts] = min(width, best.get(counts, width))
    return _useful(best)


def sheets(wants: Sequence[Want], cloth: Cloth, stacks: bool) -> list[Counts]:
    """List all counts of pieces that one sheet can hold, but for those that another one has and more."""
    found: dict[Counts, int] = {}
    for way in cloth.ways:
        run, depth = (cloth.across, cloth.along) if way == "across" else (cloth.along, cloth.across)
        seen: dict[Counts, int] = {(0,) * len(wants): 0}
        for counts, width in strips(wants, run, way, stacks, depth).items():
            for held, used in list(seen.items()):
                while used + width <= depth:
                    used += width
                    more = tuple(min(w.copies, h + c) for w, h, c in zip(wants, held, counts, strict=True))
                    if more == held:
                        break
                    held = more
                    if seen.get(held, used + 1) > used:
                        seen[held] = used
        found.update(dict.fromkeys(seen, 1))
    return list(_useful({counts: 1 for counts in found if any(counts)}))


def least_length(
    wants: Sequence[Want], run: int, stacks: bool, in_hand: Sequence[Cloth] = (), widest: int | None = None
) -> int:
    """Give the least length of an endless bolt, after pieces in hand of which all may be used."""
    held: list[tuple[Counts, int, int | None]] = [
        (counts, width, None)
        for counts, width in strips(wants, run, "across", stacks).items()
        if widest is None or width <= widest
    ]
    for place, cloth in enumerate(in_hand):
        each = strips(wants, cloth.across, "across", stacks, cloth.along)
        held += [(counts, width, place) for counts, width in each.items()]
    rows = [_row([counts[kind] for counts, _, _ in held], want.copies) for kind, want in enumerate(wants)]
    for place, cloth in enumerate(in_hand):
        rows.append(_row([-width if at == place else 0 for _, width, at in held], -cloth.along))
    return _least([width if place is None else 0 for _, width, place in held], rows)


def least_sheets(wants: Sequence[Want], cloths: Sequence[Cloth], stacks: bool) -> int | None:
    """Give the least cost of sheets that hold everything; None where there are not enough."""
    held = [(counts, place) for place, cloth in enumerate(cloths) for counts in sheets(wants, cloth, stacks)]
    rows = [_row([counts[kind] for counts, _ in held], want.copies) for kind, want in enumerate(wants)]
    for place, cloth in enumerate(cloths):
        if cloth.copies is not None:
            rows.append(_row([-1 if at == place else 0 for _, at in held], -cloth.copies))
    if not held:
        return None
    try:
        return _least([cloths[place].cost for _, place in held], rows)
    except ValueError:
        return None


def linear_bound(held: Mapping[Counts, int], wants: Sequence[Want]) -> tuple[float, Fraction]:
    """Give the least length in fractions of strips, as `linprog` finds it and as its prices prove it."""
    counts = np.array(list(held), dtype=float)
    widths = np.array(list(held.values()), dtype=float)
    found = linprog(widths, A_ub=-counts.T, b_ub=[-want.copies for want in wants], method="highs")
    if not found.success:
        raise ValueError(found.message)
    prices = [max(Fraction(0), Fraction(-float(each)).limit_denominator(10**9))
              for each in found.ineqlin.marginals]  # fmt: skip
    rate = max(dearest(held, prices), Fraction(1))
    worth = sum((p * want.copies for p, want in zip(prices, wants, strict=True)), Fraction(0))
    return float(found.fun), worth / rate


def dearest(held: Mapping[Counts, int], prices: Sequence[Fraction]) -> Fraction:
    """Give the most that a unit of width is worth in any strip, exactly."""
    return max(
        sum((p * n for p, n in zip(prices, counts, strict=True)), Fraction(0)) / width
        for counts, width in held.items()
    )


def _more(wants: Sequence[Want], counts: Counts, kind: int, pieces: int) -> Counts:
    held = min(wants[kind].copies, counts[kind] + pieces)
    return (*counts[:kind], held, *counts[kind + 1 :])


def _useful(held: Mapping[Counts, int]) -> dict[Counts, int]:
    """Leave out what takes as much cloth as another and holds no more of anything."""
    kept: dict[Counts, int] = {}
    for counts, width in sorted(held.items(), key=lambda each: (each[1], -sum(each[0]), each[0])):
        if not any(all(a >= b for a, b in zip(other, counts, strict=True)) for other in kept):
            kept[counts] = width
    return kept


Row = tuple[list[int], int]
"""The sum of these times the columns is at least so much."""


def _row(cells: list[int], least: int) -> Row:
    return cells, least


def _least(costs: Sequence[int], rows: Iterable[Row]) -> int:
    lines = list(rows)
    matrix = np.array([cells for cells, _ in lines], dtype=float)
    low = np.array([least for _, least in lines], dtype=float)
    found = milp(
        np.array(costs, dtype=float),
        constraints=LinearConstraint(matrix, low),
        integrality=np.ones(len(costs)),
        options={"mip_rel_gap": 0.0},
    )
    if found.status != 0:
        raise ValueError(found.message)
    counts = [round(each) for each in found.x]
    assert all(sum(c * n for c, n in zip(cells, counts, strict=True)) >= least for cells, least in lines), (
        "the oracle's own answer does not hold"
    )
    return sum(cost * count for cost, count in zip(costs, counts, strict=True))
