"""A tab's picture as lines of a given width: in the project's colours, and readable without any."""

from collections.abc import Mapping
from functools import lru_cache

from boltend.core.contract import Settings, Shape
from boltend.core.drawing import CutPicture, Picture, draw_cut, legend
from boltend.core.flow import Result
from boltend.core.report.pictures import drawn
from boltend.shell.result_lines import Part, ResultLine
from boltend.shell.texts import wrapped

LOOKS = {"line": "", "seam": "muted", "label": "value", "size": "muted", "fill": ""}


def picture_lines(result: Result, width: int, rows: int) -> tuple[ResultLine, ...]:
    """The picture in at most so many cells and lines, its legend included."""
    if result.answer is None or not result.answer.picture:
        return ()
    return shape_lines(tuple(result.answer.picture), result.settings, width, rows)


def shape_lines(
    shapes: tuple[Shape, ...], settings: Settings, width: int, rows: int
) -> tuple[ResultLine, ...]:
    """Shapes in at most so many cells and lines, with their legend, in the colours of the fabrics."""
    how, step = settings.notation, settings.size_step
    picture = drawn(shapes, how, step, width, max(1, rows - 1))
    words = legend(picture, width)
    if len(words) > 1 and len(picture.rows) + len(words) > rows:
        picture = drawn(shapes, how, step, width, max(1, rows - len(words)))
        words = legend(picture, width)
    colours = {run.fill: colour_of(run.fill, settings) for row in picture.rows for run in row if run.fill}
    lines = _lines(picture, colours)
    return (*lines, *(ResultLine(((text, "muted"),)) for text in words[: max(0, rows - len(lines))]))


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
