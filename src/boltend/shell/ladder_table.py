"""A ladder as a table of a given width: its values across where they fit, else down, in parts.

Sizes and the total, with what that leaves out, stand first. A line leads to its ladder, or to a rung: see
`target`; where the values stand across, its cells do.
"""

from collections.abc import Iterator, Sequence

from rich.cells import cell_len

from boltend.core.asking import Rung
from boltend.core.asking.ladder import LEFT_OUT, TOTAL, said_value
from boltend.core.drawing.bars import bars
from boltend.core.report.ladder_forms import amounts, column_order
from boltend.shell.climbing import Standing
from boltend.shell.result_lines import Part, ResultLine
from boltend.shell.texts import clipped, padded, shown, wrapped

NOW, OPEN, PENDING = "*", "~", "…"
"""The value that the project has now; what may still become less; what is not worked out yet."""

CAUTIONS = "Cautions"
"""The column that counts what is warned of at each value."""

_PER_LADDER = 1000
"""More than a ladder has rungs: a line leads to a number of ladder and rung."""

_HEAD = 14
"""Cells of a column's head, at least as wide as its widest word; longer ones take several lines."""

_NAMES = (30, 26, 22, 18)
"""Cells for the names of rows, tried in turn, where the values stand across; longer ones take two lines."""

_SIZES = 2
"""Founds that stand before the total; the others come behind it."""

_LEAST_BAR, _MOST_BAR = 8, 24

_AND_MORE = " and more"


def target(leads_to: int) -> tuple[int, int | None]:
    """The ladder, and the rung, that a line leads to."""
    ladder, rung = divmod(leads_to, _PER_LADDER)
    return ladder, rung - 1 if rung else None


def leads_to(ladder: int, rung: int | None = None) -> int:
    """The number for a line of a ladder, or of one of its rungs."""
    return ladder * _PER_LADDER + (0 if rung is None else rung + 1)


class LadderTable:
    """The lines of a ladder: `lines` the table's first part, `more` what stands below it."""

    def __init__(self, number: int, each: Standing, now: int | None, width: int, *, plain: bool) -> None:
        assert each.ladder is not None  # asked before
        self.number, self.rungs, self.now, self.width, self.plain = number, each.rungs, now, width, plain
        self.label = each.ladder.spot.label
        self.values = [shown(said_value(each.ladder, at)) for at in range(len(each.rungs))]
        names = column_order(each.ladder, each.done)
        labels = {take.label for take in each.ladder.takes if take.found is not None}
        sizes = [name for name in names if name in labels][:_SIZES]
        # What holds at every value tells none from another: it stands below.
        first = each.done[0].cautions if each.done else ()
        self.everywhere = [one for one in first if all(one in rung.cautions for rung in each.done)]
        cautions = [CAUTIONS] if any(map(self._cautions, each.done)) else []
        paid = [name for name in names if name in (TOTAL, LEFT_OUT)]
        self.first = [*sizes, *paid, *cautions]
        """What belongs together at the beginning."""
        self.names = [*self.first, *(name for name in names if name not in self.first)]
        self.head = min(max(map(cell_len, (*self.values, self.label))), max(8, width // 3))
        self.across = self._room_across()
        self.parts = [] if self.across else self._parts()

    # The two forms --------------------------------------------------------------------------------

    def lines(self) -> Iterator[ResultLine]:
        """The whole table, or the first of its parts."""
        if self.across:
            yield from self._across()
            return
        plot, room = self._beside()
        yield from self._part(self.parts[0] if self.parts else [], plot, room, chosen=True)

    def more(self) -> Iterator[ResultLine]:
        """The other parts, each with its heads, and the bars where they have no room beside."""
        for names in self.parts[1:]:
            yield _line("")
            yield from self._part(names, "", 0, chosen=False)
        plot = self._plotted()
        if plot and not self._beside()[0]:
            yield from self._plot_below(plot)

    # Values across --------------------------------------------------------------------------------

    def _widths(self) -> list[int]:
        """How wide the column of each value must be, with room for the mark of the present one."""
        return [
            max(
                *(1 + cell_len(word) for word in (value.split() or [""])),
                *(cell_len(self._text(rung, name)) for name in self.names),
                1,
            )
            for value, rung in zip(self.values, self.rungs, strict=True)
        ]

    def _room_across(self) -> int:
        """Cells for the names of rows, where all values fit side by side; else 0."""
        if not self.names or len(self.rungs) > self.width:
            return 0
        longest = max(map(cell_len, (*map(shown, self.names), self.label)))
        used = 2 + sum(2 + width for width in self._widths())
        rooms = (min(room, longest) for room in _NAMES)
        return next((room for room in rooms if used + room <= self.width), 0)

    def _across(self) -> Iterator[ResultLine]:
        widths = self._widths()
        marked = [f"{NOW if at == self.now else ''}{value}" for at, value in enumerate(self.values)]
        heads = [wrapped(value, width) for value, width in zip(marked, widths, strict=True)]
        high = max(map(len, heads))
        for row in range(high):
            texts = "".join(
                "  " + _right((("",) * (high - len(each)) + each)[row], width)
                for each, width in zip(heads, widths, strict=True)
            )
            label = self.label if row == high - 1 else ""
            yield _line(f"  {padded(clipped(label, self.across), self.across)}{texts}", "muted")
        for name in self.names:
            first, *others = wrapped(name, self.across)
            parts: list[Part] = [("  ", ""), (padded(first, self.across), "")]
            leads, x = [], 2 + self.across
            for at, (rung, width) in enumerate(zip(self.rungs, widths, strict=True)):
                parts.append(("  " + _right(self._text(rung, name), width), "value"))
                leads.append((x + 1, x + 2 + width, leads_to(self.number, at)))
                x += 2 + width
            yield ResultLine(tuple(parts), leads_to(self.number, 0), across=tuple(leads))
            yield from (_line(f"    {clipped(text, self.across - 2)}") for text in others)

    # Values down ----------------------------------------------------------------------------------

    def _column(self, name: str) -> int:
        texts = [self._text(rung, name) for rung in self.rungs]
        words = [min(cell_len(word), _HEAD) for word in shown(name).split()]
        head = min(cell_len(shown(name)), _HEAD)
        widest = max([*map(cell_len, texts), *(words if head > _HEAD - 1 else [head])])
        return min(widest, max(8, self.width - self.head - 4))

    def _text(self, rung: Rung | None, name: str) -> str:
        if rung is None:
            return PENDING
        if name == CAUTIONS:
            return str(self._cautions(rung) or "–")
        cell = rung.cells.get(name)
        if cell is None:
            return "–"
        text = shown(cell.text or "!")
        if name == TOTAL:
            text = text.replace(_AND_MORE, " +") + (OPEN if rung.open else "")
        return text

    def _cautions(self, rung: Rung) -> int:
        """How many cautions it has that others have not."""
        return sum(caution not in self.everywhere for caution in rung.cautions)

    def _parts(self) -> list[list[str]]:
        """As many columns side by side as fit; the last part has no single one, where that can be."""
        parts: list[list[str]] = []
        for name in self.names:
            if not parts or self._used([*parts[-1], name]) > self.width:
                parts.append([])
            parts[-1].append(name)
        if len(parts) > 1 and len(parts[-1]) == 1 and len(parts[-2]) > 2:
            spare = parts[-2][-1]
            if spare not in self.first and self._used([spare, *parts[-1]]) <= self.width:
                parts[-1].insert(0, parts[-2].pop())
        return parts

    def _used(self, names: Sequence[str]) -> int:
        return 2 + self.head + sum(2 + self._column(name) for name in names)

    def _part(self, names: Sequence[str], plot: str, room: int, *, chosen: bool) -> Iterator[ResultLine]:
        widths = [self._column(name) for name in names]
        heads = [wrapped(name, width) for name, width in zip(names, widths, strict=True)]
        label = wrapped(self.label, self.head)
        high = max(len(each) for each in (label, *heads))
        titles = [("",) * (high - len(each)) + each for each in (label, *heads)]
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

    # Bars -----------------------------------------------------------------------------------------

    def _beside(self) -> tuple[str, int]:
        """What is drawn beside its own numbers, and the room for it; nothing where there is too little."""
        plot = self._plotted()
        if not plot or self.across or plot not in self.parts[0]:
            return "", 0
        room = min(_MOST_BAR, self.width - self._used(self.parts[0]) - 2)
        return (plot, room) if room >= _LEAST_BAR else ("", 0)

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
