"""Strips, strip sets and segments of a chequered grid, as exact arithmetic. All lengths in inches."""

from dataclasses import dataclass, replace
from fractions import Fraction

from boltend.plugin import Cannot, Settings, ceil_div, floor_div
from boltend_block_units.parts import Size, sized

MOST_STRIPS = 10_000
"""More strips than a whole shop holds: a slip of the keyboard."""


@dataclass(frozen=True, slots=True)
class Kind:
    """Strip sets of one kind, each of `dark` and `light` strips, and the segments wanted from them."""

    name: str
    dark: int
    light: int
    segments: int
    sets: int

    def lengths(self, each: int) -> list[tuple[int, int]]:
        """Segments in a set, and how many such sets: full ones of `each`, and the last one, if it is
        shorter."""
        full, rest = divmod(self.segments, each)
        return [(n, sets) for n, sets in ((each, full), (rest, 1)) if n and sets]


@dataclass(frozen=True, slots=True)
class Grid:
    """All that a number of units takes; `ready` is the width of the cloth that the strips are cut from."""

    size: Fraction
    patches: int
    seam: Fraction
    squaring: Fraction
    ready: Fraction
    strip: Size
    segments_each: int
    kinds: tuple[Kind, Kind]
    units: int

    @property
    def dark_strips(self) -> int:
        """Strips of the dark fabric, in all sets."""
        return sum(kind.dark * kind.sets for kind in self.kinds)

    @property
    def light_strips(self) -> int:
        """Strips of the light fabric, in all sets."""
        return sum(kind.light * kind.sets for kind in self.kinds)

    @property
    def sewn(self) -> Fraction:
        """The raw side of a unit before it is trimmed: n strips less the seams between them."""
        return self.patches * self.strip.cut - 2 * self.seam * (self.patches - 1)

    @property
    def set_length(self) -> Fraction:
        """The length of all strip sets together."""
        pairs = (pair for kind in self.kinds for pair in kind.lengths(self.segments_each))
        return sum((sets * strip_length(segments, self) for segments, sets in pairs), Fraction(0))

    @property
    def seams(self) -> Fraction:
        """All seams, raw edge to raw edge: along the sets, then between the segments of every unit."""
        return (self.patches - 1) * (self.set_length + self.units * self.sewn)


def grid(
    size: Fraction,
    patches: int,
    count: int,
    fabrics: tuple[str | None, str | None],
    usable_width: Fraction,
    squaring: Fraction,
    setting: Settings,
) -> Grid:
    """The strips of `count` grids of a finished size. Raises `Cannot` where no segment fits the cloth."""
    strip = sized(size / patches + 2 * setting.seam, setting)
    ready, lost = _cloth(fabrics, replace(setting, usable_width=usable_width, squaring=squaring))
    each = floor_div(ready - lost, strip.cut) if ready > lost else 0
    if not each:
        raise Cannot("usable_width", "no segment is left of a strip once it is squared.",
                     "Take a wider fabric, a smaller unit or more patches.")  # fmt: skip
    kinds = tuple(replace(kind, sets=ceil_div(kind.segments, each)) for kind in _kinds(patches, count))
    made = Grid(size, patches, setting.seam, lost, ready, strip, each, (kinds[0], kinds[1]), count)
    if made.dark_strips + made.light_strips > MOST_STRIPS:
        raise Cannot("count", "that takes more than 10 000 strips.", "Make fewer units.")
    return made


def strip_length(segments: int, grid: Grid) -> Fraction:
    """How long the strips of a set are that gives so many segments: these, and what squaring takes."""
    return segments * grid.strip.cut + grid.squaring


def _kinds(patches: int, count: int) -> tuple[Kind, Kind]:
    """Sets with dark outside, and with light outside: of an even grid, one kind does for all segments."""
    more, fewer = (patches + 1) // 2, patches // 2
    if more == fewer:
        return Kind(_pattern(patches, 0), more, fewer, patches * count, 0), Kind("", 0, 0, 0, 0)
    return (
        Kind(_pattern(patches, 0), more, fewer, more * count, 0),
        Kind(_pattern(patches, 1), fewer, more, fewer * count, 0),
    )


def _pattern(patches: int, first: int) -> str:
    """A strip set in letters, A dark and B light: ABA, BAB, ABAB."""
    return "".join("AB"[(first + n) % 2] for n in range(patches))


def _cloth(fabrics: tuple[str | None, str | None], setting: Settings) -> tuple[Fraction, Fraction]:
    """Width to cut from and loss to squaring: those of the narrower fabric, and of the one that loses more.

    A cloth that is washed first has shrunk before the strips are cut.
    """
    own = [setting.on(fabric) for fabric in fabrics]
    ready = min(each.usable_width * (100 - each.prewash_across) / 100 for each in own)
    return ready, max(each.squaring for each in own)
