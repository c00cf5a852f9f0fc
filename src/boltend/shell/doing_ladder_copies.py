"""Ladders taken along: as text to the clipboard, as CSV, Markdown or text into a file."""

from collections.abc import Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from boltend.shell.actions import key_of
from boltend.shell.doing_ladders import LadderView

if TYPE_CHECKING:  # imported when first used: no part of the first paint
    from boltend.core.report.ladder_forms import Done
    from boltend.shell.climbing import Standing


class LadderCopyView(LadderView):
    """A view from which ladders are copied and exported."""

    def action_copy(self) -> None:
        """With ladders in sight: the chosen one as text."""
        each = self._standing()
        if each is None or each.ladder is None or not each.done:
            super().action_copy()
            return
        from boltend.core.report.ladder_text import ladder_text

        self.send(ladder_text(each.ladder, each.done), f"the ladder “{each.row.name}”")

    def action_export(self) -> None:
        """With ladders in sight: the chosen one as a table, in a file."""
        each = self._standing()
        if each is None:
            super().action_export()
            return
        if each.ladder is None or len(each.done) < len(each.rungs):
            self.tell("It is not worked out whole yet.")
            return
        from boltend.core.report.ladder_forms import FORMS

        name = _file_name(each.row.name)
        if not self.desk.untitled:
            name = str(Path(self.desk.file.path).with_name(name))
        body = (
            "This ladder alone, a row for each value: .csv is for a sheet, .md is Markdown, .txt is plain "
            f"text. The whole plan is written with {key_of('export')} from a tab or a list."
        )
        self.ask_file(f"the ladder “{each.row.name}”", name, FORMS, body, partial(self._write, each))

    def ladders_done(self) -> "Sequence[Done]":
        """Those that were looked at, and still are the project's."""
        climbs = self._climbs
        if climbs is None or climbs.project is not self.desk.project:
            return ()
        return [
            (each.ladder, each.done)
            for each in climbs.standing
            if each.ladder is not None and len(each.done) == len(each.rungs)
        ]

    def _write(self, each: "Standing", path: Path) -> None:
        from boltend.core.report.ladder_forms import form_of, ladders_printed

        assert each.ladder is not None  # asked before
        text = ladders_printed([(each.ladder, each.done)], form_of(path) or "text")
        self.hand_over(path, text.encode("utf-8"))


def _file_name(name: str) -> str:
    letters = "".join(c if c.isalnum() else "-" for c in name.casefold()).strip("-")[:60]
    return f"{letters or 'ladder'}.csv"
