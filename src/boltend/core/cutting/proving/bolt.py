"""Strips off an endless bolt, after pieces of cloth in hand: the least length, and the proof of it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, gcd

from boltend.core.cutting.proving.choose import Choice, Chosen, Strip, choose, fewest_strips
from boltend.core.cutting.proving.generate import Generation
from boltend.core.cutting.proving.listing import TooMany, patterns_within
from boltend.core.cutting.proving.prices import Certified, Source
from boltend.core.cutting.proving.pricing import Pricer
from boltend.core.cutting.proving.strips import Strips, TooFine
from boltend.core.cutting.proving.work import Spent, Stopped, Work
from boltend.core.cutting.task import Level, Option, Size, options, score, total

LISTS = (600, 12_000)
"""Patterns to choose among: few first, for a better plan; then as many as a proof may take."""

MOST_CELLS = 150_000
"""Patterns times sizes, at most: many sizes keep HiGHS busy for seconds between two questions."""

ROUNDS = 4
"""Times that patterns are listed, each time for a better plan."""

HALVINGS = 7
"""Halvings of the gap, until there are few enough patterns within it."""

MOST_FOR_FEWER = 400
"""Patterns among which fewer different strips are looked for: the program has two columns for each."""

Cuts = dict[int | None, list[Level]]
"""Strips by the cloth they are cut from: its place in the stock, None for the endless bolt."""


@dataclass(frozen=True)
class BoltTask:
    """Sizes, the bolt's run, and pieces in hand as (place in the stock, run, depth); all in units.

    `shorter` gives the greatest length that buys less than a given one does: to show that no plan has it is
    proof enough. Without `stacks` pieces lie side by side only.
    """

    sizes: Sequence[Size]
    run: int
    in_hand: Sequence[tuple[int, int, int]]
    stacks: bool
    shorter: Callable[[int], int]


@dataclass
class Found:
    """The best cuts, the least that any plan of these strips takes, and what limited the search.

    `cap` is the widest strip looked at, where that is a limit; `stopped`: somebody ended it early.
    """

    cuts: Cuts
    bound: int
    cap: int | None = None
    stopped: bool = False

    @property
    def length(self) -> int:
        """Units of the endless bolt."""
        return total(self.cuts.get(None, []))


def prove_bolt(task: BoltTask, start: Cuts, bound: int, work: Work) -> Found:
    """Improve `start`, which must cut every piece, until no shorter purchase is possible or work is spent.

    `bound` is a least length known already. Work that is left goes into fewer different strips.
    """
    found = Found(dict(start), bound)
    try:
        search = _Search(task, found, work)
        search.run()
        search.fewer_strips()
    except (Spent, TooFine):
        pass  # what was found stands, and its bound
    except Stopped:
        found.stopped = True
    return found


class _Search:
    def __init__(self, task: BoltTask, found: Found, work: Work) -> None:
        self.task, self.found, self.work = task, found, work
        self.wanted = [size.wanted for size in task.sizes]
        self.sources = self._sources()
        widths = self.sources[0].pricer.strips.widths
        self.step = gcd(*widths, *(level.width for level in found.cuts.get(None, []))) or 1
        caps = [source.pricer.strips.cap for source in self.sources]
        found.cap = min((cap for cap in caps if cap is not None), default=None)
        self.choice = Choice(self.sources, self.wanted, self.step)
        self.generation: Generation | None = None
        self.proof: Certified | None = None

    def _sources(self) -> list[Source]:
        sources = [Source(None, self._pricer(self.task.run, self.found.length, None), None)]
        for place, run, depth in self.task.in_hand:
            sources.append(Source(place, self._pricer(run, depth, depth), depth))
        return sources

    def _pricer(self, run: int, deepest: int, widest: int | None) -> Pricer:
        ways: list[list[Option]] = [[] for _ in self.task.sizes]
        for option in options(self.task.sizes, run, widest, "across"):
            ways[option.kind].append(option)
        return Pricer(Strips(ways, self.wanted, run, self.task.stacks, deepest))

    def proved(self) -> bool:
        return self.task.shorter(self.found.length) < self.found.bound

    def run(self) -> None:
        if self.proved():
            return
        self.generation = Generation(self.sources, self.wanted)
        for number, level in self._now():
            self.generation.add(number, level)
        self.proof = self.generation.run(self.work)
        self._at_least(ceil(self.proof.bound))
        if self.proved():
            return
        self._choose(self.generation.patterns.of(), self.work.left // 8)
        kinds = sum(1 for count in self.wanted if count)
        for most in LISTS:
            if self._among(min(most, MOST_CELLS // max(1, kinds)), last=most == LISTS[-1]):
                return

    def _among(self, most: int, last: bool) -> bool:
        """Choose among at most so many patterns for as long as that helps; tell whether all is proved."""
        for _ in range(ROUNDS):
            if self.proved():
                return True
            before = self.found.length
            limit = self.task.shorter(before)
            listed, whole = self._listed(limit, most)
            done = self._choose(listed, self.work.left if last else self.work.left // 2)
            if whole and done is not None and done.least:
                # Every plan of at most `limit` was among these.
                self._at_least(min(self.found.length, limit + 1))
                return True
            if self.found.length == before:
                return False
        return False

    def _choose(self, patterns: list[Strip], units: int) -> Chosen | None:
        """Choose strips and keep them where they are better: shorter, fewer different ones, fewer cuts."""
        part = self.work.part(units)
        done = choose(self.choice, patterns, self._now(), part, self.found.bound)
        self.work.take_back(part)
        self._take(done)
        return done

    def _listed(self, limit: int, most: int) -> tuple[list[Strip], bool]:
        """List the patterns that a plan of at most `limit` may use: all of them, or those within less."""
        assert self.proof is not None  # `run` goes in order
        gap = limit - self.proof.bound
        for halvings in range(HALVINGS):
            try:
                return self._within(self.proof, self.proof.bound + gap / 2**halvings, most), halvings == 0
            except TooMany:
                pass
        return [], False

    def _within(self, proof: Certified, limit: Fraction, most: int) -> list[Strip]:
        found: list[Strip] = []
        for number, source in enumerate(self.sources):
            levels = patterns_within(source, number, proof, limit, self.work, most - len(found))
            found += [(number, level) for level in levels]
        return found

    def _now(self) -> list[Strip]:
        """List the strips of the best plan with their sources."""
        places = {source.place: number for number, source in enumerate(self.sources)}
        return [(places[place], level) for place, levels in self.found.cuts.items() for level in levels]

    def _at_least(self, bound: int) -> None:
        """Note a least length. Lengths are multiples of the step; a plan may have strips beyond the cap."""
        bound = -(-bound // self.step) * self.step
        self.found.bound = max(self.found.bound, min(bound, self.found.length))

    def _take(self, chosen: Chosen | None) -> None:
        """Keep what was chosen where it is better: shorter, then fewer different strips, then fewer cuts."""
        if chosen is None:
            return
        cuts: Cuts = {self.sources[number].place: levels for number, levels in chosen.strips.items()}
        if _rank(cuts) < _rank(self.found.cuts):
            self.found.cuts = cuts
            self.work.tell(self.found)

    def fewer_strips(self) -> None:
        """Look among the patterns met for a plan of equal length with fewer different strips."""
        if self.generation is None:
            self.generation = Generation(self.sources, self.wanted)
        met = self.generation.patterns.of()
        if sum(len(levels) for levels in self.found.cuts.values()) > 1 and len(met) <= MOST_FOR_FEWER:
            part = self.work.part(self.work.left // 8)
            self._take(fewest_strips(self.choice, met, self._now(), part))
            self.work.take_back(part)


def _rank(cuts: Cuts) -> tuple[int, ...]:
    bolt = score(cuts.get(None, []))
    others = [score(levels) for place, levels in cuts.items() if place is not None]
    return (bolt[0], bolt[1] + sum(each[1] for each in others), bolt[2] + sum(each[2] for each in others))
