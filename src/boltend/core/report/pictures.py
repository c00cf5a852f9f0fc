"""Pictures in a print: of a tab's answer, and of how a fabric is cut."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from boltend.core.contract import Shape
from boltend.core.drawing import CutPicture, Picture, Show, draw, draw_cut, legend
from boltend.core.drawing.widths import clean
from boltend.core.report.near import say_near
from boltend.core.values import Notation

ROWS = 20
"""Lines that a picture may take, without its legend."""

_MOST_PICTURES = 6  # of one fabric


@dataclass(frozen=True)
class Look:
    """How pictures are printed: in cells of so many columns, in ASCII where the paper knows no more."""

    columns: int = 76
    ascii: bool = False


def can_draw(encoding: str | None) -> bool:
    """Whether a text of this encoding can hold what pictures are drawn with."""
    try:
        "┏━┯┃░▒·←→⠶×≈".encode(encoding or "ascii")
    except (UnicodeEncodeError, LookupError):
        return False
    return True


@lru_cache(maxsize=8)
def drawn(
    shapes: tuple[Shape, ...],
    how: Notation,
    step: Fraction,
    columns: int,
    rows: int,
    *,
    all_told: bool = False,
) -> Picture:
    """A picture in cells, remembered for as long as it is in sight."""
    return draw(shapes, columns, rows, show=lambda inches: say_near(inches, how, step), all_told=all_told)


def picture_lines(
    shapes: Sequence[Shape], show: Show, look: Look, facts: Mapping[str, str] | None = None
) -> list[str]:
    """A picture with its legend, which with `facts` tells every part; nothing where none is seen."""
    told = facts is not None
    return _lines(draw(shapes, look.columns, ROWS, ascii=look.ascii, show=show, all_told=told), look, facts)


def cut_lines(pictures: Sequence[CutPicture], look: Look) -> list[str]:
    """How a fabric is cut: each picture below its title, with the key to its letters."""
    lines: list[str] = []
    for picture in pictures[:_MOST_PICTURES]:
        lines += [*([""] if lines else []), clean(picture.title, ascii=look.ascii)]
        lines += _lines(draw_cut(picture, look.columns, ROWS, ascii=look.ascii), look)
        lines += (clean(line, ascii=look.ascii) for line in picture.key)
    rest = len(pictures) - _MOST_PICTURES
    if rest > 0:
        lines += ["", f"({rest} more not drawn: the steps tell of them)"]
    return lines


def _lines(picture: Picture, look: Look, facts: Mapping[str, str] | None = None) -> list[str]:
    lines = [line.rstrip() for line in picture.lines()]
    return [*lines, *legend(picture, look.columns, facts, ascii=look.ascii)]
