"""A sheet as one HTML file: style and pictures within it, no script, nothing fetched from anywhere."""

from collections.abc import Iterator
from importlib.resources import files

from boltend.core.paper.model import Block, Heading, Items, Picture, Row, Sheet, Table, Text
from boltend.core.paper.sketch import sketch
from boltend.core.paper.svg import STYLE, escaped, svg_element, swatch
from boltend.core.paper.texts import parts_of

PAPERS = {"a4": "A4", "letter": "letter"}
"""The sizes of paper by the names that a person writes, and as CSS has them."""

_WIDE = 420.0  # points from which a picture scrolls sideways on a phone rather than become too small to read


_BROAD = 5
"""Columns above which a table is set smaller, and scrolls sideways where that is not enough."""


def html_file(sheet: Sheet, paper: str = "a4") -> str:
    """The sheet as a file; `paper` is one of `PAPERS`, for when it is printed."""
    style = (files(__package__) / "sheet.css").read_text(encoding="utf-8")
    lines = [
        "<!DOCTYPE html>",
        '<html lang="en">',
        "<head>",
        '<meta charset="utf-8">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        '<meta name="color-scheme" content="light dark">',
        f"<title>{escaped(sheet.name)}</title>",
        f"<style>\n{style}@page {{ size: {PAPERS[paper]}; }}\n{STYLE}\n</style>",
        "</head>",
        f'<body class="{"one-page" if sheet.one_page else "plan"}">',
        "<main>",
        *_Writer(sheet).lines(),
        "</main>",
        "</body>",
        "</html>",
    ]
    return "\n".join(lines) + "\n"


def said(text: str) -> str:
    """A line of ours: whatever in it reads from right to left is set apart, so that it turns no number."""
    return "".join(
        f"<bdi>{escaped(words)}</bdi>" if turned else escaped(words) for words, turned in parts_of(text)
    )


class _Writer:
    """Writes blocks; it numbers pictures, and closes the part of a tab where the next one begins."""

    def __init__(self, sheet: Sheet) -> None:
        self.sheet, self.pictures, self.open = sheet, 0, False

    def lines(self) -> Iterator[str]:
        """All blocks, first thing first."""
        for n, block in enumerate(self.sheet.blocks):
            if n == self._end_of_head():
                yield from self._contents()
            yield from self._block(block)
        if self.open:
            yield "</section>"

    def _end_of_head(self) -> int:
        parts = (n for n, b in enumerate(self.sheet.blocks) if isinstance(b, Heading) and b.level == 2)
        return next(parts, -1)

    def _contents(self) -> Iterator[str]:
        """Links to the parts: a plan is longer than a screen."""
        parts = [b for b in self.sheet.blocks if isinstance(b, Heading) and b.level == 2]
        if self.sheet.one_page or len(parts) < 2:
            return
        links = "".join(f'<li><a href="#{b.key}" dir="auto">{escaped(b.words)}</a></li>' for b in parts)
        yield f'<nav aria-label="Contents"><ul>{links}</ul></nav>'

    def _block(self, block: Block) -> Iterator[str]:
        match block:
            case Heading():
                yield from self._heading(block)
            case Text():
                auto = ' dir="auto"' if block.own else ""
                words = escaped(block.words) if block.own else said(block.words)
                role = ' role="note"' if block.look == "caution" else ""
                yield f'<p class="{block.look}"{auto}{role}>{words}</p>'
            case Items():
                yield from _items(block)
            case Table():
                yield from _table(block)
            case Picture():
                self.pictures += 1
                yield from _picture(block, f"p{self.pictures}")

    def _heading(self, block: Heading) -> Iterator[str]:
        if block.level == 2:
            if self.open:
                yield "</section>"
            self.open = True
            yield f'<section aria-labelledby="{block.key}">'
        tag = f"h{block.level}"
        yield f'<{tag} id="{block.key}" dir="auto">{escaped(block.words)}</{tag}>'


def _items(block: Items) -> Iterator[str]:
    yield f'<div class="{"caution" if block.caution else "items"}"{" role=note" if block.caution else ""}>'
    if block.title:
        yield f'<p class="label">{said(block.title)}</p>'
    tag = "ol" if block.ordered else "ul"
    yield f"<{tag}>"
    yield from (f"<li>{said(line)}</li>" for line in block.lines)
    yield from (f"</{tag}>", "</div>")


def _table(block: Table) -> Iterator[str]:
    if len(block.columns) > _BROAD:  # what scrolls sideways must be within reach of the keyboard
        name = escaped(block.title or block.columns[0])
        yield f'<div class="table broad" role="region" aria-label="{name}" tabindex="0">'
    else:
        yield '<div class="table">'
    yield "<table>" if block.grows is None else '<table class="whole">'
    if block.title and block.title != block.columns[0]:
        yield f"<caption>{said(block.title)}</caption>"
    heads = "".join(
        f'<th scope="col"{_right(block, n)}>{said(words)}</th>' for n, words in enumerate(block.columns)
    )
    yield f"<thead><tr>{heads}</tr></thead>"
    yield "<tbody>"
    yield from (_row(row, block) for row in block.rows)
    yield "</tbody>"
    if block.total is not None:
        yield f"<tfoot>{_row(block.total, block)}</tfoot>"
    yield from ("</table>", "</div>")


def _row(row: Row, block: Table) -> str:
    first, *others = row.cells
    cells = "".join(f"<td{_right(block, n)}>{said(cell)}</td>" for n, cell in enumerate(others, 1))
    name = f'<th scope="row" dir="auto">{escaped(first)}</th>'
    if not row.notes:
        return f"<tr>{name}{cells}</tr>"
    notes = "".join(f"<li>{said(note)}</li>" for note in row.notes)
    told = f'<tr class="told">{name}{cells}</tr>'
    return f'{told}<tr class="notes"><td colspan="{len(row.cells)}"><ul>{notes}</ul></td></tr>'


def _right(block: Table, column: int) -> str:
    return ' class="right"' if column in block.right else ""


def _picture(block: Picture, key: str) -> Iterator[str]:
    drawn = sketch(block, *block.room)
    if drawn is None:
        return
    wide = drawn.width > _WIDE
    yield '<figure class="wide">' if wide else "<figure>"
    yield f"<figcaption>{said(block.title)}</figcaption>"
    # What scrolls sideways must be within reach of the keyboard.
    scrolls = f' role="region" aria-label="{escaped(block.title)}" tabindex="0"' if wide else ""
    yield f'<div class="drawn"{scrolls}>{svg_element(block, drawn, key)}</div>'
    if drawn.legend:
        yield '<ul class="legend">'
        for fill, words in drawn.legend:
            box = '<svg class="bolt-picture" width="14" height="14" viewBox="0 -5 10 10" aria-hidden="true">'
            yield f"<li>{box}{swatch(drawn, fill, key)}</svg> {said(words)}</li>"
        yield "</ul>"
    if block.key:
        yield '<ul class="key">'
        yield from (f"<li>{said(line)}</li>" for line in block.key)
        yield "</ul>"
    yield "</figure>"
