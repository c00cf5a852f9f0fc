"""What is edited or told in a dialog of its own: fabrics, settings, a tab's note, the plugins."""

from functools import partial
from typing import TYPE_CHECKING

from textual import on

from boltend.core.flow import Workbook
from boltend.core.project.edits import set_tab_flag
from boltend.core.project.model import Tab
from boltend.core.values import visible
from boltend.shell.doing_lists import ListView
from boltend.shell.habitual import Habitual
from boltend.shell.head import Head
from boltend.shell.texts import shown

if TYPE_CHECKING:  # no part of the first paint
    from boltend.shell.picture_screen import Sharp

PLUGINS_HINT = (
    "`boltend plugins` prints this, to be copied; with --off NAME or --on NAME it switches",
    "one, which counts when the shell is opened again.",
)


class SheetView(ListView):
    """A view from which fabrics, settings and notes are edited."""

    def action_fabrics(self) -> None:
        """The project's fabrics."""
        if self.desk.book is not None:
            # Here, not above: a dialog that is not opened costs the first paint nothing.
            from boltend.shell.fabrics_sheet import FabricsSheet

            self.app.push_screen(FabricsSheet(self.desk, self.desk.book), self._sheet_left)

    def action_settings(self) -> None:
        """The project's settings."""
        if self.desk.book is not None:
            from boltend.shell.settings_sheet import SettingsSheet

            self.app.push_screen(SettingsSheet(self.desk), self._sheet_left)

    @on(Head.ProjectAsked)
    def _project_asked(self) -> None:
        self.action_settings()

    def action_picture(self) -> None:
        """The picture of the tab in sight, as large as the screen."""
        tab, book = self.tab, self.desk.book
        if tab is None or book is None:
            return
        result = book.results[tab.key]
        if result.answer is None or not result.answer.picture:
            self.tell("This tab has no picture.")
            return
        from boltend.shell.picture_lines import picture_lines
        from boltend.shell.picture_screen import PictureScreen

        title = f"{shown(tab.name)} · {result.spec.asks if result.spec is not None else ''}"
        self.app.push_screen(PictureScreen(title, partial(picture_lines, result), self._sharp(book, tab)))

    def _sharp(self, book: Workbook, tab: Tab) -> "Sharp | None":
        """What draws the picture by the terminal's own graphics, where the person asked for them."""
        if not isinstance(self.app, Habitual) or self.app.habits.pictures == "cells":
            return None
        from boltend.core.paper.plan_sheet import tab_picture
        from boltend.core.report.tab_sheet import tab_sheet
        from boltend.shell.sharp import is_ready, widget_of

        if not is_ready():
            return None
        settings = book.results[tab.key].settings
        colours = {
            name: str(settings.on(name).colour) for name in settings.fabrics if settings.on(name).colour
        }
        return partial(widget_of, tab_picture(tab_sheet(book, tab), colours))

    def _sheet_left(self, what: str | None) -> None:
        self.desk.history.close_burst()
        if what == "save":
            self.action_save()

    def action_plugins(self) -> None:
        """The plugins that are installed, as `boltend plugins` tells of them."""
        bench = self.desk.bench
        if bench is not None:
            from boltend.core.report.plugin_words import plugin_lines
            from boltend.shell.help import HelpScreen

            lines = map(visible, (*plugin_lines(bench.plugins), "", *PLUGINS_HINT))
            self.app.push_screen(HelpScreen("\n".join(lines)))

    def action_note(self) -> None:
        """The note of the tab in sight."""
        tab = self.tab
        if tab is None:
            return
        from boltend.shell.note_sheet import NoteSheet

        key = tab.key

        def keep(text: str) -> None:
            self.edit(
                lambda p: set_tab_flag(p, key, "note", text or None), f"note of {tab.name}", (key, "note")
            )

        self.app.push_screen(
            NoteSheet(f"Note of {tab.name}", tab.note, keep), lambda _: self.desk.history.close_burst()
        )
