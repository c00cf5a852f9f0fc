"""A project as Markdown."""

import re
from collections.abc import Iterator, Sequence

from boltend.core.flow import Workbook
from boltend.core.project.model import Tab
from boltend.core.report.pictures import Look, picture_lines
from boltend.core.report.quilt_picture import quilt_of_several
from boltend.core.report.quilt_size import finished_size
from boltend.core.report.safety import CUTTING_CAUTION, any_cut
from boltend.core.report.tab_sheet import TabSheet, tab_sheet
from boltend.core.report.text import NO_NAME, NO_TABS
from boltend.core.values import visible


def print_markdown(
    book: Workbook, tabs: Sequence[Tab], lists: str = "", look: Look | None = None, ladders: str = ""
) -> str:
    """The sheets of these tabs as Markdown, then lists and ladders; whatever a person typed is escaped.

    Without a `look` there are no pictures.
    """
    lines: list[str] = []
    size = finished_size(book, tabs)
    if book.project.name or size:
        lines += [f"# {escape(book.project.name or NO_NAME)}", ""]
    if size:
        lines += [escape(size), ""]
    whole = quilt_of_several(book, tabs) if look is not None else None
    if whole is not None and look is not None:
        lines += code(picture_lines(whole.shapes, whole.show, look, whole.facts))
    for tab in tabs:
        lines += _tab(tab_sheet(book, tab), look)
    lines += lists.splitlines()
    if lists:
        lines.append("")
    lines += ladders.splitlines()
    if ladders:
        lines.append("")
    if any_cut(book.results[tab.key].answer for tab in tabs):
        lines += [f"> {CUTTING_CAUTION}", ""]
    if not tabs:
        lines += [NO_TABS]
    return "\n".join(lines).rstrip() + "\n"


def escape(text: str) -> str:
    """Text that Markdown shows as it is: no markup, no HTML, one line."""
    flat = visible(" ".join(text.split()))
    flat = re.sub(r"([\\`*_{}\[\]<>#|~&!$])", r"\\\1", flat)
    return re.sub(
        r"^([0-9]*)([-+=.)])", r"\1\\\2", flat
    )  # in front these would begin a list, or underline a heading


def _tab(sheet: TabSheet, look: Look | None) -> Iterator[str]:
    flags = f" ({', '.join(sheet.flags)})" if sheet.flags else ""
    yield f"## {escape(sheet.name or '(no name)')}{flags}"
    yield ""
    calculator = escape(sheet.calculator or "(no calculator)")
    yield f"*{escape(sheet.asks)}* ({calculator})" if sheet.asks else calculator
    yield ""
    if sheet.note:
        yield from (escape(sheet.note), "")
    if sheet.state != "worked out":
        yield f"**{sheet.state}**"
        yield ""
        yield from _list(sheet.why)
    yield from _table(
        "Given", ("Given", "Value", "≈", "From"), [(e.label, e.value, e.also, e.origin) for e in sheet.given]
    )
    yield from _table("Found", ("Found", "Value", "≈"), [(e.label, e.value, e.also) for e in sheet.found])
    for grid in sheet.grids:
        yield from _table(grid.label, grid.columns, grid.rows)
    if look is not None:
        yield from code(picture_lines(sheet.shapes, sheet.show, look))
    for title, lines in (("Working", sheet.working), ("Cautions", sheet.cautions)):
        if lines:
            yield from (f"### {title}", "")
            yield from _list(lines)


def code(lines: Sequence[str]) -> Iterator[str]:
    """Lines as they are, in a fence that is longer than any run of backticks in them."""
    if not lines:
        return
    runs = re.findall("`+", "\n".join(lines))
    fence = "`" * max(3, *(len(run) + 1 for run in runs)) if runs else "```"
    yield from (f"{fence}text", *map(visible, lines), fence, "")


def _list(lines: Sequence[str]) -> Iterator[str]:
    yield from (f"- {escape(line)}" for line in lines)
    yield ""


def _table(title: str, columns: Sequence[str], rows: Sequence[Sequence[str]]) -> Iterator[str]:
    if not rows:
        return
    yield from (f"### {escape(title)}", "")
    yield _row(columns)
    yield "|" + " --- |" * len(columns)
    yield from map(_row, rows)
    yield ""


def _row(cells: Sequence[str]) -> str:
    return "| " + " | ".join(map(escape, cells)) + " |"
