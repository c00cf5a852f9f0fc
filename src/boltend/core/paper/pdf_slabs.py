"""Blocks as slabs: pieces of a page that are never parted, from above to below."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from boltend.core.paper.model import Heading, Items, Text
from boltend.core.paper.pdf_fonts import BOLD, PLAIN, lines_of
from boltend.core.paper.pdf_pen import Pen
from boltend.core.paper.texts import reads_from_right

FAINT, INK = "#4a4844", "#000000"
_INDENT, _PAD = 16.0, 6.0


@dataclass(frozen=True)
class Look:
    """Sizes in points; `scale` makes all of it smaller for a sheet that must fit on one page."""

    scale: float = 1.0

    @property
    def size(self) -> float:
        """Of what is read."""
        return 9.5 * self.scale

    @property
    def small(self) -> float:
        """Of asides, tables and what stands by a picture."""
        return 8.5 * self.scale

    @property
    def leading(self) -> float:
        """From line to line."""
        return 13.0 * self.scale

    @property
    def tight(self) -> float:
        """From line to line of what is small."""
        return 11.5 * self.scale

    def heading(self, level: int) -> float:
        """Of a heading."""
        return {1: 20.0, 2: 14.0, 3: 11.0}[level] * self.scale


@dataclass(frozen=True)
class Slab:
    """So many points of a page, with `space` above it unless the page begins with it.

    `what` tells what it is, `says` the texts on it. With `keep` the next one stays on its page; `head` stands
    above it where a page begins with it. `mark` is the heading that a reader jumps to.
    """

    height: float
    draw: Callable[[Pen, float, float], None]
    what: str
    space: float = 0.0
    keep: bool = False
    head: "Slab | None" = None
    says: tuple[str, ...] = ()
    mark: Heading | None = None


@dataclass(frozen=True)
class _Line:
    """One line of words, with a sign before it and a bar beside it where it has them."""

    words: str
    size: float
    high: float
    face: str = PLAIN
    colour: str = INK
    indent: float = 0.0
    sign: str = ""
    bar: bool = False
    room: float = 0.0  # from the left edge to the right one, for what reads from there

    def draw(self, pen: Pen, x: float, y: float) -> None:
        """Draw it with its top left corner there."""
        middle = y + self.high / 2
        if self.bar:
            pen.line(x + 1.5, y, x + 1.5, y + self.high, INK, 3)
        if self.sign:
            pen.text(x + self.indent - 5, middle, self.sign, self.size, anchor="end")
        if self.room:
            pen.text(x + self.room, middle, self.words, self.size, face=self.face, anchor="end",
                     colour=self.colour, from_right=True)  # fmt: skip
        else:
            pen.text(x + self.indent, middle, self.words, self.size, face=self.face, colour=self.colour)


def heading_slabs(block: Heading, look: Look, width: float) -> Iterator[Slab]:
    """A heading, which stays with what follows."""
    size = look.heading(block.level)
    from_right = width if reads_from_right(block.words) else 0.0
    space = {1: 0.0, 2: 20.0, 3: 14.0}[block.level] * look.scale
    for n, line in enumerate(lines_of(block.words, BOLD, size, width)):
        draw = _Line(line, size, size * 1.35, BOLD, room=from_right).draw
        yield Slab(size * 1.35, draw, f"heading {block.level}", 0.0 if n else space, keep=True, says=(line,),
                   mark=None if n else block)  # fmt: skip


def text_slabs(block: Text, look: Look, width: float) -> Iterator[Slab]:
    """A paragraph, line by line; neither its first line nor its last one stands alone on a page."""
    faint, caution = block.look == "faint", block.look == "caution"
    size, high = (look.small, look.tight) if faint else (look.size, look.leading)
    indent = _PAD + 4 if caution else 0.0
    lines = list(lines_of(block.words, PLAIN, size, width - indent))
    from_right = width if block.own and reads_from_right(block.words) else 0.0
    draws = [
        _Line(
            line, size, high, colour=FAINT if faint else INK, indent=indent, bar=caution, room=from_right
        ).draw
        for line in lines
    ]
    yield from _kept(lines, draws, high, "caution" if caution else "text", 5.0 * look.scale, whole=caution)


def items_slabs(block: Items, look: Look, width: float) -> Iterator[Slab]:
    """A list; its title stays with the first line, and no line is parted where that can be had."""
    bar = block.caution
    left = _PAD + 4 if bar else 0.0
    if block.title:
        high = look.leading
        draw = _Line(block.title, look.size, high, BOLD, indent=left, bar=bar).draw
        yield Slab(high, draw, "label", 8.0 * look.scale, keep=True, says=(block.title,))
    for number, words in enumerate(block.lines, 1):
        sign = f"{number}." if block.ordered else "•"
        indent = left + _INDENT + (6 if len(block.lines) > 99 else 0)
        lines = list(lines_of(words, PLAIN, look.size, width - indent))
        draws = [
            _Line(line, look.size, look.leading, indent=indent, sign="" if n else sign, bar=bar).draw
            for n, line in enumerate(lines)
        ]
        space = 0.0 if bar else 2.0 * look.scale
        what = "caution" if bar else "step" if block.ordered else "item"
        yield from _kept(lines, draws, look.leading, what, space, whole=len(lines) <= 8)


def _kept(
    lines: Sequence[str],
    draws: Sequence[Callable[[Pen, float, float], None]],
    high: float,
    what: str,
    space: float,
    *,
    whole: bool,
) -> Iterator[Slab]:
    """Lines as slabs: all together, or such that two at least stand on each page."""
    last = len(lines) - 1
    for n, (line, draw) in enumerate(zip(lines, draws, strict=True)):
        keep = n < last and (whole or n in (0, last - 1))
        yield Slab(high, draw, what, 0.0 if n else space, keep=keep, says=(line,))
