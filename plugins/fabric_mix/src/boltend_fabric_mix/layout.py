"""The founds of a mix: its rows, and the least contrast in them."""

from collections.abc import Sequence
from fractions import Fraction
from itertools import combinations

from boltend.plugin import Line, line
from boltend_fabric_mix.cloths import Cloths
from boltend_fabric_mix.meets import Block
from boltend_fabric_mix.mix import Mix
from boltend_fabric_mix.names import contrast

MOST_LETTERS = 500
"""The longest text that a cell may hold; longer names are shortened there and told whole in the working."""


def rows(mix: Mix, cloths: Cloths) -> list[dict[str, object]]:
    """A row a combination, those of most blocks first."""
    return [
        {
            "blocks": count,
            "fabrics": short_names([cloths.names[i] for i in block]),
            "contrast": _least(block, cloths.apart),
        }
        for block, count in mix.blocks.items()
    ]


def least_contrast(mix: Mix, cloths: Cloths) -> Fraction | None:
    """The least contrast of two fabrics in one block; None where colours are missing."""
    return min((c for block in mix.blocks if (c := _least(block, cloths.apart)) is not None), default=None)


def contrast_line(mix: Mix, cloths: Cloths) -> list[Line]:
    """Between which two fabrics the least contrast is."""
    apart = cloths.apart
    if apart is None:
        return []
    pairs = {pair for block in mix.blocks for pair in combinations(block, 2)}
    i, j = min(pairs, key=lambda pair: (apart[pair[0]][pair[1]], pair))
    said = "The least contrast in a block is {}, between {} and {}."
    return [line(said, contrast(apart[i][j]), cloths.names[i], cloths.names[j])]


def long_lines(mix: Mix, cloths: Cloths) -> list[Line]:
    """The combinations whose names are too long for a cell."""
    wholes = [(", ".join(cloths.names[i] for i in block), count) for block, count in mix.blocks.items()]
    return [line("In full, {} ×: {}.", count, whole) for whole, count in wholes if len(whole) > MOST_LETTERS]


def short_names(names: Sequence[str]) -> str:
    """The names in one text that a cell can hold."""
    whole = ", ".join(names)
    if len(whole) <= MOST_LETTERS:
        return whole
    each = MOST_LETTERS // len(names) - 2
    return ", ".join(name if len(name) <= each else f"{name[: each - 1].rstrip()}…" for name in names)


def _least(block: Block, apart: Sequence[Sequence[Fraction]] | None) -> Fraction | None:
    if apart is None:
        return None
    return min(apart[i][j] for i, j in combinations(block, 2))
