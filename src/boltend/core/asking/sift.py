"""Which givens can change a found at all: some values of each are worked out, and nothing is guessed."""

import time
from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from typing import Any

from boltend.core.asking.ladder import Take
from boltend.core.asking.spots import Spot
from boltend.core.asking.wish import step_of
from boltend.core.contract import Settings
from boltend.core.flow import Result, Workbook
from boltend.core.flow.givens import out_of_limits
from boltend.core.host.calls import Runner
from boltend.core.pool.cutter import Stopping

SECONDS = 3.0
"""So long values are tried; what is not tried by then is not left out."""

_FAR = 16
"""Steps: what is rounded, as strips are, does not change with one."""


class Sift:
    """Made where the workbook lives, and run in another thread: it reads nothing then that ever changes.

    `runner` must answer at once, or wait for its answers (`Apart`).
    """

    def __init__(
        self, book: Workbook, take: Take, spots: Sequence[Spot], runner: Runner, job: Stopping | None = None
    ) -> None:
        self.project, self.take, self.runner, self.job = book.project, take, runner, job
        self.trials = [(spot, list(_raws(book, spot))) for spot in spots]

    def run(self, seconds: float = SECONDS, now: Callable[[], float] = time.monotonic) -> list[Spot]:
        """Those that change nothing: a step more or less, twice as much, half, and many steps more."""
        until = now() + seconds
        own = Workbook(self.runner, self.project)
        before = self._comes(own)
        idle: list[Spot] = []
        for spot, raws in self.trials:
            tried = 0
            for tried, raw in enumerate(raws, 1):  # noqa: B007 - how many is asked below
                own.update(spot.put(self.project, raw))
                came = self._comes(own)
                if self.job is not None and self.job.stopped():
                    return []
                if now() > until:
                    return idle
                if came != before:
                    break
            else:
                idle += [spot] if tried > 1 else []
        return idle

    def _comes(self, own: Workbook) -> object:
        """What is compared: the found, or of the total all that is cut and bought."""
        found, results = self.take.found, own.results
        if found is not None:
            result = results[self.take.tab]
            return result.answer is not None, result.found.get(found.name)
        return [_bought_for(results[tab.key]) for tab in own.project.tabs]


def _bought_for(result: Result) -> object:
    """All of a tab on which the lists hang."""
    answer = result.answer
    return answer and (answer.pieces, answer.runs, answer.goods, result.settings)


def _raws(book: Workbook, spot: Spot) -> Iterator[Any]:
    """The values to be tried, as they stand in the file; none where it has no value now."""
    settings, now, spec = book.results[spot.tab].settings, spot.number(book), spot.spec
    if now is None:
        return
    for value in dict.fromkeys(_values(now, step_of(spec, settings), settings)):
        typed: Any = int(value) if spec.kind == "count" else value
        if value != now and value >= 0 and not out_of_limits(spec, typed, settings.notation):
            yield spec.reader.to_toml(typed, settings.notation, spec.unit)


def _values(now: Fraction, step: Fraction, settings: Settings) -> Iterator[Fraction]:
    half = (now / 2 // step) * step
    yield from (now + step, now - step, 2 * now, half, now + _FAR * step)
