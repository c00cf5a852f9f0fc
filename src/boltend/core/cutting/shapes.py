"""What is asked for and what there is to cut it from.

Every size is an exact `Fraction` of an inch in *cut* size: **across** the bolt (from selvage to selvage)
by **along** the selvage. Nothing here knows of seams, squaring or the shop's step: the caller takes those
off first, so that `width` below is the usable width.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, Protocol

Direction = Literal["across", "along"]
"""How the strips of a sheet run: selvage to selvage, or along the selvage."""


class PlanError(Exception):
    """A plan that is not what it says: overlapping, outside the cloth, short, or not cuttable."""


class Job(Protocol):
    """What a search may ask of the one who waits for it."""

    def stopped(self) -> bool:
        """Tell whether to stop now and hand back the best plan so far."""

    def better(self, answer: object, bound: object) -> None:
        """Hear of a better plan and of the least that is still possible."""


def _more_than_nothing(value: Fraction, what: str, name: str) -> None:
    if value <= 0:
        raise ValueError(f"{name}: {what} is {value} in; it must be more than nothing")


@dataclass(frozen=True, slots=True)
class Part:
    """Pieces of one name and one cut size; `may_turn` is no for a one-way print or a fixed grain."""

    name: str
    across: Fraction
    along: Fraction
    count: int
    may_turn: bool = True

    def __post_init__(self) -> None:
        _more_than_nothing(self.across, "its size across", self.name)
        _more_than_nothing(self.along, "its size along", self.name)
        if self.count < 0:
            raise ValueError(f"{self.name}: {self.count} pieces; a count is 0 or more")


@dataclass(frozen=True, slots=True)
class Bolt:
    """Cloth of a usable `width`: endless (to buy from) without a `length`, else one piece in hand."""

    width: Fraction
    length: Fraction | None = None
    name: str = ""

    def __post_init__(self) -> None:
        _more_than_nothing(self.width, "the width", self.name or "bolt")
        if self.length is not None:
            _more_than_nothing(self.length, "the length", self.name or "bolt")


@dataclass(frozen=True, slots=True)
class Sheet:
    """Precuts or remnants of one usable size; `count` None means as many as are wanted."""

    name: str
    across: Fraction
    along: Fraction
    count: int | None = None

    def __post_init__(self) -> None:
        _more_than_nothing(self.across, "its size across", self.name)
        _more_than_nothing(self.along, "its size along", self.name)
        if self.count is not None and self.count < 0:
            raise ValueError(f"{self.name}: {self.count} in hand; a count is 0 or more")


@dataclass(frozen=True, slots=True)
class Stock:
    """The cloth: `sheets` (and bolts with a length) in the order of use, then the endless `bolt`."""

    sheets: tuple[Sheet | Bolt, ...] = ()
    bolt: Bolt | None = None

    def __post_init__(self) -> None:
        if self.bolt is not None and self.bolt.length is not None:
            raise ValueError("the bolt to buy from is endless; put a piece with a length among the sheets")
        for item in self.sheets:
            if isinstance(item, Bolt) and item.length is None:
                raise ValueError("a piece in hand needs a length; an endless bolt goes into `bolt`")

    def lengths(self) -> Iterable[Fraction]:
        """Yield every size of the stock, for the common grid."""
        for item in self.sheets:
            if isinstance(item, Sheet):
                yield from (item.across, item.along)
            elif item.length is not None:
                yield from (item.width, item.length)
        if self.bolt is not None:
            yield self.bolt.width
