"""How the screen looks: light, dark, high contrast, no colour. Every pair of colours is held to a contrast.

`tests/shell/test_shell_looks.py` measures what is painted: 4.5 to 1 and more, 7 to 1 for high contrast.
Nothing is told by colour alone: states have signs, the field with the focus a mark, a chosen line is
reversed.
"""

from rich.segment import Segment
from rich.style import Style
from textual.color import Color
from textual.filter import LineFilter, NoColor
from textual.theme import Theme

NO_COLOUR = "no colour"
USUAL = "dark"


def _theme(name: str, *, dark: bool, **colours: str) -> Theme:
    """A theme of all the colours that our screens use: also of those that Textual mixes itself."""
    paper, ink, muted = colours["background"], colours["foreground"], colours["muted"]
    variables = {
        "text": "auto 100%",
        "text-muted": muted,
        "text-disabled": muted,
        "text-primary": colours["title"],
        "text-secondary": colours["linked"],
        "text-accent": colours["sign"],
        "text-warning": colours["warning"],
        "text-error": colours["error"],
        "primary-background": colours["head"],
        "error-muted": colours["alarm"],
        "footer-foreground": ink,
        "footer-description-foreground": ink,
        "footer-background": colours["panel"],
        "footer-key-foreground": colours["sign"],
        "block-cursor-foreground": paper,
        "block-cursor-background": ink,
        "input-cursor-background": ink,
        "input-cursor-foreground": paper,
        "input-selection-background": colours["chosen"],
        "input-selection-foreground": ink,
        "screen-selection-background": colours["chosen"],
        "scrollbar": colours["primary"],
        "scrollbar-background": colours["panel"],
    }
    return Theme(
        name=f"boltend-{name.replace(' ', '-')}",
        dark=dark,
        primary=colours["primary"],
        secondary=colours["linked"],
        accent=colours["accent"],
        warning=colours["warning"],
        error=colours["error"],
        success=colours["linked"],
        foreground=ink,
        background=paper,
        surface=colours["surface"],
        panel=colours["panel"],
        variables=variables,
    )


_DARK = {
    "background": "#14181d", "surface": "#232a33", "panel": "#1c222a", "foreground": "#e8e6e1",
    "muted": "#a8b0ba",
    "primary": "#3871a8", "accent": "#7a4a12", "title": "#8fc3f2", "linked": "#9ad6bf", "sign": "#e7b765",
    "warning": "#f0c75e", "error": "#ff9a94", "head": "#27384a", "alarm": "#6e1f24", "chosen": "#3d5a78",
}  # fmt: skip
_LIGHT = {
    "background": "#fbfaf6", "surface": "#ebe7dd", "panel": "#f2efe7", "foreground": "#1c1b19",
    "muted": "#55534e",
    "primary": "#1d4f80", "accent": "#5b3a0a", "title": "#1a4a79", "linked": "#0b5a49", "sign": "#744300",
    "warning": "#6f4700", "error": "#9d1620", "head": "#d8e3ee", "alarm": "#f6d5d3", "chosen": "#bcd3e8",
}  # fmt: skip
_CONTRAST = {
    "background": "#000000", "surface": "#1c1c1c", "panel": "#000000", "foreground": "#ffffff",
    "muted": "#dadada",
    "primary": "#ffe14d", "accent": "#ffffff", "title": "#ffe14d", "linked": "#9dffd0", "sign": "#7fe3ff",
    "warning": "#ffd75e", "error": "#ffb3ad", "head": "#262626", "alarm": "#5c0000", "chosen": "#00447a",
}  # fmt: skip

THEMES = {
    "light": _theme("light", dark=False, **_LIGHT),
    "dark": _theme("dark", dark=True, **_DARK),
    "high contrast": _theme("high contrast", dark=True, **_CONTRAST),
    NO_COLOUR: _theme(NO_COLOUR, dark=True, **_CONTRAST),
}
"""Each look with its theme; the last one's colours are taken out again by `OnlyShapes`."""


class OnlyShapes(LineFilter):
    """Takes every colour out, and also what dims: what is left is bold, underlined or reversed."""

    _plain = NoColor()
    _undimmed = Style(dim=False)

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:
        """As Textual asks for it."""
        return [
            Segment(text, style and style + self._undimmed, control)
            for text, style, control in self._plain.apply(segments, background)
        ]


NO_COLOUR_CSS = """
Head:nocolor, Head:nocolor > .head--name, Head:nocolor > .head--told { text-style: reverse; }
Head:nocolor > .head--menu { text-style: bold; }
TabBar:nocolor > .bar--active { text-style: bold; }
TabBar:nocolor:focus > .bar--active { text-style: bold reverse; }
ChoiceField:nocolor:focus, RowsTitle:nocolor:focus { text-style: reverse; }
Input:nocolor > .input--selection, TextArea:nocolor .text-area--selection { text-style: reverse; }
Input:nocolor > .input--cursor, TextArea:nocolor .text-area--cursor { text-style: reverse; }
LiveInput:nocolor:focus { text-style: underline; }
"""
"""What a background tells elsewhere, told by shape."""


def read_look(text: object) -> str | None:
    """A look as a person writes it: `High-Contrast`, `no color`; None where there is none of this name."""
    said = " ".join(str(text).casefold().replace("-", " ").replace("_", " ").split())
    said = said.replace("no color", NO_COLOUR)
    return said if said in THEMES else None
