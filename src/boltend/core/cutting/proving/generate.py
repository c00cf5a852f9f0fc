"""Column generation: prices of pieces, and the strips that the prices make worth cutting."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from boltend.core.cutting.proving.prices import Certified, Source, certified
from boltend.core.cutting.proving.program import Relaxation
from boltend.core.cutting.proving.work import Spent, Work
from boltend.core.cutting.task import Column, Level, made, tidy

A_ROUND = 12
"""New strips at most in one round: those that save the most."""

MOST_ROUNDS = 400

HAIR = 1e-9


@dataclass
class Patterns:
    """Patterns met so far, by source, in the order met; none twice."""

    levels: dict[tuple[int, Level], None] = field(default_factory=dict)

    def add(self, source: int, level: Level) -> bool:
        """Add one; tell whether it is new."""
        key = (source, level._replace(times=1))
        if not level.columns or key in self.levels:
            return False
        self.levels[key] = None
        return True

    def of(self) -> list[tuple[int, Level]]:
        """List them."""
        return list(self.levels)


def settled(
    relaxation: Relaxation,
    sizes: int,
    kinds: Sequence[int],
    limited: Sequence[int],
    more: Callable[[NDArray[np.float64], dict[int, float], Work], bool],
    work: Work,
) -> list[float]:
    """Give the prices of all sizes once `more` finds no column by them, or the work is spent.

    The rows of the program are the kinds wanted, then the cloths of which there is only so much; `more` gets
    the prices of pieces and what those cloths are charged, and adds columns.
    """
    prices = [0.0] * sizes
    try:
        for _ in range(MOST_ROUNDS):
            _, duals = relaxation.solve(work)
            for row, kind in enumerate(kinds):
                prices[kind] = max(0.0, duals[row])
            charges = {n: max(0.0, -duals[len(kinds) + i]) for i, n in enumerate(limited)}
            if not more(np.array(prices), charges, work):
                break
    except Spent:
        pass  # the last prices prove what they can
    return prices


class Generation:
    """The linear program over strips, open for more."""

    def __init__(self, sources: Sequence[Source], wanted: Sequence[int]) -> None:
        self.sources, self.wanted = sources, list(wanted)
        self.kinds = [kind for kind, count in enumerate(wanted) if count]
        self.row = {kind: row for row, kind in enumerate(self.kinds)}
        self.limited = [n for n, source in enumerate(sources) if source.depth is not None]
        self.patterns = Patterns()
        infinite = float("inf")
        rows = [(float(wanted[kind]), infinite) for kind in self.kinds]
        rows += [(-infinite, float(sources[n].depth or 0)) for n in self.limited]
        self.relaxation = Relaxation(rows)
        self._alone()

    def _alone(self) -> None:
        """Give every kind a strip of its own, so that there is a solution."""
        for number, source in enumerate(self.sources):
            for item in source.pricer.strips.items:
                row = int(np.argmax(item.high > 0))
                fits = source.pricer.strips.run // item.option.beside
                column = Column(*item.option, int(item.high[row]), fits)
                self.add(number, source.pricer.strips.pattern([column]))

    def add(self, source: int, level: Level) -> bool:
        """Add a pattern as a column; tell whether it is new."""
        if not self.patterns.add(source, level):
            return False
        cells = {self.row[kind]: float(count) for kind, count in made(level.columns).items()}
        cost = float(level.width)
        if source in self.limited:
            cells[len(self.kinds) + self.limited.index(source)] = float(level.width)
            cost = 0.0
        self.relaxation.add(cost, cells)
        return True

    def run(self, work: Work) -> Certified:
        """Go on until no strip is worth more than it costs, or the work is spent; give what is certified.

        Raises `Stopped`, and `Spent` where there is not even enough for one certificate.
        """
        keep = 3 * sum({id(each.pricer): each.pricer.cost for each in self.sources}.values())
        part = work.part(max(0, work.left - keep))
        prices = settled(self.relaxation, len(self.wanted), self.kinds, self.limited, self._more, part)
        work.take_back(part)
        return certified(self.sources, self.wanted, prices, work)

    def _more(self, prices: NDArray[np.float64], charges: dict[int, float], work: Work) -> bool:
        """Add the strips that save most by these prices; tell whether there were any."""
        saving: list[tuple[float, int, int]] = []
        worths: dict[int, list[float]] = {}
        for number, source in enumerate(self.sources):
            pricer, rate = source.pricer, charges.get(number, 1.0)
            if id(pricer) not in worths:
                worths[id(pricer)] = pricer.values(prices, work).tolist()
            for row, (width, worth) in enumerate(zip(pricer.strips.widths, worths[id(pricer)], strict=True)):
                over = worth - rate * width
                if over > HAIR * max(1.0, width) + 1e-7:
                    saving.append((-over / width, number, row))
        saving.sort()
        added = False
        for _, number, row in saving[:A_ROUND]:
            pricer, rate = self.sources[number].pricer, charges.get(number, 1.0)
            columns = pricer.columns(row, prices, work)
            level = pricer.strips.pattern(columns)
            worth = sum(prices[kind] * count for kind, count in made(level.columns).items())
            if worth <= rate * level.width + HAIR or not self.add(number, level):
                # Only with more of a kind than is wanted is it worth its cost. As a column it does no harm
                # (what is too much is left out of a plan), and without it the prices would not settle.
                level = Level(pricer.strips.widths[row], tidy(columns), 1)
                added |= self.add(number, level)
            else:
                added = True
        return added
