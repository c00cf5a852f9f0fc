"""The most pieces of one size out of one sheet, by straight cuts from edge to edge."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal


@dataclass(frozen=True, slots=True)
class Block:
    """A rectangle of the sheet cut into `columns` × `rows` equal pieces; none means left over."""

    across_from: Fraction
    along_from: Fraction
    across: Fraction
    along: Fraction
    columns: int
    rows: int
    turned: bool


@dataclass(frozen=True, slots=True)
class Split:
    """A cut from edge to edge: at `across` the part before it is so wide, at `along` so long."""

    cut_at: Literal["across", "along"]
    at: Fraction
    first: "Split | Block"
    second: "Split | Block"


@dataclass(frozen=True, slots=True)
class Yield:
    """How many pieces, and the cuts that give them; `proved` is no where the sizes passed the search's cap."""

    pieces: int
    layout: Split | Block
    proved: bool

    def blocks(self) -> tuple[Block, ...]:
        """List the rectangles that hold pieces, in the order of the cuts."""
        raise NotImplementedError


def yield_of(
    part: tuple[Fraction, Fraction, bool], sheet: tuple[Fraction, Fraction]
) -> Yield:
    """Cut as many pieces (across, along, may it turn; inches) as can be from one sheet (across, along)."""
    raise NotImplementedError
