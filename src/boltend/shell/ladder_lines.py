"""Ladders as lines of a given width: of each its name, its table, and what there is to say of that."""

from collections.abc import Iterator, Sequence

from boltend.core.asking import Rung
from boltend.core.asking.ladder import present_rung
from boltend.core.flow import Workbook
from boltend.core.report.ladder_text import ladder_cautions, ladder_left_out, same_for_all, some_values
from boltend.core.report.words import say_value
from boltend.shell.climbing import Standing
from boltend.shell.ladder_table import NOW, OPEN, LadderTable, leads_to
from boltend.shell.result_lines import ResultLine
from boltend.shell.texts import clipped, shown, wrapped


def ladder_lines(
    book: Workbook, standing: Sequence[Standing], width: int, hint: str, *, plain: bool = False
) -> tuple[ResultLine, ...]:
    """All ladders, one below the other; where there is none, `hint` says how to make one."""
    width = max(20, width - 1)
    lines: list[ResultLine] = []
    for number, each in enumerate(standing):
        lines += [*([_line("")] if lines else []), *_ladder(book, number, each, width, plain=plain)]
    if not standing:
        lines += [_line(text) for text in wrapped(hint, width)]
    return tuple(lines)


def _ladder(book: Workbook, number: int, each: Standing, width: int, *, plain: bool) -> Iterator[ResultLine]:
    name = each.row.name or "(no name)"
    yield ResultLine(((" " + clipped(name, width - 1), "title"),), leads_to(number))
    ladder = each.ladder
    if ladder is None:
        yield from (_line(f"  {text}", "bad") for text in wrapped(f"! {each.why}", width - 2))
        return
    tab = book.project.find_tab(ladder.tab)
    value = ladder.spot.value(book)
    has = (
        f", now {say_value(ladder.given, value, book.results[ladder.tab].settings.notation)}"
        if value is not None
        else ""
    )
    yield _line(
        clipped(f"  {ladder.spot.label} of “{tab.name if tab is not None else ''}”{has}", width), "muted"
    )
    kept = same_for_all(book, ladder.spot)
    if kept:
        yield from (_line(f"  {text}", "muted") for text in wrapped(f"The same for all: {kept}", width - 2))
    now = present_rung(book, ladder)
    table = LadderTable(number, each, now, width, plain=plain)
    yield from table.lines()
    if now is not None:
        yield _line(f"  {NOW} what the project has now", "muted")
    if any(rung.open for rung in each.done):
        yield from (
            _line(f"  {text}", "muted")
            for text in wrapped(f"{OPEN} a plan that may still become shorter", width - 2)
        )
    # What a total does not count, why a number is missing, and the cautions that the table counts, are said
    # before any other part.
    left_out, cautions = ladder_left_out(each.done), ladder_cautions(ladder, each.done)
    yield from _listed([*left_out, *_whys(each.done, " ".join(left_out)), *cautions], width)
    yield from table.more()


def _listed(texts: Sequence[str], width: int) -> Iterator[ResultLine]:
    for why in texts:
        for n, text in enumerate(wrapped(why, width - 4)):
            yield ResultLine((("  ! " if n == 0 else "    ", "muted"), (text, "caution")))


def _whys(rungs: Sequence[Rung], said: str) -> list[str]:
    """Why something is missing, each reason once, with its values; none that is `said` already."""
    found: dict[str, list[str]] = {}
    for rung in rungs:
        for cell in rung.cells.values():
            if cell.why.rstrip(".") in said:  # an empty reason is
                continue
            if rung.value not in found.setdefault(cell.why, []):
                found[cell.why].append(rung.value)
    return [f"{some_values([*map(shown, values)])}: {why}" for why, values in found.items()]


def _line(text: str, look: str = "") -> ResultLine:
    return ResultLine(((text, look),))
