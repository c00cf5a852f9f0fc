"""What the results pane says, as lines of a given width. Words come from the core's report."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from rich.cells import cell_len

from boltend.core.contract import SETTING_KINDS
from boltend.core.flow import Result, Workbook
from boltend.core.project.model import Tab
from boltend.core.report.tab_sheet import Entry, TabSheet, tab_sheet
from boltend.shell.actions import key_of
from boltend.shell.both import both_shown
from boltend.shell.grid_lines import grid_lines
from boltend.shell.texts import clipped, padded, shown, wrapped

Part = tuple[str, str]
"""Text, and its look: title, value, muted, link, bad, caution, or empty."""


CAUTIONS = "Cautions"
"""The title above the cautions of a tab."""

_WIDEST_WAS = 12
"""Cells of a value that was: `23 13/16 in` fits."""

_LEAST_ARROW = 8
"""Cells that are left for who uses a found."""

PRICE_ASKED = -1
"""Where the line of a price leads: no tab has this key."""

CHOICES = "Choices"
"""The label of rows of which a given picks one, by common usage of calculators."""


@dataclass(frozen=True)
class ResultLine:
    """One line on the screen; `leads_to` is the key of a tab, `found` the name of a found in it.

    A line of a table may have cells that lead each elsewhere: `across` has (from, to, where to) in cells.
    Below the title of a picture that can be looked at alone stands that picture: `drawn` is its number.
    A `tail` goes on from the line above: a click follows it, but the keys stop at the line above.
    """

    parts: tuple[Part, ...]
    leads_to: int | None = None
    found: str = ""
    across: tuple[tuple[int, int, int], ...] = ()
    drawn: int | None = None
    tail: bool = False

    @property
    def stops(self) -> bool:
        """Whether the keys stop here, to lead on from it."""
        return self.leads_to is not None and not self.tail


def result_lines(
    book: Workbook,
    tab: Tab,
    width: int,
    picture: Callable[[int], tuple[ResultLine, ...]] | None = None,
    before: Result | None = None,
) -> tuple[ResultLine, ...]:
    """All lines of a tab's results; `picture` gives its picture for so many cells, where it stands here.

    `before` is what the tab came to before the last step: a found that has changed says what it was.
    """
    # What was given, rows too, stands in the form already.
    sheet = tab_sheet(book, tab, given=False, also=both_shown())
    width = max(20, width - 1)
    lines = list(_state(sheet, width))
    if sheet.note:
        said = f"Note: {sheet.note}".rstrip().split("\n")
        lines += [_line(text, "muted") for line in said for text in wrapped(line, width)]
    if sheet.found:
        lines += [
            *_title("Found", lines, _below(sheet)),
            *_found(book, tab, sheet, width, _was(book, tab, before)),
        ]
    for grid in sheet.grids:
        *above, title = _title(grid.label, lines)
        lines += [*above, replace(title, found=grid.name), *map(ResultLine, grid_lines(grid, width))]
    if sheet.working:
        lines += [*_title("Working", lines), *_listed(sheet.working, width, "")]
    drawn = picture(width) if picture is not None else ()
    if drawn:
        lines += [*_title("Picture", lines), *drawn]
    if sheet.cautions:
        lines += [*_title(CAUTIONS, lines), *_listed(sheet.cautions, width, "caution")]
    return tuple(lines)


def _line(text: str, look: str = "") -> ResultLine:
    return ResultLine(((text, look),))


def _title(words: str, before: Sequence[ResultLine], behind: tuple[Part, ...] = ()) -> list[ResultLine]:
    return [*([_line("")] if before else []), ResultLine(((words, "title"), *behind))]


def _below(sheet: TabSheet) -> tuple[Part, ...]:
    """What stands far below and must not be overlooked: the cautions, and what there is to choose from."""
    parts: list[Part] = []
    if sheet.cautions:
        count = len(sheet.cautions)
        words = "1 caution" if count == 1 else f"{count} cautions"
        parts.append((f" · {words}: {key_of('cautions')}", "caution"))
    parts += [
        (f" · {len(grid.rows)} choices below", "muted")
        for grid in sheet.grids
        if grid.label == CHOICES and len(grid.rows) > 1
    ]
    return tuple(parts)


def _state(sheet: TabSheet, width: int) -> Iterator[ResultLine]:
    if sheet.flags:
        says = {
            "aside": "Aside: a what-if, out of the lists.",
            "done": "Done: already sewn, out of the lists.",
        }
        for flag in sheet.flags:
            yield _line(says[flag], "muted")
    if sheet.state == "worked out":
        return
    if sheet.state == "working":
        yield _line(f"WORKING IT OUT … {key_of('stop')} stops it.", "bad")
        return
    word = {"cannot": "CANNOT be worked out:", "waiting": "WAITING:"}[sheet.state]
    yield _line(word, "bad")
    yield from _listed(sheet.why, width, "")


def _listed(texts: Sequence[str], width: int, look: str) -> Iterator[ResultLine]:
    for text in texts:
        for n, line in enumerate(wrapped(text, width - 2)):
            yield ResultLine((("- " if n == 0 else "  ", "muted"), (line, look)))


def _was(book: Workbook, tab: Tab, before: Result | None) -> dict[str, str]:
    """What each found that has another value now was before, in few words: its kind stands beside it."""
    now = book.results[tab.key]
    if before is None or before is now or before.spec is not now.spec or now.spec is None:
        return {}
    how, said = now.settings.notation, {}
    for spec in now.spec.founds:
        old, new = before.found.get(spec.name), now.found.get(spec.name)
        if spec.kind != "rows" and old is not None and new is not None and old != new:
            said[spec.name] = f"(was {clipped(spec.reader.show(old, how, spec.unit), _WIDEST_WAS)}) "
    return said


def _found(
    book: Workbook, tab: Tab, sheet: TabSheet, width: int, was: Mapping[str, str]
) -> Iterator[ResultLine]:
    label = min(28, max(cell_len(entry.label) for entry in sheet.found))
    value = min(22, max(cell_len(entry.value) for entry in sheet.found))
    for entry in sheet.found:
        uses = _uses(book, tab, entry.name)
        if label + 2 + cell_len(entry.value) > width:  # no part of a value is cut off: it stands below
            yield from _below_its_label(entry, uses, width)
            continue
        room = max(0, width - label - value - 3)
        other = clipped(entry.also, room)
        arrow = "→ " + ", ".join(name for _, name in uses) if uses else ""
        beside = cell_len(other) + 1 + cell_len(shown(arrow)) <= room
        # Nothing moves for what was: beside an arrow that is too long it takes some of its room.
        left, old = room - cell_len(other), was.get(entry.name, "")
        if cell_len(old) + (_LEAST_ARROW if arrow and beside else 0) > left:
            old = ""
        if beside:
            arrow = clipped(arrow, left - cell_len(old))
        leads_to = uses[0][0] if uses else None
        parts: list[Part] = [
            (padded(entry.label, label) + "  ", ""),
            (padded(entry.value, value) + " ", "value"),
            (old + (other + " " if other else ""), "muted"),
        ]
        if beside:
            parts.append((shown(arrow), "link"))
        yield ResultLine(tuple(parts), leads_to, entry.name)
        if not beside:
            yield ResultLine((("    " + clipped(arrow, width - 4), "link"),), leads_to, tail=True)
        for what, amount in _compared(book.results[tab.key], entry, sheet):
            yield ResultLine(((padded(f"  {what}", label) + "  ", "muted"), (amount, "value")))


def _compared(result: Result, entry: Entry, sheet: TabSheet) -> Iterator[tuple[str, str]]:
    """What a found would be at other values of a setting, where the rows declared next to it say so.

    Their first column bears the setting's name, another one the found's; the first row is the one that holds.
    """
    founds = result.spec.founds if result.spec is not None else ()
    rows = next((after for each, after in pairwise(founds) if each.name == entry.name), None)
    if rows is None or not rows.columns or rows.columns[0].name not in SETTING_KINDS:
        return
    column = next((column for column in rows.columns if column.name == entry.name), None)
    grid = next((grid for grid in sheet.grids if grid.name == rows.name), None)
    if grid is None or column is None or column.label not in grid.columns:
        return
    place = grid.columns.index(column.label)
    for cells in grid.rows[1:]:
        yield f"{grid.columns[0].lower()} {cells[0]}", cells[place]


def _below_its_label(entry: Entry, uses: Sequence[tuple[int, str]], width: int) -> Iterator[ResultLine]:
    leads_to = uses[0][0] if uses else None
    yield ResultLine(((clipped(entry.label, width), ""),), leads_to, entry.name)
    arrow = shown("  → " + ", ".join(name for _, name in uses) if uses else "")
    value = clipped(entry.value, width - 2)
    beside = clipped(arrow, max(0, width - 2 - cell_len(value)))
    yield ResultLine((("  ", ""), (value, "value"), (beside, "link")), leads_to, tail=True)


def _uses(book: Workbook, tab: Tab, found: str) -> list[tuple[int, str]]:
    """The tabs that use a found, each once: key and name."""
    keys = dict.fromkeys(key for key, _ in book.users(tab.key, found))
    return [(key, book.project.tab(key).name) for key in keys]
