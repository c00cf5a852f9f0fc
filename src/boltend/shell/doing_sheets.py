"""What is edited or told in a dialog of its own: fabrics, settings, a tab's note, the plugins."""

from textual import on

from boltend.core.project.edits import set_tab_flag
from boltend.core.values import visible
from boltend.shell.doing_pictures import PictureView
from boltend.shell.head import Head

PLUGINS_HINT = (
    "`boltend plugins` prints this, to be copied; with --off NAME or --on NAME it switches",
    "one, which counts when the shell is opened again.",
)


class SheetView(PictureView):
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
