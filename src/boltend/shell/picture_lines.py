"""A tab's picture as lines of a given width: in the project's colours, and readable without any."""

from collections.abc import Mapping
from functools import lru_cache, partial

from rich.cells import cell_len

from boltend.core.contract import Settings, Shape
from boltend.core.drawing import CutPicture, Picture, draw_cut, legend, legend_entries
from boltend.core.flow import Result
from boltend.core.report.pictures import drawn
from boltend.shell.result_lines import Part, ResultLine
from boltend.shell.texts import wrapped

ASIDE = 26
"""Cells that a legend at the right of its picture may have at least."""

LOOKS = {"line": "", "seam": "muted", "label": "value", "size": "muted", "fill": ""}


def picture_lines(result: Result, width: int, rows: int) -> tuple[ResultLine, ...]:
    """The picture in at most so many cells and lines, its legend included."""
    if result.answer is None or not result.answer.picture:
        return ()
    return shape_lines(tuple(result.answer.picture), result.settings, width, rows)


def shape_lines(
    shapes: tuple[Shape, ...],
    settings: Settings,
    width: int,
    rows: int,
    facts: Mapping[str, str] | None = None,
) -> tuple[ResultLine, ...]:
    """Shapes in at most so many cells and lines, with their legend, in the colours of the fabrics.

    With `facts` (what is told of the parts) the legend names every part; it stands at the right where that
    leaves more room.
    """
    draw = partial(drawn, shapes, settings.notation, settings.size_step, all_told=facts is not None)
    picture = draw(width, max(1, rows - 1))
    words = legend(picture, width, facts)
    if len(words) > 1 and len(picture.rows) + len(words) > rows:
        picture = draw(width, max(1, rows - len(words)))
        words = legend(picture, width, facts)
    if facts is not None and width >= 2 * ASIDE:
        larger = draw(width - ASIDE - 2, rows)
        aside = _aside(larger, width - larger.width - 2, facts)
        if len(larger.rows) > len(picture.rows) and len(aside) < len(larger.rows):
            return _side_by_side(_lines(larger, _colours(larger, settings)), larger.width + 2, aside)
    lines = _lines(picture, _colours(picture, settings))
    return (*lines, *(ResultLine(((text, "muted"),)) for text in words[: max(0, rows - len(lines))]))


def _aside(picture: Picture, width: int, facts: Mapping[str, str]) -> list[str]:
    """The legend in a narrow column: what goes on in another line hangs."""
    entries = (wrapped(entry, width - 4) for entry in legend_entries(picture, facts))
    return [f"    {line}" if n else line for entry in entries for n, line in enumerate(entry)]


def _side_by_side(lines: list[ResultLine], at: int, aside: list[str]) -> tuple[ResultLine, ...]:
    """The picture, and the legend at its right, with a line free above it for the size."""
    found = []
    for n, line in enumerate(lines):
        words = aside[n - 1] if 1 <= n <= len(aside) else ""
        gap = " " * (at - sum(cell_len(text) for text, _ in line.parts)) if words else ""
        found.append(ResultLine((*line.parts, (gap, ""), (words, "muted"))) if words else line)
    return tuple(found)


def _colours(picture: Picture, settings: Settings) -> dict[str, str]:
    return {run.fill: colour_of(run.fill, settings) for row in picture.rows for run in row if run.fill}


def cut_picture_lines(
    picture: CutPicture, width: int, rows: int, colours: Mapping[str, str]
) -> tuple[ResultLine, ...]:
    """How a piece of cloth is cut, with the key to its letters."""
    seen = _cut(picture, width, rows)
    words = [*legend(seen, width), *picture.key]
    return (
        *_lines(seen, colours),
        *(ResultLine(((text, "muted"),)) for word in words for text in wrapped(word, width)),
    )


def _lines(picture: Picture, colours: Mapping[str, str]) -> list[ResultLine]:
    return [
        ResultLine(tuple(_part(run.text, run.kind, colours.get(run.fill, "")) for run in row))
        for row in picture.rows
    ]


@lru_cache(maxsize=128)
def _cut(picture: CutPicture, width: int, rows: int) -> Picture:
    return draw_cut(picture, width, rows)


def colour_of(fill: str, settings: Settings) -> str:
    """The colour of the fabric that a fill names, as #rrggbb; nothing for a role or a fabric without one."""
    said = settings.on(fill).colour if fill in settings.fabrics else ""
    return said if isinstance(said, str) else ""


def _part(text: str, kind: str, colour: str) -> Part:
    return (text, f"on {colour}" if colour else LOOKS[kind])
