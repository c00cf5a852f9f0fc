"""A running search, as a calculator sees it."""

from typing import Protocol

from boltend.core.contract.answer import Answer


class Job(Protocol):
    """Handed to a calculator that declares `job`: tells it when to stop, hears of better answers."""

    def better(self, answer: Answer, bound: object = None) -> None:
        """Tell of a better answer so far, and the proved bound where there is one."""

    def stopped(self) -> bool:
        """Whether the person, or the clock, asked to stop: answer with the best so far."""
        ...
