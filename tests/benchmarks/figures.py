"""Times taken side by side, and the table that they are printed in."""

import gc
import os
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from statistics import median
from time import perf_counter

ROUNDS = 9
"""Each figure is the least of so many: other work on the machine can only add to a time."""


@dataclass(frozen=True)
class Figure:
    """One line of the table: the least of ours and of theirs, and the ratio aimed at.

    Times are in seconds; what is measured otherwise brings its own `show`.
    """

    what: str
    ours: float
    theirs: float
    aim: float | None = None
    note: str = ""
    show: Callable[[float], str] = field(default_factory=lambda: shown)

    @property
    def ratio(self) -> float:
        """How many times theirs ours takes."""
        return self.ours / self.theirs

    @property
    def line(self) -> str:
        """The line as printed."""
        aim, kept = "", ""
        if self.aim is not None:
            aim, kept = f"<= {self.aim:g}", "met" if self.ratio <= self.aim else "NOT MET"
        sizes = f"{self.show(self.ours):>9} {self.show(self.theirs):>9} {self.ratio:>6.2f}"
        return f"{self.what:<50} {sizes}  {aim:<7}{kept:<8} {self.note}".rstrip()


HEAD = f"{'what':<50} {'ours':>9} {'theirs':>9} {'ratio':>6}  {'aim':<7}"


def figure(what: str, ours: Sequence[float], theirs: Sequence[float], aim: float | None = None) -> Figure:
    """A line from all times: the least of each, and the medians beside them."""
    note = f"medians {shown(median(ours))} / {shown(median(theirs))}"
    return Figure(what, min(ours), min(theirs), aim, note)


def shown(seconds: float) -> str:
    """A time in the unit that suits it."""
    if seconds >= 0.1:
        return f"{seconds * 1e3:.0f} ms"
    return f"{seconds * 1e3:.2f} ms" if seconds >= 1e-3 else f"{seconds * 1e6:.1f} µs"


def timed(call: Callable[[], object], times: int = 1) -> float:
    """Seconds for one call, taken over `times` of them, without a collection of garbage in between."""
    gc.collect()
    gc.disable()
    try:
        begin = perf_counter()
        for _ in range(times):
            call()
        return (perf_counter() - begin) / times
    finally:
        gc.enable()


def load_words() -> str:
    """What else the machine does: a figure taken under load is an upper bound, and its ratio shaky."""
    one, five, _ = os.getloadavg()
    cores = os.cpu_count() or 1
    busy = "quiet enough" if one < 0.5 * cores else "BUSY: take these again when it is quieter"
    return f"load {one:.2f} (1 min), {five:.2f} (5 min) on {cores} cores: {busy}"
