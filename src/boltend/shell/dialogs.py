"""Dialogs: one that asks for a line of text, one that offers a list. All else is made of these two."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any, Generic, TypeVar

from rich.cells import cell_len
from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen, Screen
from textual.style import Style
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from boltend.core.values import visible
from boltend.shell.fields import LONGEST_TYPED
from boltend.shell.start_search import matching
from boltend.shell.text_input import TextInput
from boltend.shell.texts import clipped, padded, shown

T = TypeVar("T")

_ROOM = 72
_CHOSEN = "option-list--option-highlighted"
_REVERSED = Style(reverse=True)
_WIDEST_WORDS = 46
"""Cells of a list in a dialog, and of the words in front where something stands behind them."""

DIALOG_CSS = """
    align: center middle;
    & > #dialog { width: 76; max-width: 100%; height: auto; max-height: 100%; background: $panel;
                  border: solid $primary; padding: 0 1; }
    & #title { text-style: bold; height: auto; }
    & #body { height: auto; max-height: 10; }
    & #wrong { height: auto; max-height: 3; color: $text-error; }
    & #keys { height: 1; color: $text-muted; }
    & Input { height: 1; }
    & OptionList { height: auto; max-height: 14; border: none; padding: 0; background: $panel; }
    & OptionList > .option-list--option-highlighted { color: $foreground; background: $panel;
                                                      text-style: bold reverse; }
"""


@dataclass(frozen=True)
class Offer(Generic[T]):
    """One line of a list: what it gives, its words, and smaller words behind or below them."""

    value: T
    words: str
    more: str = ""
    below: str = ""
    find: str = field(default="", compare=False)

    def content(self, words_width: int) -> Content:
        """The line, as text without any markup; what is behind the words begins after `words_width` cells."""
        parts = [Content(padded(self.words, words_width) if self.more else shown(self.words))]
        if self.more:
            parts.append(Content.styled("  " + shown(self.more), "dim"))
        if self.below:
            parts.append(Content.styled("\n    " + clipped(self.below, _ROOM - 4), "dim"))
        return Content("").join(parts)

    @property
    def rest(self) -> str:
        """What is searched beside its words."""
        return f"{self.more} {self.below} {self.find}"


class Lines(OptionList):
    """A list whose chosen line is reversed, also without colour: Textual 8.2 leaves that to colours."""

    def get_visual_style(self, *component_classes: str, partial: bool = False) -> Style:
        """As Textual asks for it."""
        style = super().get_visual_style(*component_classes, partial=partial)
        return style + _REVERSED if _CHOSEN in component_classes else style


def is_beside(dialog: Screen[Any], event: events.Click) -> bool:
    """Whether a click fell on the screen below a dialog."""
    return dialog.get_widget_at(event.screen_x, event.screen_y)[0] is dialog


class Choose(ModalScreen[T | None], Generic[T]):
    """A list to choose from; with `filtered` typing narrows it, first by `typed`. Gives a value, or None."""

    DEFAULT_CSS = f"Choose {{ {DIALOG_CSS} }}"
    BINDINGS = [  # noqa: RUF012 - as Textual declares it
        Binding("escape", "leave", "Leave", show=False),
        Binding("up", "move(-1)", "Up", show=False, priority=True),
        Binding("down", "move(1)", "Down", show=False, priority=True),
        Binding("pageup", "move(-10)", "Page up", show=False, priority=True),
        Binding("pagedown", "move(10)", "Page down", show=False, priority=True),
    ]

    def __init__(
        self,
        title: str,
        offers: Sequence[Offer[T]],
        *,
        body: str = "",
        filtered: bool = False,
        none: str = "Nothing fits.",
        at: T | None = None,
        typed: str = "",
    ) -> None:
        super().__init__()
        self.typed = typed
        self.title_words, self.body, self.filtered, self.none = title, body, filtered, none
        self.offers = list(offers)
        self.in_sight = self.fitting(typed)
        holds = (n for n, offer in enumerate(self.in_sight) if at is not None and offer.value == at)
        self.at = self.best if typed else next(holds, self.best)

    def fitting(self, typed: str) -> list[Offer[T]]:
        """The offers that fit what was typed, best first."""
        numbers = any(offer.words[:1].isdigit() for offer in self.offers)
        return matching(self.offers, typed, lambda o: o.words, lambda o: o.rest, numbers=numbers)

    @property
    def best(self) -> int | None:
        """The line that Enter takes first; None where nothing fits."""
        return 0 if self.in_sight else None

    def compose(self) -> ComposeResult:
        """Title, body, filter, list."""
        with Vertical(id="dialog"):
            yield Static(shown(self.title_words), id="title", markup=False)
            if self.body:
                yield Static("\n".join(map(visible, self.body.split("\n"))), id="body", markup=False)
            if self.filtered:
                yield TextInput(
                    self.typed, placeholder="type to search", compact=True, id="filter",
                    max_length=LONGEST_TYPED, select_on_focus=False,
                )  # fmt: skip
            yield Lines(*self._options(), id="list", compact=True)
            yield Static(self._keys(), id="keys", markup=False)

    def _options(self) -> list[Option]:
        widths = [cell_len(offer.words) for offer in self.offers if offer.more]
        width = min(_WIDEST_WORDS, max(widths, default=0))
        return [Option(offer.content(width)) for offer in self.in_sight]

    def _keys(self) -> str:
        if self.best is None:
            return f"{self.none}  Esc leaves."
        return "↑ ↓ and Enter choose, Esc leaves."

    def on_mount(self) -> None:
        """The first line is ready to be taken, or the one that holds now."""
        self._list.highlighted = self.at
        if not self.filtered:
            self._list.focus()
            return
        field = self.query_one("#filter", Input)
        field.cursor_position = len(field.value)
        field.focus()

    @property
    def _list(self) -> OptionList:
        return self.query_one("#list", OptionList)

    @on(Input.Changed)
    def _narrow(self, event: Input.Changed) -> None:
        if event.value == self.typed:
            return
        self.typed = event.value
        self.in_sight = self.fitting(self.typed)
        self._list.clear_options()
        self._list.add_options(self._options())
        self._list.highlighted = self.best
        self.query_one("#keys", Static).update(self._keys())

    @on(Input.Submitted)
    def _take_highlighted(self) -> None:
        if self._list.highlighted is not None:
            self.dismiss(self.in_sight[self._list.highlighted].value)

    @on(OptionList.OptionSelected)
    def _take(self, event: OptionList.OptionSelected) -> None:
        self.dismiss(self.in_sight[event.option_index].value)

    def on_key(self, event: events.Key) -> None:
        """What is typed before the filter has the focus belongs there, too."""
        if self.filtered and self.focused is None and event.is_printable and event.character:
            self.query_one("#filter", Input).insert_text_at_cursor(event.character)

    def action_move(self, by: int) -> None:
        """Another line, whichever widget has the focus."""
        if self.in_sight:
            at = (self._list.highlighted or 0) + by
            self._list.highlighted = max(0, min(len(self.in_sight) - 1, at))

    def action_leave(self) -> None:
        """Without choosing."""
        self.dismiss(None)

    def on_click(self, event: events.Click) -> None:
        """Beside the dialog: leave."""
        if is_beside(self, event):
            self.dismiss(None)


class AskText(ModalScreen[str | None]):
    """One line of text; `wrong(text)` says what is wrong with it, or nothing. Gives the text, or None.

    With `whole` the text is selected, so that typing begins anew; else the cursor stands at its end.
    """

    DEFAULT_CSS = f"AskText {{ {DIALOG_CSS} }}"
    BINDINGS = [Binding("escape", "leave", "Leave", show=False)]  # noqa: RUF012 - as Textual declares it

    def __init__(
        self, title: str, text: str, wrong: Callable[[str], str], *, body: str = "", whole: bool = True
    ) -> None:
        super().__init__()
        self.title_words, self.text, self.wrong, self.body = title, text, wrong, body
        self.whole = whole

    def compose(self) -> ComposeResult:
        """Title, body, field, what is wrong."""
        with Vertical(id="dialog"):
            yield Static(shown(self.title_words), id="title", markup=False)
            if self.body:
                yield Static("\n".join(map(visible, self.body.split("\n"))), id="body", markup=False)
            yield TextInput(
                visible(self.text),
                compact=True,
                id="text",
                max_length=LONGEST_TYPED,
                select_on_focus=self.whole,
            )
            yield Static("", id="wrong", markup=False)
            yield Static("Enter takes it, Esc leaves.", id="keys", markup=False)

    def on_mount(self) -> None:
        """Where typing goes on."""
        if not self.whole:
            self.call_after_refresh(self._to_end)

    def _to_end(self) -> None:
        field = self.query_one("#text", Input)
        field.cursor_position = 0  # only a cursor that moves brings its place into sight
        field.cursor_position = len(field.value)

    @on(Input.Changed)
    def _check(self, event: Input.Changed) -> None:
        self.query_one("#wrong", Static).update(shown(self.wrong(event.value)))

    @on(Input.Submitted)
    def _take(self, event: Input.Submitted) -> None:
        wrong = self.wrong(event.value)
        if wrong:
            self.query_one("#wrong", Static).update(shown(wrong))
        else:
            self.dismiss(event.value)

    def action_leave(self) -> None:
        """Without an answer."""
        self.dismiss(None)
