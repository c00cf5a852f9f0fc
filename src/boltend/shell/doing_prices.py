"""A price said where To buy lacks it: one step, and undo takes all of it back."""

from typing import TYPE_CHECKING

from boltend.shell.actions import key_of
from boltend.shell.dialogs import AskText, Choose, Offer
from boltend.shell.doing_lists import ListView
from boltend.shell.result_lines import PRICE_ASKED
from boltend.shell.results import Results
from boltend.shell.texts import shown

if TYPE_CHECKING:  # no part of the first paint
    from boltend.core.report.list_words import BuyRow


class PriceView(ListView):
    """A view in which a line of To buy gets its price."""

    def on_results_tab_asked(self, event: Results.TabAsked) -> None:
        """Enter or a click on the line of the price."""
        if self._why is not None and event.key == PRICE_ASKED:
            event.prevent_default()  # it leads to no tab
            self._ask_price(self._why)

    def _ask_price(self, row: "BuyRow") -> None:
        from boltend.core.report.price_places import open_places, with_prices, wrong_price

        place, book = row.priced, self.desk.book
        if place is None or book is None:
            return
        body = ""
        if place.open and (tab := book.project.find_tab(place.tabs[0])) is not None:
            labels = dict.fromkeys(f"“{each.label}”" for each in open_places(tab, book))
            body = f"A fabric of that name is made, and chosen in the tab as {' and '.join(labels)}."
        what = shown(place.fabric or row.what)

        sheets = self._sheets
        others = sheets.buy.without_price(row) if sheets is not None and not row.price else ()
        only, every = (row,), (row, *others)

        def priced(text: str, rows: "tuple[BuyRow, ...] | None") -> None:
            places = [each.priced for each in rows or () if each.priced is not None]
            if not places:
                return
            self.leave_why()
            names = ", ".join(shown(each.priced.fabric or each.what) for each in rows or () if each.priced)
            if self.edit(lambda _: with_prices(places, text, book), f"the price of {names}"):
                self.tell(f"{names}: priced; {key_of('undo')} takes it back")

        def typed(text: str | None) -> None:
            if text is None:
                return
            text = text.strip()
            if not others:
                priced(text, only)
                return
            below = ", ".join(shown(each.what) for each in others)
            offers: list[Offer[tuple[BuyRow, ...]]] = [
                Offer(only, f"Only {what}"),
                Offer(every, f"The same for all {len(every)} that have no price", below=f"also {below}"),
            ]
            choose: Choose[tuple[BuyRow, ...]] = Choose(f"{shown(text)}, {place.per}: of what?", offers)
            self.app.push_screen(choose, lambda rows: priced(text, rows))

        ask = AskText(
            f"Price of {what}, {place.per}", row.price, lambda text: wrong_price(place, text, book), body=body
        )
        self.app.push_screen(ask, typed)
