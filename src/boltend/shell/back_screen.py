"""Working backwards under way, and what came of it: choose a value, and it goes into the given."""

from collections.abc import Callable

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.message import Message
from textual.screen import ModalScreen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from boltend.core.asking import Backwards, Try, Wish
from boltend.core.asking.back import Search, least_change
from boltend.core.flow import Workbook
from boltend.core.report.back_text import how_far, shown_values, which_do
from boltend.shell.actions import key_of
from boltend.shell.dialogs import DIALOG_CSS, Lines, is_beside
from boltend.shell.help import HelpScreen, dialog_help
from boltend.shell.lanes import give_way
from boltend.shell.planning import Wanted
from boltend.shell.texts import padded, shown, wrapped


class Told(Message):
    """The end of a search, or why it failed. Posted from its thread, where posting is safe."""

    def __init__(self, told: Backwards | None, fault: str = "") -> None:
        self.told, self.fault = told, fault
        super().__init__()


_CSS = """
    & > #dialog { height: 100%; max-height: 8; }
    & #title { max-height: 2; }
    & OptionList { height: 1fr; max-height: 100%; }
    & #far { height: auto; max-height: 2; color: $text-muted; }
"""

_MOST, _BESIDE = 24, 8
"""Lines of the dialog, and those of them that are no values."""

_ABOUT = (
    "Each line is a value of the given, and what comes of it through all links; where the step is coarser "
    "than you cut, finer values about the nearest were tried, too. Enter puts it in; "
    "Undo takes it back. The line that is chosen at first changes least. Esc leaves all as it is."
)

_LEAST, _NEAR, _ALL = 5, 1, 9
"""Of many values: how many from the least on, how many beside the nearest one; so many are all shown."""


def shortened(count: int, near: int) -> list[tuple[int, int]]:
    """Which of so many values to show at first, as spans from and to (without it), gaps between them.

    The least and the next few, those about the nearest, the last. A gap of one would be no shorter.
    """
    if count <= _ALL:
        return [(0, count)]
    wanted = {*range(_LEAST), *range(max(0, near - _NEAR), min(count, near + _NEAR + 1)), count - 1}
    wanted |= {at for at in range(count) if {at - 1, at + 1} <= wanted}
    starts = sorted(at for at in wanted if at - 1 not in wanted)
    ends = sorted(at + 1 for at in wanted if at + 1 not in wanted)
    return list(zip(starts, ends, strict=True))


class BackScreen(ModalScreen[Try | None]):
    """A search: how far it is, Esc stops it; then the values, or the nearest misses. Gives the one taken.

    `search` is made by `make`, which gets how to hear of each try; it runs in a thread of its own.
    """

    DEFAULT_CSS = f"BackScreen {{ {DIALOG_CSS} {_CSS} }}"
    BINDINGS = [  # noqa: RUF012 - as Textual declares it
        Binding("f1", "help", "Help", show=False, id="help"),
        Binding("alt+w", "anew", "Ask anew", show=False, id="back"),
        Binding("escape", "leave", "Stop or leave", show=False),
    ]

    def __init__(
        self,
        book: Workbook,
        wish: Wish,
        title: str,
        run: Wanted,
        make: Callable[[Callable[[int, int], None]], Search],
    ) -> None:
        super().__init__()
        self.book, self.wish, self.title_words, self.run = book, wish, title, run
        self.search = make(self._heard)
        self.tries: tuple[Try, ...] = ()
        self.anew = False
        """Whether the person wants to ask for something else."""
        self.lines: list[tuple[int, int]] = []
        """What each line of the list stands for: (which, which + 1) for one value, or a gap from and to."""
        self.more_said = 0
        """Lines of the answer, but the first."""
        self.tried, self.done = (0, wish.of), False

    def compose(self) -> ComposeResult:
        """Title, how far it is or what came of it, the values, keys."""
        with Vertical(id="dialog"):
            yield Static(shown(self.title_words), id="title", markup=False)
            yield Static("", id="says", markup=False)
            yield Lines(id="list", compact=True)
            yield Static("", id="far", markup=False)
            yield Static("", id="keys", markup=False)

    def on_mount(self) -> None:
        """Begin."""
        self.query_one(OptionList).focus()
        self.set_interval(0.1, self._paint)
        self._paint()
        self.run_worker(self._work, thread=True, description="backwards")

    def _heard(self, tried: int, of: int) -> None:
        self.tried = tried, of  # from the thread: painted when there is time

    def _work(self) -> None:
        give_way()
        try:
            self.post_message(Told(self.search.run()))
        except Exception as error:  # a fault of ours is told: it must not take the form along
            self.post_message(Told(None, f"{type(error).__name__}: {error}"))

    def _paint(self) -> None:
        if not self.done:
            tried, of = self.tried
            self.query_one("#says", Static).update(f"{tried} of {of} values tried …")
            self.query_one("#keys", Static).update("Esc stops, and tells what there is.")

    @on(Told)
    def _told(self, event: Told) -> None:
        self.done = True
        says, keys, told = self.query_one("#says", Static), self.query_one("#keys", Static), event.told
        if told is None:
            says.update(shown(f"! It failed: {event.fault}"))
            keys.update("Esc leaves.")
            return
        self.tries = told.best
        near = self._nearest()
        spans = shortened(len(self.tries), near or 0)
        for n, (start, end) in enumerate(spans):
            self.lines += [(spans[n - 1][1], start)] if n else []
            self.lines += [(at, at + 1) for at in range(start, end)]
        words = which_do(self.book, self.wish, told)
        self.more_said = len(wrapped(words, self.query_one("#dialog").content_size.width)) - 1
        self._list(near)
        says.update(shown(words))
        self.query_one("#far", Static).update(shown(how_far(self.book, self.wish, told)))
        take = "↑ ↓ and Enter put one into the given, " if self.tries else ""
        keys.update(f"{take}{key_of('back')} asks anew, Esc leaves.")

    def _list(self, chosen: int | None) -> None:
        """Show the lines, the one of this value chosen."""
        value = shown_values(self.book, self.wish)
        width = max((len(value(one.value)) for one in self.tries), default=0)
        options = self.query_one(OptionList)
        options.clear_options()
        options.add_options([Option(self._line(start, end, width)) for start, end in self.lines])
        options.highlighted = next((n for n, (at, _) in enumerate(self.lines) if at == chosen), None)
        self.query_one("#dialog").styles.max_height = min(_MOST, len(self.lines) + _BESIDE + self.more_said)

    def _line(self, start: int, end: int, width: int) -> str:
        value = shown_values(self.book, self.wish)
        one, last = self.tries[start], self.tries[end - 1]
        if end - start > 1:
            return f"… {end - start} more, {value(one.value)} to {value(last.value)}: Enter shows them"
        return f"{padded(value(one.value), width)}  gives {shown(one.cell.text or one.cell.why)}"

    def _nearest(self) -> int | None:
        """The one that changes least; of the misses the first, which comes nearest to what is wanted."""
        hits = bool(self.tries) and self.search.hit(self.tries[0])
        return least_change(self.tries, self.wish.spot.number(self.book) if hits else None)

    @on(OptionList.OptionSelected)
    def _take(self, event: OptionList.OptionSelected) -> None:
        start, end = self.lines[event.option_index]
        if end - start == 1:
            self.dismiss(self.tries[start])
            return
        at = event.option_index
        self.lines[at : at + 1] = [(each, each + 1) for each in range(start, end)]
        self._list(start)

    def action_anew(self) -> None:
        """Back to the question."""
        if self.done:
            self.anew = True
            self.dismiss(None)

    def action_help(self) -> None:
        """What the lines mean, and what Enter does."""
        self.app.push_screen(HelpScreen(dialog_help(_ABOUT)))

    def action_leave(self) -> None:
        """Stop the search, or leave."""
        if self.done:
            self.dismiss(None)
        else:
            self.run.stop()

    def on_unmount(self) -> None:
        """Let the thread end: the interpreter waits for it."""
        self.run.stop()

    def on_click(self, event: events.Click) -> None:
        """Beside the dialog: leave."""
        if is_beside(self, event):
            self.run.stop()
            self.dismiss(None)
