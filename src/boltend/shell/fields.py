"""The fields of a form: typed text, and one of a few words."""

from collections.abc import Callable, Sequence
from typing import Protocol

from rich.cells import cell_len
from rich.highlighter import Highlighter
from rich.style import Style
from rich.text import Text
from textual import events
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import Input
from textual.widgets.input import Selection

from boltend.core.contract import GivenSpec
from boltend.core.values import visible
from boltend.shell.actions import ACTIONS, key_of
from boltend.shell.looks import Look, Place
from boltend.shell.moves import Moves
from boltend.shell.text_input import TextInput
from boltend.shell.texts import clipped
from boltend.shell.type_ahead import TypeAhead, beginning

LONGEST_TYPED = 600
"""Characters that a field takes: more than any kind reads, and too few to slow the screen down."""

TO_NEXT: list[BindingType] = [
    Binding("enter", "on", "Next field", show=False),
    Binding("down", "below", "Field below", show=False),
    Binding("up", "above", "Field above", show=False),
    Binding("pagedown", "page(1)", "On in what was found", show=False),
    Binding("pageup", "page(-1)", "Back in what was found", show=False),
]

MANY = 12
"""Choices above which typing opens their list."""

LINKED = "! Linked: {} takes another source, {} unlinks it and keeps the value."
"""Said where somebody types into a linked field."""


class Owner(Protocol):
    """Who hears of a field."""

    def typed(self, place: Place, text: str) -> None:
        """The person typed or chose `text`; empty clears the given."""

    def entered(self, place: Place) -> None:
        """The field has the focus now."""

    def left(self, place: Place) -> None:
        """The field lost the focus."""

    def list_asked(self, place: Place, typed: str = "") -> None:
        """The person wants to see all choices, or those that fit what was `typed`."""

    def told(self, place: Place, words: str) -> None:
        """The field has something to say to the person."""

    def paged(self, by: int) -> None:
        """The person wants to see more of what was found."""


class Field(Protocol):
    """What a form needs of any field."""

    place: Place

    def show(self, look: Look) -> None:
        """Show this, without telling the owner."""
        ...


class _Fault(Highlighter):
    """Marks the character at fault, reversed: that also reads without colour."""

    at: int | None = None

    def highlight(self, text: Text) -> None:
        """As rich asks for it."""
        if self.at is not None and self.at < len(text):
            text.stylize(Style(reverse=True, bold=True), self.at, self.at + 1)


class Said(Moves):
    """A field whose owner hears of it."""

    owner: Owner
    required = True

    @property
    def needed(self) -> bool:
        """Whether a cell must be filled."""
        return self.required

    def told(self, words: str) -> None:
        """Hand words about this field to its owner."""
        self.owner.told(self.place, words)

    def action_page(self, by: int) -> None:
        """On or back in what was found: the keys stay with the givens."""
        self.owner.paged(by)

    def tell_linked(self) -> None:
        """Why typing changes nothing."""
        self.told(LINKED.format(key_of("link"), key_of("unlink")))


class LiveInput(TextInput, Said):
    """A line of text that is taken in on every key, in the very frame in which the key is shown."""

    BINDINGS = TO_NEXT
    DEFAULT_CSS = """
    LiveInput { height: 1; background: $surface; }
    LiveInput.-linked { color: $text-secondary; text-style: italic; }
    """

    def __init__(self, place: Place, owner: Owner) -> None:
        self._fault = _Fault()
        super().__init__(
            compact=True, select_on_focus=True, max_length=LONGEST_TYPED, highlighter=self._fault
        )
        self.place = place
        self.owner = owner
        self.linked = False
        self.lists = False
        """Whether Space in the empty field lists words that it takes."""
        self._showing = False
        # The shell's keys before Textual's own in a line of text: ^f finds, it deletes no word.
        for action in ACTIONS:
            for key in action.now:
                self._bindings.key_to_bindings.pop(key, None)

    def show(self, look: Look) -> None:
        """Show this, without telling the owner."""
        self._showing = True
        if look.at != self._fault.at:
            self._fault.at = look.at
            self.refresh()
        try:
            with self.prevent(Input.Changed):
                self.linked = look.linked
                self.set_class(look.linked, "-linked")
                self.placeholder = visible(look.faint)
                if self.value != visible(look.text):
                    self.value = look.text
                    self._from_its_start()
        finally:
            self._showing = False

    def validate_value(self, value: str) -> str:
        """Nothing unseen gets in; a linked given is changed at its source."""
        if self.linked and not self._showing:
            if value != self.value:
                self.tell_linked()
            return self.value
        return visible(value)

    def replace(self, text: str, start: int, end: int) -> None:
        """As Input's, but of a text that is too long (a paste) the beginning gets in, not nothing at all."""
        room = LONGEST_TYPED - len(self.value) + (end - start)
        super().replace(text[: max(0, room)], start, end)

    def action_cursor_right(self, select: bool = False) -> None:
        """At the end of a cell to the next one."""
        at_end = self.linked or (self.selection.is_empty and self.cursor_position == len(self.value))
        if select or not at_end or not self.to_cell(1):
            super().action_cursor_right(select)

    def action_cursor_left(self, select: bool = False) -> None:
        """At the beginning of a cell to the one before."""
        at_start = self.selection.is_empty and self.cursor_position == 0
        if select or not at_start or not self.to_cell(-1):
            super().action_cursor_left(select)

    def on_key(self, event: events.Key) -> None:
        """Who types into a linked given is told, also where nothing would change.

        Alt and a letter come from a terminal with the letter in them, which Textual would put into the text.
        """
        if event.key.startswith("alt+"):
            event.prevent_default()
            return
        if self.linked and (event.is_printable or event.key in ("backspace", "delete")):
            self.tell_linked()
        elif self.lists and event.key == "space" and not self.value:
            event.prevent_default()
            event.stop()
            self.owner.list_asked(self.place)

    def watch_value(self, value: str) -> None:
        """Work it out now, not in a message: so the result is painted with the letter."""
        if not self._showing:
            self.owner.typed(self.place, value)

    def on_input_changed(self, event: Input.Changed) -> None:
        """The owner has heard already, and nobody else listens: not up through all that stands around."""
        event.stop()

    def on_focus(self) -> None:
        """Tell the form."""
        self.owner.entered(self.place)
        self.call_later(self._from_its_start)  # after Textual has put the cursor at the end

    def _from_its_start(self) -> None:
        """A value that is too long shows its beginning: `11/16 in` is not `46 11/16 in`.

        All of it stays chosen where it may be typed over, but with the cursor before it.
        """
        if self.linked:
            self.cursor_position = 0
        elif cell_len(self.value) >= self.size.width > 0 and self.selection == Selection(0, len(self.value)):
            self.selection = Selection(len(self.value), 0)

    def on_blur(self) -> None:
        """Tell the form; what is too long shows its beginning again: `1 15/16, 12` is not all of it."""
        self.cursor_position = 0
        self.owner.left(self.place)

    def on_unmount(self) -> None:
        """Let go: Textual 8.2 keeps every Input that was ever shown otherwise."""
        self.screen.text_selection_started_signal.unsubscribe(self)


class ChoiceField(Said, can_focus=True):
    """One of a few words: ← and → step, typing goes to what begins so, space opens the list.

    Backspace takes back a letter that was typed; else the default holds again.
    """

    BINDINGS = [  # noqa: RUF012 - as Textual declares it
        *TO_NEXT,
        Binding("left", "step(-1)", "Choice before", show=False),
        Binding("right", "step(1)", "Next choice", show=False),
        Binding("space", "choose", "All choices", show=False),
        Binding("backspace", "back", "Default", show=False),
        Binding("delete", "clear", "Default", show=False),
    ]
    DEFAULT_CSS = """
    ChoiceField { height: 1; background: $surface; color: $foreground; }
    ChoiceField:focus { background: $primary; color: $text; text-style: bold; }
    ChoiceField.-faint { color: $text-muted; }
    ChoiceField.-linked { color: $text-secondary; text-style: italic; }
    ChoiceField.-faint:focus, ChoiceField.-linked:focus { color: $text; }
    """

    def __init__(
        self, place: Place, owner: Owner, options: Callable[[], Sequence[str]], *, yes_no: bool
    ) -> None:
        super().__init__()
        self.place = place
        self.owner = owner
        self.options = options
        self.yes_no = yes_no
        self.value = ""
        self._faint = ""
        self._ahead = TypeAhead()
        self.linked = False

    @property
    def _word(self) -> str:
        return self.value or self._faint

    def show(self, look: Look) -> None:
        """Show this."""
        if (look.text, look.faint, look.linked) == (self.value, self._faint, self.linked):
            return
        self.value, self._faint, self.linked = look.text, look.faint, look.linked
        self._ahead.typed = ""
        self.set_class(not look.text, "-faint")
        self.set_class(look.linked, "-linked")
        self.refresh()

    def render(self) -> Content:
        """The word, between signs that say that there are others."""
        word, typed = self._word, len(self._ahead.typed)
        width = max(3, self.size.width)
        if self.yes_no and word in ("yes", "no"):
            word = f"[{'x' if word == 'yes' else ' '}] {word}"
        # The focus shows without colour, too.
        ends = "«»" if self.has_focus else "  " if self.linked or self.yes_no else "‹›"
        word = clipped(word, width - 2)
        typed_part = Content.styled(word[:typed], "underline")
        return Content("").join([Content(ends[0]), typed_part, Content(f"{word[typed:]}{ends[1]}")])

    def action_step(self, by: int) -> None:
        """To a neighbouring choice, round the end."""
        options = list(self.options())
        if self.linked:
            self.tell_linked()
        if not options or self.linked:
            return
        at = (options.index(self._word) + by) % len(options) if self._word in options else 0
        self._take(options[at])

    def _take(self, text: str, typed: str = "") -> None:
        """Choose; `typed` is what was typed for it, and may be taken back."""
        self.owner.typed(self.place, text)
        if typed != self._ahead.typed:
            self._ahead.typed = typed
            self.refresh()

    def action_choose(self) -> None:
        """All choices; with yes and no, the other one."""
        if self.linked:
            self.tell_linked()
        elif self.yes_no:
            self.action_step(1)
        else:
            self.owner.list_asked(self.place)

    def action_clear(self) -> None:
        """Back to what holds where nothing is said."""
        if self.linked:
            self.tell_linked()
        else:
            self._take("")

    def action_back(self) -> None:
        """One letter less of what was typed, or back to what holds where nothing is said."""
        if not self._ahead.typed:
            self.action_clear()
            return
        options = list(self.options())
        text = self._ahead.take_back(options, self._word)
        self._take(text, self._ahead.typed)
        if self._ahead.typed:
            self.told(self._ahead.says(self._word, options))

    def on_key(self, event: events.Key) -> None:
        """A letter goes to what begins with all that was typed; with Alt it is a key as any other.

        Where nothing begins so, the list opens with it, and so it does where there are many choices or where
        a figure is typed: whoever types looks for something.
        """
        letter, options = event.character, list(self.options())
        if letter is None or not event.is_printable or event.key.startswith("alt+"):
            return
        if not letter.isalnum() and not (
            self._ahead.typed and beginning(options, self._ahead.typed + letter)
        ):
            return  # a blank within a name; else it is a key as any other
        event.stop()
        event.prevent_default()
        if self.linked:
            self.tell_linked()
        elif self.yes_no or not (len(options) > MANY or letter.isdigit()):
            self._go_to(letter, options)
        else:
            self.owner.list_asked(self.place, letter)

    def _go_to(self, letter: str, options: Sequence[str]) -> None:
        name = self._ahead.add(letter, options, self._word, self.value)
        typed = self._ahead.typed
        if name is not None:
            self._take(name, typed)
            self.told(self._ahead.says(name, options))
            return
        self._take(self._ahead.before)
        if self.yes_no:
            self.told(f"Nothing begins with “{typed}”: y or n, or Space for the other one.")
        else:
            self.owner.list_asked(self.place, typed)

    def on_click(self, event: events.Click) -> None:
        """The list, or the other of yes and no."""
        event.stop()
        self.focus()
        self.action_choose()

    def on_focus(self) -> None:
        """Tell the form."""
        self.refresh()
        self.owner.entered(self.place)

    def on_blur(self) -> None:
        """Tell the form; what was typed is settled."""
        self._ahead.typed = ""
        self.refresh()
        self.owner.left(self.place)


def field_for(
    spec: GivenSpec, place: Place, owner: Owner, options: Callable[[], Sequence[str]]
) -> "LiveInput | ChoiceField":
    """The field for a kind of value."""
    field: LiveInput | ChoiceField
    if spec.kind == "yes_no":
        field = ChoiceField(place, owner, lambda: ("yes", "no"), yes_no=True)
    elif spec.options:
        field = ChoiceField(place, owner, lambda: spec.options, yes_no=False)
    elif spec.kind in ("fabric", "table_row"):
        field = ChoiceField(place, owner, options, yes_no=False)
    else:
        field = LiveInput(place, owner)
        field.lists = spec.kind == "colour"
    field.required = spec.required
    return field
