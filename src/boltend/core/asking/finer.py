"""Between two values of a given's own step: a border by 1/2 in may miss what one of 7 3/8 in does.

A step of the form is for quick typing; one cuts finer. Where no value of the step does, the halves and
quarters are tried about the nearest, down to the step in which the project cuts; where values do, the last
few before the first and behind the last of them. Each is really worked out; no more is claimed than that.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Protocol

from boltend.core.asking.ladder import Cell
from boltend.core.asking.wish import Wish

MISSES = 3

MOST_GAPS = 8
MOST_BETWEEN = 120
MOST_BETWEEN_FOR_TOTAL = 24
"""Values tried at most: for the total each needs all cutting plans."""


@dataclass(frozen=True)
class Try:
    """A value of the given, as a number and as it is written, and what came of it."""

    value: Fraction
    raw: str
    cell: Cell
    typed: Any = None
    """As it stands in the file: of a count a whole number."""


@dataclass(frozen=True)
class Finer:
    """What was tried between the steps: which step was looked at last, what does, how many were tried.

    `misses` are the nearest of all, those on the given's own step among them, where none does.
    """

    step: Fraction
    hits: tuple[Try, ...]
    misses: tuple[Try, ...]
    tried: int


class Searched(Protocol):
    """A search that has tried values of the given's own step."""

    wish: Wish
    present: Fraction | None
    known: dict[int, Try]
    between: dict[Fraction, Try]

    def hit(self, one: Try) -> bool:
        """Whether it reaches what is wanted."""

    def beside(self, value: Fraction) -> Try | None:
        """Try a value; None where it is stopped."""


def look_finer(search: Searched) -> Finer | None:
    """Try values between the steps; None where there are none to be tried."""
    wish, known = search.wish, search.known
    if not wish.finer:
        return None
    places = [place for place, one in known.items() if search.hit(one)]
    if places and wish.reach == "exactly":
        return None
    gaps = _edges(known, places) if places else _near(search)
    # Beside values that do, only the finest step tells the least.
    for step in wish.finer[-1:] if places else wish.finer:
        hits, whole = _look(search, gaps, step)
        if hits or not whole or step == wish.finer[-1]:
            break
    tried = search.between
    if not tried:
        return None
    misses = () if hits or places else nearest((*known.values(), *tried.values()), wish.wanted)
    return Finer(step, tuple(sorted(hits, key=lambda one: one.value)), tuple(misses), len(tried))


def _look(search: Searched, gaps: Iterable[int], step: Fraction) -> tuple[list[Try], bool]:
    """What does, by this step in these gaps; whether all of them were tried."""
    most = MOST_BETWEEN_FOR_TOTAL if search.wish.take.found is None else MOST_BETWEEN
    for gap in gaps:
        for value in _inside(search.wish, gap, step):
            if len(search.between) >= most or search.beside(value) is None:
                return [one for one in search.between.values() if search.hit(one)], False
    return [one for one in search.between.values() if search.hit(one)], True


def _inside(wish: Wish, gap: int, step: Fraction) -> Iterator[Fraction]:
    """The values of a step between a place and the next."""
    low, high = wish.value(gap), wish.value(gap + 1)
    value = (low // step + 1) * step
    while value < high:
        yield value
        value += step


def _edges(known: Mapping[int, Try], places: list[int]) -> list[int]:
    """Before the first value that does, and behind the last, where the one beyond was tried and does not."""
    first, last = min(places), max(places)
    return [gap for gap, beyond in ((first - 1, first - 1), (last, last + 1)) if beyond in known]


def _near(search: Searched) -> list[int]:
    """Where what is wanted lies between two neighbours; then about the nearest misses."""
    wish, known = search.wish, search.known
    present = wish.least if search.present is None else search.present
    amounts = ((place, one.cell.amount) for place, one in known.items())
    far = {place: amount - wish.wanted for place, amount in amounts if amount is not None}
    across = [place for place in far if place + 1 in far and far[place] * far[place + 1] < 0]
    across.sort(key=lambda place: abs(wish.value(place) - present))
    closest = sorted(far, key=lambda place: (abs(far[place]), place))[:MISSES]
    gaps = dict.fromkeys([*across, *(gap for place in closest for gap in (place - 1, place))])
    return [gap for gap in gaps if 0 <= gap < wish.of - 1][:MOST_GAPS]


def nearest(tries: Iterable[Try], wanted: Fraction) -> list[Try]:
    """Those that come nearest to what is wanted, the nearest first."""
    some = [one for one in tries if one.cell.amount is not None]
    return sorted(some, key=lambda one: (abs((one.cell.amount or 0) - wanted), one.value))[:MISSES]
