"""The project's settings in a dialog."""

from collections.abc import Sequence

from boltend.core.contract import GivenSpec
from boltend.core.project.edits import set_setting
from boltend.core.project.model import Project
from boltend.shell.cells import NOTES, Cell, setting_cells
from boltend.shell.desk import Desk
from boltend.shell.looks import Place
from boltend.shell.note_sheet import NoteSheet
from boltend.shell.sheet import Sheet


class SettingsSheet(Sheet):
    """What the project says for all its tabs; a cell left empty takes the default that stands in it."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk, "Project settings · an empty one takes the default that stands in it")

    @property
    def cells(self) -> Sequence[Cell]:
        """As the units are now."""
        return setting_cells(self.how)

    @property
    def data(self) -> dict[str, object]:
        """The `[project]` table, with only the first line of the notes."""
        data = dict(self.desk.project.settings)
        notes = data.get(NOTES)
        if isinstance(notes, str):
            first, *more = notes.strip().split("\n")
            data[NOTES] = f"{first} …" if more else first
        return data

    def put(self, project: Project, name: str, raw: object | None) -> Project:
        """One setting."""
        return set_setting(project, name, raw)

    def about(self, spec: GivenSpec) -> str:
        """For undo."""
        return f"the project's {spec.label.lower()}"

    def help_words(self) -> str:
        """For the notes another one than for a choice."""
        if self.place is not None and self.place.given == NOTES:
            return "Notes of the project, of one line or several: Space opens them."
        return super().help_words()

    def typed(self, place: Place, text: str) -> None:
        """The notes are edited in their own dialog."""
        if place.given != NOTES:
            super().typed(place, text)

    def list_asked(self, place: Place, typed: str = "") -> None:
        """Choices, or the notes."""
        if place.given != NOTES:
            super().list_asked(place, typed)
            return
        notes = self.desk.project.settings.get(NOTES)
        sheet = NoteSheet("Notes of the project", notes if isinstance(notes, str) else "", self._note)
        self.app.push_screen(sheet, lambda _: self.desk.history.close_burst())

    def _note(self, text: str) -> None:
        self.edit(lambda p: set_setting(p, NOTES, text or None), "the project's notes", (type(self), NOTES))
