"""Work backwards: which values of one given make a found (or the total) reach what is wanted.

Every answer is tried: the project is worked out with that value, through all links. Values are those on the
given's own steps within its range. Where the found is declared never to shrink as the given grows, halving
finds the edges; elsewhere every value is tried, as many as are allowed, the nearest to the present one first.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Literal

from boltend.core.asking.ladder import BUY, TOTAL, Cell, Take, bought, found_cell, takes_of
from boltend.core.asking.spots import AskError, Spot, spot_of, tab_of
from boltend.core.contract import GivenSpec, Settings
from boltend.core.flow import Workbook
from boltend.core.host.calls import Runner
from boltend.core.pool import Pool, snapshot_of
from boltend.core.pool.cutter import Stopping
from boltend.core.values import KINDS, NotationError

Reach = Literal["exactly", "at least", "at most"]
REACHES: tuple[Reach, ...] = ("at least", "at most", "exactly")

MOST_TRIES = 2_000
MOST_FOR_TOTAL = 120
"""Values tried at most: each is a run of all that the given reaches, for the total with all cutting plans."""

MISSES = 3

RANGED = ("count", "number", "percent", "finished", "cut", "length")
"""Kinds of given that have steps."""


@dataclass(frozen=True)
class Wish:
    """What is asked: a given of a tab, and the amount that a column should reach. The range is in steps."""

    spot: Spot
    take: Take
    wanted: Fraction
    reach: Reach
    step: Fraction
    least: Fraction
    most: Fraction

    @property
    def tab(self) -> int:
        """The key of the tab."""
        return self.spot.tab

    @property
    def given(self) -> GivenSpec:
        """What the given takes."""
        return self.spot.spec

    @property
    def of(self) -> int:
        """How many values there are in the range."""
        return int((self.most - self.least) // self.step) + 1


@dataclass(frozen=True)
class Try:
    """A value of the given, as a number and as it is written, and what came of it."""

    value: Fraction
    raw: str
    cell: Cell
    typed: Any = None
    """As it stands in the file: of a count a whole number."""


@dataclass(frozen=True)
class Backwards:
    """All values that reach it, the least first, or the nearest misses where there is none.

    `whole` tells that no value of the range was left out: it was tried, or lies between two of one kind where
    the found never shrinks. `why` says why there is no answer at all. `unbroken` tells that every value from
    the first hit to the last does, also where there are too many to be listed; `same` that whatever was tried
    gave the same, so that nothing hangs on this given.
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


def read_wish(book: Workbook, said: Mapping[str, Any]) -> Wish:
    """Read what is asked: `tab`, `given`, `take`, `reach`, `wanted`, `least`, `most`. Raises `AskError`."""
    tab = tab_of(book, said.get("tab"))
    spot = spot_of(book, tab, said.get("given"))
    given = spot.spec
    if given.kind not in RANGED:
        raise AskError(f"“{given.label}” has no steps to go along.", "Ask for a length, a count or a number.")
    raw = said.get("take")
    takes = list(takes_of(book, tab, BUY if str(raw).casefold() == "total" else raw))
    if len(takes) != 1:
        raise AskError("several founds are asked for.", "Ask for one.")
    take = takes[0]
    reach = said.get("reach") or "at least"
    if reach not in REACHES:
        raise AskError(f"{reach!r} is no way to reach something.", f"Say one of: {', '.join(REACHES)}.")
    settings = book.results[tab.key].settings
    step = step_of(given, settings)
    least, most = _range(book, spot, settings, step, said)
    return Wish(spot, take, _wanted(take, said.get("wanted"), settings), reach, step, least, most)


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

    def run(self) -> Backwards:
        """Find the values, or what there is until it is stopped."""
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
            value = self.wish.least + place * self.wish.step
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
            self.known[place] = Try(value, str(raw), cell, raw)
            self.hear(len(self.known), self.of)
        return self.known[place]

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
            middle = min(max(0, int((self.present - self.wish.least) // self.wish.step)), self.of - 1)
        yield middle
        for far in range(1, self.of):
            for place in (middle - far, middle + far):
                if 0 <= place < self.of:
                    yield place

    def _told(self, hits: list[Try], *, whole: bool, unbroken: bool = False) -> Backwards:
        misses: list[Try] = []
        why = ""
        if not hits:
            known = [one for one in self.known.values() if one.cell.amount is not None]
            known.sort(key=lambda one: (abs((one.cell.amount or 0) - self.wish.wanted), one.value))
            misses = known[:MISSES]
            if not known:
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
        return int((hits[-1].value - hits[0].value) / self.wish.step) + 1


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


def step_of(given: GivenSpec, settings: Settings) -> Fraction:
    """The stride along the values of a given of one of the kinds `RANGED`."""
    if given.kind in ("count", "number", "percent"):
        return Fraction(1)
    step = given.step
    if step is None:
        return Fraction(settings.size_step)
    if step.name:
        return Fraction(getattr(settings, f"{step.name}_step"))
    text = step.metric if settings.system == "cm" else step.inches
    return Fraction(KINDS["length"].read(text, settings.notation))


def _range(
    book: Workbook, spot: Spot, settings: Settings, step: Fraction, said: Mapping[str, Any]
) -> tuple[Fraction, Fraction]:
    """From `least` to `most` as said, else the given's own limits, not far beyond four times the present."""
    how, given = settings.notation, spot.spec

    def read(text: Any) -> Fraction:
        try:
            return Fraction(given.reader.from_toml(text, how, given.unit))
        except NotationError as error:
            raise AskError(f"{text!r:.60}: {error.why}.", error.way_out) from None

    own_least = (
        read(given.least) if given.least is not None else (Fraction(0) if given.kind == "percent" else step)
    )
    own_most = read(given.most) if given.most is not None else None
    present = spot.number(book)
    now = own_least if present is None else present
    usual = max(4 * now, own_least + 400 * step)
    least = read(said["least"]) if said.get("least") else own_least
    most = read(said["most"]) if said.get("most") else (usual if own_most is None else min(usual, own_most))
    least = max(least, own_least)
    if own_most is not None:
        most = min(most, own_most)
    least = -(-least // step) * step
    if most < least:
        raise AskError("the range is empty.", "Let the most be no less than the least.")
    return least, most


def _wanted(take: Take, text: Any, settings: Settings) -> Fraction:
    how = settings.notation
    if text is None or text == "":
        raise AskError("what should be reached?", "Say an amount.")
    try:
        if take.found is None:
            return Fraction(KINDS["price"].from_toml(str(text), how).amount)
        return Fraction(take.found.reader.from_toml(text, how, take.found.unit))
    except NotationError as error:
        raise AskError(f"{text!r:.60}: {error.why}.", error.way_out) from None
    except TypeError:
        raise AskError(f"“{take.label}” is no amount.", "Ask for a length, a count or a number.") from None
