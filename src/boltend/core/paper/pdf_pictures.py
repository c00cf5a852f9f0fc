"""Pictures in a PDF: each one slab with its title, sizes, legend and key, so that no page parts them."""

from collections.abc import Iterator
from typing import NamedTuple

from boltend.core.paper.hatching import HATCHES, WHITE, ink_on, segments
from boltend.core.paper.model import Picture
from boltend.core.paper.pdf_fonts import BOLD, PLAIN, lines_of, wide
from boltend.core.paper.pdf_pen import Pen, Point
from boltend.core.paper.pdf_slabs import FAINT, Look, Slab
from boltend.core.paper.sketch import BAR, Ink, Sketch, Words, sketch

_SEAM, _RULE = "#1c1b19", "#777777"
_SWATCH = 8.0


def picture_slabs(picture: Picture, look: Look, width: float, height: float) -> Iterator[Slab]:
    """A picture in at most `width` × `height` points, with all that stands by it.

    A key that no page could hold beside the picture goes on below it, line by line.
    """
    title = list(lines_of(picture.title, BOLD, look.size, width))
    under = [line for words in picture.key for line in lines_of(words, PLAIN, look.small, width)]
    room = (min(picture.room[0], width), min(picture.room[1], height * 0.6))
    drawn = sketch(picture, *room)
    if drawn is None:
        return
    legend = _legend(drawn, look, width)
    fixed = drawn.height + look.leading * (len(title) + 1) + look.tight * len(legend)
    fits = int(max(0.0, height - fixed) // look.tight)
    slab = _Slab(drawn, title, legend, under[:fits], look)
    yield Slab(
        fixed + look.tight * len(under[:fits]),
        slab.draw,
        f"picture: {picture.title}",
        space=look.leading,
        keep=len(under) > fits,
        says=(picture.title, *under[:fits]),
    )
    for line in under[fits:]:
        yield Slab(look.tight, _Line(line, look).draw, "key", says=(line,))


class _Line:
    def __init__(self, words: str, look: Look) -> None:
        self.words, self.look = words, look

    def draw(self, pen: Pen, x: float, y: float) -> None:
        pen.text(x, y + self.look.tight / 2, self.words, self.look.small)


class _Entry(NamedTuple):
    """Words of the legend, how far from the left they stand, and their fill (None for words that go on)."""

    left: float
    fill: str | None
    words: str


def _legend(drawn: Sketch, look: Look, width: float) -> list[list[_Entry]]:
    """The legend in lines, with as many entries beside each other as find room."""
    lines: list[list[_Entry]] = []
    at = width
    for fill, words in drawn.legend:
        parts = list(lines_of(words, PLAIN, look.small, width - _SWATCH - 6))
        long = _SWATCH + 6 + wide(parts[0], PLAIN, look.small)
        if at + long > width:
            lines.append([])
            at = 0.0
        lines[-1].append(_Entry(at, fill, parts[0]))
        at += long + 14
        for part in parts[1:]:
            lines.append([_Entry(0.0, None, part)])
            at = width
    return lines


class _Slab:
    """Draws one picture from above to below."""

    def __init__(
        self,
        drawn: Sketch,
        title: list[str],
        legend: list[list[_Entry]],
        key: list[str],
        look: Look,
    ) -> None:
        self.drawn, self.title, self.legend, self.key, self.look = drawn, title, legend, key, look

    def draw(self, pen: Pen, x: float, y: float) -> None:
        look, drawn = self.look, self.drawn
        for line in self.title:
            pen.text(x, y + look.leading / 2, line, look.size, face=BOLD)
            y += look.leading
        put_sketch(pen, drawn, x, y)
        y += drawn.height + look.leading / 2
        for entries in self.legend:
            for left, fill, words in entries:
                if fill is not None:
                    box = _box(x + left + 0.5, y + (look.tight - _SWATCH) / 2, _SWATCH, _SWATCH)
                    _area(pen, box, drawn.inks[fill], (x + left, y))
                pen.text(x + left + _SWATCH + 6, y + look.tight / 2, words, look.small)
            y += look.tight
        for words in self.key:
            pen.text(x, y + look.tight / 2, words, look.small)
            y += look.tight


def put_sketch(pen: Pen, drawn: Sketch, x: float, y: float) -> None:
    """Draw a picture with its top left corner there."""
    left, top, scale = x + drawn.left, y + drawn.top, drawn.scale
    for face in drawn.faces:
        area = face.area
        corners = area.corners or (
            (area.left, area.top),
            (area.right, area.top),
            (area.right, area.bottom),
            (area.left, area.bottom),
        )
        points = [(left + a * scale, top + b * scale) for a, b in corners]
        _area(pen, points, drawn.inks[area.fill], (left, top))
    for stroke in drawn.strokes:
        pen.line(left + stroke.x1 * scale, top + stroke.y1 * scale, left + stroke.x2 * scale,
                 top + stroke.y2 * scale, _RULE, 0.5)  # fmt: skip
    for arrow in drawn.arrows:
        pen.line(x + arrow.x1, y + arrow.y1, x + arrow.x2, y + arrow.y2, FAINT, 0.5)
        off = (0, BAR) if arrow.y1 == arrow.y2 else (BAR, 0)
        pen.line(x + arrow.x1 - off[0], y + arrow.y1 - off[1], x + arrow.x1 + off[0], y + arrow.y1 + off[1],
                 FAINT, 0.5)  # fmt: skip
    for words in drawn.words:
        ink = drawn.inks[words.fill] if words.fill else None
        if ink is not None and HATCHES[ink.mark]:
            _ground(pen, words, x, y, ink.colour or WHITE)
        colour = FAINT if ink is None else ink_on(ink.colour)
        pen.text(x + words.x, y + words.y, words.words, words.size, anchor=words.anchor,
                 upright=words.upright, colour=colour)  # fmt: skip


def _ground(pen: Pen, words: Words, x: float, y: float, colour: str) -> None:
    """A plain ground below words, so that a hatch does not run through them."""
    long, high = wide(words.words, PLAIN, words.size) + 3, words.size * 1.05
    across, down = (high, long) if words.upright else (long, high)
    pen.polygon(_box(x + words.x - across / 2, y + words.y - down / 2, across, down), colour)


def _box(x: float, y: float, wide: float, high: float) -> list[Point]:
    return [(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)]


def _area(pen: Pen, points: list[Point], ink: Ink, origin: Point) -> None:
    """An area with its colour, its hatch on a grid from `origin`, and its edge."""
    pen.polygon(points, ink.colour or WHITE)
    hatch = HATCHES[ink.mark]
    if hatch:
        x, y = origin
        xs, ys = [a for a, _ in points], [b for _, b in points]
        colour = _mixed(ink.colour) if ink.colour else _RULE
        pen.within(points)
        for lines in hatch:
            for x1, y1, x2, y2 in segments(lines, min(xs) - x, min(ys) - y, max(xs) - x, max(ys) - y):
                if lines.way == "dots":
                    start = x + (x1 // lines.gap) * lines.gap
                    pen.dots(start, y + y1, x + x2, y + y2, colour, lines.thick, lines.gap)
                else:
                    pen.line(x + x1, y + y1, x + x2, y + y2, colour, lines.thick)
        pen.done()
    pen.polygon(points, "", WHITE if ink.colour and ink_on(ink.colour) == WHITE else _SEAM)


def _mixed(colour: str) -> str:
    """A colour half way to the ink that shows on it: a hatch that does not drown the words."""
    ink = ink_on(colour)
    both = (int(one[at : at + 2], 16) for at in (1, 3, 5) for one in (colour, ink))
    parts = list(both)
    return "#" + "".join(f"{(parts[n] + parts[n + 1]) // 2:02x}" for n in (0, 2, 4))
