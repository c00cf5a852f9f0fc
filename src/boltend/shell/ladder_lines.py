"""Ladders as lines of a given width: a row for each value, the columns in as many parts as the width needs.

A line leads to its ladder, or to one of its rungs: see `target`.
"""

from collections.abc import Iterator, Sequence

from rich.cells import cell_len

from boltend.core.asking import Rung
from boltend.core.asking.ladder import TOTAL, present_rung, said_value
from boltend.core.drawing.bars import bars
from boltend.core.flow import Workbook
from boltend.core.report.ladder_forms import amounts, column_order
from boltend.core.report.ladder_text import ladder_cautions
from boltend.core.report.words import say_value
from boltend.shell.climbing import Standing
from boltend.shell.result_lines import Part, ResultLine
from boltend.shell.texts import clipped, padded, shown, wrapped

NOW, OPEN, PENDING = "*", "~", "…"
"""The value that the project has now; what may still become less; what is not worked out yet."""

_PER_LADDER = 1000
"""More than a ladder has rungs: a line leads to a number of ladder and rung."""

_HEAD = 14
"""Cells of a column's head, at least as wide as its widest word; longer ones take several lines."""

_LEAST_BAR, _MOST_BAR = 8, 24


def target(leads_to: int) -> tuple[int, int | None]:
    """The ladder, and the rung, that a line leads to."""
    ladder, rung = divmod(leads_to, _PER_LADDER)
    return ladder, rung - 1 if rung else None


def leads_to(ladder: int, rung: int | None = None) -> int:
    """The number for a line of a ladder, or of one of its rungs."""
    return ladder * _PER_LADDER + (0 if rung is None else rung + 1)


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
    now = present_rung(book, ladder)
    table = _Table(number, each, now, width, plain=plain)
    yield from table.lines()
    if now is not None:
        yield _line(f"  {NOW} what the project has now", "muted")
    if any(rung.open for rung in each.done):
        yield from (
            _line(f"  {text}", "muted")
            for text in wrapped(f"{OPEN} a plan that may still become shorter", width - 2)
        )
    for why in [*_whys(each.done), *ladder_cautions(ladder, each.done)]:
        for n, text in enumerate(wrapped(why, width - 4)):
            yield ResultLine((("  ! " if n == 0 else "    ", "muted"), (text, "caution")))


def _whys(rungs: Sequence[Rung]) -> list[str]:
    """Why something is missing, each reason once, with its values."""
    found: dict[str, list[str]] = {}
    for rung in rungs:
        for cell in rung.cells.values():
            if cell.why and rung.value not in found.setdefault(cell.why, []):
                found[cell.why].append(rung.value)
    return [f"{', '.join(map(shown, values))}: {why}" for why, values in found.items()]


class _Table:
    """The values down, what is taken across."""

    def __init__(self, number: int, each: Standing, now: int | None, width: int, *, plain: bool) -> None:
        assert each.ladder is not None  # asked before
        self.number, self.rungs, self.now, self.width, self.plain = number, each.rungs, now, width, plain
        self.label = each.ladder.spot.label
        self.values = [shown(said_value(each.ladder, at)) for at in range(len(each.rungs))]
        self.names = column_order(each.ladder, each.done)
        self.head = min(max(map(cell_len, (*self.values, self.label))), max(8, width // 3))

    def lines(self) -> Iterator[ResultLine]:
        parts = self._parts()
        plot = self._plotted()
        bar_room = 0
        if plot and plot in parts[0]:  # beside its own numbers, or below them all
            used = 2 + self.head + sum(2 + self._column(name) for name in parts[0])
            room = min(_MOST_BAR, self.width - used - 2)
            bar_room = room if room >= _LEAST_BAR else 0
        for n, names in enumerate(parts or [[]]):
            if n:
                yield _line("")
            yield from self._part(names, plot if n == 0 and bar_room else "", bar_room, chosen=n == 0)
        if plot and not bar_room:
            yield from self._plot_below(plot)

    def _column(self, name: str) -> int:
        texts = [self._text(rung, name) for rung in self.rungs]
        words = [min(cell_len(word), _HEAD) for word in shown(name).split()]
        head = min(cell_len(shown(name)), _HEAD)
        widest = max([*map(cell_len, texts), *(words if head > _HEAD else [head])])
        return min(widest, max(8, self.width - self.head - 4))

    def _text(self, rung: Rung | None, name: str) -> str:
        if rung is None:
            return PENDING
        cell = rung.cells.get(name)
        if cell is None:
            return "–"
        return shown(cell.text or "!") + (OPEN if rung.open and name == TOTAL else "")

    def _parts(self) -> list[list[str]]:
        """As many columns side by side as fit."""
        parts: list[list[str]] = []
        used = self.width
        for name in self.names:
            need = 2 + self._column(name)
            if used + need > self.width:
                parts.append([])
                used = 2 + self.head
            parts[-1].append(name)
            used += need
        return parts

    def _part(self, names: Sequence[str], plot: str, room: int, *, chosen: bool) -> Iterator[ResultLine]:
        widths = [self._column(name) for name in names]
        heads = [wrapped(name, width) for name, width in zip(names, widths, strict=True)]
        label = wrapped(self.label, self.head)
        high = max(len(each) for each in (label, *heads))
        titles = [[""] * (high - len(each)) + each for each in (label, *heads)]
        for row in range(high):
            first, *others = (each[row] for each in titles)
            texts = "".join("  " + _right(text, width) for text, width in zip(others, widths, strict=True))
            over = f"  {plot}" if plot and row == high - 1 else ""
            yield _line(clipped(f"  {padded(first, self.head)}{texts}{over}", self.width), "muted")
        drawn = self._bars(plot, room)
        for at, rung in enumerate(self.rungs):
            mark = NOW if at == self.now else " "
            cells = [self._text(rung, name) for name in names]
            parts: list[Part] = [(f" {mark}", "value"), (padded(self.values[at], self.head), "")]
            parts += [
                ("  " + _right(text, width), "value") for text, width in zip(cells, widths, strict=True)
            ]
            if drawn is not None:
                parts.append((f"  {drawn[at]}", "link"))
            yield ResultLine(tuple(parts), leads_to(self.number, at) if chosen else None)

    def _bars(self, name: str, room: int) -> list[str] | None:
        return bars(amounts(self.rungs, name), room, ascii=self.plain) if name else None

    def _plotted(self) -> str:
        """The column that is drawn: what it costs, or else the first that bars can tell of."""
        order = sorted(self.names, key=lambda name: name != TOTAL)
        return next((name for name in order if self._bars(name, 1) is not None), "")

    def _plot_below(self, name: str) -> Iterator[ResultLine]:
        room = min(_MOST_BAR, self.width - self.head - 4)
        drawn = self._bars(name, room)
        if drawn is None or room < 2:
            return
        yield _line("")
        yield _line(clipped(f"  {name}", self.width), "muted")
        for at, bar in enumerate(drawn):
            mark = NOW if at == self.now else " "
            yield ResultLine(
                ((f" {mark}", "value"), (padded(self.values[at], self.head) + "  ", ""), (bar, "link"))
            )


def _right(text: str, width: int) -> str:
    text = clipped(text, width)
    return " " * (width - cell_len(text)) + text


def _line(text: str, look: str = "") -> ResultLine:
    return ResultLine(((text, look),))
