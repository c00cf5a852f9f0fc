"""A picture as an SVG file of its own: on white paper, with its title above, its legend and key below."""

import textwrap
from collections.abc import Iterator

from boltend.core.paper.lettering import wide_of
from boltend.core.paper.model import Picture
from boltend.core.paper.sketch import RISE, Sketch, sketch
from boltend.core.paper.svg import ALONE, SWATCH, Box, num, said, svg_element, swatch

_LEAST_WIDTH = 260.0  # points, for the words round a narrow picture
_TITLE, _SIZE, _LINE, _GAP, _EDGE = 10.0, 8.0, 13.0, 6.0, 8.0


def svg_file(picture: Picture) -> str | None:
    """The file; None where there is nothing to see."""
    drawn = sketch(picture, *picture.room)
    if drawn is None:
        return None
    wide = max(drawn.width, _LEAST_WIDTH)
    above = _lines(picture.title, _TITLE, wide)
    below = list(_below(picture, drawn, wide))
    head = len(above) * _LINE + (_GAP if above else 0)
    foot = len(below) * _LINE + (_GAP if below else 0)
    box = Box(-_EDGE, -head - _EDGE, wide + 2 * _EDGE, head + drawn.height + foot + 2 * _EDGE)
    corner = " ".join(f'{name}="{num(value)}"' for name, value in zip("xy", box[:2], strict=True))
    paper = f'<rect class="cloth" {corner} width="{num(box.width)}" height="{num(box.height)}"/>'
    bold = ' font-weight="bold"'
    title = "".join(_text(0, _LINE * (n + 0.5) - head, line, _TITLE, bold) for n, line in enumerate(above))
    words = "".join(
        f'<g transform="translate(0 {num(drawn.height + _GAP + _LINE * (n + 0.5))})">{line}</g>'
        for n, line in enumerate(below)
    )
    element = svg_element(
        picture, drawn, "p", box=box, before=f"<style>{ALONE}</style>\n{paper}", after=title + words
    )
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{element}\n'


def _below(picture: Picture, drawn: Sketch, wide: float) -> Iterator[str]:
    """The lines of legend and key, each from its middle."""
    left = SWATCH + 6
    for fill, words in drawn.legend:
        for n, line in enumerate(_lines(words, _SIZE, wide - left)):
            yield ("" if n else swatch(drawn, fill, "p")) + _text(left, 0, line, _SIZE)
    for words in picture.key:
        yield from (_text(0, 0, line, _SIZE) for line in _lines(words, _SIZE, wide))


def _lines(words: str, size: float, room: float) -> list[str]:
    return textwrap.wrap(words, max(8, int(room / wide_of("x", size))), break_on_hyphens=False)


def _text(x: float, middle: float, words: str, size: float, more: str = "") -> str:
    place = f'x="{num(x)}" y="{num(middle + RISE * size)}"'
    return f'<text {place} font-size="{num(size)}"{more}>{said(words)}</text>'
