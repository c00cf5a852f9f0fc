"""The least that a Textual app can be: what the shell is held against. Run by itself, it is a program."""

from textual.app import App, ComposeResult
from textual.widgets import Footer, Header, Input, Label


class BareApp(App[None]):
    """Header, Label, Input, Footer."""

    AUTO_FOCUS = "Input"

    def compose(self) -> ComposeResult:
        """The four, the input with a text to edit."""
        yield Header()
        yield Label("What is typed here is only echoed.")
        yield Input("32")
        yield Footer()


if __name__ == "__main__":
    BareApp().run()
