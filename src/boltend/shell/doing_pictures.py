"""Pictures on the whole screen: of the tab in sight, of how cloth is cut, of the whole quilt."""

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from boltend.core.contract import Settings, Shape
from boltend.shell.doing_prices import PriceView
from boltend.shell.habitual import Habitual
from boltend.shell.texts import shown

if TYPE_CHECKING:  # no part of the first paint
    from boltend.core.paper.model import Picture
    from boltend.shell.list_lines import ListSheets
    from boltend.shell.picture_screen import Large, Sharp

NO_QUILT = "No tab draws the whole quilt yet."


class PictureView(PriceView):
    """A view from which pictures are looked at."""

    def action_picture(self) -> None:
        """What is in sight, as large as the screen: how cloth is cut, or the tab; else the whole quilt."""
        tab, book = self.tab, self.desk.book
        if book is None:
            return
        if self.list_in_sight == "to_cut":
            if self._sheets is None:
                self.tell("How the cloth is cut is still being planned.")
                return
            if self._show_cuts(self._sheets):
                return
        result = book.results[tab.key] if tab is not None and not self.list_in_sight else None
        if tab is None or result is None or result.answer is None or not result.answer.picture:
            self._show_quilt(f"This tab has no picture. {NO_QUILT}" if result is not None else NO_QUILT)
            return
        from boltend.core.paper.plan_sheet import tab_picture
        from boltend.core.report.tab_sheet import tab_sheet
        from boltend.shell.picture_lines import picture_lines
        from boltend.shell.picture_screen import Large, PictureScreen

        title = f"{shown(tab.name)} · {result.spec.asks if result.spec is not None else ''}"
        sharp = self._sharp(lambda: tab_picture(tab_sheet(book, tab), _colours(result.settings)))
        quilt = self._quilt_drawn(besides=tuple(result.answer.picture))
        pictures = [Large(title, partial(picture_lines, result), sharp), *([quilt] if quilt else [])]
        self.app.push_screen(PictureScreen(pictures))

    def action_whole_quilt(self) -> None:
        """The whole quilt: the pictures of its tabs, each set into the one that goes round it."""
        self._show_quilt(NO_QUILT)

    def _show_quilt(self, without: str) -> None:
        from boltend.shell.picture_screen import PictureScreen

        quilt = self._quilt_drawn()
        if quilt is not None:
            self.app.push_screen(PictureScreen([quilt]))
        elif self.desk.book is not None:
            self.tell(without)

    def _quilt_drawn(self, besides: "tuple[Shape, ...]" = ()) -> "Large | None":
        """The whole quilt's picture; None where there is none, or where it is no other than one `besides`."""
        from boltend.core.paper.plan_sheet import TAB_ROOM, quilt_drawn
        from boltend.core.report.quilt_picture import whole_quilt
        from boltend.core.report.quilt_size import quilt_of, said_size
        from boltend.shell.picture_lines import shape_lines
        from boltend.shell.picture_screen import Large

        book = self.desk.book
        quilt = quilt_of(book, book.project.tabs) if book is not None else None
        whole = whole_quilt(book, quilt) if book is not None and quilt is not None else None
        if book is None or quilt is None or whole is None or whole.shapes == besides:
            return None
        settings = book.results[quilt.tab.key].settings
        picture = quilt_drawn(whole, _colours(settings), TAB_ROOM)
        title, short = (
            f"The quilt · {shown(said_size(book, each))}" for each in (quilt, quilt._replace(also=""))
        )
        lines = partial(shape_lines, picture.shapes, settings, facts=picture.facts)
        return Large(title, lines, self._sharp(lambda: picture), short)

    def _show_cuts(self, sheets: "ListSheets") -> bool:
        """How cloth is cut, first the picture in sight; whether there is any."""
        from boltend.core.paper.plan_sheet import cut_picture
        from boltend.shell.picture_lines import cut_picture_lines
        from boltend.shell.picture_screen import Large, PictureScreen

        pictures = [
            Large(
                f"{shown(sheet.title)} · {shown(picture.title)}",
                partial(cut_picture_lines, picture, colours=sheets.colours),
                self._sharp(partial(cut_picture, picture, sheets.colours)),
            )
            for sheet in sheets.cut
            for picture in sheet.pictures
        ]
        if pictures:
            self.app.push_screen(PictureScreen(pictures, self.pane.lines.drawn_in_sight))
        return bool(pictures)

    def _sharp(self, make: "Callable[[], Picture]") -> "Sharp | None":
        """What draws a picture by the terminal's own graphics, where the person asked for them."""
        if not isinstance(self.app, Habitual) or self.app.habits.pictures == "cells":
            return None
        from boltend.shell.sharp import is_ready, widget_of

        return (lambda width, rows: widget_of(make(), width, rows)) if is_ready() else None


def _colours(settings: Settings) -> dict[str, str]:
    """The colours of the fabrics that have one, as #rrggbb."""
    from boltend.shell.picture_lines import colour_of

    return {name: colour for name in settings.fabrics if (colour := colour_of(name, settings))}
