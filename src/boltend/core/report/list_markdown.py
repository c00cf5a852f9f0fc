"""To cut and To buy as Markdown."""

from collections.abc import Iterable, Iterator

from boltend.core.pool import Lists
from boltend.core.report.list_words import buy_sheet, cut_sheets
from boltend.core.report.markdown import code, escape
from boltend.core.report.pictures import Look, cut_lines
from boltend.core.values import Notation


def lists_markdown(lists: Lists, how: Notation, look: Look | None = None) -> str:
    """Both lists; whatever a person typed is escaped. Pictures as `look` says."""
    return "".join(line + "\n" for line in (*_to_cut(lists, how, look), *_to_buy(lists, how)))


def _to_cut(lists: Lists, how: Notation, look: Look | None) -> Iterator[str]:
    sheets = cut_sheets(lists, how)
    yield from ("## To cut", "") if sheets else ()
    for sheet in sheets:
        yield from (f"### {escape(sheet.title)}", "")
        yield from _paragraphs(sheet.facts)
        if sheet.steps:
            yield from (*(f"{number}. {escape(step)}" for number, step in enumerate(sheet.steps, 1)), "")
        if look is not None:
            yield from code(cut_lines(sheet.pictures, look))
        for title, lines in (("Pieces", sheet.pieces), ("Left over", sheet.leftovers)):
            if lines:
                yield from (f"**{title}**", "", *(f"- {escape(line)}" for line in lines), "")
        yield from _paragraphs(sheet.notes)


def _to_buy(lists: Lists, how: Notation) -> Iterator[str]:
    sheet = buy_sheet(lists, how)
    if not sheet.rows:
        return
    yield from ("## To buy", "", "| What | Amount | Price | Cost | |", "| --- | --- | --- | ---: | --- |")
    for row in sheet.rows:
        cells = (row.what, row.amount, row.price, row.cost, "; ".join(row.notes))
        yield "| " + " | ".join(map(escape, cells)) + " |"
    if sheet.total:
        last = sheet.total_row
        yield f"| **{last.what}** | {escape(last.amount)} | | {escape(last.cost)} | |"
    yield ""
    yield from _paragraphs(sheet.notes)


def _paragraphs(lines: Iterable[str]) -> Iterator[str]:
    for line in lines:
        yield from (escape(line), "")
