"""One precut as it lies before the knife."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from boltend.plugin import Cannot, Line, ceil_div, cut, line


@dataclass(frozen=True, slots=True)
class PrecutSheet:
    """A precut of `width` across the bolt and `length` along the selvage, cut inches; `pack` in a pack.

    `squaring` is lost each way.
    """

    name: str
    width: Fraction
    length: Fraction
    pack: int
    squaring: Fraction

    @property
    def usable(self) -> tuple[Fraction, Fraction]:
        """What is left of it once squared, across and along."""
        return self.width - self.squaring, self.length - self.squaring

    @property
    def area(self) -> Fraction:
        """Square inches as it is bought."""
        return self.width * self.length

    def lines(self) -> list[Line]:
        """Its size, and what squaring takes."""
        said = [line("One piece of {} is {} × {}.", self.name, cut(self.width), cut(self.length))]
        if self.squaring:
            across, along = self.usable
            words = "Squared by {} in each direction: {} × {} are left."
            said.append(line(words, cut(self.squaring), cut(across), cut(along)))
        return said

    def packs(self, count: int, in_hand: int | None) -> list[Line]:
        """How many packs so many are, where they come in packs and none are in hand."""
        if self.pack <= 1 or in_hand is not None:
            return []
        packs = ceil_div(count, self.pack)
        spare = packs * self.pack - count
        said = f"{{}} precuts come in {{}} {'pack' if packs == 1 else 'packs'} of {{}}"
        if not spare:
            return [line(said + ".", count, packs, self.pack)]
        return [line(said + ", with {} to spare.", count, packs, self.pack, spare)]


def precut_sheet(
    row: Mapping[str, object] | None,
    width: Fraction | None,
    length: Fraction | None,
    squaring: Fraction,
) -> PrecutSheet:
    """The precut of the table, or of the sizes given, which speak before the table's.

    Raises `Cannot` where its size is not said, or squaring leaves none of it.
    """
    of_row = row or {}
    across, along = width or of_row.get("width"), length or of_row.get("length")
    if not isinstance(across, Fraction) or not isinstance(along, Fraction):
        raise Cannot("precut", "its size is not said.", "Choose a precut, or give its width and length.")
    if squaring >= min(across, along):
        raise Cannot("squaring", "it takes the whole precut.", "Give less, or a larger precut.")
    pack = of_row.get("pieces")
    in_a_pack = pack if isinstance(pack, int) else 1
    return PrecutSheet(str(of_row.get("name", "precut")), across, along, in_a_pack, squaring)
