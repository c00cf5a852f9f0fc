"""Fabrics in hand as a person lists them, and as they lie before the knife."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from boltend.plugin import (
    Cannot,
    Count,
    Fabric,
    Length,
    Line,
    Settings,
    TableRow,
    Text,
    given,
    length,
    line,
    row,
    yards,
)

MOST_ROWS = 40
"""More rows than a list to be read: each is cut by a search of its own."""


@row
class InHand:
    """Cloth of one size: a length off a bolt, or a precut."""

    name: Text | None = given("Name", example="cream")
    length: Length | None = given(
        "Length", least="1 in", most="1000 yd", unit="yd", empty="the precut's", example=("3 yd", "3 m")
    )
    how_many: Count | None = given(
        "How many",
        least="1",
        most="100000",
        help="Lengths or precuts alike. Left empty: 1, or of a pack all its pieces.",
        empty="1, pack",
    )
    precut: TableRow | None = given("Or a precut", table="precuts")
    width: Length | None = given(
        "Width",
        least="1 in",
        most="200 in",
        help="Where it is not the usable width, as of a half width.",
        empty="usable",
    )
    fabric: Fabric | None = given("Fabric", help="Named, its pieces go into To cut.")


@dataclass(frozen=True, slots=True)
class Cloth:
    """One row: `count` sheets of `width` × `length` inches, of which `usable` is left to cut.

    `unsquared` is what would be left if the ends were square; `fabric` is the project's, where it is named.
    """

    name: str
    count: int
    width: Fraction
    length: Fraction
    squaring: Fraction
    unsquared: tuple[Fraction, Fraction]
    fabric: str | None

    @property
    def usable(self) -> tuple[Fraction, Fraction]:
        """What is left across and along once its end is square; nothing where that takes all of it."""
        across, along = self.unsquared
        return across, max(along - self.squaring, Fraction(0))

    @property
    def area(self) -> Fraction:
        """Square inches of all its sheets, as they are in hand."""
        return self.count * self.width * self.length

    def lines(self) -> list[Line]:
        """Its size, and what washing and squaring leave of it."""
        size = length(self.width), yards(self.length)
        if self.count == 1:
            said = [line("{}: {} wide, {} long.", self.name, *size)]
        else:
            said = [line("{}: {} sheets, each {} wide, {} long.", self.name, self.count, *size)]
        if self.unsquared != (self.width, self.length):
            said.append(line("Washed first: {} × {} are left.", *map(length, self.unsquared)))
        if self.squaring:
            words = "{} to square its end: {} × {} are left."
            said.append(line(words, length(self.squaring), *map(length, self.usable)))
        return said


def cloths(rows: Sequence[InHand], setting: Settings) -> list[Cloth]:
    """The rows as sheets of cloth.

    A length off a bolt is as wide as its row says, or else its fabric, and loses `squaring` once, along; a
    precut loses nothing, and is of its table's size where the row says no other. Washing shrinks both, where
    the settings say so. Raises `Cannot` where a size is not said.
    """
    if not rows:
        raise Cannot("fabrics", "there is none.", "Add a row with its length, or a precut.")
    if len(rows) > MOST_ROWS:
        raise Cannot("fabrics", f"there are more than {MOST_ROWS} rows.", "Put what is alike into one.")
    return [_cloth(row, number, setting) for number, row in enumerate(rows, 1)]


def _cloth(row: InHand, number: int, setting: Settings) -> Cloth:
    of_table = row.precut or {}
    name = str(row.name or row.fabric or of_table.get("name") or f"fabric {number}")
    own = setting.on(row.fabric)
    if row.precut is not None:
        own = replace(own, squaring=Fraction(0))
    along = row.length or of_table.get("length")
    across = row.width or of_table.get("width") or own.usable_width
    if not isinstance(along, Fraction) or not isinstance(across, Fraction):
        raise Cannot("fabrics", f"{name} has no length.", "Give its length in yards, or choose a precut.")
    pack = of_table.get("pieces")
    count = row.how_many or (pack if isinstance(pack, int) else 1)
    kept = 1 - own.prewash_across / 100, 1 - own.prewash_along / 100
    if min(kept) <= 0:
        raise Cannot("fabrics", f"washing would leave nothing of {name}.", "Give a loss below 100 %.")
    left = across * kept[0], along * kept[1]
    return Cloth(name, count, across, along, own.squaring, left, row.fabric)
