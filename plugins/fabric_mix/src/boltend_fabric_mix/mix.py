"""What a mix is: so many blocks of each combination of fabrics."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from boltend_fabric_mix.meets import Block


@dataclass(frozen=True)
class Mix:
    """Blocks by combination, in the order in which they are listed.

    `at_most` is the proved greatest number of blocks (no more than are wanted); `even` says whether no other
    mix of as many blocks is proved to use the fabrics more evenly.
    """

    blocks: Mapping[Block, int]
    at_most: int
    even: bool

    @property
    def made(self) -> int:
        """How many blocks it makes."""
        return sum(self.blocks.values())

    @property
    def proved(self) -> bool:
        """Whether no other mix makes more blocks."""
        return self.made == self.at_most


def uses_of(blocks: Mapping[Block, int], fabrics: int) -> list[int]:
    """How many blocks each fabric is in."""
    uses = [0] * fabrics
    for block, count in blocks.items():
        for i in block:
            uses[i] += count
    return uses


def by_order(blocks: Mapping[Block, int]) -> dict[Block, int]:
    """The same, those of most blocks first, then by the fabrics' places."""
    return dict(sorted(((b, n) for b, n in blocks.items() if n), key=lambda each: (-each[1], each[0])))


def steps(uses: Sequence[int]) -> list[tuple[int, int]]:
    """How even uses are: each number of uses that occurs, from the most, and how many fabrics reach it.

    Of two mixes of as many blocks the more even one has the lesser list, compared from the front: its most
    used fabric is used less, or fewer fabrics are used as much, and so on down.
    """
    counted = Counter(uses)
    done, found = 0, []
    for number in sorted(counted, reverse=True):
        done += counted[number]
        found.append((number, done))
    return found
