"""Who makes cutting plans: this thread, or a process of its own while a screen goes on."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Protocol

from boltend.core.cutting import Job, Part, Plan, Proof, Stock, plan_pooled

Groups = Sequence[Sequence[Part]]


@dataclass(frozen=True)
class CutTask:
    """One plan to make; `effort` stands for time and `stacks` for sorts of strips, as in `cutting.plan`."""

    groups: Groups
    stock: Stock
    effort: int
    proof: Proof | None = None
    stacks: bool = True


class Stopping(Protocol):
    """One who may want the lists no longer."""

    def stopped(self) -> bool:
        """Tell whether to stop."""


class Quiet:
    """A wish to stop, for the engine: plans of single fabrics are not reported."""

    def __init__(self, job: Stopping) -> None:
        self.stopped = job.stopped

    def better(self, answer: object, bound: object) -> None:
        """Keep it to itself."""


Cutter = Callable[[CutTask, Stopping | None], Plan]
"""Makes a plan; stopped, it gives the best so far."""


def cut_here(task: CutTask, job: Stopping | None) -> Plan:
    """Make the plan in this thread."""
    return cut(task, None if job is None else Quiet(job))


def cut(task: CutTask, job: Job | None) -> Plan:
    """Make the plan, and tell `job` of every better one."""
    return plan_pooled(task.groups, task.stock, job, stacks=task.stacks, effort=task.effort, proof=task.proof)
