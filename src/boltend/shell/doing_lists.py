"""To cut and To buy in sight: planned in a thread, while the rest of the screen stays as quick as ever."""

from collections.abc import Callable
from functools import cached_property, partial
from typing import TYPE_CHECKING

from textual import on

from boltend.shell.actions import key_of
from boltend.shell.both import also
from boltend.shell.doing_files import FileView
from boltend.shell.growing import PAUSE, Growing, Made
from boltend.shell.result_lines import ResultLine
from boltend.shell.results import Results
from boltend.shell.tab_bar import LISTS, TabBar
from boltend.shell.texts import shown

if TYPE_CHECKING:  # imported when a list is first asked for: the cutting engine is no part of the first paint
    from boltend.core.pool import Pool, Snapshot
    from boltend.core.report.list_words import BuyRow
    from boltend.shell.list_lines import ListSheets
    from boltend.shell.planning import Planned, Proving, Wanted

WITH_WHY = ("to_cut", "to_buy")
"""The lists whose lines have a working."""


class ListView(FileView):
    """A view with the lists of the whole project."""

    _pool: "Pool | None" = None
    _wanted: "Wanted | None" = None
    _planning: "Snapshot | None" = None
    _planned: "Snapshot | None" = None
    _sheets: "ListSheets | None" = None
    _fault = ""
    _more = False
    _fabric = ""
    _why: "BuyRow | None" = None
    """The row of To buy whose working is in sight, in place of the list."""
    _list_at: int | None = None
    """The line of the list that it was asked from."""

    def action_map(self) -> None:
        """The map of the tabs, or back to the tab."""
        self._turn_to("map")

    def action_to_cut(self) -> None:
        """To cut, or back to the tab."""
        self._turn_to("to_cut")

    def action_to_buy(self) -> None:
        """To buy, or back to the tab."""
        self._turn_to("to_buy")

    @on(TabBar.ListAsked)
    def _list_in_bar(self, event: TabBar.ListAsked) -> None:
        if event.name != self.list_in_sight:
            self._turn_to(event.name)

    def _turn_to(self, name: str) -> None:
        if self.desk.book is None:
            return
        if name == self.list_in_sight:
            if not self.leave_why():
                self.back_to_tab()
            return
        self.see_list(name)
        self.pane.lines.focus()
        self._paint_list(from_top=True)
        self.lists_changed()

    def see_list(self, name: str) -> None:
        """Bring a list into sight, or with "" none; what only it needs stops."""
        self._why = None
        super().see_list(name)
        if not name and self._wanted is not None:
            self._wanted.stop()
            self._wanted = self._planning = None

    def lists_changed(self) -> None:
        """Plan anew where the list in sight is not the project's any more."""
        book = self.desk.book
        # Below a dialog nobody sees it: what is typed there has the machine to itself.
        if book is None or not self.list_in_sight or not self.is_current:
            return
        if self.list_in_sight == "map":
            self._paint_list(from_top=False)
            return
        from boltend.core.pool import snapshot_of
        from boltend.shell.planning import Wanted, in_thread, new_pool, same_lists

        snapshot = snapshot_of(book)
        if self._planning is not None and same_lists(self._planning, snapshot):
            return
        if self._wanted is not None:
            self._wanted.stop()
            self._wanted = self._planning = None
        if not same_lists(self._planned, snapshot):
            self._pool = self._pool or new_pool()
            self._more, self._fabric = False, ""
            self._wanted, self._planning = Wanted(), snapshot
            work = partial(in_thread, self._pool, snapshot, self._wanted, self.post_message)
            # Without a description Textual writes out all that the work holds: the whole project.
            self.run_worker(work, thread=True, exclusive=True, group="lists", description="lists")
        self._paint_list(from_top=False)

    def on_planned(self, event: "Planned") -> None:
        """Lists came from the thread."""
        if event.snapshot is not self._planning:
            return  # of a project that has changed since
        self._more = event.more
        if not event.more:
            self._wanted = self._planning = None
        self._planned, self._sheets, self._fault = event.snapshot, event.sheets, event.fault
        self._why = self._as_now(self._why)
        self._paint_list(from_top=False)

    def _as_now(self, row: "BuyRow | None") -> "BuyRow | None":
        """The row of that name in the list as it is now."""
        rows = self._sheets.buy.rows if self._sheets is not None and row is not None else ()
        return next((each for each in rows if row is not None and each.what == row.what), None)

    def on_proving(self, event: "Proving") -> None:
        """A long search has come to another fabric."""
        if event.snapshot is self._planning:
            self._fabric = event.fabric
            self._paint_list(from_top=False)

    # Why so much ----------------------------------------------------------------------------------

    def action_why(self) -> None:
        """The working of the chosen line of To buy or To cut; elsewhere To buy, where one is chosen."""
        if self.list_in_sight not in WITH_WHY:
            self._turn_to("to_buy")
            self.tell("↑ ↓ choose a line, Enter says why so much of it.")
        elif self._why is None:
            self._see_why(self.pane.lines.leads_to)

    def on_results_tab_asked(self, event: Results.TabAsked) -> None:
        """Enter or a click on a line of these lists: its working."""
        if self.list_in_sight in WITH_WHY and self._why is None:
            event.prevent_default()  # it leads to no tab
            self._see_why(event.key)

    def _see_why(self, number: int | None) -> None:
        rows = self._sheets.buy.rows if self._sheets is not None else ()
        if number is None or number >= len(rows):
            return
        self._list_at, self._why = self.pane.lines.chosen, rows[number]
        self._paint_list(from_top=True)

    def leave_why(self) -> bool:
        """Back from the working of a line to its list; whether it was in sight."""
        if self._why is None:
            return False
        self._why = None
        self._paint_list(from_top=True)
        if self._list_at is not None:
            self.pane.lines.choose_line(self._list_at)
        return True

    def stop_proving(self) -> bool:
        """Let the best plans so far do; tell whether better ones were looked for."""
        if not self._more or self._wanted is None or not self.list_in_sight:
            return False
        self._wanted.enough()
        return True

    def on_unmount(self) -> None:
        """Let the thread and its process end: the interpreter waits for it."""
        if self._wanted is not None:
            self._wanted.stop()
        if self._pool is not None:
            self._pool.close()

    def paint_list(self) -> None:
        """Paint the list in sight for another width."""
        self._paint_list(from_top=False)

    def _paint_list(self, *, from_top: bool) -> None:
        if self.list_in_sight:
            self.pane.say(self._says())
            self._growing.want(self._made(), from_top=from_top)

    def _show_lines(self, lines: tuple[ResultLine, ...], from_top: bool) -> None:
        self.pane.show(lines, from_top=from_top, leads=True)

    @cached_property
    def _growing(self) -> Growing:
        def later(go_on: Callable[[], None]) -> None:
            self.set_timer(PAUSE, go_on)

        return Growing(later, self._show_lines, lambda: self.pane.lines_in_sight)

    def whole_list(self) -> tuple[ResultLine, ...]:
        """All lines of the list in sight, also where it is long and not yet made to its end."""
        self._growing.finish()
        return self.pane.lines.lines

    def _says(self) -> str:
        title, key = LISTS[self.list_in_sight], key_of(self.list_in_sight)
        tab = self.desk.project.find_tab(self.current) if self.current is not None else None
        back = f"Esc or {key} goes back to “{tab.name}”" if tab is not None else f"Esc or {key} leaves"
        if self.list_in_sight == "map":
            return f"{title} · ↑ ↓ choose, Enter goes to the tab · {back}"
        if self._why is not None:
            return f"{shown(self._why.what)} {self._why.amount}: why · ↑ ↓ Enter goes to a tab · Esc back"
        if self._planning is None:
            return f"{title} · ↑ ↓ choose, Enter says why · {back}"
        if self._more:
            at = f" for {self._fabric}" if self._fabric else ""
            return f"{title} · looking for a shorter plan{at} … Esc is content with this one"
        below = " (below: as it was before)" if self._sheets is not None else ""
        return f"{title} · working it out …{below} · {back}"

    def _made(self) -> Made:
        """The list in sight: what it is made from, and how."""
        from boltend.shell.list_lines import buy_lines, cut_lines, why_lines

        name, width = self.list_in_sight, self.pane.lines_width

        def in_sight() -> bool:
            return self.list_in_sight == name

        if name == "map":
            return self._map(width)
        if self._fault:
            words = f"The lists could not be made: {self._fault}"
            return Made((name, words), lambda: (ResultLine(((words, "bad"),)),))
        if self._sheets is None:
            return Made((name, ""), tuple)
        if self._why is not None:
            row, tabs = self._why, {tab.name: tab.key for tab in reversed(self.desk.project.tabs)}
            return Made(("why", width, row), lambda: why_lines(row, tabs, width))
        sheets = self._sheets
        if name == "to_cut":
            return Made((name, width, sheets), lambda: cut_lines(sheets, width), in_sight)
        head = self._bought_for()
        return Made((name, width, sheets, head), lambda: buy_lines(sheets, width, head), in_sight)

    def _bought_for(self) -> str:
        """What is bought for: the quilt's name and its finished size; nothing before it has one."""
        from boltend.core.report.quilt_size import quilt_of, said_size

        book = self.desk.book
        assert book is not None  # no list is in sight before there is one
        quilt = quilt_of(book, book.project.tabs)
        if quilt is None:
            return ""
        size = said_size(book, quilt._replace(also=also(quilt.also)))
        return " · ".join(filter(None, (book.project.name, size)))

    def _map(self, width: int) -> Made:
        from boltend.shell.map_lines import map_lines

        book = self.desk.book
        assert book is not None  # no list is in sight before there is one
        project = book.project

        def still() -> bool:
            return self.list_in_sight == "map" and book is self.desk.book and book.project is project

        return Made(("map", width, project, *book.results.values()), lambda: map_lines(book, width), still)
