"""A picture as SVG: areas in exact inches below one scale, words and arrows in points.

One picture stands alone on white paper, or inside a page that brings its colours for light and dark.
"""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import groupby
from typing import NamedTuple

from boltend.core.contract import Polygon, Rect
from boltend.core.contract.shapes import Inches
from boltend.core.paper.hatching import HATCHES, WHITE, Lines, ink_on
from boltend.core.paper.model import Picture
from boltend.core.paper.sketch import BAR, RISE, Arrow, Face, Ink, Sketch, Words
from boltend.core.paper.texts import isolated
from boltend.core.values import visible

_RULES = (
    ".bolt-picture text{font-family:system-ui,sans-serif;fill:%(ink)s}"
    ".bolt-picture .size{fill:%(faint)s}"
    ".bolt-picture .over{stroke:%(cloth)s;stroke-width:2.5px;paint-order:stroke;stroke-linejoin:round}"
    ".bolt-picture .cloth{fill:%(cloth)s}"
    ".bolt-picture .area{stroke:%(seam)s;stroke-linejoin:round}"
    ".bolt-picture .on-light{stroke:#1c1b19}.bolt-picture .on-dark{stroke:#f4f1ea}"
    ".bolt-picture .hatch{stroke:none}"
    ".bolt-picture .rule,.bolt-picture .arrow{stroke:%(faint)s;fill:none}"
    ".bolt-picture .line{stroke:%(faint)s}"
    ".bolt-picture .dot{fill:%(faint)s}"
)
_LIGHT = {"ink": "#1c1b19", "faint": "#55534e", "cloth": "#ffffff", "seam": "#1c1b19"}
_DARK = {"ink": "#ece9e2", "faint": "#b4afa6", "cloth": "#2a2926", "seam": "#d8d4cb"}
_PRINT = {"ink": "#000000", "faint": "#333333", "cloth": "#ffffff", "seam": "#000000"}


def _named(colours: Mapping[str, str]) -> str:
    return ".bolt-picture{" + ";".join(f"--{name}:{colour}" for name, colour in colours.items()) + "}"


STYLE = (
    f"{_named(_LIGHT)}@media (prefers-color-scheme:dark){{{_named(_DARK)}}}@media print{{{_named(_PRINT)}}}"
    + _RULES % {name: f"var(--{name})" for name in _LIGHT}
)
"""What every picture needs, once on a page: its colours follow the reader's light or dark."""

ALONE = _RULES % _LIGHT
"""The same of a picture alone, which has a white paper: not every viewer knows named colours."""

_SEAM = 0.7  # points
SWATCH = 9.0
"""Points across the little area of a legend."""


class Box(NamedTuple):
    """A part of the paper, in points."""

    left: float
    top: float
    width: float
    height: float


def svg_element(
    picture: Picture, drawn: Sketch, key: str, *, box: Box | None = None, before: str = "", after: str = ""
) -> str:
    """A laid out picture as one element; `key` keeps its ids apart from others on the page.

    `box` is what is seen of the paper, the picture alone without it; `before` and `after` are elements below
    and above the picture's own.
    """
    box = box or Box(0, 0, drawn.width, drawn.height)
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" class="bolt-picture" viewBox="{" ".join(map(num, box))}" '
        f'width="{num(box.width * 4 / 3)}" height="{num(box.height * 4 / 3)}" role="img" '
        f'aria-labelledby="{key}-t {key}-d">',
        f'<title id="{key}-t">{escaped(picture.title)}</title>',
        f'<desc id="{key}-d">{escaped(described(picture, drawn))}</desc>',
        before,
        *_patterns(drawn, key),
        *_areas(drawn, key),
        *map(_arrow, drawn.arrows),
        *(_words(each, drawn) for each in drawn.words),
        after,
        "</svg>",
    ]
    return "\n".join(line for line in lines if line)


def described(picture: Picture, drawn: Sketch) -> str:
    """The picture in words: its sizes, what the fills are, and the key."""
    sizes = [each.words for each in drawn.words if not each.fill]
    parts = [", ".join(dict.fromkeys(sizes)), "; ".join(words for _, words in drawn.legend)]
    return ". ".join(visible(part) for part in (*parts, *picture.key) if part)


def swatch(drawn: Sketch, fill: str, key: str) -> str:
    """A little area of a fill, for a legend."""
    ink = drawn.inks[fill]
    half = SWATCH / 2
    box = f'x="0.5" y="{num(-half)}" width="{num(SWATCH)}" height="{num(SWATCH)}" stroke-width="{_SEAM}"'
    hatch = f'<rect class="hatch" {box} fill="url(#{_id(drawn, fill, key)}s)"/>' if HATCHES[ink.mark] else ""
    return f'<rect class="{_look(ink.colour)}" {box}{_colour(ink.colour)}/>{hatch}'


def _id(drawn: Sketch, fill: str, key: str) -> str:
    return f"{key}-h{list(drawn.inks).index(fill)}"


def _patterns(drawn: Sketch, key: str) -> Iterator[str]:
    """The hatches: in points for swatches, and scaled back for areas that lie in inches."""
    made = []
    for fill, ink in drawn.inks.items():
        lines = HATCHES[ink.mark]
        if lines:
            name, tile = _id(drawn, fill, key), num(_tile(lines[0]))
            body = "".join(_tiled(each, ink.colour) for each in lines)
            size = f'patternUnits="userSpaceOnUse" width="{tile}" height="{tile}"'
            made.append(f'<pattern id="{name}s" {size}>{body}</pattern>')
            back = f'patternTransform="scale({num(1 / drawn.scale, 6)})"'
            made.append(f'<pattern id="{name}" {size} {back}>{body}</pattern>')
    if made:
        yield f"<defs>{''.join(made)}</defs>"


def _tile(lines: Lines) -> float:
    return lines.gap * 2**0.5 if lines.way in ("rise", "fall") else lines.gap


def _tiled(lines: Lines, colour: str) -> str:
    """One family of lines in one tile; slanting ones with the corners of their neighbours."""
    g, half = _tile(lines), num(_tile(lines) / 2)
    end, far, near = num(g), num(g * 1.5), num(-g / 2)
    stroke = f'stroke="{ink_on(colour)}" stroke-opacity="0.55"' if colour else 'class="line"'
    if lines.way == "dots":
        dot = f'fill="{ink_on(colour)}" fill-opacity="0.7"' if colour else 'class="dot"'
        return f'<circle cx="{half}" cy="{half}" r="{num(lines.thick * 0.7)}" {dot}/>'
    path = {
        "rise": f"M{near} {half}L{half} {near}M0 {end}L{end} 0M{half} {far}L{far} {half}",
        "fall": f"M{half} {near}L{far} {half}M0 0L{end} {end}M{near} {half}L{half} {far}",
        "level": f"M0 {half}H{end}",
        "upright": f"M{half} 0V{end}",
    }[lines.way]
    return f'<path d="{path}" {stroke} stroke-width="{num(lines.thick)}" fill="none"/>'


def _areas(drawn: Sketch, key: str) -> Iterator[str]:
    """Areas and strokes, in exact inches; a hatch follows the areas that it lies on."""
    left, top = drawn.origin or (0.0, 0.0)
    move = f"translate({num(drawn.left)} {num(drawn.top)}) scale({num(drawn.scale, 6)})"
    back = f" translate({num(-left, 9)} {num(-top, 9)})" if left or top else ""
    yield f'<g transform="{move}{back}" stroke-width="{num(_SEAM / drawn.scale, 6)}">'
    exact = drawn.origin is not None
    for fill, faces in groupby(drawn.faces, key=lambda face: face.area.fill):
        alike, ink = list(faces), drawn.inks[fill]
        for face in alike:
            yield _area(face, ink.colour, exact=exact)
        if HATCHES[ink.mark]:
            path = "".join(_outline(face, exact=exact) for face in alike)
            yield f'<path class="hatch" d="{path}" fill="url(#{_id(drawn, fill, key)})"/>'
    for line in drawn.strokes:
        x1, x2 = (num(x + left, 9) for x in (line.x1, line.x2))
        y1, y2 = (num(y + top, 9) for y in (line.y1, line.y2))
        yield f'<line class="rule" x1="{x1}" y1="{y1}" x2="{x2}" y2="{y2}"/>'
    yield "</g>"


def _look(colour: str) -> str:
    """Seams must show on the cloth: dark ones on a light colour, light ones on a dark one."""
    return f"area on-{'dark' if ink_on(colour) == WHITE else 'light'}" if colour else "area cloth"


def _colour(colour: str) -> str:
    return f' fill="{colour}"' if colour else ""


def _area(face: Face, colour: str, *, exact: bool) -> str:
    look = f'class="{_look(colour)}"{_colour(colour)}'
    if face.area.corners:
        points = " ".join(f"{x},{y}" for x, y in _corners(face, exact=exact))
        return f'<polygon {look} points="{points}"/>'
    x, y, wide, high = _rect(face, exact=exact)
    return f'<rect {look} x="{x}" y="{y}" width="{wide}" height="{high}"/>'


def _rect(face: Face, *, exact: bool) -> tuple[str, str, str, str]:
    shape, area = face.shape, face.area
    if exact and isinstance(shape, Rect):
        x, wide = (shape.x, shape.width) if shape.width > 0 else (shape.x + shape.width, -shape.width)
        y, high = (shape.y, shape.height) if shape.height > 0 else (shape.y + shape.height, -shape.height)
        return inches(x), inches(y), inches(wide), inches(high)
    return (num(area.left, 9), num(area.top, 9), num(area.right - area.left, 9),
            num(area.bottom - area.top, 9))  # fmt: skip


def _corners(face: Face, *, exact: bool) -> Sequence[tuple[str, str]]:
    if exact and isinstance(face.shape, Polygon):
        return [(inches(x), inches(y)) for x, y in face.shape.corners]
    return [(num(x, 9), num(y, 9)) for x, y in face.area.corners]


def _outline(face: Face, *, exact: bool) -> str:
    if face.area.corners:
        return "M" + "L".join(f"{x} {y}" for x, y in _corners(face, exact=exact)) + "Z"
    x, y, wide, high = _rect(face, exact=exact)
    return f"M{x} {y}h{wide}v{high}h-{wide}Z"


def _arrow(arrow: Arrow) -> str:
    x1, y1, x2, y2 = map(num, arrow)
    bar = (
        f"M{x1} {num(arrow.y1 - BAR)}V{num(arrow.y1 + BAR)}"
        if y1 == y2
        else f"M{num(arrow.x1 - BAR)} {y1}H{num(arrow.x1 + BAR)}"
    )
    return f'<path class="arrow" stroke-width="0.6" d="M{x1} {y1}L{x2} {y2}{bar}"/>'


def _words(words: Words, drawn: Sketch) -> str:
    x, y = num(words.x), num(words.y + RISE * words.size)
    turn = f' transform="rotate(-90 {x} {num(words.y)})"' if words.upright else ""
    ink = drawn.inks[words.fill] if words.fill else None
    look = _on(ink) if ink is not None else ' class="size"'
    return (
        f'<text x="{x}" y="{y}" font-size="{num(words.size)}" text-anchor="{words.anchor}"{turn}{look}>'
        f"{said(words.words)}</text>"
    )


def _on(ink: Ink) -> str:
    """How words look on an area: in the ink that shows, with a margin of its colour where it is hatched."""
    if not ink.colour:
        return ' class="over"' if HATCHES[ink.mark] else ""
    over = f";stroke:{ink.colour};stroke-width:2.5px;paint-order:stroke" if HATCHES[ink.mark] else ""
    return f' style="fill:{ink_on(ink.colour)}{over}"'


def inches(value: Inches) -> str:
    """A length as a decimal: exact where it ends within nine places (all of a ruler do), else to nine."""
    if isinstance(value, int | Fraction):
        billionths = Fraction(value) * 10**9
        if billionths.denominator == 1:
            return num_of(billionths.numerator)
    return num(float(value), 9)


def num_of(billionths: int) -> str:
    """A whole number of billionths as a decimal without trailing zeros."""
    whole, rest = divmod(abs(billionths), 10**9)
    text = f"{whole}.{rest:09d}".rstrip("0").rstrip(".")
    return f"-{text}" if billionths < 0 else text


def num(value: float, places: int = 2) -> str:
    """A number of points, short."""
    text = f"{value:.{places}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text in ("-0", "") else text


def escaped(text: str) -> str:
    """A text as XML has it: nothing unseen, no markup."""
    seen = visible(text)
    for sign, name in (("&", "&amp;"), ("<", "&lt;"), (">", "&gt;"), ('"', "&quot;"), ("'", "&#39;")):
        seen = seen.replace(sign, name)
    return seen


def said(text: str) -> str:
    """A line as XML has it, its parts that read from right to left set apart."""
    return isolated(escaped(text))
