"""One precut as it lies before the knife."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from boltend.plugin import Cannot, Line, Settings, cut, length, line


@dataclass(frozen=True, slots=True)
class PrecutSheet:
    """A precut of `width` across the bolt and `length` along the selvage, cut inches; `pack` in a pack.

    `squaring` is lost each way; `unheeded` is a squaring that the project says, which is for bolts.
    """

    name: str
    width: Fraction
    length: Fraction
    pack: int
    squaring: Fraction
    unheeded: Fraction = Fraction(0)

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
        if self.unheeded:
            words = "The project's squaring of {} is for bolts: a precut loses none unless this tab says so."
            said.append(line(words, length(self.unheeded)))
        return said

    def packs(self, count: int) -> list[Line]:
        """How many packs so many are, where they come in packs."""
        if self.pack <= 1:
            return []
        return [line("{} in a pack: {} packs hold {}.", self.pack, -(-count // self.pack), count)]


def precut_sheet(
    row: Mapping[str, object] | None,
    width: Fraction | None,
    length: Fraction | None,
    squaring: Fraction,
    setting: Settings,
) -> PrecutSheet:
    """The precut of the table, or of the sizes given, which speak before the table's.

    A project's squaring is that of bolts, so it counts here only where the tab itself says it; else a precut
    loses nothing. Raises `Cannot` where its size is not said, or squaring leaves none of it.
    """
    of_row = row or {}
    across, along = width or of_row.get("width"), length or of_row.get("length")
    if not isinstance(across, Fraction) or not isinstance(along, Fraction):
        raise Cannot("precut", "its size is not said.", "Choose a precut, or give its width and length.")
    told = "squaring" in setting.fixed
    lost, unheeded = (squaring, Fraction(0)) if told else (Fraction(0), squaring)
    if lost >= min(across, along):
        raise Cannot("squaring", "it takes the whole precut.", "Give less, or a larger precut.")
    pack = of_row.get("pieces")
    in_a_pack = pack if isinstance(pack, int) else 1
    return PrecutSheet(str(of_row.get("name", "precut")), across, along, in_a_pack, lost, unheeded)
