"""The menu, Find, and going to what they found; the look."""

import math
from collections.abc import Iterator
from functools import cached_property
from typing import TYPE_CHECKING

from boltend.core.contract import CalculatorSpec, Start
from boltend.shell.actions import ACTIONS, Action, key_of
from boltend.shell.habitual import Habitual
from boltend.shell.results import Results
from boltend.shell.start_doing import StartView
from boltend.shell.tab_bar import LISTS

if TYPE_CHECKING:
    from boltend.shell.hits import Hit, Spot, Written


class FindView(StartView):
    """A view in which all can be found by its words."""

    _searched = ""
    _last: "Hit | None" = None

    @cached_property
    def _written(self) -> "Written":
        from boltend.shell.hits import Written  # what is for the menu and Find alone comes with them

        return Written()

    def begun(self) -> None:
        """The project is in sight: what is wrong in the person's own settings is told, once."""
        super().begun()
        if isinstance(self.app, Habitual):
            told, self.app.habits_told = self.app.habits_told, ""
            if told:
                self.notice.show(told)

    # The menu -------------------------------------------------------------------------------------

    def action_menu(self) -> None:
        """What can be done and where one can go, in one list."""
        from boltend.shell.palette import Palette

        menu = Palette("What to do, or where to go", lambda: [*self._menu_hits()], self._read)
        self.app.push_screen(menu, self._go_to_hit)

    def _read(self, seconds: float) -> bool:
        return self.desk.book is None or self._written.read(self.desk.book, seconds)

    def _menu_hits(self) -> "Iterator[Hit]":
        from boltend.shell.hits import Hit
        from boltend.shell.other_words import OTHER_WORDS
        from boltend.shell.start_offers import example_lines, examples, recent_lines, searched
        from boltend.shell.start_recent import recents

        for action in ACTIONS:
            if action.name != "menu" and self.check_action(action.name, ()):
                other = OTHER_WORDS.get(action.name, ())
                yield Hit(action.words, action.key_words, action, action.group, other)
        if self.desk.book is not None:
            yield from self._written.places(self.desk.book)
        bench = self.desk.bench
        if bench is None:
            return
        for start in bench.starts:
            tabs = ", ".join(name for name, _, _ in start.tabs)
            yield Hit(f"Add: {start.question}", "several tabs", start, tabs)
        for spec in bench.specs.values():
            yield Hit(f"Add: {spec.asks or spec.name}", spec.name, spec, searched(spec))
        for line in (*recent_lines(recents()), *example_lines(examples())):
            yield Hit(f"Open: {line.words}", line.kind, line, line.rest)

    def _go_to_hit(self, hit: "Hit | None") -> None:
        from boltend.shell.hits import ListSpot, Spot

        if hit is None:
            return
        to = hit.to
        if isinstance(to, Action):
            self.run_named(to.name)
        elif isinstance(to, Spot):
            self.go_to_spot(to)
        elif isinstance(to, ListSpot):
            self._to_list_line(to.at)
        elif isinstance(to, (Start, CalculatorSpec)):
            self._chosen(to)
        else:
            self._picked(to.pick)

    # Find -----------------------------------------------------------------------------------------

    def action_find(self) -> None:
        """Find what is written in the project; once more, the next place."""
        from boltend.shell.palette import Palette

        find = Palette(
            "Find in the project", self._find_hits, self._read, typed=self._searched, after=self._last
        )

        def taken(hit: "Hit | None") -> None:
            self._searched = find.typed
            if hit is not None:
                self._last = hit
                self._go_to_hit(hit)

        self.app.push_screen(find, taken)

    def action_find_next(self) -> None:
        """The next place of what was searched last, without asking."""
        from boltend.shell.hits import matching

        if not self._searched.strip():
            self.action_find()
            return
        self._read(math.inf)
        hits = matching(self._find_hits(), self._searched)
        if not hits:
            self.tell(f"Nothing has “{self._searched}” any more.")
            return
        at = (hits.index(self._last) + 1) % len(hits) if self._last in hits else 0
        self._last = hits[at]
        self._go_to_hit(self._last)
        self.tell(f"{at + 1} of {len(hits)} with “{self._searched}” · {key_of('find_next')} goes on")

    def _find_hits(self) -> "list[Hit]":
        from boltend.shell.hits import Hit, ListSpot

        hits: list[Hit] = []
        if self.list_in_sight:
            # What is in sight comes first.
            title = LISTS[self.list_in_sight]
            lines = self.whole_list()
            texts = ["".join(part for part, _ in line.parts).strip() for line in lines]
            hits += [Hit(text, title, ListSpot(at)) for at, text in enumerate(texts) if text]
        if self.desk.book is not None:
            hits += self._written.all(self.desk.book)
        return hits

    def go_to_spot(self, spot: "Spot") -> None:
        """To a tab, and there to a field or a line of what was found."""
        self.show_tab(spot.tab, spot.place)
        if spot.line:
            # After the field has the focus, which comes by its own messages: else that takes the mark away.
            field = self._form.field(self._first_place()) if self._form is not None else None
            (field or self).call_after_refresh(self._to_line, spot.line)

    def _to_line(self, words: str) -> None:
        from boltend.shell.hits import line_at

        lines = ["".join(part for part, _ in line.parts) for line in self.results.lines]
        at = line_at(lines, words)
        if at is not None:
            self._mark(self.results, at)

    def _to_list_line(self, at: int) -> None:
        lines = self.pane.lines
        if at < len(lines.lines) and lines.lines[at].leads_to is not None:
            lines.choose_line(at)  # Enter then does there what it does in the list
            self.set_focus(lines)
        else:
            self._mark(lines, at)

    def _mark(self, results: Results, at: int) -> None:
        results.mark(at)
        self.set_focus(results)

    # The look -------------------------------------------------------------------------------------

    def action_look(self) -> None:
        """The next look."""
        if isinstance(self.app, Habitual):
            self.tell(self.app.next_look())

    def action_both_systems(self) -> None:
        """The other system beside each length, or no more."""
        if isinstance(self.app, Habitual):
            said = self.app.other_systems()
            self.show_again(self.place)
            self.tell(said)
