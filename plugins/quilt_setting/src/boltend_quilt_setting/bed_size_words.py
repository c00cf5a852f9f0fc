"""The working and the cautions of a quilt for a bed, in words."""

from dataclasses import dataclass
from fractions import Fraction

from boltend.plugin import ROOT2, Line, finished, length, line, percent

LEAST_TUCK = Fraction(10)
"""Inches: below this a fold over the pillows is too small. Source: as `PRINTED`."""

PRINTED = "Amish Country Lanes, undated; Quilting Company, 2022"
"""Quilt size measurements, and Suggested quilt measurements for standard bed sizes, read together."""

SMALL = Fraction(30), Fraction(60)
"""Inches: a mattress within this is a baby's or a toddler's, whatever it is called. It holds every cot of the
table (the largest is 70 × 140 cm) and no bed; the line itself is ours, no source."""

INFANT = (
    "A size for a crib or cot: a quilt is no bedding for a sleeping infant under twelve months. Safe-sleep "
    "guidance says a bare cot, with no quilt, pillow or loose blanket in it (American Academy of Pediatrics, "
    "2022; NHS, Safer sleep). Follow what holds where you live, and ask a doctor, midwife or health visitor."
)


@dataclass(frozen=True, slots=True)
class Covers:
    """A mattress and how far the quilt reaches beyond it; inches. `depth` is None where nobody knows it.

    `infant` tells whether a baby sleeps in it; where nobody says (None) its size does.
    """

    bed: str
    source: str
    width: Fraction
    length: Fraction
    depth: Fraction | None
    depth_measured: bool
    infant: bool | None
    drop: Fraction
    foot_drop: Fraction
    tuck: Fraction

    @property
    def across(self) -> Fraction:
        """The width that covers it."""
        return self.width + 2 * self.drop

    @property
    def along(self) -> Fraction:
        """The length that covers it."""
        return self.length + self.foot_drop + self.tuck

    @property
    def for_infant(self) -> bool:
        """Whether a baby may sleep on it."""
        if self.infant is not None:
            return self.infant
        short, long = sorted((self.width, self.length))
        return short <= SMALL[0] and long <= SMALL[1]


def working(covers: Covers, take_up: Fraction, of_table: tuple[bool, bool]) -> list[Line | str]:
    """How the size came about; `of_table` says whether width and length are the table's."""
    lines = [_mattress(covers, of_table)]
    width = "width = {} + 2 × {} drop = {} finished"
    lines.append(line(width, length(covers.width), length(covers.drop), finished(covers.across)))
    height, values = "height = {} + {} at the foot", [length(covers.length), length(covers.foot_drop)]
    if covers.tuck:
        height, values = height + " + {} tuck", [*values, length(covers.tuck)]
    lines.append(line(height + " = {} finished", *values, finished(covers.along)))
    return [*lines, *_take_up(covers, take_up), *_corner(covers), *_depth(covers)]


def _mattress(covers: Covers, of_table: tuple[bool, bool]) -> Line:
    size = length(covers.width), length(covers.length)
    if covers.bed and all(of_table):
        return line("{} mattress: {} × {}. {}.", covers.bed, *size, covers.source)
    if covers.bed and any(of_table):
        other = "length" if of_table[1] else "width"
        words = "mattress: {} × {}, its {} as for {}, the other one as given"
        return line(words, *size, other, covers.bed)
    return line("mattress: {} × {}, as given", *size)


def _take_up(covers: Covers, take_up: Fraction) -> list[Line | str]:
    if not take_up:
        words = "nothing is added for what quilting takes up, in print {} to {} ({}); a percent may be given"
        return [line(words, length(1), length(3), PRINTED)]
    kept = 1 - take_up / 100
    said: list[Line | str] = []
    for name, size in (("width", covers.across), ("height", covers.along)):
        words = f"{name} to make = {{}} ÷ (1 − {{}}) = {{}} finished"
        said.append(line(words, finished(size), percent(take_up), finished(size / kept)))
    return said


def _corner(covers: Covers) -> list[Line | str]:
    """Where a square corner hangs: its diagonal, which is longer than the drop."""
    if not covers.drop or covers.drop != covers.foot_drop:
        return []
    words = "a square corner at the foot hangs lower than the edges: {} × √2 = {}"
    return [line(words, length(covers.drop), length(covers.drop * ROOT2))]


def _depth(covers: Covers) -> list[Line | str]:
    if covers.depth is None:
        return ["how deep the mattress is, nobody says: measure it, the drop should be at least that"]
    if covers.depth_measured:
        return [line("the mattress is {} deep, as given", length(covers.depth))]
    words = (
        "the mattress is usually up to {} deep, some more: measure yours, the drop should be at least that"
    )
    return [line(words, length(covers.depth))]


def cautions(covers: Covers) -> list[Line | str]:
    """A baby's sleep, a mattress that shows, a tuck that is too short."""
    said: list[Line | str] = [INFANT] if covers.for_infant else []
    said += _shows(covers)
    if 0 < covers.tuck < LEAST_TUCK:
        words = f"A tuck below {{}} is found too small to go over pillows ({PRINTED})."
        said.append(line(words, length(LEAST_TUCK)))
    return said


def _shows(covers: Covers) -> list[Line | str]:
    if covers.depth is None:
        return []
    deep = "the mattress is deep, {}" if covers.depth_measured else "such a mattress may be deep, {}"
    words = f"A drop of {{}} {{}} is less than {deep}: some of it will show."
    # A foot without any drop is meant: there is a footboard.
    places = [("at the sides", covers.drop, True), ("at the foot", covers.foot_drop, covers.foot_drop > 0)]
    if covers.drop == covers.foot_drop:
        places = [("all round", covers.drop, True)]
    return [
        line(words, length(drop), where, length(covers.depth))
        for where, drop, counts in places
        if counts and drop < covers.depth
    ]
