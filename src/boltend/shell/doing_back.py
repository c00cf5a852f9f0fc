"""Working backwards: from a found, or from the total, to the given that makes it so."""

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from boltend.shell.dialogs import Offer
from boltend.shell.doing_ladder_copies import LadderCopyView
from boltend.shell.found_lines import FoundLines
from boltend.shell.looks import Place
from boltend.shell.picking import Pick

if TYPE_CHECKING:  # imported when first used: no part of the first paint
    from boltend.core.asking import Spot, Take, Try, Wish
    from boltend.shell.back_dialog import Asked

NUMBERS = ("finished", "cut", "length", "area", "count", "number", "percent", "time")
"""Kinds of found that can be asked for: those that are one amount."""


class BackView(LadderCopyView):
    """A view from which one works backwards."""

    _last_field: "tuple[int | None, Place] | None" = None
    """The tab and the field in which the person was last."""

    def entered(self, place: Place) -> None:
        """A field got the focus: from there one may work backwards."""
        self._last_field = self.current, place
        super().entered(place)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """From a tab, or from what is to buy."""
        if action == "back" and self.list_in_sight not in ("", "to_buy"):
            return False
        return super().check_action(action, parameters)

    def action_back(self) -> None:
        """Ask what the chosen found should be, or which found is meant."""
        book, tab = self.desk.book, self.tab
        if book is None:
            return
        from boltend.core.asking import Take

        if self.list_in_sight:
            self._ask_wish(Take("To buy"), self._sheets.buy.total if self._sheets is not None else "")
            return
        result = book.results[tab.key] if tab is not None else None
        if tab is None or result is None or result.spec is None:
            self.tell("Go to a tab first: it asks for what a tab finds.")
            return
        from boltend.core.report.words import say_value

        how, key = result.settings.notation, tab.key
        offers = [
            Offer(found.name, found.label, say_value(found, result.found[found.name], how))
            for found in result.spec.founds
            if found.kind in NUMBERS and result.found.get(found.name) is not None
        ]
        if not offers:
            self.tell("This tab finds no number.")
            return
        results = self.results
        picked = results.picked_found if isinstance(results, FoundLines) and results.has_focus else ""
        said = {offer.value: offer.more for offer in offers}

        def ask(name: str | None) -> None:
            found = result.spec.found(name) if name is not None and result.spec is not None else None
            if found is not None and name is not None:
                self._ask_wish(Take(found.label, key, found), said[name])

        if picked in said:
            ask(picked)
        elif picked:
            self.tell("Backwards goes from a length, a count or another number.")
        else:
            choose = Pick(f"What should “{tab.name}” find?", offers, filtered=len(offers) > 12)
            self.app.push_screen(choose, ask)

    def _ask_wish(
        self, take: "Take", now: str, came: "Spot | None" = None, again: "Asked | None" = None
    ) -> None:
        from boltend.core.asking.apart import Apart
        from boltend.core.asking.sift import Sift
        from boltend.shell.back_dialog import BackDialog
        from boltend.shell.planning import Wanted

        book, bench = self.desk.book, self.desk.bench
        assert book is not None  # asked before
        assert bench is not None  # there is a book
        run = Wanted()
        apart = Apart(bench, run)
        self._aparts = (*self._aparts, apart)

        def sift(spots: "list[Spot]") -> Sift:
            return Sift(book, take, spots, apart, run)

        dialog = BackDialog(book, take, now, came or self._came_spot(), again, sift, run)

        def searched(wish: "Wish | None") -> None:
            run.stop()
            self._aparts = tuple(each for each in self._aparts if each is not apart)
            if wish is not None:
                asked = dialog.asked
                self._search(wish, lambda: self._ask_wish(take, now, wish.spot, asked))

        self.app.push_screen(dialog, searched)

    def _came_spot(self) -> "Spot | None":
        """The given in which the person was last, if that was in the tab in sight."""
        if self._last_field is None or self._last_field[0] != self.current or self.current is None:
            return None
        return self.spot_at(self.current, self._last_field[1])

    def _search(self, wish: "Wish", anew: Callable[[], None]) -> None:
        """Search; where the person then wants to ask for something else, `anew` asks."""
        book, bench = self.desk.book, self.desk.bench
        if book is None or bench is None:
            return
        from boltend.core.asking.apart import Apart
        from boltend.core.asking.back import Search
        from boltend.core.report.back_text import wanted_words
        from boltend.shell.back_screen import BackScreen
        from boltend.shell.planning import Wanted, new_pool

        run, pool = Wanted(), new_pool()
        apart = Apart(bench, run)
        self._aparts = (*self._aparts, apart)
        tab = book.project.tab(wish.tab).name
        found, how = wish.take.found, book.basis.how
        what = "the total" if found is None else f"{found.label} of “{book.project.tab(wish.take.tab).name}”"
        title = f"{wish.spot.label} of “{tab}”, for {what} {wish.reach} {wanted_words(wish, how)}"
        screen = BackScreen(book, wish, title, run, lambda hear: Search(book, wish, apart, pool, run, hear))

        def ended(one: "Try | None") -> None:
            self._aparts = tuple(each for each in self._aparts if each is not apart)
            pool.close()
            if one is not None:
                self.put_value(wish.spot, one.typed)
            elif screen.anew:
                anew()

        self.app.push_screen(screen, partial(ended))
