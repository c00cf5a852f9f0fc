"""Borders as a person lists them, and as they lie round the top, each outside the last."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby
from typing import Literal

from boltend.plugin import (
    ROOT2,
    Cannot,
    Fabric,
    Finished,
    Length,
    Number,
    Settings,
    Text,
    given,
    row,
)

MOST_BORDERS = 50
"""More borders than any quilt wears: a slip of the keyboard."""
LEAST_WIDTH = Fraction(1, 4)
"""Inches, finished: a border is at least so wide, or there is none."""


CORNERS = {
    "sides first": "The sides as long as the top, then the ends over them.",
    "ends first": "The ends as wide as the top, then the sides over them.",
    "mitred": "Sides and ends meet at 45°; both are cut longer.",
    "cornerstones": "A square in each corner; sides and ends as long as the top.",
}


@row
class Border:
    """A border that goes all round."""

    name: Text | None = given("Name", empty="Border {}")
    width: Finished = given(
        "Width",
        least="0 in",
        step="1/2 in",
        help="Of the sides; of the ends too, unless said. 0 where there is none.",
        example=("4 in", "10 cm"),
    )
    width_ends: Finished | None = given(
        "Width of the ends", least="0 in", help="Where they differ.", empty="as the sides"
    )
    corners: Literal["sides first", "ends first", "mitred", "cornerstones"] = given(
        "Corners", default="sides first", choices=CORNERS
    )
    grain: Literal["crosswise", "lengthwise"] = given("Grain", default="crosswise")
    fabric: Fabric | None = given("Fabric")
    cornerstone_fabric: Fabric | None = given(
        "Cornerstone fabric", help="The border's own, unless said.", empty="the border's"
    )
    spare: Length = given("Spare on each strip", default="0 in", least="0 in", help="A mitre likes some.")


@dataclass(frozen=True, slots=True)
class Laid:
    """A border in its place. Inches; `inner` and `outer` are (width, height) finished, before and after it.

    `sides`, `ends` are the exact cut lengths of its strips with their spare, `strip`, `strip_ends` the cut
    widths; for a mitre, `around` and `mitred_width` are the finished size inside, and the summed width,
    of all the borders mitred together with it. Sides or ends without a width are none: what is said of them
    then means nothing.
    """

    name: str
    border: Border
    inner: tuple[Fraction, Fraction]
    sides: Number
    ends: Number
    strip: Fraction
    strip_ends: Fraction
    around: tuple[Fraction, Fraction]
    mitred_width: Fraction = Fraction(0)

    @property
    def width_ends(self) -> Fraction:
        """The finished width of its ends."""
        return ends_of(self.border)

    @property
    def has_sides(self) -> bool:
        """Whether it goes along the sides."""
        return self.border.width > 0

    @property
    def has_ends(self) -> bool:
        """Whether it goes along the ends."""
        return self.width_ends > 0

    @property
    def cornerstones(self) -> int:
        """Four, or none: a corner has sides and ends."""
        return 4 if self.border.corners == "cornerstones" and self.has_sides and self.has_ends else 0

    @property
    def fabrics(self) -> set[str | None]:
        """The fabrics that it is cut from; None is one that nobody named."""
        border = self.border
        own = {border.fabric}
        return own | {border.cornerstone_fabric or border.fabric} if self.cornerstones else own

    @property
    def outer(self) -> tuple[Fraction, Fraction]:
        """The finished size after it."""
        return self.inner[0] + 2 * self.border.width, self.inner[1] + 2 * self.width_ends


def ends_of(border: Border) -> Fraction:
    """The finished width of a border's ends: its own, or that of its sides."""
    return border.width if border.width_ends is None else border.width_ends


def lay(top: tuple[Fraction, Fraction], borders: tuple[Border, ...], setting: Settings) -> list[Laid]:
    """Lay the borders round a top of a finished (width, height), the first one innermost.

    One without any width is no border, and left out. Raises `Cannot` where a border is narrower than a
    border can be, or a mitre would not be one of 45°.
    """
    if not borders:
        raise Cannot("borders", "there is none.", "Add a border with its width.")
    if len(borders) > MOST_BORDERS:
        raise Cannot("borders", f"there are more than {MOST_BORDERS}.", "Keep those that the quilt wears.")
    named = _named(borders)
    for name, border in named:
        _check(name, border)
    there = [(name, border) for name, border in named if not _is_none(border)]
    laid: list[Laid] = []
    for mitred, group in groupby(there, key=lambda item: item[1].corners == "mitred"):
        inner = laid[-1].outer if laid else top
        laid += (_mitred if mitred else _squared)(list(group), inner, setting)
    return laid


def none_of(borders: tuple[Border, ...]) -> list[str]:
    """The names of those that have no width, as a spacer that was found to be none."""
    return [name for name, border in _named(borders) if _is_none(border)]


def _named(borders: tuple[Border, ...]) -> list[tuple[str, Border]]:
    return [(border.name or f"Border {number}", border) for number, border in enumerate(borders, 1)]


def _is_none(border: Border) -> bool:
    return border.width == 0 == ends_of(border)


def _check(name: str, border: Border) -> None:
    for width in (border.width, ends_of(border)):
        if width != 0 and width < LEAST_WIDTH:
            why = f"{name} has a finished width of less than 1/4 in (6.35 mm)."
            raise Cannot("borders", why, "Give that at least, or 0 where there is no border.")
    if border.spare < 0:
        raise Cannot("borders", f"the spare of {name} is below zero.", "Give zero or more.")
    if border.corners == "mitred" and ends_of(border) != border.width:
        raise Cannot(
            "borders",
            f"{name} is mitred, but its sides and ends differ in width, so its mitre is not one of 45°.",
            "Give both one width, or choose other corners.",
        )


def _squared(
    group: list[tuple[str, Border]], inner: tuple[Fraction, Fraction], setting: Settings
) -> Iterator[Laid]:
    seams = 2 * setting.seam
    for name, border in group:
        width, height = inner
        sides, ends = height + seams + border.spare, width + seams + border.spare
        if border.corners == "sides first":
            ends += 2 * border.width
        elif border.corners == "ends first":
            sides += 2 * ends_of(border)
        laid = Laid(name, border, inner, sides, ends, *_strips(border, setting), inner)
        yield laid
        inner = laid.outer


def _mitred(
    group: list[tuple[str, Border]], inner: tuple[Fraction, Fraction], setting: Settings
) -> Iterator[Laid]:
    """Borders mitred together are sewn together first, and count as one of their summed width."""
    total = sum((border.width for _, border in group), Fraction(0))
    more = 2 * total + 2 * setting.seam * (1 + ROOT2)
    width, height = inner
    for name, border in group:
        sides, ends = height + more + border.spare, width + more + border.spare
        laid = Laid(name, border, inner, sides, ends, *_strips(border, setting), (width, height), total)
        yield laid
        inner = laid.outer


def _strips(border: Border, setting: Settings) -> tuple[Fraction, Fraction]:
    """Cut widths of the strips of sides and ends: rounded up, to be trimmed to their exact width."""
    seams = 2 * setting.seam
    return setting.cut_up(border.width + seams), setting.cut_up(ends_of(border) + seams)
