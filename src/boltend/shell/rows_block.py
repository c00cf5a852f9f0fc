"""A rows given: a small grid of fields, with rows added, moved and removed."""

from collections.abc import Callable, Sequence

from rich.segment import Segment
from textual import events
from textual.app import ComposeResult
from textual.binding import Binding
from textual.message import Message
from textual.strip import Strip
from textual.widget import Widget

from boltend.core.contract import GivenSpec
from boltend.shell.fields import TO_NEXT, ChoiceField, LiveInput, Owner, Said, field_for
from boltend.shell.fixed import Fixed
from boltend.shell.looks import Look, Place, without_kind
from boltend.shell.rows_columns import Column, columns_in, head_lines
from boltend.shell.texts import clipped, padded


class RowAsked(Message):
    """The person clicked a sign that adds, moves or removes a row."""

    def __init__(self, given: str, what: str, row: int) -> None:
        self.given, self.what, self.row = given, what, row
        super().__init__()


class RowLine(Fixed):
    """One row: its number and its fields; what is wrong with one is said in the line below the form."""

    DEFAULT_CSS = """
    RowLine { width: 1fr; height: 2; }
    RowLine > .row--label { color: $text-muted; }
    RowLine > .row--sign { color: $text-accent; }
    RowLine > .row--trouble { color: $text-error; }
    RowLine > LiveInput, RowLine > ChoiceField { position: absolute; }
    """
    COMPONENT_CLASSES = {"row--label", "row--sign", "row--trouble"}  # noqa: RUF012 - as Textual declares it
    SIGNS = ((" +", "add"), (" ↑", "up"), (" ↓", "down"), (" x", "remove"))

    def __init__(
        self, given: GivenSpec, row: int, owner: Owner, options: Callable[[GivenSpec], Sequence[str]]
    ) -> None:
        super().__init__()
        self.given, self.row = given, row
        self.looks: dict[str, Look] = {}
        self.fields: dict[str, LiveInput | ChoiceField] = {
            c.name: field_for(c, Place(given.name, row, c.name), owner, lambda c=c: options(c))  # type: ignore[misc]  # mypy cannot infer a lambda with a default
            for c in given.columns
        }

    def compose(self) -> ComposeResult:
        """The fields."""
        yield from self.fields.values()

    def on_mount(self) -> None:
        """Put the fields in place."""
        self._place()

    def on_resize(self) -> None:
        """Put the fields in place."""
        self._place()

    @property
    def _lines(self) -> list[list[Column]]:
        # Room for the signs at the end of a line.
        return columns_in(self.given.columns, (self.size.width or 80) - 9)

    def _place(self) -> None:
        y = 0
        for line in self._lines:
            y += self._heads(line)
            for column in line:
                field = self.fields[column.spec.name]
                field.styles.width = column.width
                field.styles.offset = (column.x, y)
            y += 1
        self.styles.height = self.rows

    def _heads(self, line: Sequence[Column]) -> int:
        """Lines of heads above a line of fields: the first row bears them, those below stand under it."""
        return head_lines(line) if self.row == 0 else 0

    def where(self, field: Widget) -> tuple[int, int]:
        """In which line of the row a field stands, and how many lines of heads stand right above it."""
        y = 0
        for line in self._lines:
            heads = self._heads(line)
            if any(self.fields[column.spec.name] is field for column in line):
                return y + heads, heads
            y += heads + 1
        return 0, 0

    @property
    def rows(self) -> int:
        """Lines that the row takes."""
        return sum(self._heads(line) + 1 for line in self._lines)

    def show(self, looks: dict[str, Look]) -> bool:
        """Show this; whether the height changed."""
        for name, look in looks.items():
            self.fields[name].show(without_kind(look))
        if looks == self.looks:
            return False
        before = self.rows
        self.looks = looks
        changed = self.rows != before
        if changed:
            self.styles.height = self.rows
        self.refresh()
        return changed

    def on_descendant_focus(self) -> None:
        """The mark before the field comes."""
        self.refresh()

    def on_descendant_blur(self) -> None:
        """The mark before the field goes."""
        self.refresh()

    def render_line(self, y: int) -> Strip:
        """Labels and signs; the fields paint themselves."""
        for n, line in enumerate(self._lines):
            heads = self._heads(line)
            if y < heads:
                return self._head_line(line, y - heads)
            if y == heads:
                return self._field_line(line, first=n == 0)
            y -= heads + 1
        return Strip.blank(self.size.width, self.rich_style)

    def _head_line(self, columns: Sequence[Column], from_below: int) -> Strip:
        """One line of the heads, counted from the fields: -1 stands right above them."""
        style = self.get_component_rich_style("row--label")
        text = ""
        for column in columns:
            said = column.head[from_below] if -from_below <= len(column.head) else ""
            text = text.ljust(column.x) + padded(said, column.width + 1)
        return Strip([Segment(text, style)]).adjust_cell_length(self.size.width, self.rich_style)

    def _field_line(self, columns: Sequence[Column], *, first: bool) -> Strip:
        base, part = self.rich_style, self.get_component_rich_style
        bad, sign = part("row--trouble"), part("row--sign")
        here = ">" if any(field.has_focus for field in self.fields.values()) else ""
        number = f"{here}{self.row + 1:>{3 - len(here)}}" if first else ""
        segments, at = [Segment(number, base)], len(number)
        for column in columns:
            name = column.spec.name
            look = self.looks.get(name, Look())
            mark = "!" if look.trouble or look.needed else "←" if look.linked else " "
            if mark == " " and self.fields[name].has_focus:
                mark = ">"
            segments += [
                Segment(" " * (column.x - 1 - at), base),
                Segment(mark, bad if mark == "!" else sign),
                Segment(" " * column.width, base),
            ]
            at = column.x + column.width
        segments.append(Segment("".join(s for s, _ in self.SIGNS) if first else "", sign))
        return Strip(segments).adjust_cell_length(self.size.width, base)

    def on_click(self, event: events.Click) -> None:
        """A sign at the end of the line."""
        line = self._lines[0]
        start = line[-1].x + line[-1].width
        if event.y == self._heads(line) and event.x >= start:
            at = (event.x - start) // 2
            if at < len(self.SIGNS):
                self.post_message(RowAsked(self.given.name, self.SIGNS[at][1], self.row))


class RowsBlock(Fixed):
    """A rows given. Rows that are taken out are kept aside and used again: Textual 8.2 leaks Inputs."""

    DEFAULT_CSS = """
    RowsBlock { width: 1fr; height: auto; layout: vertical; }
    RowsBlock > RowsTitle { height: 1; }
    """

    def __init__(self, spec: GivenSpec, owner: Owner, options: Callable[[GivenSpec], Sequence[str]]) -> None:
        super().__init__()
        self.spec, self.owner, self.options = spec, owner, options
        self.title_line = RowsTitle(spec, owner)
        self.lines: list[RowLine] = []
        self._composed = False

    def compose(self) -> ComposeResult:
        """The title, and the rows that were shown before this was mounted; others come as they are shown."""
        self._composed = True
        yield self.title_line
        yield from self.lines

    @property
    def rows(self) -> int:
        """Lines that the block takes."""
        return self.title_line.rows + sum(line.rows for line in self.lines if line.display)

    def show(self, head: Look, rows: Sequence[dict[str, Look]]) -> None:
        """Show these rows."""
        self.title_line.show(head, len(rows))
        while len(self.lines) < len(rows):
            line = RowLine(self.spec, len(self.lines), self.owner, self.options)
            self.lines.append(line)
            if self._composed:
                self.mount(line)
        for n, line in enumerate(self.lines):
            line.display = n < len(rows)
            if n < len(rows):
                line.show(rows[n])


class RowsTitle(Said, can_focus=True):
    """The label of a rows given, and the sign that adds a row. It takes the focus: all may be one link."""

    BINDINGS = [  # noqa: RUF012 - as Textual declares it
        *TO_NEXT,
        Binding("space", "add", "Add a row", show=False),
    ]

    DEFAULT_CSS = """
    RowsTitle { height: 1; width: 1fr; }
    RowsTitle > .row--label { text-style: bold; }
    RowsTitle:focus { background: $primary; color: $text; }
    RowsTitle > .row--sign { color: $text-accent; }
    RowsTitle > .row--trouble { color: $text-error; }
    RowsTitle:focus > .row--sign, RowsTitle:focus > .row--trouble { background: $primary; color: $text; }
    """
    COMPONENT_CLASSES = {"row--label", "row--sign", "row--trouble"}  # noqa: RUF012 - as Textual declares it
    ADD = "[+ row]"

    def __init__(self, spec: GivenSpec, owner: Owner) -> None:
        super().__init__()
        self.spec, self.owner = spec, owner
        self.place = Place(spec.name)
        self.look = Look()
        self.count = 0

    def on_focus(self) -> None:
        """Tell the form."""
        self.refresh()
        self.owner.entered(self.place)

    def on_blur(self) -> None:
        """The sign goes."""
        self.refresh()

    @property
    def rows(self) -> int:
        """Lines that the title takes."""
        return 1

    def show(self, look: Look, count: int) -> None:
        """Show this."""
        if (look, count) != (self.look, self.count):
            self.look, self.count = look, count
            self.refresh()

    def action_add(self) -> None:
        """Add a row below the last."""
        if self.look.linked:
            self.tell_linked()
        else:
            self.post_message(RowAsked(self.spec.name, "add", self.count))

    def action_on(self) -> None:
        """To the next field; where a row is needed and none is there, Enter adds one."""
        if self.look.needed and not self.count and not self.look.linked:
            self.action_add()
        else:
            super().action_on()

    def _words(self) -> str:
        return f"{self.spec.label} " if self.look.linked or self.count else f"{self.spec.label}: none "

    def render_line(self, y: int) -> Strip:
        """The label, the sign; what it is linked to, or what is wrong."""
        base, part = self.rich_style, self.get_component_rich_style
        bad = bool(self.look.trouble) or self.look.needed
        room = max(0, self.size.width - 12 - len(self._words()))
        wrong = self.look.trouble and not self.look.linked
        beside, style = (self.look.trouble, "row--trouble") if wrong else (self.look.beside, "row--sign")
        segments = [
            Segment("> " if self.has_focus else "! " if bad else "  ", part("row--trouble")),
            Segment(self._words(), part("row--label")),
            Segment("" if self.look.linked else self.ADD + " ", part("row--sign")),
            Segment(clipped(beside, room), part(style)),
        ]
        return Strip(segments).adjust_cell_length(self.size.width, base)

    def on_click(self, event: events.Click) -> None:
        """Add a row."""
        start = 2 + len(self._words())
        if event.y == 0 and not self.look.linked and start <= event.x < start + len(self.ADD):
            self.post_message(RowAsked(self.spec.name, "add", self.count))
