"""The fabrics of a mix: each once, with its cuts and its colour."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Protocol

from boltend.plugin import Cannot, Line, Settings, line
from boltend_fabric_mix.colours import differences
from boltend_fabric_mix.names import named

MOST_FABRICS = 400
"""More have 79,800 pairs of colours, which takes some seconds to compare."""


class InRow(Protocol):
    """A row of the given."""

    @property
    def fabric(self) -> str:
        """The fabric's name."""

    @property
    def cuts(self) -> int:
        """How many blocks its cuts are enough for."""


@dataclass(frozen=True)
class Cloths:
    """The fabrics that have cuts, in the order of their first rows.

    `apart` is how far the colours of every two are apart; None where a colour is missing. `notes` say what a
    person should know of the rows.
    """

    names: tuple[str, ...]
    cuts: tuple[int, ...]
    apart: Sequence[Sequence[Fraction]] | None
    notes: tuple[Line, ...]


def cloths_of(rows: Sequence[InRow], setting: Settings, least: Fraction) -> Cloths:
    """Read the rows: a fabric that is in several has the cuts of all.

    Colours must be known where `least` is more than 0. Raises `Cannot`.
    """
    cuts: dict[str, int] = {}
    for row in rows:
        cuts[row.fabric] = cuts.get(row.fabric, 0) + row.cuts
    notes = [_twice(name, cuts[name]) for name, count in Counter(r.fabric for r in rows).items() if count > 1]
    bare = [name for name, count in cuts.items() if not count]
    if bare:
        notes.append(line("No cuts, so in no block: {}.", named(bare)))
    names = tuple(name for name, count in cuts.items() if count)
    if len(names) > MOST_FABRICS:
        raise Cannot(
            "fabrics",
            f"more than {MOST_FABRICS} different fabrics are not worked out.",
            "Take fewer at a time.",
        )
    apart, note = _apart(names, setting, least)
    return Cloths(names, tuple(cuts[name] for name in names), apart, (*notes, *note))


def _twice(name: str, cuts: int) -> Line:
    return line("{} stands in several rows: one fabric, with {} cuts in all.", name, cuts)


def _apart(
    names: Sequence[str], setting: Settings, least: Fraction
) -> tuple[Sequence[Sequence[Fraction]] | None, list[Line]]:
    colours = [setting.on(name).colour for name in names]
    without = [name for name, colour in zip(names, colours, strict=True) if not colour]
    if not without:
        return differences(colours), []
    have = "has" if len(without) == 1 else "have"
    if least:
        raise Cannot(
            "contrast_least",
            f"{named(without)} {have} no colour that can be read, so no contrast.",
            "Give each its colour among the project's fabrics, as #1f4e79, or set the least contrast to 0.",
        )
    return None, [line("No least contrast is found: {} {} no colour.", named(without), have)]
