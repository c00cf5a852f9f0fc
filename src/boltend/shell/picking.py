"""Lists from which only what fits all that was typed is ever taken."""

from collections.abc import Sequence
from typing import TypeVar

from textual.binding import Binding

from boltend.shell.dialogs import Choose, Offer
from boltend.shell.type_ahead import beginning, low

T = TypeVar("T")

_MARKS = "(“”"


class Pick(Choose[T]):
    """A list that typing narrows to what has all words that were typed; what begins so comes first."""

    def fitting(self, typed: str) -> list[Offer[T]]:
        """Those that begin so; then those in which every word that was typed begins a word."""
        words = [word.strip(_MARKS) for word in low(typed).split()]

        def has_all(offer: Offer[T]) -> bool:
            said = [word.strip(_MARKS) for word in low(f"{offer.words} {offer.rest}").split()]
            return all(any(part.startswith(word) for part in said) for word in words)

        fits = [offer for offer in self.offers if has_all(offer) or _begins(offer, typed)]
        return sorted(fits, key=lambda offer: not _begins(offer, typed))


class PickName(Pick[str]):
    """The names that a field may say.

    Whatever is typed, `last` stands below them; Enter alone does not take it.
    """

    BINDINGS = [  # noqa: RUF012 - as Textual declares it
        Binding("home", "move(-1000)", "First", show=False, priority=True),
        Binding("end", "move(1000)", "Last", show=False, priority=True),
    ]

    def __init__(
        self,
        title: str,
        offers: Sequence[Offer[str]],
        *,
        at: str | None,
        typed: str = "",
        last: Offer[str] | None = None,
    ) -> None:
        self.last = last
        none = f"Nothing begins so: Backspace goes back{', ↓ Enter adds it' if last else ''}."
        super().__init__(title, offers, filtered=True, none=none, at=at, typed=typed)

    def fitting(self, typed: str) -> list[Offer[str]]:
        """Those that fit, and the last one."""
        return [*super().fitting(typed), *([self.last] if self.last is not None else [])]

    @property
    def best(self) -> int | None:
        """The first that fits."""
        return None if self.typed and self.in_sight[:1] in ([], [self.last]) else super().best


def _begins(offer: Offer[T], typed: str) -> bool:
    return bool(beginning([offer.words], typed))
