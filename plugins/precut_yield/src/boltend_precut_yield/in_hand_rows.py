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
from boltend_precut_yield.yield_words import Size

MOST_ROWS = 40
"""More rows than a list to be read: each is cut by a search of its own."""


@row
class Yards:
    """A length off a bolt. Beside a fabric the platform counts `have` as what is in hand of it."""

    have: Length = given(
        "Length", least="1 in", most="1000 yd", step="buying", unit="yd", example=("3 yd", "3 m")
    )
    name: Text | None = given("Name", example="cream")
    width: Length | None = given(
        "Width",
        least="1 in",
        most="200 in",
        help="Where it is not the usable width, as of half a width.",
        empty="usable",
    )
    fabric: Fabric | None = given("Fabric", help="Named, To cut has its pieces, and this length is in hand.")


@row
class Precuts:
    """Precuts, alike."""

    precut: TableRow = given("Precut", table="precuts")
    how_many: Count | None = given(
        "How many",
        least="1",
        most="100000",
        help="Left empty: 1, or of a pack all its pieces.",
        empty="1, pack",
    )
    name: Text | None = given("Name", example="florals")
    fabric: Fabric | None = given("Fabric", help="Named, its pieces go into To cut.")


@dataclass(frozen=True, slots=True)
class Cloth:
    """One row: `count` sheets of `width` × `length` inches, of which `usable` is left to cut.

    `unsquared` is what would be left if the ends were square; `fabric` is the project's, where it is named;
    `of_bolt` is no for a precut, `counted` where To buy cannot count it as in hand.
    """

    name: str
    count: int
    width: Fraction
    length: Fraction
    squaring: Fraction
    unsquared: Size
    fabric: str | None
    of_bolt: bool = True
    counted: bool = True

    @property
    def usable(self) -> Size:
        """What is left across and along once its end is square; nothing where that takes all of it."""
        across, along = self.unsquared
        return across, max(along - self.squaring, Fraction(0))

    @property
    def area(self) -> Fraction:
        """Square inches of all its sheets, as they are in hand."""
        return self.count * self.width * self.length

    def lines(self) -> list[Line]:
        """Its size, and what washing and squaring leave of it."""
        along = yards if self.of_bolt else length
        size = length(self.width), along(self.length)
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


def cloths(lengths: Sequence[Yards], precuts: Sequence[Precuts], setting: Settings) -> list[Cloth]:
    """The rows as sheets of cloth.

    A length off a bolt is as wide as its row says, or else its fabric, and loses `squaring` once, along; a
    precut loses nothing. Washing shrinks both, where the settings say so. Raises `Cannot`.
    """
    if not lengths and not precuts:
        raise Cannot("fabrics", "there is none.", "Add a row with its length, or one of precuts.")
    if len(lengths) + len(precuts) > MOST_ROWS:
        raise Cannot("fabrics", f"there are more than {MOST_ROWS} rows.", "Put what is alike into one.")
    return [_length(each, number, setting) for number, each in enumerate(lengths, 1)] + [
        _precut(each, setting) for each in precuts
    ]


def _length(row: Yards, number: int, setting: Settings) -> Cloth:
    name = row.name or row.fabric or f"fabric {number}"
    own = setting.on(row.fabric)
    cloth = _sheet(name, (row.width or own.usable_width, row.have), 1, own, row.fabric)
    return replace(cloth, counted=row.width is None)


def _precut(row: Precuts, setting: Settings) -> Cloth:
    across, along, pack = (row.precut[column] for column in ("width", "length", "pieces"))
    if not isinstance(across, Fraction) or not isinstance(along, Fraction):
        raise Cannot("precuts", "its size is not in the table.", "Choose another, or write its size there.")
    name = row.name or row.fabric or str(row.precut["name"])
    count = row.how_many or (pack if isinstance(pack, int) else 1)
    own = replace(setting.on(row.fabric), squaring=Fraction(0))
    return replace(_sheet(name, (across, along), count, own, row.fabric), of_bolt=False, counted=False)


def _sheet(name: str, size: Size, count: int, own: Settings, fabric: str | None) -> Cloth:
    left = size[0] * (1 - own.prewash_across / 100), size[1] * (1 - own.prewash_along / 100)
    return Cloth(name, count, *size, own.squaring, left, fabric)
