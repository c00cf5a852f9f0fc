"""Pictures of a cutting plan: how each piece of cloth is cut, in the order of cutting.

Strips lie one below the other, their length to the right, as a person lays a strip down to sub-cut it: so
the sizes stand beside them as words that can be read. Strips alike of a long cloth are drawn once with "7 ×"
before their width, so that a bolt of five yards stays legible. Where strips are longer than the cloth is wide
(the lengths of a backing), the length of the cloth runs to the right instead.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import NamedTuple

from boltend.core.contract import Rect
from boltend.core.cutting.plans import Kind, Plan, Sheetplan, Strip
from boltend.core.cutting.shapes import Bolt
from boltend.core.drawing.cells import draw
from boltend.core.drawing.framing import Mark
from boltend.core.drawing.picture import Picture, Show
from boltend.core.drawing.widths import NO_BREAK, cells_of

WASTE = "waste"
"""The fill of cloth that becomes no piece."""

_DEEPEST = Fraction(11, 20)  # of the strips' length: what one picture shows of a long cloth
_LONGEST = Fraction(9, 2)  # the same of lengths that are longer than the cloth is wide
_REST = Fraction(1, 10)  # of the strips' length: how much is drawn of a long rest
_LEAST_ROWS = 2.0  # from one strip's edge to the next


class Patch(NamedTuple):
    """One piece in a strip: where it begins and how large it is, along the strip and over its width."""

    along: Fraction
    over: Fraction
    length: Fraction
    width: Fraction
    label: str
    short: str


@dataclass(frozen=True)
class Band:
    """`times` strips alike, or what is left (without patches)."""

    width: Fraction
    words: str
    patches: tuple[Patch, ...] = ()
    drawn: Fraction = Fraction(0)

    @property
    def depth(self) -> Fraction:
        """How wide it is drawn: a long rest is cut short."""
        return self.drawn or self.width


@dataclass(frozen=True)
class CutPicture:
    """How one piece of cloth is cut, or `copies` alike: a title, strips of `run` inches, and a key.

    `ends` says how long the strips are. `key` has a line for each letter in the picture.
    """

    title: str
    run: Fraction
    ends: str
    bands: tuple[Band, ...]
    key: tuple[str, ...]
    fill: str
    upright: bool = False
    copies: int = 1

    def shapes(self, depths: Sequence[Fraction] | None = None) -> list[Rect]:
        """Strips and pieces as rectangles; each strip `depths` wide, or as wide as it is."""
        found, at = [], Fraction(0)
        for band, depth in zip(self.bands, depths or [band.depth for band in self.bands], strict=True):
            words = "" if band.patches else band.words
            found.append(Rect(Fraction(0), at, self.run, depth, WASTE, words))
            for patch in band.patches:
                over, width = patch.over * depth / band.width, patch.width * depth / band.width
                found.append(Rect(patch.along, at + over, patch.length, width, self.fill, patch.label))
            at += depth
        if not self.upright:
            return found
        return [Rect(y, x, high, wide, fill, label) for x, y, wide, high, fill, label in found]


def cut_pictures(
    plan: Plan, show: Show, *, fill: str = "cloth", names: Callable[[Kind], str] | None = None
) -> tuple[CutPicture, ...]:
    """The pictures of a plan, in the order of cutting; a long cloth may take several.

    `fill` names the fabric, `names` says what pieces of one size are, `show` says a length.
    """
    stacks = (stack for each in plan.sheetplans for strip in each.strips for stack in strip.stacks)
    letters = dict(zip(dict.fromkeys(stack.part for stack in stacks), _letters(), strict=False))
    kinds = {kind.label: kind for kind in plan.kinds}
    found: list[CutPicture] = []
    for each in plan.sheetplans:
        drawer = _Drawer(each, show, letters, kinds, names or (lambda kind: kind.label))
        found += drawer.pictures(fill)
    return tuple(found)


def _letters() -> Iterator[str]:
    alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
    yield from alphabet
    for first in alphabet:
        yield from (first + second for second in alphabet)
    number = 1
    while True:
        yield f"#{number}"
        number += 1


@dataclass
class _Drawer:
    each: Sheetplan
    show: Show
    letters: dict[str, str]
    kinds: dict[str, Kind]
    names: Callable[[Kind], str]
    run: Fraction = field(init=False)
    whole: Fraction | None = field(init=False)

    def __post_init__(self) -> None:
        across = self.each.direction == "across"
        run = self.each.across if across else self.each.along
        self.run = run if run is not None else self.each.length_used
        self.whole = self.each.along if across else self.each.across

    def pictures(self, fill: str) -> list[CutPicture]:
        each = self.each
        groups = self._groups()
        pictures = []
        for number, strips in enumerate(groups, 1):
            bands = [self._band(strip) for strip in strips]
            if number == len(groups):
                bands += self._rest()
            used = dict.fromkeys(stack.part for strip in strips for stack in strip.stacks)
            part = f" ({number} of {len(groups)})" if len(groups) > 1 else ""
            upright = sum((band.depth for band in bands), Fraction(0)) > self.run
            turned = ", its length to the right" if upright and self._cloth else ""
            pictures.append(
                CutPicture(
                    title=f"{self._title()}{turned}{part}",
                    run=self.run,
                    ends=self._ends(),
                    bands=tuple(bands),
                    key=tuple(map(self._key, used)),
                    fill=fill,
                    upright=upright,
                    copies=each.copies,
                )
            )
        return pictures

    @property
    def _cloth(self) -> bool:
        """Whether it is cut from a bolt, which has selvages, and not from precuts."""
        return isinstance(self.each.item, Bolt)

    @property
    def _long(self) -> bool:
        """Whether strips alike are drawn once: all of a bolt, and what is too long to be drawn whole."""
        return self.whole is None or self.whole > self.run * 6 / 5

    def _groups(self) -> list[list[Strip]]:
        """Strips that share a picture."""
        if not self._long:
            return [[one for strip in self.each.strips for one in [_one(strip)] * strip.times]]
        groups: list[list[Strip]] = []
        depth, most = Fraction(0), Fraction(0)
        for strip in self.each.strips:
            before, most = most, self.run * (_DEEPEST if strip.width <= self.run else _LONGEST)
            if depth + strip.width > most or most != before:
                groups.append([])
                depth = Fraction(0)
            groups[-1].append(strip)
            depth += strip.width
        return groups or [[]]

    def _band(self, strip: Strip) -> Band:
        patches, at = [], Fraction(0)
        for stack in strip.stacks:
            across = self.each.direction == "across"
            length, width = (stack.across, stack.along) if across else (stack.along, stack.across)
            letter = self.letters[stack.part]
            size = f"{self._tied(stack.across)}{NO_BREAK}× {self._tied(stack.along)}"
            for _ in range(stack.times):
                for level in range(stack.high):
                    patches.append(Patch(at, level * width, length, width, f"{letter} {size}", letter))
                at += length
        words = self.show(strip.width)
        return Band(strip.width, f"{strip.times} × {words}" if strip.times > 1 else words, tuple(patches))

    def _rest(self) -> list[Band]:
        if self.whole is None:
            return []
        rest = self.whole - self.each.length_used
        if rest <= 0:
            return []
        drawn = min(rest, self.run * _REST) if self._long else rest
        return [Band(rest, f"{self._tied(rest)} left", drawn=drawn)]

    def _tied(self, length: Fraction) -> str:
        return self.show(length).replace(" ", NO_BREAK)

    def _title(self) -> str:
        each = self.each
        if each.along is None:
            return "Off the bolt"
        size = f"{self.show(each.across)} × {self.show(each.along)}"
        if self._cloth:
            return f"From what is in hand, {size}"
        return f"One piece, {size}" if each.copies == 1 else f"{each.copies} pieces alike, each {size}"

    def _ends(self) -> str:
        words = self.show(self.run)
        if not self._cloth:
            return words
        across = self.each.direction == "across"
        return f"{words}, selvage to selvage" if across else f"{words} along the selvage"

    def _key(self, part: str) -> str:
        kind = self.kinds[part]
        size = f"{self.show(kind.across)} × {self.show(kind.along)}"
        return f"{self.letters[part]} {size}: {self.names(kind)}"


def _one(strip: Strip) -> Strip:
    return Strip(strip.width, strip.stacks)


def draw_cut(
    picture: CutPicture,
    columns: int,
    rows: int,
    *,
    ascii: bool = False,  # noqa: A002 - as in `draw`
    cell_ratio: float = 2,
) -> Picture:
    """Draw how a piece of cloth is cut, with the strips' widths beside them, in so many cells.

    In proportion, but that a strip too narrow for its words is drawn as wide as they need.
    """
    shorter = {patch.label: patch.short for band in picture.bands for patch in band.patches}
    depths = [band.depth for band in picture.bands]
    if not picture.upright:
        margin = max((cells_of(band.words) for band in picture.bands if band.patches), default=0) + 1
        depths = _legible(picture, depths, columns - margin - 1, rows - 2, cell_ratio)
    drawn = draw(
        picture.shapes(depths),
        columns,
        rows,
        ascii=ascii,
        cell_ratio=cell_ratio,
        shorter=shorter,
        marks=cut_marks(picture, depths),
    )
    return replace(drawn, signs=tuple(sign for sign in drawn.signs if sign.fill == WASTE))


def _first(words: str) -> str:
    return words.partition(",")[0]


def _legible(
    picture: CutPicture, depths: list[Fraction], columns: int, rows: int, ratio: float
) -> list[Fraction]:
    """The strips' widths, none less than its words need at the scale at which all is drawn."""
    if columns < 2 or rows < 2:
        return depths
    scale = columns / (ratio * float(picture.run))  # rows an inch
    for _ in range(12):
        needed = sum(max(_LEAST_ROWS, float(depth) * scale) for depth in depths)
        if needed <= rows:
            break
        scale *= max(0.5, rows / needed)
    least = Fraction(_LEAST_ROWS / scale).limit_denominator(1000)
    return [max(depth, least) for depth in depths]


def cut_marks(picture: CutPicture, depths: Sequence[Fraction] | None = None) -> list[Mark]:
    """The strips' widths, each beside its strip, and their length; drawn `depths` wide, as in `shapes`."""
    found: list[Mark] = []
    at = 0.0
    for band, depth in zip(picture.bands, depths or [band.depth for band in picture.bands], strict=True):
        end = at + float(depth)
        if band.patches:
            found.append(Mark("top" if picture.upright else "left", at, end, band.words, picture.upright))
        at = end
    run = float(picture.run)
    if picture.upright:
        return [*found, Mark("left", 0, run, _first(picture.ends), arrows=True)]
    return [*found, Mark("top", 0, run, picture.ends, arrows=True)]
