"""How much a proof may take: counted, not timed, so that the same input has the same answer everywhere."""

from collections.abc import Callable
from dataclasses import dataclass, field

from boltend.core.cutting.shapes import Job

NODE = 900
"""Units that one node of the search for patterns stands for (it is plain Python)."""


class Stopped(Exception):
    """Somebody asked to stop."""


class Spent(Exception):
    """The units are used up: what is found so far stands, and what is not proved stays so."""


@dataclass
class Work:
    """Units left, and whether somebody wants to stop."""

    left: int
    job: Job | None = None
    tell: Callable[[object], None] = field(default=lambda _: None)

    def spend(self, units: int) -> None:
        """Take `units` off. Raises `Spent` where that was more than there are, `Stopped` where asked to."""
        if self.stopped():
            raise Stopped
        self.left -= units
        if self.left < 0:
            raise Spent

    def stopped(self) -> bool:
        """Tell whether somebody asked to stop."""
        return self.job is not None and self.job.stopped()

    def part(self, units: int) -> "Work":
        """Give a part of what is left to one step; what the step leaves goes back with `take_back`."""
        given = max(0, min(units, self.left))
        self.left -= given
        return Work(given, self.job, self.tell)

    def take_back(self, part: "Work") -> None:
        """Get back what a step has not used."""
        self.left += max(0, part.left)
