"""An app with the person's habits: their look, and keys of their own."""

from collections.abc import Sequence

from textual.binding import Binding
from textual.filter import LineFilter, Monochrome, NoColor

from boltend.core.host.config import keep_in_config
from boltend.core.host.off import ConfigError
from boltend.shell.actions import give_keys, key_words
from boltend.shell.both import both_shown, show_both
from boltend.shell.habits import read_habits
from boltend.shell.in_turn import KeysInTurn
from boltend.shell.keys import keymap
from boltend.shell.themes import NO_COLOUR, NO_COLOUR_CSS, THEMES, OnlyShapes


class Habitual(KeysInTurn):
    """Reads the habits as it begins; a look that is chosen is kept."""

    CSS = NO_COLOUR_CSS
    ENABLE_COMMAND_PALETTE = False  # our menu offers more, and looks like the rest

    def __init__(self) -> None:
        super().__init__()
        self.habits = read_habits()
        self.habits_told = " · ".join(filter(None, (self.habits.told, self._make_sharp())))
        """What is wrong in the settings, until it is told."""
        give_keys(self.habits.keys)
        show_both(self.habits.both_systems)
        self.set_keymap(keymap(self.habits.keys))
        for theme in THEMES.values():
            self.register_theme(theme)
        self._only_shapes = OnlyShapes()
        self.look = ""
        self.take_look(self.habits.look)
        # Textual would read every style sheet once more for the look, and then again: nothing was read yet.
        self.stylesheet.set_variables(self.get_css_variables())
        self._styles_are_new = True

    def refresh_css(self, animate: bool = True) -> None:
        """As Textual asks for it; but for the first time, which is for the look that the app began with."""
        new, self._styles_are_new = self._styles_are_new, False
        if not new:
            super().refresh_css(animate)

    def _make_sharp(self) -> str:
        """Bring in the terminal's own graphics, where the person asked for them; what is wrong, in words."""
        if self.habits.pictures == "cells":
            return ""
        from boltend.shell.sharp import make_ready  # an extra, and only for who asks for it

        return make_ready(self.habits.pictures)

    def take_look(self, look: str) -> None:
        """Paint in this look from now on."""
        self.look = look
        self.no_color = look == NO_COLOUR  # Textual's name for it; `:nocolor` in CSS follows
        self.theme = THEMES[look].name

    def next_look(self) -> str:
        """To the next look, and keep it; what to tell the person."""
        looks = list(THEMES)
        look = looks[(looks.index(self.look) + 1) % len(looks)]
        self.take_look(look)
        try:
            keep_in_config("look", look)
        except ConfigError as error:
            return f"Look: {look}, for now. {error}"
        return f"Look: {look}, kept"

    def other_systems(self) -> str:
        """The other system beside each length, or no more, and keep that; what to tell the person."""
        show_both(not both_shown())
        words = "Inches and centimetres beside each other" if both_shown() else "One system only"
        try:
            keep_in_config("both_systems", both_shown())
        except ConfigError as error:
            return f"{words}, for now. {error}"
        return f"{words}, kept"

    def get_line_filters(self) -> Sequence[LineFilter]:
        """Textual's, of which those that take colours out give way to ours."""
        filters = [f for f in super().get_line_filters() if not isinstance(f, (Monochrome, NoColor))]
        return [*filters, self._only_shapes] if self.no_color else filters

    def get_key_display(self, binding: Binding) -> str:
        """A key as everywhere in the shell."""
        return binding.key_display or key_words(binding.key)
