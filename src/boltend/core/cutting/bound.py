"""Certified lower bounds: no way of cutting, from edge to edge or not, needs less.

A *dual feasible function* f gives each size a share of the whole such that any sizes that fit side by side
have shares of at most 1 together. Summed over a plan, shares times lengths can then be no more than the
length, so the demand's own sum is a lower bound. The functions here (identity: the area bound; more than
half; equal parts) are those of Fekete and Schepers, "New classes of fast lower bounds for bin packing
problems", Mathematical Programming 91 (2001), from memory; that each is feasible is tested.
"""

from collections.abc import Callable, Sequence
from math import gcd

from boltend.core.cutting.task import Option, Size

Share = tuple[Callable[[int], int], int]
"""A function from a size to whole shares, and how many shares make the whole."""

MOST_PARTS = 16
MOST_LIMITS = 12
MOST_PAIRS_WORK = 60_000


def identity(whole: int) -> Share:
    """Give each size its own share: the area bound."""
    return (lambda size: size), whole


def equal_parts(whole: int, parts: int) -> Share:
    """Count how many (parts + 1)-ths a size reaches; exact multiples keep their own share."""

    def share(size: int) -> int:
        reached = (parts + 1) * size
        return parts * size if reached % whole == 0 else reached // whole * whole

    return share, parts * whole


def big_and_small(whole: int, limit: int) -> Share:
    """Let a size of more than `whole - limit` count as all, less than `limit` (at most half) as nothing."""

    def share(size: int) -> int:
        if size > whole - limit:
            return whole
        return 0 if size < limit else size

    return share, whole


def shares(whole: int, sizes: Sequence[int]) -> list[Share]:
    """List the functions to try for these sizes; the first is the area bound."""
    limits = sorted({size for size in sizes if 2 * size <= whole} | {whole // 2} - {0}, reverse=True)
    found = [identity(whole)]
    found += [equal_parts(whole, parts) for parts in range(1, MOST_PARTS + 1)]
    found += [big_and_small(whole, limit) for limit in limits[:MOST_LIMITS]]
    return found


def length_bound(ways: Sequence[Sequence[Option]], left: Sequence[int], run: int, in_hand: int = 0) -> int:
    """Give the least length, in units, for `left[kind]` pieces on an endless bolt `run` wide.

    `in_hand` is the area of other cloth that may be used first. Every kind must fit (`ways[kind]` not empty).
    """
    wanted = [kind for kind, count in enumerate(left) if count]
    if not wanted:
        return 0
    besides = sorted({option.beside for kind in wanted for option in ways[kind]})
    best = 0
    for number, (share, whole) in enumerate(shares(run, besides)):
        if number and in_hand:
            break
        need = sum(
            left[kind] * min(share(option.beside) * option.above for option in ways[kind]) for kind in wanted
        )
        best = max(best, -(-(need - in_hand) // whole))
    if not in_hand:
        best = max(best, *(min(option.above for option in ways[kind]) for kind in wanted))
    # Slid together, every plan is as long as some sum of pieces' own lengths, so as a multiple of this.
    step = gcd(*(option.above for kind in wanted for option in ways[kind]))
    return -(-best // step) * step


def sheets_bound(
    sizes: Sequence[Size], left: Sequence[int], sheets: Sequence[tuple[int, int, int | None]]
) -> int:
    """Give the least number of sheets (across, along, how many or None) in all for `left[kind]` pieces."""
    wanted = [kind for kind, count in enumerate(left) if count]
    if not wanted:
        return 0
    if len({(across, along) for across, along, _ in sheets}) == 1:
        across, along, _ = sheets[0]
        return max(1, _alike_bound(sizes, left, wanted, across, along))
    need = sum(left[kind] * sizes[kind].across * sizes[kind].along for kind in wanted)
    used = 0
    for area, count in sorted(((x * y, n) for x, y, n in sheets), key=lambda each: -each[0]):
        if need <= 0:
            break
        fit = -(-need // area)
        take = fit if count is None else min(count, fit)
        used, need = used + take, need - take * area
    return max(1, used)


def _alike_bound(
    sizes: Sequence[Size], left: Sequence[int], wanted: Sequence[int], across: int, along: int
) -> int:
    lying = {kind: _lying(sizes[kind], across, along) for kind in wanted}
    first = shares(across, sorted({a for each in lying.values() for a, _ in each}))
    second = shares(along, sorted({b for each in lying.values() for _, b in each}))
    best, work = 0, 0
    for share_across, whole_across in first:
        for share_along, whole_along in second:
            work += len(wanted)
            if work > MOST_PAIRS_WORK:
                return best
            need = sum(
                left[kind] * min(share_across(a) * share_along(b) for a, b in lying[kind]) for kind in wanted
            )
            best = max(best, -(-need // (whole_across * whole_along)))
    return best


def _lying(size: Size, across: int, along: int) -> list[tuple[int, int]]:
    ways = [(size.across, size.along)] + ([(size.along, size.across)] if size.may_turn else [])
    return [(a, b) for a, b in ways if a <= across and b <= along]
