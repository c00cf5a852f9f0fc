"""A project as plain text for the terminal or a pipe."""

import textwrap
from collections.abc import Iterator, Sequence

from boltend.core.flow import Workbook
from boltend.core.project.model import Tab
from boltend.core.report.pictures import Look, picture_lines
from boltend.core.report.quilt_picture import quilt_of_several
from boltend.core.report.quilt_size import finished_size
from boltend.core.report.safety import CUTTING_CAUTION, any_cut
from boltend.core.report.tab_sheet import Entry, Grid, TabSheet, tab_sheet
from boltend.core.values import visible
from boltend.core.values.unbroken import broken, unbroken

WIDTH = 78
NO_TABS = "There are no tabs yet."
NO_NAME = "Plan of a quilt"
"""The heading of a project without a name."""


def print_text(
    book: Workbook,
    tabs: Sequence[Tab],
    *,
    title: bool = True,
    lists: str = "",
    look: Look | None = None,
    ladders: str = "",
) -> str:
    """The sheets of these tabs, one below the other, then the lists and ladders as they are given.

    Above them the project's name, and of all its tabs the finished size. Without a `look` there are no
    pictures.
    """
    lines: list[str] = []
    if title:
        lines += _head(book, tabs)
        whole = quilt_of_several(book, tabs) if look is not None else None
        if whole is not None and look is not None:
            lines += [*_pictured(picture_lines(whole.shapes, whole.show, look, whole.facts), "The quilt"), ""]
    for tab in tabs:
        lines += [*_tab(tab_sheet(book, tab), look), ""]
    lines += lists.splitlines()
    if lists:
        lines.append("")
    if ladders:
        lines += ["Ladders", "=======", "", *ladders.splitlines(), ""]
    if any_cut(book.results[tab.key].answer for tab in tabs):
        lines += wrapped(CUTTING_CAUTION, "")
    if not tabs:
        lines += [NO_TABS]
    # Line by line: a name may hold what would move the cursor, or turn the direction of reading.
    return "\n".join(visible(line) for line in lines).rstrip() + "\n"


def _head(book: Workbook, tabs: Sequence[Tab]) -> Iterator[str]:
    """The project's name and the size of the whole quilt; nothing of what has neither."""
    name, size = book.project.name, finished_size(book, tabs)
    if size and not name:
        name = NO_NAME
    if name:
        yield from (name, "=" * len(visible(name)))
        yield from wrapped(size, "") if size else ()
        yield ""


def _tab(sheet: TabSheet, look: Look | None) -> Iterator[str]:
    flags = f" ({', '.join(sheet.flags)})" if sheet.flags else ""
    head = f"{sheet.name or '(no name)'}{flags}"
    if sheet.name != sheet.calculator:  # `boltend work` names its only tab by the calculator
        head += f" · {sheet.calculator or '(no calculator)'}"
    yield head
    yield "-" * len(visible(head))
    if sheet.asks:
        yield from wrapped(sheet.asks, "")
    if sheet.note:
        yield from wrapped(f"Note: {sheet.note}", "")
    if sheet.state != "worked out":
        yield sheet.state.upper() + ":"
        for why in sheet.why:
            yield from wrapped(f"- {why}", "  ", "    ")
    yield from _entries("Given", sheet.given)
    yield from _entries("Found", sheet.found)
    for grid in sheet.grids:
        yield from _grid(grid)
    if look is not None:
        yield from _pictured(picture_lines(sheet.shapes, sheet.show, look))
    yield from _section("Working", sheet.working)
    yield from _section("Cautions", sheet.cautions)


def _entries(title: str, entries: tuple[Entry, ...]) -> Iterator[str]:
    if not entries:
        return
    yield title
    widest = max(len(e.label) for e in entries)
    value = max(len(e.value) for e in entries)
    for e in entries:
        tail = "  ".join(part for part in (e.also, f"({e.origin})" if e.origin else "") if part)
        yield f"  {e.label:<{widest}}  {e.value:<{min(value, 30)}}  {tail}".rstrip()


def _grid(grid: Grid) -> Iterator[str]:
    yield grid.label
    table = (grid.columns, *grid.rows)
    widths = [max(len(row[i]) for row in table) for i in range(len(grid.columns))]
    if sum(widths) + 2 * len(widths) > WIDTH:
        yield from _tall_grid(grid)
        return
    for row in table:
        yield "  " + "  ".join(f"{cell:<{width}}" for cell, width in zip(row, widths, strict=True)).rstrip()


def _tall_grid(grid: Grid) -> Iterator[str]:
    """Rows too wide for a line: each as a list of its columns."""
    widest = max(len(c) for c in grid.columns)
    for number, row in enumerate(grid.rows, 1):
        yield f"  {number}."
        for label, cell in zip(grid.columns, row, strict=True):
            yield f"    {label:<{widest}}  {cell}"


def _pictured(lines: list[str], title: str = "Picture") -> Iterator[str]:
    if lines:
        yield title
    for line in lines:
        yield f"  {line}".rstrip()


def _section(title: str, lines: tuple[str, ...]) -> Iterator[str]:
    if lines:
        yield title
    for line in lines:
        yield from wrapped(line, "  ", "    ")


def wrapped(text: str, first: str, rest: str | None = None) -> list[str]:
    """A paragraph as lines, the first one indented by `first` and the others by `rest`."""
    lines = textwrap.wrap(
        unbroken(text),
        WIDTH,
        initial_indent=first,
        subsequent_indent=first if rest is None else rest,
        break_on_hyphens=False,
    )
    return [broken(line) for line in lines] or [first.rstrip()]
