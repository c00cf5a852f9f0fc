"""The engine as a calculator asks it, and a watch on whether it looks at what does not fit.

A plan that leaves something out is no error of the engine's: To cut shows such pieces by themselves. A
calculator that goes on from its length alone is silently wrong, so the kit for authors watches.
"""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field, fields

from boltend.core.cutting.engine import EFFORT
from boltend.core.cutting.planner import plan
from boltend.core.cutting.plans import Plan, Unplaced
from boltend.core.cutting.shapes import Job, Part, Stock


def cutting_plan(
    demand: Sequence[Part],
    stock: Stock,
    job: Job | None = None,
    *,
    stacks: bool = True,
    effort: int = EFFORT,
) -> Plan:
    """Cut `demand` from `stock`: what is in hand first, in its order, then the endless bolt.

    Look at `unplaced` of the plan before anything else: what does not fit the cloth, or has no cloth left, is
    **not** cut, raises nothing, and is in no `length_used` or `sheets_used`. Each has `part`, `count`, `why`.
    Without `stacks` pieces lie side by side only; `effort` stands for time (0: the quickest). The same
    input always gives the same plan.

    Raises:
        ValueError: a size or a count that is not above 0.
    """
    found = plan(demand, stock, job, stacks=stacks, effort=effort)
    watched = _watched.get()
    if watched is None:
        return found
    seen = _Seen(**{each.name: getattr(found, each.name) for each in fields(Plan)})
    seen.looks.clear()
    watched.append(seen)
    return seen


@contextmanager
def unplaced_unseen() -> Iterator[list[Unplaced]]:
    """While it lasts, plans are watched; at its end the list holds what was left out and never looked at."""
    watched: list[_Seen] = []
    unseen: list[Unplaced] = []
    token = _watched.set(watched)
    try:
        yield unseen
    finally:
        _watched.reset(token)
        unseen += [each for seen in watched if not seen.looks for each in seen.unplaced]


@dataclass(frozen=True)
class _Seen(Plan):
    """A plan that knows whether somebody asked what it leaves out."""

    looks: list[str] = field(default_factory=list, compare=False, repr=False)

    def __getattribute__(self, name: str) -> object:
        if name == "unplaced":
            object.__getattribute__(self, "__dict__").setdefault("looks", []).append(name)
        return object.__getattribute__(self, name)


_watched: ContextVar[list[_Seen] | None] = ContextVar("watched", default=None)
