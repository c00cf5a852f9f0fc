"""Work backwards: which values of one given make a found (or the total) reach what is wanted.

Every answer is tried: the project is worked out with that value, through all links. Values are those on the
given's own steps within its range. Where the found is declared never to shrink as the given grows, halving
finds the edges; elsewhere every value is tried, as many as are allowed, the nearest to the present one first.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from boltend.core.asking.finer import Finer, Try, look_finer, nearest
from boltend.core.asking.ladder import TOTAL, Cell, bought, found_cell
from boltend.core.asking.wish import Wish
from boltend.core.flow import Workbook
from boltend.core.host.calls import Runner
from boltend.core.pool import Pool, snapshot_of
from boltend.core.pool.cutter import Stopping

MOST_TRIES = 2_000
MOST_FOR_TOTAL = 120
"""Values tried at most: each is a run of all that the given reaches, for the total with all cutting plans."""


@dataclass(frozen=True)
class Backwards:
    """All values that reach it, the least first, or the nearest misses where there is none.

    `whole` tells that no value of the range was left out: it was tried, or lies between two of one kind where
    the found never shrinks. `why` says why there is no answer at all. `unbroken` tells that every value from
    the first hit to the last does, also where there are too many to be listed; `same` that whatever was tried
    gave the same, so that nothing hangs on this given. `finer` is what was tried between those values.
    """

    hits: tuple[Try, ...]
    misses: tuple[Try, ...]
    tried: int
    of: int
    whole: bool
    stopped: bool = False
    why: str = ""
    unbroken: bool = False
    same: bool = False
    finer: Finer | None = None

    @property
    def reached(self) -> bool:
        """Whether any value does."""
        return bool(self.hits or (self.finer is not None and self.finer.hits))

    @property
    def best(self) -> tuple[Try, ...]:
        """All values that do, those between the steps among them; where none does the nearest."""
        more = self.finer
        if self.reached:
            return tuple(sorted((*self.hits, *(more.hits if more else ())), key=lambda one: one.value))
        return more.misses if more is not None and more.misses else self.misses


def back(
    book: Workbook,
    wish: Wish,
    pool: Pool | None = None,
    job: Stopping | None = None,
    hear: Callable[[int, int], None] = lambda tried, of: None,
) -> Backwards:
    """Find the values. `hear` gets how many were tried, of how many; stopped, it tells what it has."""
    return Search(book, wish, book.runner, pool or Pool(), job, hear).run()


class Search:
    """A search that is made here and may be run in another thread: it reads nothing then that ever changes.

    `runner` must answer at once, or wait for its answers (`Apart`).
    """

    def __init__(
        self,
        book: Workbook,
        wish: Wish,
        runner: Runner,
        pool: Pool,
        job: Stopping | None = None,
        hear: Callable[[int, int], None] = lambda tried, of: None,
    ) -> None:
        self.wish, self.runner, self.pool, self.job, self.hear = wish, runner, pool, job, hear
        self.project, self.how = book.project, book.results[wish.tab].settings.notation
        self.present = wish.spot.number(book)
        self.own: Workbook | None = None
        self.of = wish.of
        self.known: dict[int, Try] = {}
        self.between: dict[Fraction, Try] = {}
        """What was tried between two steps."""

    def run(self) -> Backwards:
        """Find the values, or what there is until it is stopped; then look between the steps."""
        told = self._along()
        if told.stopped or told.same:
            return told
        finer = look_finer(self)
        return told if finer is None else replace(told, finer=finer, stopped=self.stopped())

    def _along(self) -> Backwards:
        found, spot = self.wish.take.found, self.wish.spot
        own = found is not None and self.wish.take.tab == spot.tab
        try:
            if own and found is not None and spot.row < 0 and spot.spec.name in found.grows_with:
                return self.by_halves()
            return self.one_by_one()
        except _Stopped:
            return self._told([one for one in self._tried() if self.hit(one)], whole=False)

    def stopped(self) -> bool:
        """Whether nobody waits for more."""
        return self.job is not None and self.job.stopped()

    def at(self, place: int) -> Try:
        """Try the value so many steps from the least."""
        if place not in self.known:
            self.known[place] = self._tried_out(self.wish.value(place))
            self.hear(len(self.known), self.of)
        return self.known[place]

    def beside(self, value: Fraction) -> Try | None:
        """Try a value between two steps; None where nobody waits for it any more."""
        if value not in self.between:
            try:
                self.between[value] = self._tried_out(value)
            except _Stopped:
                return None
            more = len(self.between)
            self.hear(len(self.known) + more, self.of + more)
        return self.between[value]

    def _tried_out(self, value: Fraction) -> Try:
        spec = self.wish.given
        typed: Any = int(value) if spec.kind == "count" else value
        raw = spec.reader.to_toml(typed, self.how, spec.unit)
        changed = self.wish.spot.put(self.project, raw)
        if self.own is None:
            self.own = Workbook(self.runner, changed)
        else:
            self.own.update(changed)
        cell = self._cell(self.own)
        if self.stopped():
            raise _Stopped  # what came of it may be half of it
        return Try(value, str(raw), cell, raw)

    def _cell(self, own: Workbook) -> Cell:
        take = self.wish.take
        if take.found is not None:
            return found_cell(own, take.tab, take.found)
        cells = dict(bought(own.basis.how, self.pool.lists_of(snapshot_of(own), self.job)))
        return cells.get(TOTAL, Cell("", None, "nothing has a price"))

    def hit(self, one: Try) -> bool:
        """Whether a value reaches what is wanted."""
        amount = one.cell.amount
        if amount is None:
            return False
        wanted = self.wish.wanted
        return {"exactly": amount == wanted, "at least": amount >= wanted, "at most": amount <= wanted}[
            self.wish.reach
        ]

    def by_halves(self) -> Backwards:
        """The found never shrinks as the given grows, so what reaches it stands together."""
        wanted, reach = self.wish.wanted, self.wish.reach
        # A value that cannot be worked out may stand at either end of the range, not between.
        places = [place for place in (0, self.of - 1) if self.at(place).cell.amount is None]
        if places or self.stopped():
            return self.one_by_one()
        low = self._first(lambda amount: amount >= wanted) if reach != "at most" else 0
        high = self._first(lambda amount: amount > wanted) if reach != "at least" else self.of
        if low is None or high is None:
            return self.one_by_one()  # something between could not be worked out
        hits = [self.at(place) for place in _shown(low, high)]
        if not hits:
            for place in (low - 1, low):
                if 0 <= place < self.of:
                    self.at(place)
        return self._told(hits, whole=True, unbroken=True)

    def _first(self, beyond: Callable[[Fraction], bool]) -> int | None:
        """The first place whose amount is beyond, `of` where none is; None where an amount is missing."""
        low, high = 0, self.of
        while low < high and not self.stopped():
            middle = (low + high) // 2
            amount = self.at(middle).cell.amount
            if amount is None:
                return None
            low, high = (low, middle) if beyond(amount) else (middle + 1, high)
        return low

    def one_by_one(self) -> Backwards:
        """Try every value, those nearest to the present one first."""
        most = MOST_FOR_TOTAL if self.wish.take.found is None else MOST_TRIES
        for place in self._order():
            if len(self.known) >= most or self.stopped():
                break
            self.at(place)
        tried = self._tried()
        return self._told([one for one in tried if self.hit(one)], whole=len(tried) == self.of)

    def _tried(self) -> list[Try]:
        return [self.known[place] for place in sorted(self.known)]

    def _order(self) -> Iterator[int]:
        middle = 0
        if self.present is not None:
            middle = sum(each <= self.present for each in self.wish.only) - 1
            if not self.wish.only:
                middle = int((self.present - self.wish.least) // self.wish.step)
            middle = min(max(0, middle), self.of - 1)
        yield middle
        for far in range(1, self.of):
            for place in (middle - far, middle + far):
                if 0 <= place < self.of:
                    yield place

    def _told(self, hits: list[Try], *, whole: bool, unbroken: bool = False) -> Backwards:
        misses: list[Try] = []
        why = ""
        if not hits:
            misses = nearest(self.known.values(), self.wish.wanted)
            if not misses:
                why = next(
                    (one.cell.why for one in self.known.values() if one.cell.why), "nothing came of any value"
                )
        return Backwards(
            tuple(hits),
            tuple(misses),
            len(self.known),
            self.of,
            whole and not self.stopped(),
            self.stopped(),
            why,
            bool(hits) and (unbroken or len(hits) == self._span(hits)),
            self._same(),
        )

    def _same(self) -> bool:
        """Whether several values were tried, and all gave one amount."""
        amounts = [one.cell.amount for one in self.known.values() if one.cell.amount is not None]
        return len(amounts) > 1 and len(set(amounts)) == 1

    def _span(self, hits: Sequence[Try]) -> int:
        """How many values there are from the first hit to the last."""
        return self.wish.place(hits[-1].value) - self.wish.place(hits[0].value) + 1


def least_change(tries: Sequence[Try], now: Fraction | None) -> int | None:
    """Which of them lies nearest to the present value; the first where there is no such, None of none."""
    if now is None or not tries:
        return 0 if tries else None
    return min(range(len(tries)), key=lambda at: abs(tries[at].value - now))


class _Stopped(Exception):
    """Nobody waits any more for the value that is being tried."""


MOST_SHOWN = 200


def _shown(low: int, high: int) -> list[int]:
    """Places of the hits: all, or of very many both ends."""
    if high - low <= MOST_SHOWN:
        return list(range(low, high))
    half = MOST_SHOWN // 2
    return [*range(low, low + half), *range(high - half, high)]
